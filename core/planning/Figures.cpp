#include "core/planning/Figures.h"

#include <algorithm>
#include <set>

#include "core/geometry/PolygonOps.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/planning/Statement.h"

namespace stavewright {

using namespace planning;

namespace {

/// How one defect stands to one blank.
struct Meeting {
    bool onShow = false;      ///< it lies in a show face
    bool countsLooks = false; ///< it does, is allowed there and not filled
};

class LooksCount {
  public:
    LooksCount(const Document& document, const Plan& plan)
        : m_document(document)
        , m_plan(plan) {
        if (Result<std::vector<BlankSpec>> specs = blankSpecs(document)) {
            m_specs = std::move(specs).value();
        }
        for (const ThicknessChoice& choice : plan.thicknesses) {
            m_thicknesses[choice.part] = choice.finished;
        }
    }

    void count() {
        for (const BoardLayout& layout : m_plan.boards) {
            const Board* board = findBoard(m_document, layout.board);
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (board) {
                            count(*board, section, blank);
                        }
                    }
                }
            }
        }
    }

    int onShow = 0;
    int countingLooks = 0;

  private:
    void count(const Board& board, const Section& section, const Blank& blank) {
        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        const Part* part = findPart(m_document, blank.purpose.part);
        if (!spec || !part) {
            return;
        }
        const Length apart =
            surfacesApart(*part, finishedThickness(m_document, *part, m_thicknesses));
        const Rect reach = boundingBox(toOuter(section.frame, blank.rect));
        for (const Defect& defect : board.defects) {
            if (disturbsGrain(defect.kind)) {
                const Meeting met = meet(board, section, blank, *spec, apart, defect, reach);
                onShow += met.onShow ? 1 : 0;
                countingLooks += met.countsLooks ? 1 : 0;
            }
        }
    }

    [[nodiscard]] Meeting meet(const Board& board, const Section& section, const Blank& blank,
                               const BlankSpec& spec, Length apart, const Defect& defect,
                               const Rect& reach) const {
        Meeting met;
        bool fills = false;
        for (const BlankZone& zone : spec.zones) {
            const RuleSet* rules = findRuleSet(m_document.shop, zone.rules);
            if (!rules) {
                continue;
            }
            const std::optional<Polygon> region =
                judgedRegion(*rules, defect, board, faceOnBoard(zone, blank.pose), apart);
            if (!region || !boundingBox(*region).overlaps(reach) ||
                !overlapsBeyondTolerance(
                    *region, toOuter(section.frame, zoneRect(zone, blank.rect, blank.pose)))) {
                continue;
            }
            const Ruling ruling = rulingFor(*rules, defect);
            if (ruling == Ruling::Forbidden) {
                return {}; // a plan with it is no plan
            }
            fills = fills || ruling == Ruling::Fill;
            met.onShow = met.onShow || zone.shows;
            met.countsLooks = met.countsLooks || (zone.shows && ruling == Ruling::Free);
        }
        met.countsLooks = met.countsLooks && !fills;
        return met;
    }

    const Document& m_document;
    const Plan& m_plan;
    std::vector<BlankSpec> m_specs;
    Thicknesses m_thicknesses;
};

int boardsTooMany(const Document& document, const Plan& plan) {
    int sum = 0;
    for (const MatchGroup& group : document.groups) {
        int boards = 0;
        for (const BoardLayout& layout : plan.boards) {
            bool holds = false;
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    holds = holds ||
                            std::any_of(
                                strip.blanks.begin(), strip.blanks.end(), [&](const Blank& blank) {
                                    return std::find(group.parts.begin(), group.parts.end(),
                                                     blank.purpose.part) != group.parts.end();
                                });
                }
            }
            boards += holds ? 1 : 0;
        }
        sum += std::max(0, boards - 1);
    }
    return sum;
}

} // namespace

SetUps setUpsOf(const Plan& plan) {
    std::set<Length> rips;
    std::set<Length> roughRips;
    std::set<Length> stops;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                bool isOpen = strip.blanks.empty();
                for (const Blank& blank : strip.blanks) {
                    if (blank.state != CutState::Planned) {
                        continue;
                    }
                    isOpen = true;
                    if (blank.rect.width() < strip.across.length()) {
                        rips.insert(blank.rect.width());
                    }
                    // Flush with both crosscuts of its section, it comes off the first saw.
                    if (!section.frame.isParallel() ||
                        blank.rect.length() != section.along.length()) {
                        stops.insert(blank.rect.length());
                    }
                }
                if (isOpen) {
                    (section.facing == FirstFacing::Whole ? rips : roughRips)
                        .insert(strip.across.length());
                }
            }
        }
    }
    return {static_cast<int>(rips.size()), static_cast<int>(roughRips.size()),
            static_cast<int>(stops.size())};
}

Money groupsApart(const Document& document, const Plan& plan) {
    return document.shop.prices.groupApart * boardsTooMany(document, plan);
}

PlanFigures figuresOf(const Document& document, const Plan& plan) {
    LooksCount looks(document, plan);
    looks.count();
    PlanFigures figures;
    figures.missing = static_cast<int>(plan.unplaced.size());
    figures.cost = plan.totals.cost;
    figures.lumber = plan.totals.lumberUsed;
    figures.boards = plan.totals.boardsUsed;
    figures.knotsOnShow = looks.onShow;
    figures.boardsTooMany = boardsTooMany(document, plan);
    figures.counted = figures.cost + document.shop.prices.knotOnShow * looks.countingLooks +
                      document.shop.prices.groupApart * figures.boardsTooMany;
    figures.setUps = setUpsOf(plan);
    return figures;
}

Money countedFor(const Document& document, const Plan& plan) {
    return figuresOf(document, plan).counted;
}

} // namespace stavewright
