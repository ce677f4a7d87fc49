#include "ui/photo/StaveLook.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/geometry/PolygonOps.h"
#include "core/glueup/LaidPlace.h"
#include "core/photo/EdgeLines.h"
#include "core/photo/StripColours.h"
#include "ui/photo/FaceWork.h"
#include "ui/photo/PhotoFile.h"

namespace stavewright::ui {

namespace {

/// The strip along an edge whose lines meet those of the neighbour; what lies nearer to the edge
/// than `clear` may show the joint or the ground, and its line.
constexpr Length edgeStrip = Length::millimetres(25);
constexpr Length clear = Length::millimetres(3);

std::optional<glueup::EdgeLines> edgeLines(const photo::ImageView& picture, const Rect& shown,
                                           const Rect& strip,
                                           const std::function<Point(Point)>& toPicture) {
    const auto lines = photo::linesIn(picture, shown, strip, toPicture);
    return lines ? std::optional(glueup::EdgeLines{lines->angleTenths, lines->surePercent})
                 : std::nullopt;
}

} // namespace

glueup::PhotoLook staveLook(const photo::ImageView& straightened, const Rect& shown,
                            const Frame& frame, const Rect& area,
                            const std::function<Point(Point)>& toPicture) {
    const auto way = [&](Point local) {
        const Point onBoard = toOuter(frame, local);
        return toPicture ? toPicture(onBoard) : onBoard;
    };
    const auto inches = area.width().inNanometres() / Length::nanometresPerInch;
    const int strips = static_cast<int>(std::clamp<std::int64_t>(inches, 3, 24));
    glueup::PhotoLook look;
    for (const photo::StripColour& each :
         photo::stripColours(straightened, shown, area, way, strips)) {
        look.colours.push_back({each.lightness, each.a, each.b});
    }
    const Length wide = std::min(edgeStrip, area.width() / 3);
    if (!look.colours.empty() && wide > clear * 2) {
        look.nearLines = edgeLines(straightened, shown,
                                   {area.x0, area.y0 + clear, area.x1, area.y0 + wide}, way);
        look.farLines = edgeLines(straightened, shown,
                                  {area.x0, area.y1 - wide, area.x1, area.y1 - clear}, way);
    }
    return look;
}

struct PhotoLooks::Made {
    std::vector<Board> boards;
    std::vector<LaidOut> laidOut;
    std::map<std::pair<BoardId, BoardFace>, photo::Image> images;

    const photo::Image& imageOf(const Board& board, BoardFace face) {
        const auto kept = images.find({board.id, face});
        if (kept != images.end()) {
            return kept->second;
        }
        const FacePicture picture = straightenedFace(faceOrder(board, face, grainPixels), {});
        return images
            .emplace(std::pair(board.id, face),
                     picture.image.isNull() ? photo::Image() : pixelsOf(picture.image))
            .first->second;
    }
};

PhotoLooks::PhotoLooks(std::vector<Board> boards, std::vector<LaidOut> laidOut)
    : m_made(std::make_shared<Made>()) {
    m_made->boards = std::move(boards);
    m_made->laidOut = std::move(laidOut);
}

glueup::PhotoLook PhotoLooks::operator()(BoardId id, BoardFace face, const Frame& frame,
                                         const Rect& area) const {
    if (const auto laid = glueup::laidPlaceOf(m_made->laidOut, id, face, frame, area)) {
        const Board board = glueup::asBoard(*glueup::findPicture(m_made->laidOut, laid->picture()));
        glueup::PhotoLook look =
            staveLook(m_made->imageOf(board, laid->face()).view(), boundingBox(board.outline),
                      frame, area, [&](Point onBoard) { return laid->toLaid(onBoard); });
        if (!look.colours.empty()) {
            return look;
        }
    }
    const auto board = std::find_if(m_made->boards.begin(), m_made->boards.end(),
                                    [id](const Board& each) { return each.id == id; });
    if (board == m_made->boards.end() || board->photos.empty()) {
        return {};
    }
    return staveLook(m_made->imageOf(*board, face).view(), boundingBox(board->outline), frame,
                     area);
}

} // namespace stavewright::ui
