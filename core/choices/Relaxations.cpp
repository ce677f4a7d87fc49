#include "core/choices/Relaxations.h"

#include <algorithm>
#include <array>
#include <optional>
#include <tuple>
#include <utility>

#include "core/choices/EasedRules.h"
#include "core/document/Limits.h"
#include "core/milling/BlankSpec.h"
#include "core/milling/ChainWalk.h"
#include "core/milling/PartZones.h"
#include "core/units/SaidLength.h"

namespace stavewright::choices {

namespace {

/// Work has begun or is held: sizes that were cut cannot be changed any more.
bool isBegun(const Document& document) {
    if (!document.plan) {
        return false;
    }
    for (const BoardLayout& layout : document.plan->boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.state != CutState::Planned) {
                        return true;
                    }
                }
            }
        }
    }
    return false;
}

class Collector {
  public:
    explicit Collector(const Document& document)
        : m_document(document) {
        if (Result<std::vector<BlankSpec>> specs = blankSpecs(document)) {
            m_specs = std::move(specs).value();
        }
    }

    std::vector<Relaxation> collect(std::size_t most) {
        for (const Part& part : m_document.parts) {
            easeLooks(part);
            easeStaves(part);
            if (!isBegun(m_document)) {
                easeThickness(part);
                easeLength(part);
            }
        }
        easeShop();
        easeGroups();
        return inTurns(most);
    }

  private:
    /// One of each sort in turn, so that no sort drowns the others.
    enum Sort { Rules, Looser, Stave, Allowance, Size, Group, sorts };
    struct Rated {
        double worth = 0; ///< guessed
        Relaxation relaxation;
    };

    [[nodiscard]] std::string say(Length length) const {
        return saidLength(length, {m_document.info.units, m_document.info.inchDenominator, true});
    }

    [[nodiscard]] bool isInches() const { return m_document.info.units == UnitSystem::Inches; }

    void add(Sort sort, double worth, std::string words, Edit edit, PartId part = {}) {
        if (worth > 0) {
            m_found[sort].push_back({worth, {std::move(words), std::move(edit), part}});
        }
    }

    std::vector<Relaxation> inTurns(std::size_t most) {
        std::vector<Relaxation> chosen;
        for (std::vector<Rated>& found : m_found) {
            std::stable_sort(found.begin(), found.end(),
                             [](const Rated& a, const Rated& b) { return a.worth > b.worth; });
        }
        for (std::size_t turn = 0; chosen.size() < most; ++turn) {
            bool any = false;
            for (std::vector<Rated>& found : m_found) {
                if (turn < found.size() && chosen.size() < most) {
                    chosen.push_back(std::move(found[turn].relaxation));
                    any = true;
                }
            }
            if (!any) {
                break;
            }
        }
        return chosen;
    }

    /// Rough wood that the part takes, in cubic inches.
    [[nodiscard]] double woodOf(PartId part) const {
        double sum = 0;
        for (const BlankSpec& spec : m_specs) {
            if (spec.part == part) {
                const Length width = spec.staves ? spec.staves->netWanted : spec.width;
                sum += spec.length.toInches() * width.toInches() * spec.thicknessWanted.toInches() *
                       spec.count;
            }
        }
        return sum;
    }

    [[nodiscard]] std::vector<const Board*> boardsFor(const std::string& species) const {
        std::vector<const Board*> boards;
        for (const Board& board : m_document.boards) {
            if (board.species == species && !board.setAside) {
                boards.push_back(&board);
            }
        }
        return boards;
    }

    /// Square inches of defects, on the boards for this part, that `after` lets in and `before` did
    /// not.
    [[nodiscard]] double opened(const Part& part, const RuleSet& before,
                                const RuleSet& after) const {
        double area = 0;
        for (const Board* board : boardsFor(part.species)) {
            for (const Defect& defect : board->defects) {
                if (isLetIn(after, defect) && !isLetIn(before, defect)) {
                    const double size = sizeOf(defect).toInches();
                    area += size * size;
                }
            }
        }
        return area;
    }

