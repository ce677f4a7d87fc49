// What a plan comes to: lumber, blanks, parts, fills, cuts and money, counted as core/layout/Plan.h
// says.

#include <algorithm>
#include <map>
#include <tuple>

#include "core/geometry/PolygonOps.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/planning/Kept.h"
#include "core/planning/Planner.h"
#include "core/planning/Statement.h"

namespace stavewright {

using namespace planning;

namespace {

class TotalsCount {
  public:
    TotalsCount(const Document& document, const Plan& plan, std::vector<BlankSpec> specs)
        : m_document(document)
        , m_plan(plan)
        , m_specs(std::move(specs)) {
        for (const ThicknessChoice& choice : plan.thicknesses) {
            m_thicknesses[choice.part] = choice.finished;
        }
    }

    Result<PlanTotals> count() {
        for (const BoardLayout& layout : m_plan.boards) {
            const Board* board = findBoard(m_document, layout.board);
            if (!board) {
                return Error{ErrorCode::BadInput,
                             "The plan names board id " + std::to_string(layout.board.value) +
                                 ", which is not in the job.",
                             {}};
            }
            if (!layout.sections.empty()) {
                countBoard(layout, *board);
            }
        }
        countDemand();
        countPanels();
        m_totals.blanks = BoardFeet::ofVolume(m_blanks);
        m_totals.parts = BoardFeet::ofVolume(m_parts);
        m_totals.offcutsKept = BoardFeet::ofVolume(m_offcuts);
        const Prices& prices = m_document.shop.prices;
        m_totals.cost +=
            prices.fillEach * m_totals.fills + prices.crosscut * m_crosscuts + prices.rip * m_rips;
        return m_totals;
    }

  private:
    void countBoard(const BoardLayout& layout, const Board& board) {
        ++m_totals.boardsUsed;
        m_totals.lumberUsed += boardFeetOf(board);
        m_totals.cost += costOf(board);
        const Rect box = boundingBox(board.outline);
        const Machines& machines = m_document.shop.machines;
        for (std::size_t i = 0; i < layout.sections.size(); ++i) {
            const Section& section = layout.sections[i];
            const bool joined = i > 0 && section.along.from == layout.sections[i - 1].along.to +
                                                                   machines.crosscut.kerf;
            m_crosscuts += section.along.from != box.x0 && !joined ? 1 : 0;
            m_crosscuts += section.along.to != box.x1 ? 1 : 0;
            const Length ripKerf = section.facing == FirstFacing::RoughRippedFirst
                                       ? machines.roughRip.kerf
                                       : machines.rip.kerf;
            for (std::size_t s = 0; s < section.strips.size(); ++s) {
                const Strip& strip = section.strips[s];
                const bool shared =
                    s > 0 && strip.across.from == section.strips[s - 1].across.to + ripKerf;
                m_rips += shared ? 1 : 2;
                for (std::size_t b = 0; b < strip.blanks.size(); ++b) {
                    countBlank(board, section, strip, b);
                }
                countOffcuts(strip.offcuts, board);
            }
            countOffcuts(section.offcuts, board);
        }
    }

    void countBlank(const Board& board, const Section& section, const Strip& strip,
                    std::size_t index) {
        const Blank& blank = strip.blanks[index];
        const Rect& rect = blank.rect;
        const bool square = section.frame.isParallel();
        const Length kerf = m_document.shop.machines.stripCrosscut.kerf;
        const bool joined = index > 0 && rect.x0 == strip.blanks[index - 1].rect.x1 + kerf;
        const bool lowFlush =
            square && toOuter(section.frame, Point{rect.x0, rect.y0}).x == section.along.from;
        const bool highFlush =
            square && toOuter(section.frame, Point{rect.x1, rect.y0}).x == section.along.to;
        m_crosscuts += (lowFlush || joined ? 0 : 1) + (highFlush ? 0 : 1);
        m_rips += (rect.y0 != strip.across.from ? 1 : 0) + (rect.y1 != strip.across.to ? 1 : 0);
        m_blanks += rect.area() * board.quarter.nominal();

        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        const Part* part = findPart(m_document, blank.purpose.part);
        if (!spec || !part) {
            return;
        }
        ++m_totals.placed;
        if (spec->staves) {
            m_nets[{blank.purpose.part, blank.purpose.instance, blank.purpose.ply}] +=
                rect.width() - spec->staves->jointAllowance;
        } else {
            const int held =
                std::clamp(part->count - blank.purpose.instance + 1, 0, spec->partsPerBlank);
            m_parts += shareOf(*part, held, Length::nanometres(1), Length::nanometres(1));
        }
        countFills(board, section, blank, *spec, *part);
    }

    /// Volume of `parts` finished parts x numerator/denominator, a ply's share if it is laminated.
    [[nodiscard]] Volume shareOf(const Part& part, int parts, Length numerator,
                                 Length denominator) const {
        const Result<Length> length = resolvedSize(m_document, part, Dimension::Length);
        const Result<Length> width = resolvedSize(m_document, part, Dimension::Width);
        if (!length || !width) {
            return {};
        }
        const Length thickness = finishedThickness(m_document, part, m_thicknesses);
        const Int128 whole =
            (length.value() * width.value() * thickness).inCubicNanometres() * parts;
        const Int128 plies = part.makeUp.lamination ? part.makeUp.lamination->plies : 1;
        return Volume::cubicNanometres(whole * numerator.inNanometres() /
                                       (plies * denominator.inNanometres()));
    }

