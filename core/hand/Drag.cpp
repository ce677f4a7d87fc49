#include "core/hand/Drag.h"

#include <algorithm>

#include "core/hand/HandEdits.h"
#include "core/hand/Lifted.h"
#include "core/hand/PlanTree.h"
#include "core/planning/PanelWidth.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

/// Beds side by side that are judged for one place of the pointer.
constexpr std::size_t mostBedsTried = 4;

/// How wide the next stave is cut of a panel that lacks so much: all of it if that can be had from
/// one stave, else as much as leaves room for one more of the least width.
Length nextStave(const StavePool& pool, Length missing) {
    const Length all = missing + pool.jointAllowance;
    const Length least = pool.leastRough - pool.jointAllowance;
    const Length beside = all <= pool.widestRough ? all : std::max(pool.leastRough, all - least);
    return std::clamp(beside, pool.leastRough, pool.widestRough);
}

} // namespace

struct Drag::Inner : Lifted {
    using Lifted::Lifted;
};

Drag::Drag(std::unique_ptr<Inner> inner)
    : m_inner(std::move(inner)) {}
Drag::Drag(Drag&&) noexcept = default;
Drag::~Drag() = default;

Result<Drag> Drag::lift(const Document& document, BlankId id) {
    if (!document.plan) {
        return Error{ErrorCode::BadInput, "The job has no plan yet.", {}};
    }
    const std::optional<TreePlace> place = placeOf(*document.plan, id);
    if (!place) {
        return Error{ErrorCode::BadInput, "The blank is no longer in the plan.", {}};
    }
    const std::string fixed = whyFixed(document, *place);
    if (!fixed.empty()) {
        return Error{ErrorCode::BadInput, fixed, {}};
    }
    auto inner = std::make_unique<Inner>(document);
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    inner->specs = std::move(specs).value();
    inner->blank = blankAt(*document.plan, *place);
    inner->spec = specOf(inner->specs, inner->blank.purpose);
    if (!inner->spec) {
        return Error{ErrorCode::BadInput, "The job no longer asks for this blank.", {}};
    }
    const BoardLayout& layout = document.plan->boards[place->board];
    const Section& section = layout.sections[place->section];
    inner->origin = layingOf(layout, section, section.strips[place->strip], inner->blank);
    inner->homeAlong = section.along;
    inner->width = inner->spec->staves ? inner->blank.rect.width() : inner->spec->width;
    BoardLayout& lifted = inner->lifted.plan->boards[place->board];
    dropPlannedOffcuts(lifted);
    takeOut(lifted, id);
    inner->makeReady();
    return Drag(std::move(inner));
}

Result<Drag> Drag::fromTray(const Document& document, const BlankPurpose& purpose) {
    auto inner = std::make_unique<Inner>(document);
    if (!document.plan) {
        inner->lifted.plan = Plan{};
    }
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    inner->specs = std::move(specs).value();
    inner->spec = specOf(inner->specs, purpose);
    if (!inner->spec) {
        return Error{ErrorCode::BadInput, "The job does not ask for this blank.", {}};
    }
    inner->fromTray = true;
    inner->blank.id = BlankId{inner->lifted.nextId++};
    inner->blank.purpose = purpose;
    inner->width = inner->spec->width;
    if (inner->spec->staves) {
        inner->blank.purpose.stave = 1;
        const StavePool& pool = *inner->spec->staves;
        const Plan& plan = *inner->lifted.plan;
        for (const BoardLayout& layout : plan.boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (planning::wholeOf(blank.purpose) == purpose) {
                            inner->blank.purpose.stave =
                                std::max(inner->blank.purpose.stave, blank.purpose.stave + 1);
                        }
                    }
                }
            }
        }
        inner->width = nextStave(pool, pool.netWanted - planning::netWidthOf(plan, pool, purpose));
    }
    inner->makeReady();
    return Drag(std::move(inner));
}

