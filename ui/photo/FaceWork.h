#pragma once
// What is made of the photographs of one face: the straightened picture, and what the program would
// mark in it. Takes up to seconds; made for worker threads, from values alone.

#include <QByteArray>
#include <QImage>
#include <QString>

#include <optional>
#include <stop_token>
#include <vector>

#include "core/lumber/Board.h"
#include "core/photo/Straighten.h"

namespace stavewright::ui {

/// One face and how fine its picture is to be.
struct FaceOrder {
    BoardFace face = BoardFace::A;
    std::vector<BoardPhoto> photos; ///< of this face
    Rect shown;                     ///< in the board frame
    photo::BoardSize board;         ///< as its outline is now
    double mostPixels = 4e6;
};
/// Fine enough for a board among many (about 1200 by 100).
inline constexpr double rowPixels = 120e3;
/// Fine enough for the colours of staves and the lines of their figure: about a millimetre.
inline constexpr double grainPixels = 500e3;
[[nodiscard]] FaceOrder faceOrder(const Board& board, BoardFace face, double mostPixels);

struct FacePicture {
    QImage image; ///< null when no photograph can be used
    Rect place;   ///< in the board frame; the upper edge of the image is y1, also of face B
    std::vector<Error> errors; ///< one for each photograph that cannot be used
};
[[nodiscard]] FacePicture straightenedFace(const FaceOrder& order, const std::stop_token& stop);

struct FoundMark {
    BoardFace face = BoardFace::A;
    DefectKind kind = DefectKind::SoundKnot;
    Polygon outline; ///< in the board frame
    int confidencePercent = 0;
    friend bool operator==(const FoundMark&, const FoundMark&) = default;
};
struct FoundOnFace {
    std::vector<FoundMark> marks;
    /// The board's own outline where it stands out against its background.
    std::optional<Polygon> outline;
    std::vector<Error> errors;
};
[[nodiscard]] FoundOnFace foundOnFace(const FaceOrder& order, const std::stop_token& stop);

/// A file as a photograph of the board: looked at, its location removed, its corners guessed from
/// what the board lies on, places on its long edges where they are plain. Without an id. A HEIC,
/// from which the location cannot be taken, becomes a JPEG.
[[nodiscard]] Result<BoardPhoto> photoFromFile(const QByteArray& bytes, const QString& name,
                                               BoardFace face, const photo::BoardSize& size);

} // namespace stavewright::ui
