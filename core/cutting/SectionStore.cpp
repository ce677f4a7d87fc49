#include "core/cutting/SectionStore.h"

#include <algorithm>
#include <numeric>

#include "core/cutting/CutCost.h"

namespace stavewright::cutting {

namespace {

/// Chains pursued side by side.
constexpr std::size_t mostLabels = 8;
/// Sections kept of one board; the first ones met stay.
constexpr std::size_t mostSections = 2'000;

} // namespace

SectionStore::SectionStore(const Context& context, const Accounts& accounts,
                           std::vector<const BoardModel*> models)
    : m_context(&context)
    , m_accounts(&accounts)
    , m_models(std::move(models))
    , m_kinds(context.problem->kinds.size())
    , m_boards(m_models.size()) {}

bool SectionStore::isAsGood(const Stored& a, const Stored& b) {
    if (a.section.x0 < b.section.x0 || a.section.x1 > b.section.x1 || a.cost > b.cost) {
        return false;
    }
    for (std::size_t k = 0; k < a.yield.size(); ++k) {
        if (a.yield[k] < b.yield[k] || a.staves[k] > b.staves[k]) {
            return false;
        }
    }
    return true;
}

bool SectionStore::add(const Pattern& pattern) {
    const auto b = static_cast<std::size_t>(pattern.board);
    Board& board = m_boards[b];
    bool changed = false;
    for (const PlacedSection& section : pattern.sections) {
        const Pattern alone{pattern.board, {section}};
        Demand yield = m_accounts->yieldOf(alone);
        const CutCost cost = patternCost(*m_context, *m_models[b], alone);
        Stored stored{section,
                      std::move(yield.open),
                      std::move(yield.staves),
                      {},
                      cost.total + cost.offcutsWorth};
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                const Kind& kind = m_context->problem->kinds[static_cast<std::size_t>(placed.kind)];
                if (kind.isPool) {
                    stored.nets.emplace_back(placed.kind, placed.rect.width().inNanometres() -
                                                              kind.jointAllowance);
                }
            }
        }
        const bool isKnown =
            std::any_of(board.sections.begin(), board.sections.end(),
                        [&](const Stored& other) { return isAsGood(other, stored); });
        if (isKnown) {
            continue;
        }
        std::erase_if(board.sections, [&](const Stored& other) { return isAsGood(stored, other); });
        if (board.sections.size() < mostSections) {
            board.sections.push_back(std::move(stored));
        }
        changed = true;
    }
    if (!changed) {
        return false;
    }
    arrange(board);
    return true;
}

void SectionStore::arrange(Board& board) const {
    const auto sorted = [&](const auto& key) {
        std::vector<std::uint32_t> order(board.sections.size());
        std::iota(order.begin(), order.end(), 0U);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::uint32_t i, std::uint32_t j) { return key(i) < key(j); });
        return order;
    };
    const std::vector<std::uint32_t> byBegin =
        sorted([&](std::uint32_t i) { return board.sections[i].section.x0; });
    board.lean.clear();
    board.gifts.clear();
    for (const std::uint32_t index : byBegin) {
        const Stored& stored = board.sections[index];
        const auto first = static_cast<std::uint32_t>(board.gifts.size());
        for (std::size_t k = 0; k < m_kinds; ++k) {
            if (stored.yield[k] > 0) {
                board.gifts.push_back({static_cast<std::uint32_t>(k), stored.yield[k],
                                       static_cast<double>(stored.staves[k])});
            }
        }
        board.lean.push_back({static_cast<double>(stored.cost), first,
                              static_cast<std::uint32_t>(board.gifts.size()), index});
    }
    const auto sectionAt = [&](std::uint32_t place) -> const PlacedSection& {
        return board.sections[byBegin[place]].section;
    };
    board.byEnd = sorted([&](std::uint32_t place) { return sectionAt(place).x1; });
    const Nm kerf = m_context->problem->limits.crosscutKerf;
    std::uint32_t next = 0;
    for (const std::uint32_t place : board.byEnd) {
        while (next < byBegin.size() && sectionAt(next).x0 < sectionAt(place).x1 + kerf) {
            ++next;
        }
        board.lean[place].next = next;
    }
}

