#include "ui/layout/PictureChange.h"

#include <algorithm>

namespace stavewright::ui {

namespace {

Reach reachOf(const QRectF& box) { return {box.left(), box.right()}; }
Reach reachOf(const QPolygonF& outline) { return reachOf(outline.boundingRect()); }
Reach reachOf(const BlankPicture& blank) { return reachOf(blank.outline); }
Reach reachOf(const OffcutPicture& offcut) { return reachOf(offcut.outline); }
Reach reachOf(const CutPicture& cut) {
    return {std::min(cut.line.x1(), cut.line.x2()), std::max(cut.line.x1(), cut.line.x2())};
}

/// What stands in one of them alone.
template <class Picture>
void addDifferent(const std::vector<Picture>& before, const std::vector<Picture>& after,
                  std::vector<Reach>& reaches) {
    const auto add = [&](const std::vector<Picture>& from, const std::vector<Picture>& in) {
        for (const Picture& each : from) {
            if (std::find(in.begin(), in.end(), each) == in.end()) {
                reaches.push_back(reachOf(each));
            }
        }
    };
    add(before, after);
    add(after, before);
}

} // namespace

std::vector<Reach> together(std::vector<Reach> reaches) {
    std::sort(reaches.begin(), reaches.end(),
              [](const Reach& a, const Reach& b) { return a.from < b.from; });
    std::vector<Reach> apart;
    for (const Reach& each : reaches) {
        if (!apart.empty() && each.from <= apart.back().to) {
            apart.back().to = std::max(apart.back().to, each.to);
        } else {
            apart.push_back(each);
        }
    }
    return apart;
}

PictureChange changeOf(const BoardPicture& before, const BoardPicture& after) {
    PictureChange change;
    change.isWhole = before.touched != after.touched || before.wrong != after.wrong ||
                     before.trims != after.trims || before.defects != after.defects ||
                     !(before.board == after.board);
    if (change.isWhole) {
        return change;
    }
    std::vector<Reach> reaches;
    addDifferent(before.blanks, after.blanks, reaches);
    addDifferent(before.offcuts, after.offcuts, reaches);
    addDifferent(before.cuts, after.cuts, reaches);
    addDifferent(before.kerfs, after.kerfs, reaches);
    change.onWood = together(std::move(reaches));
    // Beside a board stand the names that find no room on its blanks.
    change.words = !change.onWood.empty() || before.title != after.title ||
                   before.facts != after.facts || before.yield != after.yield ||
                   before.share != after.share || before.contents != after.contents ||
                   before.rules != after.rules || before.readings != after.readings;
    return change;
}

} // namespace stavewright::ui
