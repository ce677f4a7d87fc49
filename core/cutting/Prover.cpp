#include "core/cutting/Prover.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Into ranges of sections of one board, at most.
constexpr int looksPerBoard = 6'000;
/// The first time fewer, the more boards there are, so that many boards too have a bound soon: so
/// many by the power 3/2 of their number, and no more than so many together unless they are few.
/// Then twice as many each time: what was seen is remembered, and a bound that comes too late is
/// none. They are given out in so many passes; fewer than so many for a board are not worth the
/// while.
constexpr double looksAtFirst = 21'000;
constexpr double looksTogether = 3'000;
constexpr double fewBoards = 24;
constexpr int passesOfLooks = 3;
constexpr int fewestLooks = 20;
/// Bytes for going on at the same prices, of all boards; where there are more than so many, less by
/// as much, since what else is kept of them grows with their number.
constexpr double mostKept = 512e6;
constexpr double boardsKept = 60;
/// How near a board's bound shall come to what is known of it, in parts of it.
constexpr Cost partsNear = 1024;
constexpr Cost partsNearAtFirst = 64;
/// To a mix it is all one how far a board falls short of its price. For a choice of whole boards it
/// is not, but so much below, in parts of the price, is enough for those that it leaves out.
constexpr Cost partsBelowPrice = 16;
/// The first prices are so much lower than those of the patterns, in parts of them.
constexpr Cost partsBelowKnown = 20;
/// How near the mix shall come to what is proved, in parts of it.
constexpr double mixNear = 0.004;
/// What a round must gain at least for another one to be worth its time.
constexpr double leastRaise = 0.001;
/// Rounds in a row that gain less, before the rest is left as it is.
constexpr int mostVain = 1;
/// So near to what can be told, in parts of the bound, or with so few looks for each board, a round
/// is quick; and so many of them at most.
constexpr Cost partsTold = 200;
constexpr double fewLooks = 100;
constexpr int mostQuick = 4;
/// And farther than this it needs more looks before other prices, or plans, gain much.
constexpr Cost partsFar = 40;
/// A choice of whole boards needs a closer look only where the proof lacks so much of its cost.
constexpr double choiceNear = 0.001;
/// Nodes that the bound with whole boards may take.
constexpr int nodesOfBound = 2'000;
/// Choices of whole boards that are looked at for one round.
constexpr std::size_t choicesPerRound = 16;
/// Their prices speak of few boards and are far off for the rest; nearer by they say less of that
/// one choice, but more of others, and the boards are known better there.
constexpr int tenthsOfChoiceToCentre = 5;
/// Of these, asked at most: plans are looked for between.
constexpr int choicesAsked = 2;
/// Of the way from the mix's duals to the best prices so far.
constexpr int tenthsToCentre = 7;

bool isIn(const std::vector<std::size_t>& boards, std::size_t board) {
    return std::find(boards.begin(), boards.end(), board) != boards.end();
}

} // namespace

Prover::Prover(const Context& context, const Accounts& accounts,
               const std::vector<const BoardModel*>& models, int threads)
    : m_context(&context)
    , m_accounts(&accounts)
    , m_models(models)
    , m_threads(threads)
    , m_boards(models.size())
    , m_known(models.size())
    , m_master(context, models.size(), accounts.demand())
    , m_jobBound(context, accounts, models) {}

void Prover::add(Column column, bool possible) {
    Known& known = m_known[column.board];
    m_master.add(0, column);
    if (possible) {
        known.columns.insert(known.columns.begin() + static_cast<std::ptrdiff_t>(known.possible++),
                             std::move(column));
    } else {
        known.columns.push_back(std::move(column));
    }
}

void Prover::beginBelow(const Values& values) {
    // The bounds say more of a board than its patterns do: at prices at which these just pay, the
    // bounds would say that every board pays.
    m_centre = values;
    for (std::vector<Cost>* prices : {&m_centre.each, &m_centre.perMetre}) {
        for (Cost& price : *prices) {
            price -= price / partsBelowKnown;
        }
    }
}

void Prover::learn(const Column& column) { add(column, true); }

Cost Prover::worthKnown(std::size_t board, const Values& prices, bool possible) const {
    const Known& known = m_known[board];
    Cost best = 0;
    for (std::size_t i = 0; i < (possible ? known.possible : known.columns.size()); ++i) {
        const Column& column = known.columns[i];
        best = std::max(best, worthOf(*m_context->problem, column.yield, prices) -
                                  (column.cost - m_models[board]->price()));
    }
    return best;
}