    void easeLooks(const Part& part) {
        const std::vector<Zone> zones = zonesOrDefaults(m_document.shop, part);
        for (std::size_t z = 0; z < zones.size(); ++z) {
            const Zone& zone = zones[z];
            const RuleSet* rules = findRuleSet(m_document.shop, zone.rules);
            const bool isLooks =
                zone.role == ZoneRole::ShowFace || zone.role == ZoneRole::HiddenFace;
            if (!rules || !isLooks) {
                continue;
            }
            const std::string where = " on the " + zone.name + " of " + part.mark;
            for (const EasedRules& eased : easedRules(*rules, m_document.info)) {
                add(Rules, woodOf(part.id) * opened(part, *rules, eased.rules), eased.words + where,
                    withRules(m_document, part, z, eased.rules), part.id);
            }
            if (const RuleSet* other = nextLooser(*rules)) {
                add(Looser, woodOf(part.id) * opened(part, *rules, *other),
                    "judging the " + zone.name + " of " + part.mark + " by \"" + other->name + "\"",
                    withRules(m_document, part, z, *other), part.id);
            }
        }
    }

    /// The first of the shop's sets that is looser, with none between; null when there is none.
    [[nodiscard]] const RuleSet* nextLooser(const RuleSet& rules) const {
        const RuleSet* next = nullptr;
        for (const RuleSet& other : m_document.shop.ruleSets) {
            if (isLooser(other, rules) && (next == nullptr || isLooser(*next, other))) {
                next = &other;
            }
        }
        return next;
    }

    void easeStaves(const Part& part) {
        if (!part.makeUp.panel) {
            return;
        }
        const Length step = isInches() ? Length::inches(1, 2) : Length::millimetres(10);
        const PanelMakeUp& panel = *part.makeUp.panel;
        if (panel.leastStave > step * 2) {
            Part changed = part;
            changed.makeUp.panel->leastStave -= step;
            add(Stave, woodOf(part.id),
                "letting staves of " + part.mark + " be " + say(changed.makeUp.panel->leastStave) +
                    " wide, not " + say(panel.leastStave) + " at least",
                Edit{ReplacePart{changed}}, part.id);
        }
        if (panel.mostStaves < limits::staves) {
            Part changed = part;
            ++changed.makeUp.panel->mostStaves;
            add(Stave, woodOf(part.id) * 0.9,
                "allowing " + std::to_string(changed.makeUp.panel->mostStaves) + " staves in " +
                    part.mark + ", one more",
                Edit{ReplacePart{changed}}, part.id);
        }
    }

    void easeThickness(const Part& part) {
        const Result<Length> wanted = resolvedSize(m_document, part, Dimension::Thickness);
        if (!wanted) {
            return;
        }
        const Length step = isInches() ? Length::inches(1, 16) : Length::micrometres(1500);
        const Length least = part.leastThickness.value_or(wanted.value()) - step;
        // Only where the wood on the rack is short of it somewhere.
        const auto boards = boardsFor(part.species);
        const bool isTight = std::any_of(boards.begin(), boards.end(), [&](const Board* board) {
            const Length needed = thicknessToReach(m_document, part, wanted.value());
            const Length warp = board->warp.bow + board->warp.cup + board->warp.twist;
            const Length left = board->thinnest - m_document.shop.cleaning - warp;
            return left < needed && board->thinnest > needed;
        });
        if (least > step * 2 && isTight) {
            Part changed = part;
            changed.leastThickness = least;
            add(Size, woodOf(part.id),
                "letting " + part.mark + " come out " + say(least) +
                    " thick where the wood asks it",
                Edit{ReplacePart{changed}}, part.id);
        }
    }

    void easeLength(const Part& part) {
        const Length step = isInches() ? Length::inches(1, 2) : Length::millimetres(10);
        if (part.length.leans.empty() && part.length.base > step * 8) {
            Part changed = part;
            changed.length.base -= step;
            add(Size, woodOf(part.id) * 0.5, "making " + part.mark + " " + say(step) + " shorter",
                Edit{ReplacePart{changed}}, part.id);
        }
    }

