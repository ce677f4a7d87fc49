#include "core/hand/Ground.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Bands.h"
#include "core/hand/PlanTree.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/planning/Kept.h"
#include "core/planning/Statement.h"

namespace stavewright::hand {

namespace {

/// Flush stays flush although frames at an angle are rounded; half of what the audit allows.
constexpr Length rounding = polygonTolerance / 2;
/// What the audit overlooks across the grain, less a little for rounding: where a section leans,
/// so little across is much along.
constexpr Length overlooked = polygonTolerance - Length::nanometres(20);

std::string nameOfDefect(const Defect& defect) {
    std::string name(nameOf(defect.kind));
    return defect.mark.empty() ? name : name + ' ' + defect.mark;
}

} // namespace

struct Ground::Known {
    /// Forbidden wood of one defect; in the board frame or in that of a bed.
    struct Region {
        std::size_t defect = 0;
        Polygon area;
        Rect box;
    };
    struct Local {
        Frame frame;
        std::vector<Region> regions;
    };
    struct RegionSet {
        RuleSetId rules;
        BoardFace face = BoardFace::A;
        Length apart;
        std::vector<Region> regions;
        std::vector<Local> local; ///< the same in frames that were asked for
    };
    struct Outline {
        Frame frame;
        Polygon local;
    };
    std::vector<RegionSet> sets;
    std::vector<Outline> outlines;

