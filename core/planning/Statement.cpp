#include "core/planning/Statement.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "core/planning/DefectRuling.h"

namespace stavewright::planning {

namespace {

/// What tells one rule of the problem from another: knots count against looks only on a show face,
/// and defects slant, so the depth of the surface matters.
struct LayerKey {
    RuleSetId rules;
    Length apart;
    bool shows = false;
    friend bool operator<(const LayerKey& a, const LayerKey& b) {
        return std::tie(a.rules.value, a.apart, a.shows) <
               std::tie(b.rules.value, b.apart, b.shows);
    }
};

cutting::Mark markOf(const Anchored& anchored) {
    return {anchored.from == Anchored::From::High, anchored.offset.inNanometres()};
}

std::vector<cutting::Block> blocksOn(const Board& board, BoardFace face, const RuleSet& rules,
                                     const LayerKey& key, const Prices& prices) {
    std::vector<cutting::Block> blocks;
    for (std::size_t i = 0; i < board.defects.size(); ++i) {
        const Defect& defect = board.defects[i];
        const Ruling ruling = rulingFor(rules, defect);
        const bool looks = key.shows && disturbsGrain(defect.kind) && prices.knotOnShow > Money();
        if (ruling == Ruling::Free && !looks) {
            continue;
        }
        std::optional<Polygon> region = judgedRegion(rules, defect, board, face, key.apart);
        if (!region) {
            continue;
        }
        cutting::Block block;
        block.region = std::move(*region);
        block.defect = static_cast<int>(i);
        if (ruling == Ruling::Fill) {
            block.fill = prices.fillEach.inTenThousandths();
            block.isFill = true;
        } else if (ruling == Ruling::Free) {
            block.fill = prices.knotOnShow.inTenThousandths();
        }
        blocks.push_back(std::move(block));
    }
    return blocks;
}

class StatementMaker {
  public:
    StatementMaker(const Document& document, const std::vector<BlankSpec>& specs,
                   const Thicknesses& thicknesses)
        : m_document(document)
        , m_thicknesses(thicknesses) {
        m_statement.specs = specs;
    }

    Statement make() {
        for (const BlankSpec& spec : m_statement.specs) {
            addKind(spec);
        }
        for (const Board& board : m_document.boards) {
            if (!board.setAside && m_materials.count(board.species) > 0) {
                addBoard(board);
            }
        }
        addLimits();
        addPenalties();
        return std::move(m_statement);
    }

  private:
    int materialOf(const std::string& species) {
        return m_materials.emplace(species, static_cast<int>(m_materials.size())).first->second;
    }

    int ruleOf(const LayerKey& key) {
        const auto [found, isNew] = m_rules.emplace(key, static_cast<int>(m_rules.size()));
        if (isNew) {
            m_keys.push_back(key);
        }
        return found->second;
    }

    [[nodiscard]] int groupOf(PartId part) const {
        for (std::size_t g = 0; g < m_document.groups.size(); ++g) {
            const std::vector<PartId>& parts = m_document.groups[g].parts;
            if (std::find(parts.begin(), parts.end(), part) != parts.end()) {
                return static_cast<int>(g);
            }
        }
        return -1;
    }

    void addKind(const BlankSpec& spec) {
        const Part& part = *findPart(m_document, spec.part);
        const Length finished = finishedThickness(m_document, part, m_thicknesses);
        cutting::Kind kind;
        kind.name = part.mark;
        if (spec.ply > 0) {
            kind.name += static_cast<char>('a' + (spec.ply - 1) % 26);
        }
        kind.length = spec.length.inNanometres();
        kind.width = spec.width.inNanometres();
        kind.demand = spec.count;
        kind.thickness = thicknessToReach(m_document, part, finished).inNanometres();
        kind.material = materialOf(part.species);
        kind.group = groupOf(part.id);
        if (spec.staves) {
            kind.isPool = true;
            kind.widest = spec.staves->widestRough.inNanometres();
            kind.step = spec.staves->step.inNanometres();
            kind.jointAllowance = spec.staves->jointAllowance.inNanometres();
            kind.netWanted = spec.staves->netWanted.inNanometres();
            kind.netMost = spec.staves->netMost.inNanometres();
            kind.fewest = spec.staves->fewest;
            kind.most = spec.staves->most;
        }
        const Length apart = surfacesApart(part, finished);
        for (const BlankZone& zone : spec.zones) {
            if (!findRuleSet(m_document.shop, zone.rules)) {
                continue;
            }
            kind.zones.push_back({ruleOf({zone.rules, apart, zone.shows}),
                                  zone.face == BoardFace::B, markOf(zone.along.from),
                                  markOf(zone.along.to), markOf(zone.across.from),
                                  markOf(zone.across.to)});
        }
        m_statement.problem.kinds.push_back(std::move(kind));
    }

