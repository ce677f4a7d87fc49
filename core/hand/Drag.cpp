#include "core/hand/Drag.h"

#include <algorithm>
#include <set>

#include "core/base/ListedText.h"
#include "core/geometry/PolygonOps.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/planning/Kept.h"
#include "core/planning/PanelWidth.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

/// Places that are judged before the search says that there is none.
constexpr std::size_t mostPlacesJudged = 40;

/// Beds side by side that are judged for one place of the pointer.
constexpr std::size_t mostBedsTried = 4;

struct Snapped {
    Laying laying;
    std::optional<Drag::Snap> snap;
};

/// Places too thin for the blank after which the others of the board are taken to be so as well.
constexpr std::size_t mostTooThin = 8;

bool isTooThin(const Finding& finding) { return finding.kind == FindingKind::ThicknessNotReached; }

/// No other place on the board would be better.
bool isOfTheWholeBoard(const Finding& finding) {
    return finding.kind == FindingKind::WrongSpecies ||
           finding.kind == FindingKind::TooMuchPlanedAway;
}

bool isOverlap(const Finding& finding) {
    return finding.kind == FindingKind::SectionsOverlap ||
           finding.kind == FindingKind::StripsOverlap || finding.kind == FindingKind::BlanksOverlap;
}

/// How wide the next stave is cut of a panel that lacks so much: all of it if that can be had from
/// one stave, else as much as leaves room for one more of the least width.
Length nextStave(const StavePool& pool, Length missing) {
    const Length all = missing + pool.jointAllowance;
    const Length least = pool.leastRough - pool.jointAllowance;
    const Length beside = all <= pool.widestRough ? all : std::max(pool.leastRough, all - least);
    return std::clamp(beside, pool.leastRough, pool.widestRough);
}

Point cornerOf(const Laying& laying) {
    return toOuter(laying.bed.frame, Point{laying.along, laying.bed.across.from});
}

} // namespace

struct Drag::Inner {
    const Document original; ///< as it was before
    Document lifted;         ///< without the blank
    std::vector<BlankSpec> specs;
    const BlankSpec* spec = nullptr;
    Blank blank;
    Length width;
    bool fromTray = false;
    std::optional<Laying> origin;
    Stretch homeAlong; ///< of the section it was lifted from, as it stood
    std::string label;
    LengthStyle style;
    std::unique_ptr<BoardJudge> judge;
    BoardLayout noLayout;
    mutable std::map<BoardId, BoardLayout> layouts; ///< planned offcuts dropped; stable addresses
    mutable std::map<BoardId, Ground> grounds;
    mutable std::map<BoardId, std::set<std::string>> stood; ///< findings before it was laid down
    mutable std::optional<bool> wasLegal; ///< where it was lifted from, once that was asked

    explicit Inner(const Document& document)
        : original(document)
        , lifted(document) {}

    void makeReady() {
        const BlankPurpose& purpose = blank.purpose;
        label = labelOf(lifted, purpose);
        style = {lifted.info.units, lifted.info.inchDenominator, true};
        judge = std::make_unique<BoardJudge>(lifted);
    }

    const Ground* groundOf(BoardId id) const {
        const auto known = grounds.find(id);
        if (known != grounds.end()) {
            return &known->second;
        }
        const Board* board = findBoard(lifted, id);
        if (!board) {
            return nullptr;
        }
        const BoardLayout* found = layoutOf(*lifted.plan, id);
        BoardLayout layout = found ? *found : BoardLayout{id, {}, false};
        dropPlannedOffcuts(layout);
        const BoardLayout& kept = layouts.emplace(id, std::move(layout)).first->second;
        std::set<std::string>& sentences = stood[id];
        for (const Finding& finding : judge->failures(kept)) {
            sentences.insert(finding.sentence);
        }
        Ground& ground = grounds.try_emplace(id, lifted, *board, kept).first->second;
        if (origin && origin->board == id && origin->bed.section) {
            ground.reachedWithIt(*origin->bed.section, homeAlong);
        }
        return &ground;
    }

    [[nodiscard]] Load loadIn(Pose pose) const { return {spec, pose, width, {}, {}}; }

