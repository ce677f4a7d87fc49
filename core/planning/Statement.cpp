#include "core/planning/Statement.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "core/planning/DefectRuling.h"
#include "core/planning/Kept.h"
#include "core/planning/PanelWidth.h"

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

/// The shop's prices as they are weighed.
struct Pricing {
    cutting::Cost fillEach = 0, knotOnShow = 0, crosscut = 0, rip = 0;
    cutting::Cost knotShown = 0; ///< on top, allowed or filled
};

Pricing weighed(const Prices& prices, const Weights& weights) {
    // Where lumber alone counts, the rest still tells plans apart that use the same boards.
    constexpr cutting::Cost nextToNothing = 50;
    const cutting::Cost divisor = weights.lumberAlone ? nextToNothing : 1;
    return {prices.fillEach.inTenThousandths() / divisor,
            prices.knotOnShow.inTenThousandths() / divisor,
            prices.crosscut.inTenThousandths() * weights.cutsTimes / divisor,
            prices.rip.inTenThousandths() * weights.cutsTimes / divisor,
            weights.knotShown.inTenThousandths()};
}

/// Rough width of staves when a panel gets `count` of one width: on the coarsest mark of a rule
/// that the panel's slack allows. Nothing where it leaves the pool's limits.
std::optional<Length> equalWidth(const StavePool& pool, int count) {
    if (count < std::max(1, pool.fewest) || count > pool.most) {
        return std::nullopt;
    }
    const std::int64_t least = (pool.netWanted.inNanometres() + count - 1) / count;
    for (const std::int64_t parts : {1, 2, 4, 8}) {
        const std::int64_t mark = std::max<std::int64_t>(1, pool.step.inNanometres() / parts);
        const Length rough = Length::nanometres(
            (least + pool.jointAllowance.inNanometres() + mark - 1) / mark * mark);
        if ((rough - pool.jointAllowance) * count <= pool.netMost) {
            const bool fits = rough >= pool.leastRough && rough <= pool.widestRough;
            return fits ? std::optional(rough) : std::nullopt;
        }
    }
    return std::nullopt;
}

cutting::Mark markOf(const Anchored& anchored) {
    return {anchored.from == Anchored::From::High, anchored.offset.inNanometres()};
}

std::vector<cutting::Block> blocksOn(const Board& board, BoardFace face, const RuleSet& rules,
                                     const LayerKey& key, const Pricing& pricing) {
    std::vector<cutting::Block> blocks;
    for (std::size_t i = 0; i < board.defects.size(); ++i) {
        const Defect& defect = board.defects[i];
        const Ruling ruling = rulingFor(rules, defect);
        const bool shows = key.shows && disturbsGrain(defect.kind);
        const bool looks = shows && pricing.knotOnShow + pricing.knotShown > 0;
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
            block.fill = pricing.fillEach + (shows ? pricing.knotShown : 0);
            block.isFill = true;
        } else if (ruling == Ruling::Free) {
            block.fill = pricing.knotOnShow + pricing.knotShown;
        }
        blocks.push_back(std::move(block));
    }
    return blocks;
}

/// The material of a kind that may come from no board of the rack, whatever its species.
constexpr int ofNoBoard = -1;

class StatementMaker {
  public:
    StatementMaker(const Document& document, const std::vector<BlankSpec>& specs,
                   const Thicknesses& thicknesses, const Kept& kept, const Steering& steering)
        : m_document(document)
        , m_specs(specs)
        , m_thicknesses(thicknesses)
        , m_steering(steering)
        , m_pricing(weighed(document.shop.prices, steering.weights)) {
        m_statement.kept = kept;
    }

    Statement make() {
        readKept();
        for (const BlankSpec& spec : m_specs) {
            addKinds(spec);
        }
        for (const Board& board : m_document.boards) {
            if (layoutKeptOn(board.id) ||
                (!board.setAside && m_materials.count(board.species) > 0)) {
                addBoard(board);
            }
        }
        addFixed();
        keepOff();
        addLimits();
        addPenalties();
        return std::move(m_statement);
    }

