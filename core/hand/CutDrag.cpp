#include "core/hand/CutDrag.h"

#include <algorithm>
#include <set>

#include "core/audit/BoardJudge.h"
#include "core/geometry/PolygonOps.h"
#include "core/hand/Finish.h"
#include "core/hand/Ground.h"
#include "core/hand/PlanTree.h"
#include "core/planning/PanelWidth.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

Error refused(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

std::string said(const Document& document, Length length) {
    return saidLength(length, {document.info.units, document.info.inchDenominator, true});
}

bool isHeld(const Strip& strip) {
    return std::any_of(strip.blanks.begin(), strip.blanks.end(), [](const Blank& blank) {
        return blank.locked || blank.state != CutState::Planned;
    });
}

/// Why the section stays as it is; empty when its cuts may move.
std::string whyFixed(const BoardLayout& layout, const Section& section) {
    if (section.state != CutState::Planned) {
        return "That cut is made already, or the section it frees is.";
    }
    const bool isLocked = layout.locked || section.locked ||
                          std::any_of(section.strips.begin(), section.strips.end(), isHeld);
    return isLocked ? "Something at that cut is locked; unlock it first." : "";
}

/// Staves that fill a strip go with its edges.
void refill(const std::vector<BlankSpec>& specs, Strip& strip, Stretch before) {
    for (Blank& blank : strip.blanks) {
        const BlankSpec* spec = specOf(specs, blank.purpose);
        if (spec && spec->staves && blank.rect.y0 == before.from && blank.rect.y1 == before.to) {
            blank.rect.y0 = strip.across.from;
            blank.rect.y1 = strip.across.to;
        }
    }
}

Result<BoardLayout> movedCrosscut(const Document& document, BoardLayout layout, const CutRef& cut,
                                  Length where) {
    std::vector<Section>& sections = layout.sections;
    const auto section = std::find_if(sections.begin(), sections.end(),
                                      [&](const Section& each) { return each.id == cut.section; });
    const Length kerf = document.shop.machines.crosscut.kerf;
    const bool isShared = cut.high && section + 1 != sections.end() &&
                          (section + 1)->along.from == section->along.to + kerf;
    const std::string fixed = whyFixed(layout, *section);
    const std::string fixedToo = isShared ? whyFixed(layout, *(section + 1)) : std::string();
    if (!fixed.empty() || !fixedToo.empty()) {
        return refused(fixed.empty() ? fixedToo : fixed);
    }
    (cut.high ? section->along.to : section->along.from) = where;
    if (isShared) {
        (section + 1)->along.from = where + kerf;
    }
    if (section->along.from >= section->along.to ||
        (isShared && (section + 1)->along.from >= (section + 1)->along.to)) {
        return refused("The crosscut would stand at " + said(document, where) +
                       ", past the next one.");
    }
    return layout;
}

Result<BoardLayout> movedRip(const Document& document, const std::vector<BlankSpec>& specs,
                             BoardLayout layout, const CutRef& cut, Length where) {
    const auto section = std::find_if(layout.sections.begin(), layout.sections.end(),
                                      [&](const Section& each) { return each.id == cut.section; });
    std::vector<Strip>& strips = section->strips;
    const auto strip = std::find_if(strips.begin(), strips.end(),
                                    [&](const Strip& each) { return each.id == *cut.strip; });
    const Length kerf = ripKerfOf(document.shop, *section);
    const bool isShared = cut.high && strip + 1 != strips.end() &&
                          (strip + 1)->across.from == strip->across.to + kerf;
    if (layout.locked || section->locked || isHeld(*strip) || (isShared && isHeld(*(strip + 1)))) {
        return refused("Something at that rip is locked or cut; the rip stays.");
    }
    const Stretch before = strip->across;
    (cut.high ? strip->across.to : strip->across.from) = where;
    if (strip->across.from >= strip->across.to) {
        return refused("The rip would stand at " + said(document, where) +
                       ", past the other edge of its strip.");
    }
    refill(specs, *strip, before);
    if (isShared) {
        const Stretch was = (strip + 1)->across;
        (strip + 1)->across.from = where + kerf;
        if ((strip + 1)->across.from >= was.to) {
            return refused("The rip would stand at " + said(document, where) +
                           ", past the next one.");
        }
        refill(specs, *(strip + 1), was);
    }
    return layout;
}

/// The board with the cut at another reading, planned offcuts dropped.
Result<BoardLayout> moved(const Document& document, const std::vector<BlankSpec>& specs,
                          const BoardLayout& layout, const CutRef& cut, Length where) {
    if (!markOf(layout, cut)) {
        return refused("The plan no longer has that cut.");
    }
    switch (cut.kind()) {
    case CutKind::Crosscut:
        return movedCrosscut(document, layout, cut, where);
    case CutKind::Rip:
        return movedRip(document, specs, layout, cut, where);
    case CutKind::Second:
        break;
    }
    return refused("A second crosscut moves with its blank; drag that.");
}

} // namespace