    void countPanels() {
        for (const auto& [key, net] : m_nets) {
            const auto& [partId, instance, ply] = key;
            const BlankPurpose purpose{partId, instance, ply, 0};
            const BlankSpec& spec = *specOf(m_specs, purpose);
            const Part& part = *findPart(m_document, partId);
            const int held = std::clamp(part.count - instance + 1, 0, spec.partsPerBlank);
            const Length whole = spec.staves->netWanted;
            m_parts += shareOf(part, held, std::min(net, whole), whole);
        }
    }

    void countFills(const Board& board, const Section& section, const Blank& blank,
                    const BlankSpec& spec, const Part& part) {
        const Length apart =
            surfacesApart(part, finishedThickness(m_document, part, m_thicknesses));
        const Rect& wood = woodOf(blank);
        const Length length = blank.rect.length();
        const Length spare = wood.length() - length;
        const auto metFrom = [&](Length low) {
            return meetingsAt({low, wood.y0, low + length, wood.y1}, board, section, blank, spec,
                              apart);
        };
        // Wood that was cut longer or shorter holds the part from its low end on (turned, from its
        // far end back), or from the other end, or else in its middle.
        Meetings met;
        met.isForbidden = true;
        if (-spare <= spec.partAt) {
            const bool isTurned = blank.pose.endForEnd;
            met = metFrom(isTurned ? wood.x1 - length : wood.x0);
            if (met.isForbidden && spare != Length()) {
                met = metFrom(isTurned ? wood.x0 : wood.x1 - length);
            }
        }
        if (met.isForbidden && spare != Length()) {
            met = metFrom(wood.x0 + spare / 2);
        }
        m_totals.fills += met.fills;
    }

    struct Meetings {
        int fills = 0;
        bool isForbidden = false; ///< something
    };
    [[nodiscard]] Meetings meetingsAt(const Rect& holds, const Board& board, const Section& section,
                                      const Blank& blank, const BlankSpec& spec,
                                      Length apart) const {
        Meetings met;
        // Where wood was cut shorter, the part as planned reaches out of it; no defect counts
        // there.
        const Rect reach = boundingBox(toOuter(section.frame, woodOf(blank)));
        for (const Defect& defect : board.defects) {
            bool fills = false;
            bool forbidden = false;
            const RuleSet* known = nullptr; // most zones of a blank share one
            Rect shadow;
            for (const BlankZone& zone : spec.zones) {
                const RuleSet* rules = findRuleSet(m_document.shop, zone.rules);
                if (!rules) {
                    continue;
                }
                const Ruling ruling = rulingFor(*rules, defect);
                if (ruling == Ruling::Free || forbidden || (fills && ruling == Ruling::Fill)) {
                    continue;
                }
                if (rules != known) {
                    known = rules;
                    shadow = reachOf(*rules, defect);
                }
                if (!shadow.overlaps(reach)) {
                    continue; // most of them: what follows takes far longer
                }
                const Polygon lies = toOuter(section.frame, zoneRect(zone, holds, blank.pose));
                if (!shadow.overlaps(boundingBox(lies))) {
                    continue;
                }
                const BoardFace face = faceOnBoard(zone, blank.pose);
                const std::optional<Polygon> region =
                    judgedRegion(*rules, defect, board, face, apart);
                if (!region) {
                    continue;
                }
                if (overlapsBeyondTolerance(*region, lies)) {
                    (ruling == Ruling::Fill ? fills : forbidden) = true;
                }
            }
            met.fills += fills && !forbidden ? 1 : 0;
            met.isForbidden = met.isForbidden || forbidden;
        }
        return met;
    }

    void countOffcuts(const std::vector<Offcut>& offcuts, const Board& board) {
        const Int128 whole = areaOf(board.outline).inSquareNanometres();
        for (const Offcut& offcut : offcuts) {
            m_offcuts += offcut.rect.area() * board.quarter.nominal();
            if (whole > 0) {
                const Int128 worth = static_cast<Int128>(costOf(board).inTenThousandths()) *
                                     m_document.shop.offcuts.worthPercent *
                                     (offcut.rect.area().inSquareNanometres()) / (whole * 100);
                m_totals.cost -= Money::tenThousandths(static_cast<std::int64_t>(worth));
            }
        }
    }

    void countDemand() {
        for (const BlankSpec& spec : m_specs) {
            m_totals.demanded += spec.staves ? 0 : spec.count;
        }
        for (const BoardLayout& layout : m_plan.boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        const BlankSpec* spec = specOf(m_specs, blank.purpose);
                        m_totals.demanded += spec && spec->staves ? 1 : 0;
                    }
                }
            }
        }
        for (const Unplaced& unplaced : m_plan.unplaced) {
            const BlankSpec* spec = specOf(m_specs, unplaced.purpose);
            m_totals.demanded += spec && spec->staves ? 1 : 0;
        }
    }

    const Document& m_document;
    const Plan& m_plan;
    std::vector<BlankSpec> m_specs;
    Thicknesses m_thicknesses;
    PlanTotals m_totals;
    Volume m_blanks;
    Volume m_parts;
    Volume m_offcuts;
    std::int64_t m_crosscuts = 0;
    std::int64_t m_rips = 0;
    std::map<std::tuple<PartId, int, int>, Length> m_nets; ///< by part, instance, ply
};

} // namespace

Result<PlanTotals> totalsOf(const Document& document, const Plan& plan) {
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    return TotalsCount(document, plan, std::move(specs).value()).count();
}

Result<Plan> changedByHand(const Document& document, Plan plan) {
    plan.origin.source = Origin::Source::Hand;
    plan.origin.proof.reset();
    Result<PlanTotals> totals = totalsOf(document, plan);
    if (!totals) {
        return totals.error();
    }
    plan.totals = totals.value();
    return plan;
}

} // namespace stavewright