bool Prover::lookAt(const Values& prices, std::vector<Asked>& asked,
                    const std::vector<std::size_t>& boards, const Interrupt& interrupt) {
    return runItems(
        boards.size(), m_threads,
        [&](std::size_t i) {
            const std::size_t b = boards[i];
            if (m_boards[b] == nullptr) {
                m_boards[b] = std::make_unique<BoardBound>(*m_context, *m_models[b], &interrupt);
            }
            if (interrupt.isCalled()) {
                m_boards[b].reset(); // it may be half made
                return;
            }
            Asked& board = asked[b];
            const Cost most = m_boards[b]->most(prices, board.goal, interrupt, board.work);
            if (!interrupt.isCalled()) {
                board.most = most;
                board.looks = m_boards[b]->looks();
                board.isKnown = true;
            }
        },
        interrupt);
}

bool Prover::look(const Values& prices, std::vector<Asked>& asked, const Interrupt& interrupt) {
    std::vector<std::size_t> boards(asked.size());
    std::iota(boards.begin(), boards.end(), std::size_t{0});
    const auto count = static_cast<double>(asked.size());
    const double atFirst = std::min(looksAtFirst / std::pow(count, 1.5),
                                    looksTogether / count * std::max(1.0, fewBoards / count));
    const double each = std::ldexp(atFirst, std::min(m_asks++, 30));
    m_looksEach = each;
    if (each >= looksPerBoard) {
        for (Asked& board : asked) {
            board.goal.looks = looksPerBoard;
        }
        return lookAt(prices, asked, boards, interrupt);
    }
    // All boards share so many looks. Most boards need few; what these leave goes to the others, by
    // what each still lacks.
    double left = count * each;
    for (Asked& board : asked) {
        board.goal.looks = static_cast<int>(left / (2 * count));
        board.goal.mostKept =
            static_cast<std::size_t>(mostKept / count * std::min(1.0, boardsKept / count));
    }
    for (int pass = 1;; ++pass) {
        if (!lookAt(prices, asked, boards, interrupt)) {
            return false;
        }
        double lacking = 0;
        for (const std::size_t b : boards) {
            left -= asked[b].looks;
            lacking += static_cast<double>(asked[b].lacks());
        }
        const double now = pass + 1 < passesOfLooks ? left / 2 : left;
        std::erase_if(boards, [&](std::size_t b) {
            Asked& board = asked[b];
            const bool isSettled = board.looks < board.goal.looks;
            board.goal.looks =
                static_cast<int>(now * static_cast<double>(board.lacks()) / std::max(1.0, lacking));
            return isSettled || board.goal.looks < fewestLooks;
        });
        if (boards.empty() || pass == passesOfLooks) {
            return true;
        }
    }
}