Result<Edit> moveCut(const Document& document, BoardId board, const CutRef& cut, Length where) {
    const BoardLayout* found = document.plan ? layoutOf(*document.plan, board) : nullptr;
    if (!found) {
        return refused("The plan does not cut that board.");
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    Result<BoardLayout> layout = moved(document, specs.value(), *found, cut, where);
    if (!layout) {
        return layout.error();
    }
    Plan plan = *document.plan;
    *std::find_if(plan.boards.begin(), plan.boards.end(), [board](const BoardLayout& each) {
        return each.board == board;
    }) = std::move(layout).value();
    return finished(document, std::move(plan), {board}, document.nextId);
}

struct CutDrag::Inner {
    struct Place {
        Length at;
        std::string name;
    };
    const Document document;
    BoardId board;
    CutRef cut;
    Length mark;
    std::vector<BlankSpec> specs;
    std::unique_ptr<BoardJudge> judge;
    BoardLayout layout; ///< planned offcuts dropped
    std::set<std::string> stood;
    std::map<BlankPurpose, Length> nets;  ///< of the panels, on this board
    std::map<BlankPurpose, Length> spare; ///< width that each of them has above what it wants
    std::map<BlankPurpose, Length> room;  ///< width that it may still take
    std::vector<Place> places;            ///< that draw the cut

    Inner(const Document& job, BoardId on, const CutRef& which)
        : document(job)
        , board(on)
        , cut(which) {}

    [[nodiscard]] std::map<BlankPurpose, Length> netsIn(const BoardLayout& on) const {
        std::map<BlankPurpose, Length> found;
        for (const Section& section : on.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const BlankPurpose panel = planning::wholeOf(blank.purpose);
                    const BlankSpec* spec = specOf(specs, blank.purpose);
                    if (spec && spec->staves) {
                        found[panel] += woodOf(blank).width();
                    }
                }
            }
        }
        return found;
    }

    void measureSpare() {
        for (const auto& [panel, width] : nets) {
            const StavePool& pool = *specOf(specs, panel)->staves;
            const Length net = planning::netWidthOf(*document.plan, pool, panel);
            spare[panel] = net - pool.netWanted;
            room[panel] = pool.netMost - net;
        }
    }

    /// Why the cut cannot stand there; empty when it can.
    [[nodiscard]] std::string whyNot(Length where) const {
        const Result<BoardLayout> there = moved(document, specs, layout, cut, where);
        if (!there) {
            return there.error().message;
        }
        for (const Finding& finding : judge->failures(there.value())) {
            if (!stood.contains(finding.sentence)) {
                return finding.sentence;
            }
        }
        const std::map<BlankPurpose, Length> now = netsIn(there.value());
        for (const auto& [panel, width] : now) {
            const Length less = nets.at(panel) - width;
            if (less > std::max(Length(), spare.at(panel))) {
                return "The staves of " + labelOf(document, panel) + " would be " +
                       said(document, less) + " narrower together, more than the panel spares.";
            }
            if (-less > std::max(Length(), room.at(panel))) {
                return "The staves of " + labelOf(document, panel) + " would be " +
                       said(document, -less) + " wider together, more than the panel takes.";
            }
        }
        return {};
    }

    void findPlaces() {
        const Board& wood = *findBoard(document, board);
        const Machines& machines = document.shop.machines;
        for (const Section& section : layout.sections) {
            if (cut.kind() == CutKind::Crosscut) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        const Rect box = boxOnBoard(section, woodOf(blank));
                        const std::string name = labelOf(document, blank.purpose);
                        places.push_back({cut.high ? box.x1 : box.x0, "the end of " + name});
                    }
                }
                if (section.id != cut.section) {
                    places.push_back({section.along.from - machines.crosscut.kerf,
                                      "the next section less kerf"});
                    places.push_back({section.along.to + machines.crosscut.kerf,
                                      "the section before plus kerf"});
                }
            } else if (section.id == cut.section) {
                const Length kerf = ripKerfOf(document.shop, section);
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        const Rect& rect = woodOf(blank);
                        places.push_back({cut.high ? rect.y1 : rect.y0,
                                          "the edge of " + labelOf(document, blank.purpose)});
                    }
                    if (strip.id != *cut.strip) {
                        places.push_back({strip.across.from - kerf, "the next strip less kerf"});
                        places.push_back({strip.across.to + kerf, "the strip before plus kerf"});
                    }
                }
                for (const Defect& defect : wood.defects) {
                    for (const auto& face : {defect.onA, defect.onB}) {
                        if (face) {
                            const Rect box = boundingBox(toLocal(section.frame, face->outline));
                            places.push_back({box.y0, defect.mark});
                            places.push_back({box.y1, defect.mark});
                        }
                    }
                }
            }
        }
        if (cut.kind() == CutKind::Crosscut) {
            for (const Defect& defect : wood.defects) {
                for (const auto& face : {defect.onA, defect.onB}) {
                    if (face) {
                        const Rect box = boundingBox(face->outline);
                        places.push_back({box.x0, defect.mark});
                        places.push_back({box.x1, defect.mark});
                    }
                }
            }
        }
    }
};

