#include "core/midjob/ShopMarks.h"

#include <algorithm>
#include <set>

#include "core/base/ListedText.h"
#include "core/hand/Cuts.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

Error noPlan() { return refused("The job has no plan yet; plan first, then mark cuts as made."); }

BoardLayout* layoutIn(Plan& plan, BoardId board) {
    for (BoardLayout& layout : plan.boards) {
        if (layout.board == board) {
            return &layout;
        }
    }
    return nullptr;
}

void addWaste(Document& after, BoardLayout& layout, Stretch along) {
    Section waste;
    waste.id = after.takeId<SectionId>();
    waste.along = along;
    waste.frame.origin = {along.from, boundingBox(findBoard(after, layout.board)->outline).y0};
    waste.state = CutState::Cut;
    layout.sections.push_back(std::move(waste));
    std::stable_sort(
        layout.sections.begin(), layout.sections.end(),
        [](const Section& a, const Section& b) { return a.along.from < b.along.from; });
}

std::string takenAsMade(const Document& before, const Document& now, BoardId board) {
    const std::vector<hand::CutRef> open = hand::cutsOn(now, board);
    std::vector<std::string> readings;
    for (const hand::CutRef& cut : hand::cutsOn(before, board)) {
        if (cut.kind() == hand::CutKind::Crosscut &&
            std::find(open.begin(), open.end(), cut) == open.end()) {
            readings.push_back(saidReading(before, *hand::markOf(before, board, cut)));
        }
    }
    if (readings.empty()) {
        return {};
    }
    return std::string(readings.size() == 1 ? " This takes as made on its mark: crosscut"
                                            : " This takes as made on their marks: crosscuts") +
           " of board " + findBoard(before, board)->mark + " at " + listed(readings) + ".";
}

std::string freeMark(const Board& board, const std::string& letter) {
    std::set<std::string> taken;
    for (const Defect& defect : board.defects) {
        taken.insert(defect.mark);
    }
    int number = 1;
    while (taken.contains(letter + std::to_string(number))) {
        ++number;
    }
    return letter + std::to_string(number);
}

FaceMark heldOn(const Board& board, Polygon outline) {
    const Rect box = boundingBox(board.outline);
    for (Point& corner : outline) {
        corner.x = std::clamp(corner.x, box.x0, box.x1);
        corner.y = std::clamp(corner.y, box.y0, box.y1);
    }
    return {std::move(outline), std::nullopt};
}

void markGone(Document& after, BoardId id, Polygon wood, const std::string& note) {
    Board& board = *std::find_if(after.boards.begin(), after.boards.end(),
                                 [id](const Board& each) { return each.id == id; });
    Defect gone;
    gone.id = after.takeId<DefectId>();
    gone.mark = freeMark(board, "D");
    gone.kind = DefectKind::Split;
    gone.through = true;
    gone.onA = heldOn(board, std::move(wood));
    gone.note = note;
    board.defects.push_back(std::move(gone));
}

void cutOut(Section& section) {
    section.state = std::max(section.state, CutState::Cut);
    section.lowEndUncut = section.highEndUncut = false;
}

void cutBefore(BoardLayout& layout, Length reading) {
    for (Section& section : layout.sections) {
        if (section.along.to <= reading) {
            cutOut(section);
        }
    }
}

} // namespace stavewright::midjob