    RegionSet& setFor(const Document& document, const Board& board, RuleSetId rules, BoardFace face,
                      Length apart);
    static const std::vector<Region>& localTo(const Frame& frame, RegionSet& set);
    const Polygon& outlineIn(const Frame& frame, const Board& board);
};

namespace {
/// Frames kept; a blank that is dragged along a crooked edge asks for a new one at every move.
constexpr std::size_t mostFrames = 16;
} // namespace

Ground::Known::RegionSet& Ground::Known::setFor(const Document& document, const Board& board,
                                                RuleSetId rules, BoardFace face, Length apart) {
    for (RegionSet& set : sets) {
        if (set.rules == rules && set.face == face && set.apart == apart) {
            return set;
        }
    }
    RegionSet set{rules, face, apart, {}, {}};
    if (const RuleSet* found = findRuleSet(document.shop, rules)) {
        for (std::size_t i = 0; i < board.defects.size(); ++i) {
            const Defect& defect = board.defects[i];
            if (planning::rulingFor(*found, defect) != planning::Ruling::Forbidden) {
                continue;
            }
            if (auto area = planning::judgedRegion(*found, defect, board, face, apart)) {
                const Rect box = boundingBox(*area);
                set.regions.push_back({i, std::move(*area), box});
            }
        }
    }
    sets.push_back(std::move(set));
    return sets.back();
}

const std::vector<Ground::Known::Region>& Ground::Known::localTo(const Frame& frame,
                                                                 RegionSet& set) {
    for (const Local& known : set.local) {
        if (known.frame == frame) {
            return known.regions;
        }
    }
    if (set.local.size() == mostFrames) {
        set.local.clear();
    }
    Local local{frame, {}};
    for (const Region& region : set.regions) {
        Polygon area = toLocal(frame, region.area);
        const Rect box = boundingBox(area);
        local.regions.push_back({region.defect, std::move(area), box});
    }
    set.local.push_back(std::move(local));
    return set.local.back().regions;
}

const Polygon& Ground::Known::outlineIn(const Frame& frame, const Board& board) {
    for (const Outline& known : outlines) {
        if (known.frame == frame) {
            return known.local;
        }
    }
    if (outlines.size() == mostFrames) {
        outlines.clear();
    }
    outlines.push_back({frame, toLocal(frame, board.outline)});
    return outlines.back().local;
}

std::shared_ptr<Ground::Known> nothingKnown() { return std::make_shared<Ground::Known>(); }

Ground::Ground(const Document& document, const Board& board, const BoardLayout& layout,
               std::shared_ptr<Known> known)
    : m_document(document)
    , m_board(board)
    , m_layout(layout)
    , m_known(known ? std::move(known) : nothingKnown()) {}

void Ground::barDefects(const Load& load, const Bed& bed, std::vector<Bar>& bars) const {
    const Length apart = surfacesApartOf(m_document, *load.spec);
    const Rect blank{-load.shortAtLow, bed.across.from, load.spec->length - load.shortAtLow,
                     bed.across.to};
    for (const BlankZone& zone : load.spec->zones) {
        const Rect lies = planning::zoneRect(zone, blank, load.pose);
        if (lies.isEmpty()) {
            continue;
        }
        const BoardFace face = planning::faceOnBoard(zone, load.pose);
        for (const Known::Region& region : Known::localTo(
                 bed.frame, m_known->setFor(m_document, m_board, zone.rules, face, apart))) {
            if (region.box.y1 <= lies.y0 || region.box.y0 >= lies.y1) {
                continue;
            }
            const Stretch band{lies.y0 + overlooked, lies.y1 - overlooked};
            for (const Stretch& reach : reachesInto(region.area, band)) {
                const Defect& defect = m_board.defects[region.defect];
                bars.push_back({reach.from - lies.x1 + rounding, reach.to - lies.x0 - rounding,
                                BarKind::Defect, nameOfDefect(defect), defect.id});
            }
        }
    }
}

void Ground::barEdges(const Load& load, const Bed& bed, std::vector<Bar>& bars) const {
    for (const Stretch& open : uncovered(m_known->outlineIn(bed.frame, m_board), bed.across)) {
        bars.push_back({open.from - load.length() + rounding,
                        open.to - rounding,
                        BarKind::Edge,
                        "edge of the board",
                        {}});
    }
}

void Ground::barEnds(const Load& load, const Bed& bed, std::vector<Bar>& bars) const {
    const Rect box = boundingBox(m_board.outline);
    const Shop& shop = m_document.shop;
    const Stretch sound{box.x0 + planning::rawEnd(m_board.trimAtDatum, shop),
                        box.x1 - planning::rawEnd(m_board.trimAtFar, shop)};
    const Stretch raw = positionsWithin(bed, load.length(), sound);
    bars.push_back({-beyond, raw.from, BarKind::RawEnd, "raw end", {}});
    bars.push_back({raw.to, beyond, BarKind::RawEnd, "raw end", {}});
    for (const Section& section : m_layout.sections) {
        if (bed.section == section.id && !isFree(m_layout, section)) {
            const Stretch in = positionsWithin(bed, load.length(), section.along);
            bars.push_back({-beyond, in.from, BarKind::SectionEnd, "section end", {}});
            bars.push_back({in.to, beyond, BarKind::SectionEnd, "section end", {}});
        }
    }
}

void Ground::barRules(const Load& load, const Bed& bed, std::vector<Bar>& bars) const {
    for (const BoardRule& rule : m_document.boardRules) {
        if (rule.board != m_board.id || !rule.bars(load.spec->part)) {
            continue;
        }
        const Part* part = findPart(m_document, rule.part);
        const std::string name =
            (rule.kind == BoardRule::Kind::KeptFor ? "wood kept for " : "wood kept from ") +
            (part ? part->mark : std::string());
        const Stretch along = rule.along.value_or(Stretch{-beyond, beyond});
        const Length before = positionsWithin(bed, load.length(), {-beyond, along.from}).to;
        const Length after = positionsWithin(bed, load.length(), {along.to, beyond}).from;
        bars.push_back({before, after, BarKind::Rule, name, {}});
    }
}

void Ground::barNeighbours(const Load& load, const Bed& bed, std::vector<Bar>& bars) const {
    const Length crosscut = m_document.shop.machines.crosscut.kerf;
    const Length inStrip = m_document.shop.machines.stripCrosscut.kerf;
    for (const Section& section : m_layout.sections) {
        if (bed.section != section.id) {
            // Clear of it on either side.
            const Stretch before =
                positionsWithin(bed, load.length(), {-beyond, section.along.from - crosscut});
            const Stretch after =
                positionsWithin(bed, load.length(), {section.along.to + crosscut, beyond});
            bars.push_back({before.to, after.from, BarKind::Section, "section end plus kerf", {}});
            continue;
        }
        for (const Strip& strip : section.strips) {
            if (strip.id != bed.strip) {
                continue;
            }
            for (const Blank& blank : strip.blanks) {
                const Rect& wood = woodOf(blank);
                bars.push_back({wood.x0 - inStrip - load.length(),
                                wood.x1 + inStrip,
                                BarKind::Blank,
                                labelOf(m_document, blank.purpose) + " plus kerf",
                                {}});
            }
        }
    }
}

std::vector<Bar> Ground::bars(const Load& load, const Bed& bed) const {
    std::vector<Bar> bars;
    barEnds(load, bed, bars);
    barNeighbours(load, bed, bars);
    barEdges(load, bed, bars);
    barRules(load, bed, bars);
    barDefects(load, bed, bars);
    return bars;
}

Stretch positionsWithin(const Bed& bed, Length length, Stretch onBoard) {
    const Rect at0 =
        boundingBox(toOuter(bed.frame, Rect{Length(), bed.across.from, length, bed.across.to}));
    if (bed.frame.isParallel()) {
        return {onBoard.from - at0.x0, onBoard.to - at0.x1};
    }
    const double cosine =
        number(bed.frame.run) / std::hypot(number(bed.frame.run), number(bed.frame.rise));
    return {roundedUp(number(onBoard.from - at0.x0) / cosine),
            roundedDown(number(onBoard.to - at0.x1) / cosine)};
}

Length surfacesApartOf(const Document& document, const BlankSpec& spec) {
    planning::Thicknesses chosen;
    if (document.plan) {
        for (const ThicknessChoice& choice : document.plan->thicknesses) {
            chosen[choice.part] = choice.finished;
        }
    }
    const Part& part = *findPart(document, spec.part);
    return planning::surfacesApart(part, planning::finishedThickness(document, part, chosen));
}

TapeMarks tapeMarksOf(const Document& document, const Bed& bed) {
    const Length step = document.info.units == UnitSystem::Inches
                            ? Length::inches(1, std::max(1, document.info.inchDenominator))
                            : Length::millimetres(1);
    return {step, bed.frame.isParallel() ? bed.frame.origin.x : Length()};
}

bool isBarred(const std::vector<Bar>& bars, Length position) {
    return std::any_of(bars.begin(), bars.end(), [position](const Bar& bar) {
        return bar.from < position && position < bar.to;
    });
}

std::vector<Length> freePositions(const std::vector<Bar>& bars, Length wish,
                                  const TapeMarks& marks) {
    std::vector<Length> found;
    if (!isBarred(bars, wish)) {
        found.push_back(wish);
    }
    std::vector<Bar> ordered;
    std::copy_if(bars.begin(), bars.end(), std::back_inserter(ordered),
                 [](const Bar& bar) { return bar.from < bar.to; });
    std::sort(ordered.begin(), ordered.end(),
              [](const Bar& a, const Bar& b) { return a.from < b.from; });
    Length reached = -beyond;
    const auto addFree = [&](Length from, Length to) { // both may be stood on
        const auto past = [&](Length value) {          // past the mark below
            const Length over = (value + marks.origin) % marks.step;
            return over < Length() ? over + marks.step : over;
        };
        const Length low = past(from) == Length() ? from : from - past(from) + marks.step;
        const Length high = to - past(to);
        found.push_back(low <= to ? low : from);
        found.push_back(high >= from ? high : to);
    };
    for (const Bar& bar : ordered) {
        if (bar.from >= reached && reached > -beyond) {
            addFree(reached, bar.from);
        }
        reached = std::max(reached, bar.to);
    }
    std::stable_sort(found.begin(), found.end(),
                     [wish](Length a, Length b) { return abs(a - wish) < abs(b - wish); });
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

} // namespace stavewright::hand