CutDrag::CutDrag(std::unique_ptr<Inner> inner)
    : m_inner(std::move(inner)) {}
CutDrag::CutDrag(CutDrag&&) noexcept = default;
CutDrag::~CutDrag() = default;

Result<CutDrag> CutDrag::take(const Document& document, BoardId board, const CutRef& cut) {
    const BoardLayout* layout = document.plan ? layoutOf(*document.plan, board) : nullptr;
    if (!layout || !markOf(*layout, cut)) {
        return refused("The plan no longer has that cut.");
    }
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    auto inner = std::make_unique<Inner>(document, board, cut);
    inner->specs = std::move(specs).value();
    inner->mark = *markOf(*layout, cut);
    inner->layout = *layout;
    dropPlannedOffcuts(inner->layout);
    const Result<BoardLayout> still =
        moved(document, inner->specs, inner->layout, cut, inner->mark);
    if (!still) {
        return still.error();
    }
    inner->judge = std::make_unique<BoardJudge>(inner->document);
    for (const Finding& finding : inner->judge->failures(inner->layout)) {
        inner->stood.insert(finding.sentence);
    }
    inner->nets = inner->netsIn(inner->layout);
    inner->measureSpare();
    inner->findPlaces();
    return CutDrag(std::move(inner));
}

CutDrag::Held CutDrag::at(Length where, Length snapWithin) const {
    const Inner& in = *m_inner;
    const Length step = tapeMarksOf(in.document, {}).step;
    Held held;
    // What can be read off the tape, or where the plan has it.
    held.where = where == in.mark ? where : (where + step / 2) / step * step;
    Length best = snapWithin;
    for (const Inner::Place& place : in.places) {
        if (abs(place.at - where) <= best && snapWithin > Length()) {
            best = abs(place.at - where);
            held.where = place.at;
            held.snappedTo = place.name;
        }
    }
    const std::string name = std::string(nameOf(in.cut.kind())) + " at ";
    const std::string why = in.whyNot(held.where);
    held.isLegal = why.empty();
    held.words = name + said(in.document, held.where);
    if (held.isLegal) {
        held.words += ": everything still comes out" +
                      (held.snappedTo.empty() ? std::string() : ", at " + held.snappedTo) + ".";
        return held;
    }
    // On the way back to its mark, where it was right: the first place where it is so again.
    const int sign = held.where > in.mark ? 1 : -1;
    const Length below = in.mark / step * step;
    const Length base = sign > 0 || below == in.mark ? below : below + step;
    const auto tapeAt = [&](std::int64_t marks) { // from its own place on, on marks of the tape
        return marks == 0 ? in.mark : base + step * (marks * sign);
    };
    std::int64_t good = 0;
    std::int64_t bad = abs(held.where - base) / step + 1;
    const bool isGoodHome = in.whyNot(in.mark).empty();
    while (isGoodHome && good + 1 < bad) {
        const std::int64_t middle = (good + bad) / 2;
        (in.whyNot(tapeAt(middle)).empty() ? good : bad) = middle;
    }
    if (isGoodHome) {
        held.nearest = tapeAt(good);
    }
    std::string reason = why;
    if (reason.ends_with('.')) {
        reason.pop_back();
    }
    held.words += " does not do. " + reason +
                  (held.nearest ? "; the nearest good place is " + said(in.document, *held.nearest)
                                : std::string()) +
                  ".";
    return held;
}

Result<Edit> CutDrag::drop(Length where) const {
    return moveCut(m_inner->document, m_inner->board, m_inner->cut, where);
}

BoardId CutDrag::board() const { return m_inner->board; }
const CutRef& CutDrag::cut() const { return m_inner->cut; }
Length CutDrag::mark() const { return m_inner->mark; }

} // namespace stavewright::hand
