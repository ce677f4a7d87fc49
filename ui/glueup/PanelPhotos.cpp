#include "ui/glueup/PanelPhotos.h"

#include "core/document/Document.h"
#include "core/glueup/LaidPlace.h"
#include "ui/layout/FacePictures.h"
#include "ui/photo/PhotoFile.h"
#include "ui/photo/StaveLook.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

PanelPhotos::PanelPhotos(DocumentSession& session, QObject* parent)
    : QObject(parent)
    , m_session(session) {
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_pixels.clear();
        m_looks.clear();
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
        FacePictures& pictures = FacePictures::of(m_session);
        const auto& laidOut = m_session.document().glueUp.laidOut;
        if (const LaidOut* laid = glueup::findPicture(laidOut, id)) {
            return pictures.findBest(glueup::asBoard(*laid), face);
        }
        const Board* board = findBoard(m_session.document(), id);
        return board != nullptr ? pictures.findBest(*board, face) : nullptr;
    };
}

panels::LooksOnBoard PanelPhotos::looks() {
    return [this](BoardId board, BoardFace face, const Frame& frame, const Rect& area) {
        return lookOf(board, face, frame, area);
    };
}

const photo::Image* PanelPhotos::pixelsFor(const Board& board, BoardFace face) {
    FacePictures& pictures = FacePictures::of(m_session);
    // Always of the same fineness, so that what it tells does not change when a large one is made.
    const FacePhoto* photo = pictures.find(board, face, FacePictures::Detail::Grain);
    if (photo == nullptr) {
        m_coloursAsked = m_coloursAsked || pictures.isAtWork();
        return nullptr;
    }
    Pixels& kept = m_pixels[{board.id, face}];
    if (kept.key != photo->image.cacheKey()) {
        kept = {photo->image.cacheKey(), pixelsOf(photo->image)};
    }
    return &kept.image;
}

std::optional<glueup::PhotoLook> PanelPhotos::lookIn(const Board& picture, BoardFace face,
                                                     const Frame& frame, const Rect& area,
                                                     const std::function<Point(Point)>& toPicture) {
    constexpr std::size_t mostKept = 4'000;
    const photo::Image* pixels = pixelsFor(picture, face);
    if (pixels == nullptr) {
        return std::nullopt;
    }
    std::vector<std::int64_t> key = {picture.id.value, face == BoardFace::A ? 0 : 1,
                                     m_pixels[{picture.id, face}].key};
    for (const Point& corner :
         {Point{area.x0, area.y0}, Point{area.x1, area.y0}, Point{area.x0, area.y1}}) {
        const Point onBoard = toOuter(frame, corner);
        const Point at = toPicture ? toPicture(onBoard) : onBoard;
        key.push_back(at.x.inNanometres());
        key.push_back(at.y.inNanometres());
    }
    const auto kept = m_looks.find(key);
    if (kept != m_looks.end()) {
        return kept->second;
    }
    if (m_looks.size() >= mostKept) {
        m_looks.clear();
    }
    const glueup::PhotoLook look =
        staveLook(pixels->view(), boundingBox(picture.outline), frame, area, toPicture);
    m_looks.emplace(std::move(key), look);
    return look;
}

glueup::PhotoLook PanelPhotos::lookOf(BoardId id, BoardFace face, const Frame& frame,
                                      const Rect& area) {
    const auto& laidOut = m_session.document().glueUp.laidOut;
    if (const auto laid = glueup::laidPlaceOf(laidOut, id, face, frame, area)) {
        const Board picture = glueup::asBoard(*glueup::findPicture(laidOut, laid->picture()));
        const auto look = lookIn(picture, laid->face(), frame, area,
                                 [&](Point onBoard) { return laid->toLaid(onBoard); });
        if (look && !look->colours.empty()) {
            return *look;
        }
    }
    const Board* board = findBoard(m_session.document(), id);
    if (board == nullptr || board->photos.empty()) {
        return {};
    }
    return lookIn(*board, face, frame, area, {}).value_or(glueup::PhotoLook{});
}

} // namespace stavewright::ui