    void addBoard(const Board& board) {
        const Shop& shop = m_document.shop;
        cutting::Board made;
        made.name = board.mark;
        made.outline = board.outline;
        made.trimAtDatum = rawEnd(board.trimAtDatum, shop).inNanometres();
        made.trimAtFar = rawEnd(board.trimAtFar, shop).inNanometres();
        made.cost = costOf(board).inTenThousandths();
        made.boardFeetMillionths = boardFeetOf(board).inMillionths();
        made.material = materialOf(board.species);
        made.thinnest = board.thinnest.inNanometres();
        made.bow = board.warp.bow.inNanometres();
        made.cup = board.warp.cup.inNanometres();
        made.twist = board.warp.twist.inNanometres();
        made.warpWhere = static_cast<int>(board.warp.where);
        made.cleaning = shop.cleaning.inNanometres();
        for (const LayerKey& key : m_keys) {
            const RuleSet& rules = *findRuleSet(shop, key.rules);
            made.layers.push_back({blocksOn(board, BoardFace::A, rules, key, shop.prices),
                                   blocksOn(board, BoardFace::B, rules, key, shop.prices)});
        }
        m_statement.problem.boards.push_back(std::move(made));
        m_statement.boards.push_back(board.id);
    }

    void addLimits() {
        const Shop& shop = m_document.shop;
        const Machines& machines = shop.machines;
        cutting::Limits& limits = m_statement.problem.limits;
        limits.crosscutKerf = machines.crosscut.kerf.inNanometres();
        // The engine does not say beforehand which saw rips a section; the wider kerf serves both.
        limits.ripKerf = std::max(machines.rip.kerf, machines.roughRip.kerf).inNanometres();
        limits.stripCrosscutKerf = machines.stripCrosscut.kerf.inNanometres();
        Length facing = machines.jointerWidth;
        if (machines.planerWidth > Length()) {
            facing =
                facing > Length() ? std::min(facing, machines.planerWidth) : machines.planerWidth;
        }
        limits.jointerWidth = facing.inNanometres();
        limits.leastFacedLength =
            std::max(machines.jointerLeastLength, machines.planerLeastLength).inNanometres();
        limits.narrowestRip = machines.narrowestRip.inNanometres();
        limits.crosscutCost = shop.prices.crosscut.inTenThousandths();
        limits.ripCost = shop.prices.rip.inTenThousandths();
        limits.offcutLength = shop.offcuts.leastLength.inNanometres();
        limits.offcutWidth = shop.offcuts.leastWidth.inNanometres();
        limits.offcutWorthPercent = shop.offcuts.worthPercent;
    }

    /// Leaving one blank out must cost more than all the lumber, every fill and every cut together.
    void addPenalties() {
        cutting::Cost all = Money::whole(100).inTenThousandths();
        for (const cutting::Board& board : m_statement.problem.boards) {
            all += board.cost;
        }
        cutting::Cost blanks = 0;
        for (const cutting::Kind& kind : m_statement.problem.kinds) {
            blanks += cutting::Cost{kind.demand} * (kind.isPool ? kind.most : 1);
        }
        const Prices& prices = m_document.shop.prices;
        all += (prices.fillEach + prices.knotOnShow + prices.crosscut * 4 + prices.rip * 4)
                   .inTenThousandths() *
               blanks;
        // However dear the lumber, the sum of all penalties stays far inside 64 bits.
        all = std::min(all,
                       std::int64_t{400'000'000'000'000'000} / std::max<cutting::Cost>(1, blanks));
        for (cutting::Kind& kind : m_statement.problem.kinds) {
            // A panel is missed in proportion to its missing width: each stave weighs like a blank.
            const cutting::Nm net = kind.widest - kind.jointAllowance;
            const cutting::Nm staves = kind.isPool ? (kind.netWanted + net - 1) / net : 1;
            kind.penaltyUnplaced = all * std::max<cutting::Nm>(1, staves);
        }
    }

    const Document& m_document;
    const Thicknesses& m_thicknesses;
    Statement m_statement;
    std::map<std::string, int> m_materials;
    std::map<LayerKey, int> m_rules;
    std::vector<LayerKey> m_keys; ///< by rule
};

} // namespace

Statement state(const Document& document, const std::vector<BlankSpec>& specs,
                const Thicknesses& thicknesses) {
    return StatementMaker(document, specs, thicknesses).make();
}

Length finishedThickness(const Document& document, const Part& part,
                         const Thicknesses& thicknesses) {
    const auto chosen = thicknesses.find(part.id);
    if (chosen != thicknesses.end()) {
        return chosen->second;
    }
    const Result<Length> wanted = resolvedSize(document, part, Dimension::Thickness);
    return wanted ? wanted.value() : Length();
}

Length surfacesApart(const Part& part, Length finished) {
    return part.makeUp.lamination ? finished / part.makeUp.lamination->plies : finished;
}

Length rawEnd(Length marked, const Shop& shop) { return marked == Length() ? shop.rawEnd : marked; }

} // namespace stavewright::planning