    /// Findings that come with the blank where it is laid. A section of its own that is too warped
    /// or too wide to be faced whole is rough-ripped first.
    [[nodiscard]] std::vector<Finding> against(const Ground& ground, Laying& laying) const {
        std::vector<Finding> findings = asLaid(ground, laying);
        const bool isFacing =
            std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
                return finding.kind == FindingKind::ThicknessNotReached ||
                       finding.kind == FindingKind::TooWideForMachine;
            });
        if (!isFacing || laying.bed.section || laying.bed.facing != FirstFacing::Whole) {
            return findings;
        }
        Laying ripped = laying;
        ripped.bed.facing = FirstFacing::RoughRippedFirst;
        std::vector<Finding> left = asLaid(ground, ripped);
        if (left.size() < findings.size()) {
            laying = ripped;
            return left;
        }
        return findings;
    }
    [[nodiscard]] std::vector<Finding> asLaid(const Ground& ground, const Laying& laying) const {
        std::int64_t nextId = lifted.nextId;
        const BoardLayout layout = laid(ground.layout(), laying, spec->length, blank, nextId);
        std::vector<Finding> findings = judge->failures(layout);
        std::erase_if(findings, [&](const Finding& finding) {
            return !countsAgainstIt(finding, laying.board);
        });
        return findings;
    }
    /// What was found without the blank as well is none of its doing.
    [[nodiscard]] bool countsAgainstIt(const Finding& finding, BoardId board) const {
        return finding.blank == blank.id || !stood.at(board).contains(finding.sentence);
    }

    /// Where it was lifted from, if that is on this board and it lay there as it is held now. Like
    /// everywhere else, what was wrong on the board without it does not count.
    [[nodiscard]] std::optional<Laying> wayBack(const Ground& ground, Pose pose) const {
        if (!origin || origin->board != ground.board().id || origin->pose != pose) {
            return std::nullopt;
        }
        if (!wasLegal) {
            const std::vector<Finding> findings =
                judge->failures(*layoutOf(*original.plan, origin->board));
            wasLegal = std::none_of(findings.begin(), findings.end(), [&](const Finding& finding) {
                return countsAgainstIt(finding, origin->board);
            });
        }
        return *wasLegal ? origin : std::nullopt;
    }

    struct Candidate {
        Laying laying;
        Length away;
    };

    /// Free places of the beds near these corners that are not among those known, those nearest to
    /// the wish first; the beds are known from then on.
    [[nodiscard]] std::vector<Candidate> candidates(const Ground& ground,
                                                    const std::vector<Point>& corners, Point wish,
                                                    Pose pose, std::vector<Bed>& known) const {
        std::vector<Candidate> found;
        const Load load = loadIn(pose);
        for (const Point corner : corners) {
            for (const Bed& bed : ground.beds(load, corner)) {
                if (std::find(known.begin(), known.end(), bed) != known.end()) {
                    continue;
                }
                known.push_back(bed);
                const Point local = toLocal(bed.frame, wish);
                const std::vector<Bar> bars = ground.bars(load, bed);
                std::vector<Length> positions =
                    freePositions(bars, local.x, tapeMarksOf(lifted, bed));
                // A section that grows may become too warped for the blanks beside.
                if (const auto within = ground.withoutGrowing(load, bed)) {
                    for (const Length end : {within->from, within->to}) {
                        if (!isBarred(bars, end)) {
                            positions.push_back(end);
                        }
                    }
                }
                for (const Length u : positions) {
                    found.push_back({{ground.board().id, bed, u, pose},
                                     abs(u - local.x) + abs(bed.across.from - local.y)});
                }
            }
        }
        if (const std::optional<Laying> back = wayBack(ground, pose)) {
            const Point low = cornerOf(*back);
            found.push_back({*back, abs(low.x - wish.x) + abs(low.y - wish.y)});
        }
        std::stable_sort(found.begin(), found.end(),
                         [](const Candidate& a, const Candidate& b) { return a.away < b.away; });
        return found;
    }

    /// In every section and in every stretch between them, as near as the blank can stand there.
    [[nodiscard]] std::vector<Point> cornersAllAlong(const Ground& ground, Point wish) const {
        const Rect box = boundingBox(ground.board().outline);
        std::vector<Point> corners;
        const auto add = [&](Stretch along) {
            const Length last = along.to - spec->length;
            if (last >= along.from) {
                corners.push_back({std::clamp(wish.x, along.from, last), wish.y});
            }
        };
        Length from = box.x0;
        for (const Section& section : ground.layout().sections) {
            add({from, section.along.from});
            add(section.along);
            from = section.along.to;
        }
        add({from, box.x1});
        return corners;
    }

    struct Looked {
        std::optional<Laying> legal;
        bool isHopeless = false; ///< the rest of the board would be no better
    };
    [[nodiscard]] Looked firstLegal(const Ground& ground,
                                    const std::vector<Candidate>& candidates) const {
        std::size_t tooThin = 0;
        for (std::size_t i = 0; i < std::min(candidates.size(), mostPlacesJudged); ++i) {
            Laying laying = candidates[i].laying;
            if (laying == origin) {
                return {laying, false};
            }
            const std::vector<Finding> findings = against(ground, laying);
            if (findings.empty()) {
                return {laying, false};
            }
            tooThin += std::any_of(findings.begin(), findings.end(), isTooThin) ? 1 : 0;
            if (tooThin == mostTooThin ||
                std::any_of(findings.begin(), findings.end(), isOfTheWholeBoard)) {
                return {std::nullopt, true};
            }
        }
        return {};
    }

    [[nodiscard]] std::optional<Laying> nearest(const Ground& ground, Point corner,
                                                Pose pose) const {
        std::vector<Bed> known;
        Looked looked = firstLegal(ground, candidates(ground, {corner}, corner, pose, known));
        if (!looked.legal &&
            !looked.isHopeless) { // nothing where it is held; the rest of the board
            looked = firstLegal(
                ground, candidates(ground, cornersAllAlong(ground, corner), corner, pose, known));
        }
        return looked.legal ? looked.legal : wayBack(ground, pose);
    }

    /// On the bed, with an end at the nearest mark within reach.
    [[nodiscard]] Snapped snapped(const Ground& ground, const Bed& bed, Point corner, Pose pose,
                                  Length within) const {
        const Point local = toLocal(bed.frame, corner);
        Snapped snapped{{ground.board().id, bed, local.x, pose}, std::nullopt};
        if (within <= Length()) {
            return snapped;
        }
        const Load load = loadIn(pose);
        const std::vector<Bar> bars = ground.bars(load, bed);
        Length best = within;
        const auto drawTo = [&](Length position, bool withFarEnd, const std::string& name) {
            if (abs(position - local.x) > best || isBarred(bars, position)) {
                return;
            }
            best = abs(position - local.x);
            snapped.laying.along = position;
            const Length mark = withFarEnd ? position + spec->length : position;
            snapped.snap =
                Drag::Snap{toOuter(bed.frame, Point{mark, bed.across.from}).x, name, withFarEnd};
        };
        for (const Bar& bar : bars) { // before the bar it stands with its far end
            drawTo(bar.from, true, bar.name);
            drawTo(bar.to, false, bar.name);
        }
        if (const auto in = ground.withoutGrowing(load, bed)) {
            drawTo(in->from, false, "section end");
            drawTo(in->to, true, "section end");
        }
        return snapped;
    }

    /// Just where it was lifted. A leaning section that went with its only blank would come back in
    /// a frame of its own, a hair off; but back there nothing is changed at all.
    [[nodiscard]] bool isBack(BoardId board, Point corner, Pose pose) const {
        return origin && origin->board == board && origin->pose == pose &&
               corner == cornerOf(*origin);
    }

    /// "R1 and R2": blanks over which the outline lies.
    [[nodiscard]] std::string under(const Ground& ground, const Polygon& outline) const {
        std::vector<std::string> names;
        for (const Section& section : ground.layout().sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& other : strip.blanks) {
                    if (interiorsMeet(toOuter(section.frame, planning::woodOf(other)), outline)) {
                        names.push_back(labelOf(lifted, other.purpose));
                    }
                }
            }
        }
        return listed(names);
    }

    /// "R1 and R2": blanks of the sections that reach over the same stretch of the tape.
    [[nodiscard]] std::string inSectionsAt(const Ground& ground, const Polygon& outline) const {
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

    /// "move 2 3/8 in towards the datum end"
    [[nodiscard]] std::string wayTo(const Laying& to, Point corner) const {
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
    const std::string board = "board " + ground->board().mark;
    if (beds.empty()) {
        held.reasons = {ground->layout().locked ? "Board " + ground->board().mark + " is locked."
                        : ground->board().setAside
                            ? "Board " + ground->board().mark + " is kept whole."
                            : in.label + " finds no room across " + board + " here."};
        held.nearest = ground->layout().locked || ground->board().setAside
                           ? std::nullopt
                           : in.nearest(*ground, corner, pose);
        if (held.nearest) {
            std::string& why = held.reasons.front();
            why.pop_back();
            why += "; move " + in.wayTo(*held.nearest, corner) + ".";
        } else if (!ground->layout().locked && !ground->board().setAside) {
            held.reasons.front() =
                in.label + " finds no room across " + board + " here, nor elsewhere on it.";
        }
        held.words = held.reasons.front();
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
        Snapped snapped = in.snapped(*ground, *near[i], corner, pose, snapWithin);
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
        held.words = in.label + " fits on " + board + " from " + saidLength(stands.x, in.style) +
                     " to " + saidLength(stands.x + in.spec->length, in.style) +
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
    std::string& first = held.reasons.front();
    if (isOverlap(findings.front())) { // the audit names sections, the maker sees blanks
        const std::string names = in.under(*ground, held.outline);
        const std::string beside = in.inSectionsAt(*ground, held.outline);
        first = !names.empty()   ? in.label + " would lie over " + names
                : beside.empty() ? first
                                 : in.label + " would be crosscut through the section of " + beside;
    } else if (findings.front().kind == FindingKind::SectionOutsideBoard) {
        const Rect box = boundingBox(held.outline);
        const Rect wood = boundingBox(ground->board().outline);
        first = in.label + " would stand " +
                (box.x1 > wood.x1
                     ? saidLength(box.x1 - wood.x1, in.style) + " past the far end of "
                     : saidLength(wood.x0 - box.x0, in.style) + " before the datum end of ") +
                board;
    }
    if (first.ends_with('.')) {
        first.pop_back();
    }
    first += held.nearest ? "; move " + in.wayTo(*held.nearest, stands) + "."
                          : "; there is no legal place for it on " + board + ".";
    held.words = first;
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
