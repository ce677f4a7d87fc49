#include "ui/glueup/PanelPhotos.h"

#include "core/document/Document.h"
#include "ui/layout/FacePictures.h"
#include "ui/photo/PhotoFile.h"
#include "ui/photo/StaveColours.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

PanelPhotos::PanelPhotos(DocumentSession& session, QObject* parent)
    : QObject(parent)
    , m_session(session) {
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_pixels.clear();
        m_coloursAsked = false;
    });
    FacePictures& pictures = FacePictures::of(m_session);
    connect(&pictures, &FacePictures::ready, this, [this, &pictures] {
        emit pictureReady();
        if (m_coloursAsked && !pictures.isAtWork()) { // once for all, not for each
            m_coloursAsked = false;
            emit coloursReady();
        }
    });
}

PhotoOfFace PanelPhotos::pictures() {
    return [this](BoardId id, BoardFace face) -> const FacePhoto* {
        const Board* board = findBoard(m_session.document(), id);
        return board != nullptr ? FacePictures::of(m_session).findBest(*board, face) : nullptr;
    };
}

panels::ColoursOnBoard PanelPhotos::colours() {
    return [this](BoardId board, BoardFace face, const Frame& frame, const Rect& area) {
        return coloursOf(board, face, frame, area);
    };
}

glueup::ColourStrips PanelPhotos::coloursOf(BoardId id, BoardFace face, const Frame& frame,
                                            const Rect& area) {
    const Board* board = findBoard(m_session.document(), id);
    if (board == nullptr || board->photos.empty()) {
        return {};
    }
    FacePictures& pictures = FacePictures::of(m_session);
    // The small picture, so that the colours do not change when the large one is made.
    const FacePhoto* photo = pictures.find(*board, face, FacePictures::Detail::Row);
    if (photo == nullptr) {
        m_coloursAsked = m_coloursAsked || pictures.isAtWork();
        return {};
    }
    Pixels& kept = m_pixels[{id, face}];
    if (kept.key != photo->image.cacheKey()) {
        kept = {photo->image.cacheKey(), pixelsOf(photo->image)};
    }
    return staveColours(kept.image.view(), boundingBox(board->outline), frame, area);
}

} // namespace stavewright::ui
