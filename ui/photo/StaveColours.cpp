#include "ui/photo/StaveColours.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/geometry/PolygonOps.h"
#include "core/photo/StripColours.h"
#include "ui/photo/FaceWork.h"
#include "ui/photo/PhotoFile.h"

namespace stavewright::ui {

glueup::ColourStrips staveColours(const photo::ImageView& straightened, const Rect& shown,
                                  const Frame& frame, const Rect& area) {
    const auto inches = area.width().inNanometres() / Length::nanometresPerInch;
    const int strips = static_cast<int>(std::clamp<std::int64_t>(inches, 3, 24));
    glueup::ColourStrips colours;
    for (const photo::StripColour& each : photo::stripColours(
             straightened, shown, area, [&](Point local) { return toOuter(frame, local); },
             strips)) {
        colours.push_back({each.lightness, each.a, each.b});
    }
    return colours;
}

struct PhotoColours::Made {
    std::vector<Board> boards;
    std::map<std::pair<BoardId, BoardFace>, photo::Image> images;
};

PhotoColours::PhotoColours(std::vector<Board> boards)
    : m_made(std::make_shared<Made>()) {
    m_made->boards = std::move(boards);
}

glueup::ColourStrips PhotoColours::operator()(BoardId id, BoardFace face, const Frame& frame,
                                              const Rect& area) const {
    const auto board = std::find_if(m_made->boards.begin(), m_made->boards.end(),
                                    [id](const Board& each) { return each.id == id; });
    if (board == m_made->boards.end() || board->photos.empty()) {
        return {};
    }
    auto kept = m_made->images.find({id, face});
    if (kept == m_made->images.end()) {
        const FacePicture picture = straightenedFace(faceOrder(*board, face, rowPixels), {});
        kept = m_made->images
                   .emplace(std::pair(id, face),
                            picture.image.isNull() ? photo::Image() : pixelsOf(picture.image))
                   .first;
    }
    return staveColours(kept->second.view(), boundingBox(board->outline), frame, area);
}

} // namespace stavewright::ui
