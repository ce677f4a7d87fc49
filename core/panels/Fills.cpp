#include "core/panels/Fills.h"

#include <utility>

#include "core/lumber/Defect.h"

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

OpenSpots openSpots(const Board& board, BlankId blank, const std::vector<Fill>& fills) {
    OpenSpots spots;
    for (const Defect& defect : board.defects) {
        for (const Fill& fill : fills) {
            if (fill.board != board.id || fill.blank != blank || fill.defect != defect.id) {
                continue;
            }
            const std::string name =
                (defect.mark.empty() ? std::string(nameOf(defect.kind)) : defect.mark) +
                (fill.marginOnly ? " if it opens there" : "");
            if (fill.onFaceA) {
                spots.onA.push_back(name);
            }
            if (fill.onFaceB) {
                spots.onB.push_back(name);
            }
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

std::string fillSentence(const Document& document, const Panel& panel,
                         const std::vector<Fill>& fills) {
    MarkedPieces shown;
    MarkedPieces hidden;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const PanelStave& stave = panel.staveAt(place);
        const Board* board = findBoard(document, stave.board);
        if (board == nullptr) {
            continue;
        }
        OpenSpots spots = openSpots(*board, stave.blank, fills);
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
