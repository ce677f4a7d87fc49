#include "core/planning/NearestMiss.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "core/geometry/PolygonOps.h"
#include "core/planning/DefectRuling.h"
#include "core/planning/NearestPlace.h"
#include "core/planning/PanelWidth.h"
#include "core/units/SaidLength.h"
#include "core/wood/Species.h"

namespace stavewright::planning {

namespace {

class MissFinder {
  public:
    MissFinder(const Document& document, const Statement& statement, const Plan& plan,
               std::size_t kind, LookingLimits& limits)
        : m_document(document)
        , m_statement(statement)
        , m_plan(plan)
        , m_kind(kind)
        , m_spec(statement.specs[kind])
        , m_part(*findPart(document, m_spec.part))
        , m_thickness(Length::nanometres(statement.problem.kinds[kind].thickness))
        , m_limits(limits) {}

    std::string sentence() {
        if (std::optional<std::string> reason = noBoardAtAll()) {
            return *reason;
        }
        const NearestPlace found = look(m_boards);
        std::string text;
        if (found.place) {
            text = describe(found);
        } else if (found.isComplete) {
            text = tooNarrow(found);
        } else {
            text = "No place for it was found on the first " + lookedAt(found) +
                   "; the search for a reason ended there.";
        }
        return text + onThickerBoard(found);
    }

  private:
    [[nodiscard]] std::string say(Length length) const {
        return saidLength(length, {m_document.info.units, m_document.info.inchDenominator, true});
    }

    /// "board 4 (8/4)".
    [[nodiscard]] static std::string named(const Board& board) {
        return "board " + board.mark + " (" + std::to_string(board.quarter.quarters) + "/4)";
    }

    [[nodiscard]] NearestPlace look(const std::vector<const Board*>& boards) {
        return nearestPlace(m_document, m_statement, m_plan, {m_kind, m_thickness}, boards,
                            m_limits);
    }

    /// Boards fall out by species, thickness in the rough, machine, length and the thickness that
    /// warp leaves, in the order in which a maker would ask; the boards that remain are those worth
    /// searching.
    std::optional<std::string> noBoardAtAll() {
        for (const Board& board : m_document.boards) {
            if (board.species == m_part.species && !board.setAside && !isKeptOff(board.id)) {
                (board.thinnest <= m_spec.thickestRough ? m_boards : m_tooThick).push_back(&board);
            }
        }
        if (m_boards.empty() && m_tooThick.empty()) {
            const Species* species = findSpecies(m_part.species);
            return std::string(m_statement.keptOff.empty() ? "There is no board"
                                                           : "There is no other board") +
                   " of the species " + (species ? std::string(species->name) : m_part.species) +
                   " to cut it from; one of that species would free it.";
        }
        const Machines& machines = m_document.shop.machines;
        for (const auto& [name, capacity] : {std::pair("jointer", machines.jointerWidth),
                                             std::pair("planer", machines.planerWidth)}) {
            if (capacity > Length() && m_spec.width > capacity) {
                return "The blank is " + say(m_spec.width) + " wide, but the " + name + " takes " +
                       say(capacity) + "; made up of staves, it would find room.";
            }
        }
        if (machines.longestBoard > Length() && m_spec.length > machines.longestBoard) {
            return "The blank is " + say(m_spec.length) +
                   " long, but the longest board handled in the shop is " +
                   say(machines.longestBoard) + "; made shorter, it would find room.";
        }
        if (m_boards.empty()) {
            return onlyThickBoards();
        }
        const auto usable = [&](const Board& board) {
            return betweenRawEnds(board, m_document.shop).length();
        };
        const Board& longest =
            **std::max_element(m_boards.begin(), m_boards.end(), [&](const auto* a, const auto* b) {
                return usable(*a) < usable(*b);
            });
        if (usable(longest) < m_spec.length) {
            return "No board is " + say(m_spec.length) +
                   " long between its raw ends: the longest is " + named(longest) + " with " +
                   say(usable(longest)) + ". A board " + say(m_spec.length - usable(longest)) +
                   " longer would free it.";
        }
        return noBoardThickEnough();
    }

    [[nodiscard]] bool isKeptOff(BoardId board) const {
        return std::any_of(m_statement.keptOff.begin(), m_statement.keptOff.end(),
                           [&](const KeptOff& pair) {
                               return pair.part == m_part.id && pair.board == board && !pair.along;
                           });
    }