bool Prover::ask(const Values& prices, const std::vector<std::size_t>& whole,
                 const OnChain& onChain, const Interrupt& interrupt, std::int64_t& work) {
    const std::size_t count = m_models.size();
    std::vector<Asked> asked(count);
    for (std::size_t b = 0; b < count; ++b) {
        const Cost price = m_models[b]->price();
        const Cost known = worthKnown(b, prices, false);
        // Of a board that is taken whole it counts too how far it falls short of its price.
        const bool isWhole = isIn(whole, b);
        asked[b].paysFrom = isWhole ? 0 : whole.empty() ? price : price - price / partsBelowPrice;
        const Cost near = known / (m_bound ? partsNear : partsNearAtFirst);
        asked[b].goal.enough = std::max(asked[b].paysFrom, known + near);
    }
    if (m_mostAt == prices) {
        for (std::size_t b = 0; b < count; ++b) {
            asked[b].most = m_most[b];
            asked[b].isKnown = true;
        }
    }
    const bool looked = look(prices, asked, interrupt);
    // Where it was cut off, what was found by then is a bound already.
    if (std::all_of(asked.begin(), asked.end(), [](const Asked& a) { return a.isKnown; })) {
        conclude(prices, asked, whole.empty());
    }
    if (!looked) {
        return false;
    }
    std::vector<std::vector<Column>> met(count); // chains, then patterns
    std::vector<std::size_t> chains(count, 0);
    const bool done = runItems(
        count, m_threads,
        [&](std::size_t b) {
            const Cost most = asked[b].most;
            if (m_boards[b] == nullptr || most <= asked[b].paysFrom) {
                return;
            }
            BoundChain chain;
            if (asked[b].lacks() > 0) {
                chain = m_boards[b]->restsOn(interrupt, asked[b].work);
            }
            if (interrupt.isCalled()) {
                return;
            }
            if (!chain.sections.empty() && chain.isWorkedOut) {
                Column column;
                column.board = b;
                column.yield = m_accounts->yieldOf({});
                for (const BoundSection& section : chain.sections) {
                    for (const BoundStrip& strip : section.strips) {
                        for (const BoundBlank& blank : strip.blanks) {
                            m_accounts->addBlank(column.yield, blank.kind, blank.width);
                        }
                    }
                }
                // Whatever is not its blanks is what it costs.
                column.cost = m_models[b]->price() +
                              worthOf(*m_context->problem, column.yield, prices) - most;
                met[b].push_back(std::move(column));
                chains[b] = 1;
            }
            // Known or not: what can be cut falls short of it. Of the boards that a choice leaves
            // out patterns at its prices are of little use.
            const Cost possible = worthKnown(b, prices, true);
            if ((whole.empty() || isIn(whole, b)) && most > possible + possible / partsNear) {
                for (Column& made : onChain(b, prices, *m_boards[b], chain, asked[b].work)) {
                    met[b].push_back(std::move(made));
                }
            }
        },
        interrupt);
    if (!done) {
        return false;
    }
    for (std::size_t b = 0; b < count; ++b) {
        work += asked[b].work;
        for (std::size_t i = 0; i < met[b].size(); ++i) {
            add(std::move(met[b][i]), i >= chains[b]);
            m_isNew = true;
        }
    }
    if (!whole.empty()) {
        return true;
    }
    // What the bounds rest on is known now.
    m_lacks = 0;
    for (std::size_t b = 0; b < count; ++b) {
        m_lacks += std::max<Cost>(
            0, asked[b].most - std::max(asked[b].goal.enough, worthKnown(b, prices, false)));
    }
    return true;
}

void Prover::conclude(const Values& prices, const std::vector<Asked>& asked, bool isLinear) {
    std::vector<Cost> most;
    most.reserve(asked.size());
    for (const Asked& board : asked) {
        most.push_back(board.most);
    }
    // Prices of a choice of whole boards are not gone on at.
    if (isLinear) {
        m_most = most;
        m_mostAt = prices;
    }
    m_jobBound.add(prices, std::move(most));
    if (m_jobBound.newest() > m_centreBound) {
        m_centre = m_jobBound.newestPrices();
        m_centreBound = m_jobBound.newest();
    }
    m_bound = std::max(m_bound, m_jobBound.linear());
}

void Prover::leavePrices() {
    for (const auto& board : m_boards) {
        if (board != nullptr) {
            board->leavePrices();
        }
    }
}

bool Prover::raise(int rounds, const OnChain& onChain, const Interrupt& interrupt,
                   std::int64_t& work) {
    const bool done = raiseLinear(rounds, onChain, interrupt, work);
    if (!isFarFromTold()) { // else it goes on at the same ones
        leavePrices();
    }
    return done;
}

bool Prover::raiseLinear(int rounds, const OnChain& onChain, const Interrupt& interrupt,
                         std::int64_t& work) {
    int pull = tenthsToCentre;
    int vain = 0;
    for (int slow = 0, quick = 0; slow < rounds && quick < mostQuick;) {
        if (interrupt.isCalled()) {
            return false;
        }
        if (!m_master.solve()) {
            return true;
        }
        const double mix = m_master.value() + static_cast<double>(m_jobBound.paid());
        if (m_centreBound > 0 && mix - static_cast<double>(m_centreBound) < mixNear * mix) {
            return true;
        }
        // Until a bound is near what its prices can prove, other prices tell little, and ranges
        // known under these need not be looked into again.
        const bool keepsPrices = m_asks == 0 || (isFarFromTold() && vain == 0);
        const Values& kept = m_mostAt ? *m_mostAt : m_centre;
        const Cost before = m_centreBound;
        m_isNew = false;
        const Values prices =
            m_jobBound.allowed(keepsPrices ? kept : between(m_master.values(), m_centre, pull));
        if (!ask(prices, {}, onChain, interrupt, work)) {
            return false;
        }
        if (!isFarFromTold()) {
            leavePrices();
        }
        // Where the next round is cut off, this one shall have told all it can.
        static_cast<void>(proveWhole(interrupt));
        if (!m_isNew && pull == 0) {
            return true;
        }
        // Prices that prove no more still show what the mix may not rest on.
        const auto raised = static_cast<double>(m_centreBound - before);
        const bool isVain = before > 0 && raised < leastRaise * static_cast<double>(before);
        vain = isVain ? vain + 1 : 0;
        if (vain > mostVain) {
            return true;
        }
        pull = m_isNew ? tenthsToCentre : 0;
        const bool wasQuick = m_looksEach < fewLooks || m_lacks < m_centreBound / partsTold;
        ++(wasQuick ? quick : slow);
    }
    return true;
}