  private:
    int materialOf(const std::string& species) {
        return m_materials.emplace(species, static_cast<int>(m_materials.size())).first->second;
    }

    [[nodiscard]] bool isTooLongToHandle(const BlankSpec& spec) const {
        const Length longest = m_document.shop.machines.longestBoard;
        return longest > Length() && spec.length > longest;
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

    [[nodiscard]] const BoardLayout* layoutKeptOn(BoardId board) const {
        for (const BoardLayout& layout : m_statement.kept.boards) {
            if (layout.board == board) {
                return &layout;
            }
        }
        return nullptr;
    }

    template <class Visit>
    void forEachKept(const Visit& visit) const {
        for (const BoardLayout& layout : m_statement.kept.boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        visit(layout, section, blank);
                    }
                }
            }
        }
    }

    /// What each blank or panel has already.
    void readKept() {
        forEachKept([&](const BoardLayout&, const Section&, const Blank& blank) {
            WantedPiece& piece = m_begun[wholeOf(blank.purpose)];
            const BlankSpec* spec = specOf(m_specs, blank.purpose);
            if (piece.keptStaves.insert(blank.purpose.stave).second && spec && spec->staves) {
                piece.keptNet += netWidthOf(blank, *spec->staves);
            }
        });
    }

    /// Kept blanks count in the demand of their kind and are fixed; panels that kept staves have
    /// begun get kinds of their own, so that the engine fills up the right one.
    void addKinds(const BlankSpec& spec) {
        std::vector<WantedPiece> untouched;
        std::vector<WantedPiece> begun;
        for (int number = 0; number < spec.count; ++number) {
            const auto found = m_begun.find(purposeOf(spec, number));
            if (found == m_begun.end()) {
                untouched.push_back({number});
            } else {
                begun.push_back(found->second);
                begun.back().number = number;
            }
        }
        if (!spec.staves) {
            const int demand = static_cast<int>(untouched.size() + begun.size());
            for (const WantedPiece& piece : begun) {
                m_kindOf[purposeOf(spec, piece.number)] = m_statement.specs.size();
            }
            addKind(spec, demand, std::move(untouched));
            return;
        }
        if (!untouched.empty()) {
            const int demand = static_cast<int>(untouched.size());
            addKind(spec, demand, std::move(untouched));
            makeEqual(spec, m_statement.problem.kinds.back());
        }
        for (const WantedPiece& piece : begun) {
            m_kindOf[purposeOf(spec, piece.number)] = m_statement.specs.size();
            addKind(spec, 1, {piece});
        }
    }

    void makeEqual(const BlankSpec& spec, cutting::Kind& kind) const {
        const auto wish = m_steering.weights.equalStaves.find(spec.part);
        if (wish == m_steering.weights.equalStaves.end()) {
            return;
        }
        if (const std::optional<Length> width = equalWidth(*spec.staves, wish->second)) {
            kind.width = kind.widest = width->inNanometres();
            kind.fewest = kind.most = wish->second;
        }
    }

    void addKind(const BlankSpec& spec, int demand, std::vector<WantedPiece> pieces) {
        m_statement.specs.push_back(spec);
        m_statement.pieces.push_back(std::move(pieces));
        const Part& part = *findPart(m_document, spec.part);
        const Length finished = finishedThickness(m_document, part, m_thicknesses);
        cutting::Kind kind;
        kind.name = part.mark;
        if (spec.ply > 0) {
            kind.name += static_cast<char>('a' + (spec.ply - 1) % 26);
        }
        kind.length = spec.length.inNanometres();
        kind.width = spec.width.inNanometres();
        kind.demand = demand;
        kind.thickness = thicknessToReach(m_document, part, finished).inNanometres();
        kind.thickest = spec.thickestRough.inNanometres();
        kind.material = isTooLongToHandle(spec) ? ofNoBoard : materialOf(part.species);
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
        std::vector<int> rules;
        for (const BlankZone& zone : spec.zones) {
            if (!findRuleSet(m_document.shop, zone.rules)) {
                rules.push_back(-1);
                continue;
            }
            rules.push_back(ruleOf({zone.rules, apart, zone.shows}));
            kind.zones.push_back({rules.back(), zone.face == BoardFace::B, markOf(zone.along.from),
                                  markOf(zone.along.to), markOf(zone.across.from),
                                  markOf(zone.across.to)});
        }
        m_statement.zoneRules.push_back(std::move(rules));
        m_statement.problem.kinds.push_back(std::move(kind));
    }

    /// Of a board foot on the rack; at least a cent, so that lumber counts where it is free.
    [[nodiscard]] Money averagePrice() const {
        Money cost;
        BoardFeet amount;
        for (const Board& board : m_document.boards) {
            cost += costOf(board);
            amount += boardFeetOf(board);
        }
        if (amount.inMillionths() <= 0) {
            return Money::cents(1);
        }
        const Int128 each =
            static_cast<Int128>(cost.inTenThousandths()) * 1'000'000 / amount.inMillionths();
        return std::max(Money::cents(1), Money::tenThousandths(static_cast<std::int64_t>(each)));
    }

    void addBoard(const Board& board) {
        const Shop& shop = m_document.shop;
        cutting::Board made;
        made.name = board.mark;
        made.outline = board.outline;
        made.trimAtDatum = rawEnd(board.trimAtDatum, shop).inNanometres();
        made.trimAtFar = rawEnd(board.trimAtFar, shop).inNanometres();
        made.boardFeetMillionths = boardFeetOf(board).inMillionths();
        made.cost = m_steering.weights.lumberAlone
                        ? priceOf(averagePrice(), boardFeetOf(board)).inTenThousandths()
                        : costOf(board).inTenThousandths();
        made.material = materialOf(board.species);
        made.thinnest = board.thinnest.inNanometres();
        made.bow = board.warp.bow.inNanometres();
        made.cup = board.warp.cup.inNanometres();
        made.twist = board.warp.twist.inNanometres();
        made.warpWhere = static_cast<int>(board.warp.where);
        made.cleaning = shop.cleaning.inNanometres();
        for (const LayerKey& key : m_keys) {
            const RuleSet& rules = *findRuleSet(shop, key.rules);
            made.layers.push_back({blocksOn(board, BoardFace::A, rules, key, m_pricing),
                                   blocksOn(board, BoardFace::B, rules, key, m_pricing)});
        }
        m_statement.problem.boards.push_back(std::move(made));
        m_statement.boards.push_back(board.id);
    }

    /// A kind that nobody wants, for wood that is kept without being a blank the job asks for.
    int keptWood() {
        if (m_keptWood < 0) {
            m_keptWood = static_cast<int>(m_statement.specs.size());
            cutting::Kind kind = m_statement.problem.kinds.front();
            kind.name = "kept";
            kind.isPool = false;
            kind.demand = 0;
            kind.group = -1;
            kind.zones.clear();
            m_statement.problem.kinds.push_back(std::move(kind));
            m_statement.specs.push_back(m_statement.specs.front());
            m_statement.pieces.emplace_back();
            m_statement.zoneRules.emplace_back(m_statement.specs.back().zones.size(), -1);
        }
        return m_keptWood;
    }

    /// A kept blank is fixed with the whole stretch of its section, because no new section may be
    /// cut there. Nothing more is cut from a board that is locked or set aside.
    void addFixed() {
        if (m_specs.empty()) {
            return;
        }
        std::set<BlankPurpose> counted;
        for (const BoardLayout& layout : m_statement.kept.boards) {
            const Board& board = *findBoard(m_document, layout.board);
            const int at = static_cast<int>(
                std::find(m_statement.boards.begin(), m_statement.boards.end(), layout.board) -
                m_statement.boards.begin());
            const auto fix = [&](int kind, Stretch along, Length width) {
                m_statement.problem.fixed.push_back(
                    {at, kind, {along.from, Length(), along.to, width}});
            };
            if (layout.locked || board.setAside) {
                const Rect box = boundingBox(board.outline);
                fix(keptWood(), {box.x0, box.x1}, box.width());
            }
            for (const Section& section : layout.sections) {
                fix(keptWood(), section.along, boundingBox(board.outline).width());
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        const auto kind = m_kindOf.find(wholeOf(blank.purpose));
                        if (kind != m_kindOf.end() && counted.insert(blank.purpose).second) {
                            fix(static_cast<int>(kind->second), section.along,
                                woodOf(blank).width());
                        }
                    }
                }
            }
        }
    }

    /// What the caller and the job's rules keep off: for each part a rule of the problem of its
    /// own, which forbids it those boards or stretches.
    void keepOff() {
        m_statement.keptOff = m_steering.keptOff;
        for (const BoardRule& rule : m_document.boardRules) {
            for (const Part& part : m_document.parts) {
                if (rule.bars(part.id)) {
                    m_statement.keptOff.push_back({part.id, rule.board, rule.along});
                }
            }
        }
        std::map<PartId, int> layers;
        for (const KeptOff& pair : m_statement.keptOff) {
            const auto at =
                std::find(m_statement.boards.begin(), m_statement.boards.end(), pair.board);
            if (at == m_statement.boards.end()) {
                continue;
            }
            const int last = static_cast<int>(m_statement.problem.boards.front().layers.size());
            const auto [layer, isNew] = layers.emplace(pair.part, last);
            if (isNew) {
                addKeepingLayer(pair.part, layer->second);
            }
            cutting::Board& board =
                m_statement.problem
                    .boards[static_cast<std::size_t>(at - m_statement.boards.begin())];
            Polygon region = board.outline;
            if (pair.along) {
                Rect box = boundingBox(board.outline);
                box.x0 = std::max(box.x0, pair.along->from);
                box.x1 = std::min(box.x1, pair.along->to);
                if (box.isEmpty()) {
                    continue;
                }
                region = polygonOf(box);
            }
            cutting::RuleLayer& kept = board.layers[static_cast<std::size_t>(layer->second)];
            kept.onA.push_back({region, std::nullopt, false, -1});
            kept.onB.push_back({std::move(region), std::nullopt, false, -1});
        }
    }

    void addKeepingLayer(PartId part, int rule) {
        for (cutting::Board& board : m_statement.problem.boards) {
            board.layers.emplace_back();
        }
        for (std::size_t k = 0; k < m_statement.specs.size(); ++k) {
            if (m_statement.specs[k].part != part || m_keptWood == static_cast<int>(k)) {
                continue;
            }
            for (const bool onB : {false, true}) { // alike, so that no more poses are told apart
                m_statement.problem.kinds[k].zones.push_back(
                    {rule, onB, {false, 0}, {true, 0}, {false, 0}, {true, 0}});
            }
        }
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
        limits.crosscutCost = m_pricing.crosscut;
        limits.ripCost = m_pricing.rip;
        limits.groupApart = shop.prices.groupApart.inTenThousandths();
        limits.offcutLength = shop.offcuts.leastLength.inNanometres();
        limits.offcutWidth = shop.offcuts.leastWidth.inNanometres();
        limits.offcutWorthPercent = m_steering.weights.lumberAlone ? 0 : shop.offcuts.worthPercent;
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
        all += (m_pricing.fillEach + m_pricing.knotOnShow + m_pricing.knotShown +
                m_pricing.crosscut * 4 + m_pricing.rip * 4 +
                m_document.shop.prices.groupApart.inTenThousandths()) *
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
    const std::vector<BlankSpec>& m_specs;
    const Thicknesses& m_thicknesses;
    const Steering& m_steering;
    Pricing m_pricing;
    Statement m_statement;
    std::map<BlankPurpose, WantedPiece> m_begun;
    std::map<BlankPurpose, std::size_t> m_kindOf; ///< of the blanks and panels that are begun
    int m_keptWood = -1;
    std::map<std::string, int> m_materials;
    std::map<LayerKey, int> m_rules;
    std::vector<LayerKey> m_keys; ///< by rule
};

} // namespace

Statement state(const Document& document, const std::vector<BlankSpec>& specs,
                const Thicknesses& thicknesses, const Kept& kept, const Steering& steering) {
    return StatementMaker(document, specs, thicknesses, kept, steering).make();
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