Drag::Held Drag::at(BoardId boardId, Point corner, Pose pose, Length snapWithin) const {
    const Inner& in = *m_inner;
    Held held;
    held.laying = {boardId, {}, corner.x, pose};
    held.laying.bed.across = {corner.y, corner.y + in.width};
    held.outline = outlineOf(held.laying, in.spec->length);
    const Ground* ground = in.groundOf(boardId);
    if (!ground) {
        return held;
    }
    if (in.isBack(boardId, corner, pose)) {
        held.laying = *in.origin;
        held.outline = outlineOf(held.laying, in.spec->length);
        held.isLegal = true;
        held.words = in.label + " is where it was.";
        return held;
    }
    const std::vector<Bed> beds = ground->beds(in.loadIn(pose), corner);
    if (beds.empty()) {
        const bool isHeld = ground->layout().locked || ground->board().setAside;
        held.nearest = isHeld ? std::nullopt : in.nearest(*ground, corner, pose);
        held.words = in.whyNoBed(*ground, held.nearest, corner);
        held.reasons = {held.words};
        return held;
    }
    // An edge of a neighbour, or of the wood, that is near enough draws the blank to it.
    std::vector<const Bed*> near;
    std::vector<const Bed*> plain;
    for (const Bed& bed : beds) {
        const Length away = abs(bed.across.from - toLocal(bed.frame, corner).y);
        if (&bed == &beds.front() || away <= snapWithin) {
            (away == Length() && !bed.strip ? plain : near).push_back(&bed);
        }
    }
    near.insert(near.end(), plain.begin(), plain.end());
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < std::min(near.size(), mostBedsTried); ++i) {
        Lifted::Snapped snapped = in.snapped(*ground, *near[i], corner, pose, snapWithin);
        std::vector<Finding> found = in.against(*ground, snapped.laying);
        held.isLegal = found.empty();
        if (i == 0 || held.isLegal) {
            held.laying = snapped.laying;
            held.snap = snapped.snap;
            findings = std::move(found);
        }
        if (held.isLegal) {
            break;
        }
    }
    held.outline = outlineOf(held.laying, in.spec->length);
    const Point stands = cornerOf(held.laying);
    if (held.isLegal) {
        held.words = in.label + " fits on board " + ground->board().mark + " from " +
                     saidLength(stands.x, in.style) + " to " +
                     saidLength(stands.x + in.spec->length, in.style) +
                     (held.snap ? ", at " + held.snap->name : std::string()) + ".";
        return held;
    }
    // What no other place on the board would mend is said before what a move would.
    std::stable_partition(findings.begin(), findings.end(), isOfTheWholeBoard);
    for (const Finding& finding : findings) {
        held.reasons.push_back(finding.sentence);
        if (finding.defect.isSet()) {
            held.defects.push_back(finding.defect);
        }
    }
    held.nearest = in.nearest(*ground, stands, pose);
    held.words = in.whyNotHere(*ground, held, findings.front());
    held.reasons.front() = held.words;
    return held;
}

std::optional<Laying> Drag::nearest(BoardId board, Point corner, Pose pose) const {
    const Ground* ground = m_inner->groundOf(board);
    return ground ? m_inner->nearest(*ground, corner, pose) : std::nullopt;
}

std::vector<std::string> Drag::whyNot(const Laying& laying) const {
    std::vector<std::string> reasons;
    if (const Ground* ground = m_inner->groundOf(laying.board)) {
        for (const Finding& finding : m_inner->asLaid(*ground, laying)) {
            reasons.push_back(finding.sentence);
        }
    }
    return reasons;
}

Result<Edit> Drag::drop(const Laying& laying) const {
    if (m_inner->fromTray) {
        return layFromTray(m_inner->original, planning::wholeOf(m_inner->blank.purpose), laying);
    }
    if (m_inner->origin == laying) {
        return Edit{ReplacePlan{m_inner->original.plan}};
    }
    return move(m_inner->original, m_inner->blank.id, laying);
}

Result<Edit> Drag::dropInTray() const { return backToTray(m_inner->original, m_inner->blank.id); }

const std::string& Drag::label() const { return m_inner->label; }
Length Drag::length() const { return m_inner->spec->length; }
Length Drag::width() const { return m_inner->width; }
const std::optional<Laying>& Drag::origin() const { return m_inner->origin; }

} // namespace stavewright::hand
