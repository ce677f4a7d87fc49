#include "core/midjob/Marking.h"

#include <algorithm>

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

void cutBefore(BoardLayout& layout, Length reading) {
    for (Section& section : layout.sections) {
        if (section.along.to <= reading) {
            section.state = std::max(section.state, CutState::Cut);
            section.lowEndUncut = false;
        }
    }
}

} // namespace stavewright::midjob