    [[nodiscard]] std::string planedAway(const Board& board) const {
        const Length over = board.thinnest - m_spec.thickestRough + m_document.shop.mostPlanedAway;
        return say(over) + " would be planed away beyond what its milling needs; the shop allows " +
               say(m_document.shop.mostPlanedAway);
    }

    [[nodiscard]] std::string onlyThickBoards() const {
        const Board& thinnest = **std::min_element(
            m_tooThick.begin(), m_tooThick.end(),
            [](const Board* a, const Board* b) { return a->thinnest < b->thinnest; });
        return "Every board is too thick for it: the thinnest is " + named(thinnest) + ", and " +
               planedAway(thinnest) + ". A thinner board, or a larger allowance, would free it.";
    }

    std::optional<std::string> noBoardThickEnough() {
        const Board* thickest = nullptr;
        Length best;
        std::vector<const Board*> enough;
        for (const Board* board : m_boards) {
            const Length reached = bestThickness(*board);
            if (!thickest || reached > best) {
                thickest = board;
                best = reached;
            }
            if (reached >= m_thickness) {
                enough.push_back(board);
            }
        }
        m_boards = std::move(enough);
        if (!m_boards.empty()) {
            return std::nullopt;
        }
        return "No board reaches " + say(m_thickness) + " in thickness at " + say(m_spec.length) +
               " in length: the best is " + named(*thickest) + " with " + say(best) +
               ". A flatter or thicker board, or a part " + say((m_thickness - best) * plies()) +
               " thinner, would free it.";
    }

    [[nodiscard]] int plies() const {
        return m_part.makeUp.lamination ? m_part.makeUp.lamination->plies : 1;
    }

    /// Of a piece of the blank's own size, at the better end where the warp sits at one of them.
    [[nodiscard]] Length bestThickness(const Board& board) const {
        const Stretch at = betweenRawEnds(board, m_document.shop);
        const Length cleaning = m_document.shop.cleaning;
        if (at.length() < m_spec.length) {
            return {};
        }
        return std::max(
            reachableThickness(board, {at.from, at.from + m_spec.length}, m_spec.width, cleaning),
            reachableThickness(board, {at.to - m_spec.length, at.to}, m_spec.width, cleaning));
    }

    [[nodiscard]] std::string tooNarrow(const NearestPlace& found) const {
        const std::string wanted = "No place " + say(m_spec.width) + " wide and " +
                                   say(m_spec.length) + " long that is thick enough was found";
        if (!found.widestOn) {
            return wanted + ". A flatter or longer board would free it.";
        }
        return wanted + ": the widest is on " + named(*found.widestOn) + " with " +
               say(found.widest) + ". A board " + say(m_spec.width - found.widest) +
               " wider would free it.";
    }

    [[nodiscard]] std::string lookedAt(const NearestPlace& found) const {
        return std::to_string(found.boardsLookedAt) + " of " + std::to_string(m_boards.size()) +
               " boards";
    }

    [[nodiscard]] static std::string whereOf(const Place& place, const std::string& from,
                                             const std::string& to) {
        return "board " + place.board->mark + " from " + from + " to " + to;
    }

    [[nodiscard]] std::string describe(const NearestPlace& found) const {
        const Place& place = *found.place;
        const std::string where = whereOf(place, say(place.along.from), say(place.along.to));
        if (place.hindrances.empty()) {
            return "There is room on " + where +
                   ", but none of the cuts that were tried leads to it; a longer search may find "
                   "one that does.";
        }
        std::string text = found.isComplete ? "Nearest: " + where + ", but "
                                            : "Nearest so far, with " + lookedAt(found) +
                                                  " looked at: " + where + ", but ";
        const Hindrance& worst = *std::max_element(
            place.hindrances.begin(), place.hindrances.end(),
            [](const Hindrance& a, const Hindrance& b) { return a.depth < b.depth; });
        text += worst.defect ? defectIn(worst) : takenBy(worst);
        const std::size_t more = place.hindrances.size() - 1;
        if (more > 0) {
            text += " The same place has " + std::to_string(more) + " more in the way.";
        }
        return text;
    }