double SectionStore::gainOf(const Board& board, const Lean& section, const Wish& wish,
                            const std::int64_t* made) {
    double gain = -section.cost;
    for (std::uint32_t g = section.firstGift; g < section.lastGift; ++g) {
        const Gift& gift = board.gifts[g];
        const std::int64_t left = wish.open[gift.kind] - made[gift.kind];
        if (left > 0) {
            gain += wish.worth[gift.kind] * static_cast<double>(std::min(gift.amount, left)) +
                    wish.perStave[gift.kind] * gift.staves;
        }
    }
    return gain;
}

void SectionStore::addGifts(const Board& board, const Lean& section, std::int64_t* made) {
    for (std::uint32_t g = section.firstGift; g < section.lastGift; ++g) {
        made[board.gifts[g].kind] += board.gifts[g].amount;
    }
}

void SectionStore::lookOnward(const Board& board, const Wish& wish, Scratch& scratch) const {
    scratch.made.assign(m_kinds, 0);
    scratch.alone.resize(board.lean.size());
    scratch.onward.assign(board.lean.size() + 1, 0);
    for (std::size_t at = board.lean.size(); at-- > 0;) {
        const Lean& section = board.lean[at];
        const double alone = gainOf(board, section, wish, scratch.made.data());
        scratch.alone[at] = alone;
        scratch.onward[at] = std::max(scratch.onward[at + 1], alone + scratch.onward[section.next]);
    }
    scratch.steps += static_cast<std::int64_t>(board.lean.size());
}

SectionChain SectionStore::unlimited(const Board& board, const Wish& wish, Scratch& scratch) const {
    SectionChain chain;
    for (std::size_t at = 0; at < board.lean.size() && scratch.onward[at] > 0;) {
        if (scratch.onward[at] == scratch.onward[at + 1]) {
            ++at;
            continue;
        }
        const Lean& section = board.lean[at];
        const double gain = gainOf(board, section, wish, scratch.made.data());
        if (gain > 0) { // else it would be made too often
            chain.value += gain;
            chain.sections.push_back(section.section);
            addGifts(board, section, scratch.made.data());
        }
        at = section.next;
    }
    return chain;
}

