#pragma once
// Photograph files of boards whose truth is known, and a job with the board itself.

#include <QByteArray>
#include <QObject>

#include <memory>

#include "core/document/Document.h"
#include "tests/boards/MadePhoto.h"

namespace stavewright::testing_photos {

[[nodiscard]] QByteArray jpegOf(const photo::Image& image, int quality = 85);

struct MadeJob {
    Document document; ///< one board, no defects marked
    boards::MadeBoard truth;
    boards::MadePhoto faceA;
    boards::MadePhoto faceB;
};
[[nodiscard]] MadeJob madeJob(std::uint64_t seed, const boards::BoardWish& wish = {},
                              const boards::PhotoWish& photo = {});

/// The photograph as the job keeps it, with its true corners marked.
[[nodiscard]] BoardPhoto markedPhoto(const boards::MadePhoto& made, BoardFace face);

std::unique_ptr<QObject> makePhotoDeskTest();
std::unique_ptr<QObject> makePhotoFilesTest();
std::unique_ptr<QObject> makeSaveRunTest();
std::unique_ptr<QObject> makeSuggestionTest();

} // namespace stavewright::testing_photos