    [[nodiscard]] std::string defectIn(const Hindrance& hindrance) const {
        const Defect& defect = *hindrance.defect;
        const RuleSet& rules = *findRuleSet(m_document.shop, hindrance.zone->rules);
        const DefectRule& rule = rules.ruleFor(defect.kind);
        std::string text(nameOf(defect.kind));
        if (!defect.mark.empty()) {
            text += ' ' + defect.mark;
        }
        const bool isTooLarge = rule.verdict != Verdict::Forbidden && rule.largest;
        if (isTooLarge) {
            text += ", " + say(sizeOf(defect)) + " large,";
        }
        if (disturbsGrain(defect.kind) && rules.halo != Halo{}) {
            text += " with the grain it disturbs";
        }
        text += " lies in its " + hindrance.zone->name + ", " + say(hindrance.depth) +
                " short of clear wood along the grain. ";
        if (isTooLarge) {
            return text + "Up to " + say(*rule.largest) +
                   " is allowed there; rules that allow more would free the place.";
        }
        return text + "None is allowed there; rules that allow one would free the place.";
    }

    [[nodiscard]] std::string takenBy(const Hindrance& hindrance) const {
        const Blank& taker = *hindrance.taker;
        const std::string label = labelOf(m_document, taker.purpose);
        const std::string text = label + " takes " + say(hindrance.depth) + " of that length. ";
        if (taker.state != CutState::Planned) {
            return text + "It is cut already, so only another board would free a place.";
        }
        return text + (taker.locked ? "Unlocking " + label + " and planning again may free it."
                                    : "Another board for " + label + " would free the place.");
    }

    /// Where a board that is too thick for it has the room that the others lack.
    std::string onThickerBoard(const NearestPlace& found) {
        if (m_tooThick.empty() || (found.place && found.place->hindrances.empty())) {
            return {};
        }
        const NearestPlace thicker = look(m_tooThick);
        if (!thicker.place || !thicker.place->hindrances.empty()) {
            return {};
        }
        const Board& board = *thicker.place->board;
        return " On " + named(board) + " there is room, but " + planedAway(board) + ".";
    }

    const Document& m_document;
    const Statement& m_statement;
    const Plan& m_plan;
    std::size_t m_kind;
    const BlankSpec& m_spec;
    const Part& m_part;
    Length m_thickness;
    LookingLimits& m_limits;
    std::vector<const Board*> m_boards;
    std::vector<const Board*> m_tooThick; ///< for what the shop lets be planed away
};

/// The kind of the statement that an unplaced piece belongs to; kinds of one part and ply differ in
/// nothing that matters here.
std::optional<std::size_t> kindOf(const Statement& statement, const BlankPurpose& purpose) {
    for (std::size_t k = 0; k < statement.specs.size(); ++k) {
        if (statement.specs[k].part == purpose.part && statement.specs[k].ply == purpose.ply) {
            return k;
        }
    }
    return std::nullopt;
}

} // namespace

void explainUnplaced(const Document& document, const Statement& statement, Plan& plan,
                     const ExplainLimits& limits) {
    std::map<std::size_t, std::string> reasons;
    for (const Unplaced& unplaced : plan.unplaced) {
        if (const std::optional<std::size_t> kind = kindOf(statement, unplaced.purpose)) {
            reasons[*kind] = {};
        }
    }
    const cutting::Interrupt interrupt(limits.stop, limits.seconds);
    std::int64_t left = limits.steps;
    auto open = static_cast<std::int64_t>(reasons.size());
    for (auto& [kind, reason] : reasons) {
        // An equal share for each; what one leaves over goes to the next.
        LookingLimits share{left / open, &interrupt};
        const std::int64_t given = share.steps;
        reason = MissFinder(document, statement, plan, kind, share).sentence();
        left = std::max<std::int64_t>(1, left - (given - share.steps));
        --open;
    }
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
    for (Unplaced& unplaced : plan.unplaced) {
        const std::optional<std::size_t> kind = kindOf(statement, unplaced.purpose);
        if (!kind) {
            continue;
        }
        unplaced.nearestMiss = reasons[*kind];
        const BlankSpec& spec = statement.specs[*kind];
        if (!spec.staves) {
            continue;
        }
        const Length missing =
            spec.staves->netWanted - netWidthOf(plan, *spec.staves, wholeOf(unplaced.purpose));
        if (missing > Length()) {
            unplaced.nearestMiss =
                "The staves are " + saidLength(missing, style) + " short of the panel's " +
                saidLength(spec.staves->netWanted, style) + ". " + reasons[*kind];
        }
    }
}

} // namespace stavewright::planning