    void easeShop() {
        const Shop& shop = m_document.shop;
        double all = 0;
        double leftOut = 0; // wood of parts that some board is too thick for
        for (const BlankSpec& spec : m_specs) {
            const Part& part = *findPart(m_document, spec.part);
            all += woodOf(part.id);
            const auto boards = boardsFor(part.species);
            leftOut += std::any_of(
                           boards.begin(), boards.end(),
                           [&](const Board* board) { return board->thinnest > spec.thickestRough; })
                           ? woodOf(part.id)
                           : 0;
        }
        const Length quarter = isInches() ? Length::inches(1, 4) : Length::millimetres(6);
        if (shop.mostPlanedAway + quarter <= limits::allowance) {
            Shop changed = shop;
            changed.mostPlanedAway += quarter;
            add(Allowance, leftOut,
                "letting " + say(changed.mostPlanedAway) + " be planed away, not " +
                    say(shop.mostPlanedAway) + " at most",
                Edit{ReplaceShop{changed}});
        }
        if (shop.rawEnd >= quarter * 2) {
            Shop changed = shop;
            changed.rawEnd = shop.rawEnd - quarter;
            add(Allowance, all * 0.5,
                "cutting " + say(changed.rawEnd) + " off a raw board end, not " + say(shop.rawEnd),
                Edit{ReplaceShop{changed}});
        }
        if (!isBegun(m_document)) {
            easeAllowances(all, quarter);
        }
    }

    /// The largest allowance along and across of each chain that the job uses.
    void easeAllowances(double all, Length step) {
        const auto any = [&](const auto& isSo) {
            return std::any_of(m_document.parts.begin(), m_document.parts.end(),
                               [&](const Part& part) { return isSo(part.makeUp); });
        };
        const bool boards = any([](const MakeUp& m) { return !m.panel && !m.lamination; });
        const bool panels = any([](const MakeUp& m) { return m.panel.has_value(); });
        const bool blocks = any([](const MakeUp& m) { return m.lamination.has_value(); });
        const std::tuple<bool, MillingChain Chains::*, const char*> chains[] = {
            {boards, &Chains::oneBoard, "parts from one board"},
            {panels, &Chains::panel, "panels"},
            {panels, &Chains::stave, "staves"},
            {blocks, &Chains::block, "blocks"},
            {blocks, &Chains::ply, "plies"}};
        for (const auto& [isUsed, chain, what] : chains) {
            if (isUsed) {
                const std::string of = std::string(" of ") + what;
                easeLargest(chain, &StageAllowance::along, " in length" + of, all * 0.3, step);
                easeLargest(chain, &StageAllowance::across, " in width" + of, all * 0.2, step / 2);
            }
        }
    }

    void easeLargest(MillingChain Chains::*chain, Length StageAllowance::*side,
                     const std::string& where, double worth, Length step) {
        Shop changed = m_document.shop;
        MillingChain& stages = changed.chains.*chain;
        const auto largest = std::max_element(
            stages.begin(), stages.end(),
            [&](const StageAllowance& a, const StageAllowance& b) { return a.*side < b.*side; });
        if (largest == stages.end() || (*largest).*side < step * 2) {
            return;
        }
        const Length before = (*largest).*side;
        (*largest).*side = before - step;
        add(Allowance, worth,
            "allowing " + say(before - step) + where + ", not " + say(before) + ", to " +
                workOf(largest->stage),
            Edit{ReplaceShop{changed}});
    }

    void easeGroups() {
        for (std::size_t g = 0; g < m_document.groups.size(); ++g) {
            std::vector<MatchGroup> groups = m_document.groups;
            const MatchGroup& group = m_document.groups[g];
            double wood = 0;
            for (const PartId part : group.parts) {
                wood += woodOf(part);
            }
            groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(g));
            add(Group, wood,
                "letting " + (group.name.empty() ? std::string("a match group") : group.name) +
                    " come from several boards",
                Edit{ReplaceGroups{std::move(groups)}});
        }
    }

    const Document& m_document;
    std::vector<BlankSpec> m_specs;
    std::array<std::vector<Rated>, sorts> m_found;
};

} // namespace

std::vector<Relaxation> relaxationsOf(const Document& document, std::size_t most) {
    return Collector(document).collect(most);
}

} // namespace stavewright::choices