SectionChain SectionStore::best(std::size_t b, const Wish& wish, Scratch& scratch) const {
    const Board& board = m_boards[b];
    lookOnward(board, wish, scratch);
    SectionChain chain = unlimited(board, wish, scratch);
    if (chain.value >= scratch.onward.front()) {
        return chain; // nothing in it is made too often
    }
    auto& labels = scratch.labels;
    auto& yields = scratch.yields;
    auto& front = scratch.front;
    labels.assign(1, {0, 0, -1});
    yields.assign(m_kinds, 0);
    front.assign(1, 0);
    auto& firstOf = scratch.firstOf; // by place; its labels stand side by side
    auto& lastOf = scratch.lastOf;
    firstOf.assign(board.lean.size(), 0);
    lastOf.assign(board.lean.size(), 0);
    std::size_t ended = 0;
    const auto yieldsAt = [&](std::int32_t label) {
        return yields.data() + static_cast<std::size_t>(label) * m_kinds;
    };
    const auto admit = [&](std::int32_t label) {
        const double value = labels[static_cast<std::size_t>(label)].value;
        std::size_t at = 0;
        while (at < front.size() && labels[static_cast<std::size_t>(front[at])].value > value) {
            ++at;
        }
        // Equal ones in everything add nothing.
        const bool isTwin =
            at < front.size() && labels[static_cast<std::size_t>(front[at])].value == value &&
            std::equal(yieldsAt(label), yieldsAt(label) + m_kinds, yieldsAt(front[at]));
        if (at < mostLabels && !isTwin) {
            front.insert(front.begin() + static_cast<std::ptrdiff_t>(at), label);
            front.resize(std::min(front.size(), mostLabels));
        }
    };
    double most = chain.value; // what cannot come to more is not pursued
    std::int32_t mostBy = -1;
    for (std::size_t place = 0; place < board.lean.size(); ++place) {
        const Lean& section = board.lean[place];
        // Chains that have ended by now.
        for (; ended < board.byEnd.size() && board.lean[board.byEnd[ended]].next <= place;
             ++ended) {
            const std::uint32_t done = board.byEnd[ended];
            for (std::int32_t label = firstOf[done]; label < lastOf[done]; ++label) {
                admit(label);
            }
        }
        const double onward = scratch.onward[section.next];
        const double alone = scratch.alone[place];
        const auto valueOf = [&](std::int32_t label) {
            return labels[static_cast<std::size_t>(label)].value;
        };
        // Without anything to give that is wanted, or too little.
        if (alone <= 0 || valueOf(front.front()) + alone + onward <= most) {
            continue;
        }
        firstOf[place] = static_cast<std::int32_t>(labels.size());
        for (const std::int32_t before : front) {
            if (valueOf(before) + alone + onward <= most) {
                break;
            }
            ++scratch.steps;
            const double gain = gainOf(board, section, wish, yieldsAt(before));
            const double value = valueOf(before) + gain;
            if (gain <= 0 || value + onward <= most) {
                continue;
            }
            const std::size_t from = yields.size();
            if (value > most) {
                most = value;
                mostBy = static_cast<std::int32_t>(labels.size());
            }
            labels.push_back({value, static_cast<std::uint32_t>(place), before});
            yields.resize(from + m_kinds);
            std::copy_n(yieldsAt(before), m_kinds, yields.data() + from);
            addGifts(board, section, yields.data() + from);
        }
        lastOf[place] = static_cast<std::int32_t>(labels.size());
    }
    if (mostBy < 0) {
        return chain;
    }
    chain = {most, {}};
    for (std::int32_t l = mostBy; l > 0; l = labels[static_cast<std::size_t>(l)].before) {
        chain.sections.push_back(board.lean[labels[static_cast<std::size_t>(l)].place].section);
    }
    std::reverse(chain.sections.begin(), chain.sections.end());
    return chain;
}

std::vector<std::int64_t> SectionStore::yieldOf(std::size_t board,
                                                const std::vector<std::uint32_t>& sections) const {
    std::vector<std::int64_t> yield(m_kinds, 0);
    for (const std::uint32_t section : sections) {
        for (std::size_t k = 0; k < m_kinds; ++k) {
            yield[k] += m_boards[board].sections[section].yield[k];
        }
    }
    return yield;
}

Cost SectionStore::costOf(std::size_t board, const std::vector<std::uint32_t>& sections) const {
    Cost cost = 0;
    for (const std::uint32_t section : sections) {
        cost += m_boards[board].sections[section].cost;
    }
    return cost;
}

void SectionStore::addNets(std::size_t board, const std::vector<std::uint32_t>& sections,
                           std::size_t pool, std::vector<Nm>& nets) const {
    for (const std::uint32_t section : sections) {
        for (const auto& [kind, net] : m_boards[board].sections[section].nets) {
            if (kind == pool) {
                nets.push_back(net);
            }
        }
    }
}

Pattern SectionStore::patternOf(std::size_t board,
                                const std::vector<std::uint32_t>& sections) const {
    Pattern pattern{static_cast<int>(board), {}};
    for (const std::uint32_t section : sections) {
        pattern.sections.push_back(m_boards[board].sections[section].section);
    }
    return pattern;
}

} // namespace stavewright::cutting