bool Prover::isFarFromTold() const { return m_lacks > m_centreBound / partsFar; }

std::vector<Prover::Choice> Prover::choicesToAsk(const Interrupt& interrupt) const {
    // By what is known of the boards, and only then by what is proved.
    JobBound guess = m_jobBound;
    std::vector<Choice> choices;
    while (choices.size() < choicesPerRound) {
        const JobBound::Whole whole = guess.whole(nodesOfBound, interrupt);
        if (interrupt.isCalled()) {
            return {};
        }
        // Leaving something out need not cost much more than the boards do: the prices of a
        // choice that gives too little say the more of other choices.
        Master mix(*m_context, m_models.size(), m_accounts->demand(), &m_centre);
        Cost paid = m_jobBound.paid();
        for (const std::size_t b : whole.boards) {
            paid += m_models[b]->price();
            for (Column column : m_known[b].columns) {
                column.cost -= m_models[b]->price();
                mix.add(0, column);
            }
        }
        if (!mix.solve()) {
            break;
        }
        const double value = mix.value() + static_cast<double>(paid);
        if (value - static_cast<double>(whole.least) < choiceNear * value) {
            break;
        }
        // The same choice again needs prices that are nearer to its own.
        const auto before = std::count_if(choices.begin(), choices.end(), [&](const Choice& asked) {
            return asked.boards == whole.boards;
        });
        const int tenths = tenthsOfChoiceToCentre >> std::min<std::ptrdiff_t>(before, 8);
        Values prices = m_jobBound.allowed(between(mix.values(), m_centre, tenths));
        std::vector<Cost> most;
        for (std::size_t b = 0; b < m_models.size(); ++b) {
            most.push_back(worthKnown(b, prices, false));
        }
        guess.add(prices, most);
        choices.push_back({std::move(prices), std::move(most), whole.boards});
    }
    return choices;
}

JobBound::Whole Prover::proveWhole(const Interrupt& interrupt) {
    JobBound::Whole whole = m_jobBound.whole(nodesOfBound, interrupt);
    if (!interrupt.isCalled()) {
        m_bound = std::max(m_bound, std::optional(whole.least));
    }
    return whole;
}

bool Prover::raiseWhole(int rounds, const OnChain& onChain, const Interrupt& interrupt,
                        std::int64_t& work) {
    for (int round = 0; round < rounds && m_bound; ++round) {
        std::vector<Choice> choices = choicesToAsk(interrupt);
        if (interrupt.isCalled()) {
            return false;
        }
        if (choices.empty()) {
            return true;
        }
        // Always the prices that promise most for the choice on which the bound rests.
        JobBound::Whole whole = proveWhole(interrupt);
        for (int asked = 0; asked < choicesAsked && !choices.empty(); ++asked) {
            if (interrupt.isCalled()) {
                return false;
            }
            const auto promise = [&](const Choice& choice) {
                return m_jobBound.ofChoice(choice.prices, choice.most, whole.boards);
            };
            const auto best = std::max_element(
                choices.begin(), choices.end(),
                [&](const Choice& a, const Choice& b) { return promise(a) < promise(b); });
            if (static_cast<double>(promise(*best) - whole.least) <
                choiceNear * static_cast<double>(whole.least)) {
                break;
            }
            const Choice choice = std::move(*best);
            choices.erase(best);
            const bool done = ask(choice.prices, whole.boards, onChain, interrupt, work);
            leavePrices();
            if (!done) {
                return false;
            }
            whole = proveWhole(interrupt);
        }
    }
    return !interrupt.isCalled();
}

} // namespace stavewright::cutting
