// What is said of a lifted blank where it may not lie.

#include "core/base/ListedText.h"
#include "core/geometry/PolygonOps.h"
#include "core/hand/Lifted.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

bool isOverlap(const Finding& finding) {
    return finding.kind == FindingKind::SectionsOverlap ||
           finding.kind == FindingKind::StripsOverlap || finding.kind == FindingKind::BlanksOverlap;
}

} // namespace

std::string Lifted::whyNotHere(const Ground& ground, const Drag::Held& held,
                               const Finding& worst) const {
    const std::string board = "board " + ground.board().mark;
    std::string why = worst.sentence;
    if (isOverlap(worst)) { // the audit names sections, the maker sees blanks
        const std::string names = under(ground, held.outline);
        const std::string beside = inSectionsAt(ground, held.outline);
        why = !names.empty()   ? label + " would lie over " + names
              : beside.empty() ? why
                               : label + " would be crosscut through the section of " + beside;
    } else if (worst.kind == FindingKind::SectionOutsideBoard) {
        const Rect box = boundingBox(held.outline);
        const Rect wood = boundingBox(ground.board().outline);
        why =
            label + " would stand " +
            (box.x1 > wood.x1 ? saidLength(box.x1 - wood.x1, style) + " past the far end of "
                              : saidLength(wood.x0 - box.x0, style) + " before the datum end of ") +
            board;
    }
    if (why.ends_with('.')) {
        why.pop_back();
    }
    return why + (held.nearest ? "; move " + wayTo(*held.nearest, cornerOf(held.laying)) + "."
                               : "; there is no legal place for it on " + board + ".");
}

std::string Lifted::whyNoBed(const Ground& ground, const std::optional<Laying>& nearest,
                             Point corner) const {
    const std::string& mark = ground.board().mark;
    if (ground.layout().locked) {
        return "Board " + mark + " is locked.";
    }
    if (ground.board().setAside) {
        return "Board " + mark + " is set aside.";
    }
    const std::string why = label + " finds no room across board " + mark + " here";
    return nearest ? why + "; move " + wayTo(*nearest, corner) + "."
                   : why + ", nor elsewhere on it.";
}

std::string Lifted::under(const Ground& ground, const Polygon& outline) const {
    std::vector<std::string> names;
    for (const Section& section : ground.layout().sections) {
        for (const Strip& strip : section.strips) {
            for (const Blank& other : strip.blanks) {
                if (interiorsMeet(toOuter(section.frame, woodOf(other)), outline)) {
                    names.push_back(labelOf(lifted, other.purpose));
                }
            }
        }
    }
    return listed(names);
}

std::string Lifted::inSectionsAt(const Ground& ground, const Polygon& outline) const {
    const Rect box = boundingBox(outline);
    std::vector<std::string> names;
    for (const Section& section : ground.layout().sections) {
        if (section.along.from >= box.x1 || section.along.to <= box.x0) {
            continue;
        }
        for (const Strip& strip : section.strips) {
            for (const Blank& other : strip.blanks) {
                names.push_back(labelOf(lifted, other.purpose));
            }
        }
    }
    return listed(names);
}

std::string Lifted::wayTo(const Laying& to, Point corner) const {
    const Point there = cornerOf(to);
    // Less than half a mark of the tape is not worth a word.
    const Length step = tapeMarksOf(lifted, {}).step;
    const auto told = [step](Length by) {
        const Length marks = (abs(by) + step / 2) / step * step;
        return by < Length() ? -marks : marks;
    };
    const Length along = told(there.x - corner.x);
    const Length across = told(there.y - corner.y);
    std::string text;
    if (along != Length()) {
        text = saidLength(abs(along), style) +
               (along > Length() ? " towards the far end" : " towards the datum end");
    }
    if (across != Length()) {
        text += text.empty() ? "" : " and ";
        text += saidLength(abs(across), style) +
                (across > Length() ? " towards the far edge" : " towards the near edge");
    }
    return text.empty() ? "it along the edge of the board" : text;
}

} // namespace stavewright::hand
