#include "core/panels/Fills.h"

#include <utility>

#include "core/geometry/PolygonOps.h"

namespace stavewright::panels {

namespace {

std::string joined(const std::vector<std::string>& marks) {
    std::string text;
    for (const std::string& mark : marks) {
        text += (text.empty() ? "" : ", ") + mark;
    }
    return text;
}

} // namespace

bool opensUp(DefectKind kind) {
    return kind == DefectKind::LooseKnot || kind == DefectKind::KnotHole ||
           kind == DefectKind::BarkPocket;
}

OpenSpots openSpots(const Board& board, const Frame& frame, const Rect& piece) {
    OpenSpots spots;
    for (const Defect& defect : board.defects) {
        if (!opensUp(defect.kind)) {
            continue;
        }
        const auto opensOn = [&](const std::optional<FaceMark>& here,
                                 const std::optional<FaceMark>& there) {
            const FaceMark* mark = here ? &*here : defect.through && there ? &*there : nullptr;
            return mark != nullptr && boundingBox(toLocal(frame, mark->outline)).overlaps(piece);
        };
        if (opensOn(defect.onA, defect.onB)) {
            spots.onA.push_back(defect.mark);
        }
        if (opensOn(defect.onB, defect.onA)) {
            spots.onB.push_back(defect.mark);
        }
    }
    return spots;
}

std::string listOf(const MarkedPieces& pieces) {
    std::string text;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        text += i == 0 ? "" : i + 1 == pieces.size() ? " and " : "; ";
        text += pieces[i].first + " " + joined(pieces[i].second);
    }
    return text;
}

std::string fillSentence(const Document& document, const Panel& panel) {
    MarkedPieces shown;
    MarkedPieces hidden;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const PanelStave& stave = panel.staveAt(place);
        const Board* board = findBoard(document, stave.board);
        if (board == nullptr) {
            continue;
        }
        OpenSpots spots = openSpots(*board, stave.frame, stave.net);
        if (glueup::poseOf(panel.order[place].pose).faceOver) {
            std::swap(spots.onA, spots.onB);
        }
        if (!spots.onA.empty()) {
            shown.emplace_back(stave.label, std::move(spots.onA));
        }
        if (!spots.onB.empty()) {
            hidden.emplace_back(stave.label, std::move(spots.onB));
        }
    }
    if (shown.empty() && hidden.empty()) {
        return {};
    }
    const std::string when = ", once the panel is level and before the last pass: ";
    std::string text = "Lock loose knots before they are milled. Fill on the ";
    if (!shown.empty()) {
        text += "show face" + when + listOf(shown) + ".";
        return hidden.empty() ? text : text + " On the back: " + listOf(hidden) + ".";
    }
    return text + "back" + when + listOf(hidden) + ".";
}

} // namespace stavewright::panels
