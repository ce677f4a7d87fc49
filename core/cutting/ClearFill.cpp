#include "core/cutting/ClearFill.h"

#include <algorithm>
#include <cassert>
#include <unordered_set>

namespace stavewright::cutting {

namespace {

constexpr std::size_t shares = 256;
/// Of more lengths only those are tried whose section is worth more than all shorter ones.
constexpr std::size_t mostLengths = 500;
/// Of lowering prices; a fraction of a second.
constexpr std::int64_t mostPricingWork = 60'000'000;

} // namespace

ClearFill::ClearFill(const ClearBoard& board, std::vector<Cost> values, std::vector<int> limits,
                     Cost floor)
    : m_board(&board)
    , m_values(std::move(values))
    , m_limits(std::move(limits))
    , m_lowered(m_values.size(), 0)
    , m_floor(floor) {
    assert(m_values.size() == board.items().size());
    for (std::size_t i = 0; i < m_limits.size(); ++i) {
        m_limits[i] = std::clamp(m_limits[i], 0, 255);
        if (m_limits[i] == 0) {
            m_values[i] = 0;
        }
    }
    m_tables.emplace(board, m_values, m_work, m_floor);
    m_bound = std::max(m_tables->value(), m_floor);
}

void ClearFill::chooseItems() {
    m_searched.clear();
    for (std::size_t i = 0; i < m_values.size(); ++i) {
        if (m_values[i] > 0) {
            m_searched.push_back(i);
        }
    }
    if (m_searched.size() > mostItems) {
        m_leftOut = true;
        const auto perCell = [&](std::size_t i) {
            const ClearItem& item = m_board->items()[i];
            return static_cast<double>(m_values[i]) / item.length / item.width;
        };
        std::stable_sort(m_searched.begin(), m_searched.end(),
                         [&](std::size_t a, std::size_t b) { return perCell(a) > perCell(b); });
        m_searched.resize(mostItems);
        std::sort(m_searched.begin(), m_searched.end());
    }
    m_slots.assign(m_values.size(), 0);
    for (std::size_t slot = 0; slot < m_searched.size(); ++slot) {
        m_slots[m_searched[slot]] = slot;
    }
}

void ClearFill::chooseLengths() {
    const std::size_t count = m_board->lengths().size();
    m_opened.clear();
    for (int l = 0; l < static_cast<int>(count); ++l) {
        if (m_tables->isKnown(l)) { // else there is no better pattern with it
            m_opened.push_back(l);
        }
    }
    if (m_opened.size() <= mostLengths) {
        return;
    }
    m_leftOut = true;
    Cost most = 0;
    std::vector<int> kept;
    for (const int l : m_opened) {
        if (m_tables->section(l) > most) {
            most = m_tables->section(l);
            kept.push_back(l);
        }
    }
    m_opened = std::move(kept);
}

Cost ClearFill::worthOf(const ClearPattern& pattern) const {
    Cost worth = -m_board->cutCost(pattern);
    for (const ClearPattern::Section& section : pattern.sections) {
        for (const std::vector<int>& strip : section.strips) {
            for (const int item : strip) {
                worth += m_values[static_cast<std::size_t>(item)];
            }
        }
    }
    return worth;
}

void ClearFill::consider(const ClearPattern& pattern) {
    ClearPattern kept = withinLimits(pattern, m_limits);
    const Cost worth = worthOf(kept);
    if (worth > m_value) {
        m_value = worth;
        m_best = std::move(kept);
    }
}

void ClearFill::lowerPrices(int rounds, const Interrupt& interrupt) {
    std::vector<double> lowered(m_lowered.begin(), m_lowered.end());
    double scale = 1;
    int since = 0;
    for (int round = 0;
         round < rounds && m_work < mostPricingWork && !isProved() && !interrupt.isCalled();
         ++round) {
        std::vector<Cost> prices = m_values;
        std::vector<Cost> cut(m_values.size());
        Cost slack = 0;
        for (std::size_t i = 0; i < prices.size(); ++i) {
            cut[i] = static_cast<Cost>(lowered[i]);
            prices[i] -= cut[i];
            slack += cut[i] * m_limits[i];
        }
        // The first prices are those of the tables there are.
        ClearTables tables = round == 0 ? *m_tables
                                        : ClearTables(*m_board, prices, m_work,
                                                      std::max<Cost>(0, atLeast() - slack));
        const Cost bound = std::max(tables.value() + slack, atLeast());
        const ClearPattern pattern = tables.best();
        consider(pattern);
        if (bound < m_bound) {
            m_bound = bound;
            m_lowered = std::move(cut);
            m_allSlack = slack;
            m_tables = std::move(tables);
            since = 0;
        } else if (++since >= 6) {
            scale /= 2;
            since = 0;
        }
        std::vector<int> excess(m_values.size(), 0);
        for (std::size_t i = 0; i < excess.size(); ++i) {
            excess[i] = -m_limits[i];
        }
        for (const ClearPattern::Section& section : pattern.sections) {
            for (const std::vector<int>& strip : section.strips) {
                for (const int item : strip) {
                    ++excess[static_cast<std::size_t>(item)];
                }
            }
        }
        double norm = 0;
        for (std::size_t i = 0; i < excess.size(); ++i) {
            if (m_values[i] > 0 && (excess[i] > 0 || lowered[i] > 0)) {
                norm += static_cast<double>(excess[i]) * excess[i];
            }
        }
        if (norm <= 0) {
            break;
        }
        const double step = scale * static_cast<double>(bound - m_value) / norm;
        for (std::size_t i = 0; i < excess.size(); ++i) {
            if (m_values[i] > 0) {
                lowered[i] = std::clamp(lowered[i] + step * excess[i], 0.0,
                                        static_cast<double>(m_values[i]));
            }
        }
    }
}

std::size_t ClearFill::shareOf(const Node& node) const {
    const double width = m_board->width();
    double done = node.behind * width;
    if (node.length >= 0) {
        const int length = m_board->lengths()[static_cast<std::size_t>(node.length)];
        done += static_cast<double>(length) * node.across;
        if (node.height >= 0) {
            // Without the last kerf: what is built on never fills less.
            done += static_cast<double>(std::min(node.along, length)) *
                    m_board->heights()[static_cast<std::size_t>(node.height)];
        }
    }
    const double all = static_cast<double>(m_board->length()) * width;
    return std::min(shares - 1, static_cast<std::size_t>(done / all * static_cast<double>(shares)));
}

void ClearFill::offer(Node node) {
    ++m_work;
    Cost bound = node.value + node.slack;
    int behind = node.behind;
    if (node.length >= 0) {
        const int length = m_board->lengths()[static_cast<std::size_t>(node.length)];
        int across = node.across;
        if (node.height >= 0) {
            bound += m_tables->row(node.height, length - node.along);
            across +=
                m_board->heights()[static_cast<std::size_t>(node.height)] + m_board->ripKerf();
            bound += m_tables->strips(node.length, m_board->width() - across);
        } else {
            bound += m_tables->section(node.length);
        }
        behind += length + m_board->crosscutKerf();
    }
    // Whatever comes last may save the end's cut.
    bound += m_tables->sections(m_board->length() - behind) + m_board->highEndSaved();
    if (node.value > m_value && node.height >= 0) {
        m_value = node.value;
        m_bestStep = node.step;
    }
    if (bound <= atLeast()) {
        return;
    }
    node.bound = bound;
    std::vector<Node>& open = m_open[shareOf(node)];
    open.push_back(node);
    const auto worse = [](const Node& a, const Node& b) { return a.bound < b.bound; };
    std::push_heap(open.begin(), open.end(), worse);
    if (open.size() > 3 * m_width + 64) {
        m_leftOut = true;
        const auto keep = static_cast<std::ptrdiff_t>(m_width);
        std::nth_element(open.begin(), open.begin() + keep, open.end(),
                         [](const Node& a, const Node& b) { return a.bound > b.bound; });
        open.resize(static_cast<std::size_t>(keep));
        std::make_heap(open.begin(), open.end(), worse);
    }
}

void ClearFill::addBlank(const Node& node, int step, std::size_t i, bool newStrip) {
    const ClearItem& item = m_board->items()[i];
    const std::size_t slot = m_slots[i];
    if (node.used[slot] >= m_limits[i]) {
        return;
    }
    const int length = m_board->lengths()[static_cast<std::size_t>(node.length)];
    Node next = node;
    Cost trim = 0;
    if (newStrip) {
        if (node.height >= 0) {
            next.across +=
                m_board->heights()[static_cast<std::size_t>(node.height)] + m_board->ripKerf();
        } else {
            next.value -= m_board->ripCost();
        }
        if (next.across + item.width > m_board->width()) {
            return;
        }
        next.value -= m_board->ripCost();
        next.height = item.height;
        next.along = 0;
        next.first = static_cast<int>(i);
    } else if (!m_board->fits(item, node.height, trim)) {
        return;
    }
    if (next.along + item.length > length) {
        return;
    }
    next.value +=
        m_values[i] - trim - (next.along + item.length == length ? 0 : m_board->crosscutCost());
    next.along += item.length + m_board->stripKerf();
    next.slack -= m_lowered[i];
    ++next.used[slot];
    next.last = static_cast<int>(i);
    next.step = {step, static_cast<int>(i), -1, newStrip};
    offer(next);
}

void ClearFill::openSections(const Node& node, int step) {
    const std::vector<int>& lengths = m_board->lengths();
    Node next = node;
    int most = static_cast<int>(lengths.size()) - 1;
    if (node.length >= 0) {
        next.behind += lengths[static_cast<std::size_t>(node.length)] + m_board->crosscutKerf();
        most = node.length; // sections by descending length
    }
    next.height = -1;
    next.across = 0;
    next.along = 0;
    for (const int l : m_opened) {
        if (l > most) {
            break;
        }
        const int end = next.behind + lengths[static_cast<std::size_t>(l)];
        if (end > m_board->length()) {
            break;
        }
        Node opened = next;
        opened.length = l;
        opened.value -= m_board->crosscutCost();
        if (end == m_board->length()) {
            opened.value += m_board->highEndSaved();
        }
        opened.step = {step, -1, l, false};
        offer(opened);
    }
}

void ClearFill::grow(const Node& node) {
    const auto step = static_cast<int>(m_steps.size());
    m_steps.push_back(node.step);
    if (node.length >= 0) {
        // Strips by descending first item.
        for (const std::size_t i : m_searched) {
            if (node.height >= 0 && i >= static_cast<std::size_t>(node.last)) {
                addBlank(node, step, i, false);
            }
            if (node.height < 0 || i >= static_cast<std::size_t>(node.first)) {
                addBlank(node, step, i, true);
            }
        }
    }
    if (node.length < 0 || node.height >= 0) {
        openSections(node, step);
    }
}

void ClearFill::search(std::size_t width, const Interrupt& interrupt) {
    assert(isUsable());
    m_tables->know(atLeast() - m_allSlack);
    m_width = width;
    m_leftOut = false;
    chooseItems();
    chooseLengths();
    m_open.assign(shares, {});
    m_steps.clear();
    m_bestStep.reset();
    std::unordered_set<std::uint64_t> met;
    const auto key = [](const Node& node) {
        std::uint64_t hash = 1469598103934665603ULL;
        const auto mix = [&](std::uint64_t word) {
            hash = (hash ^ word) * 0x9E3779B97F4A7C15ULL;
            hash ^= hash >> 29;
        };
        for (std::size_t i = 0; i < mostItems; i += 8) {
            std::uint64_t word = 0;
            for (std::size_t j = 0; j < 8; ++j) {
                word = word << 8 | node.used[i + j];
            }
            mix(word);
        }
        mix(static_cast<std::uint64_t>(node.behind) << 32 |
            static_cast<std::uint32_t>(node.length));
        mix(static_cast<std::uint64_t>(node.across) << 32 | static_cast<std::uint32_t>(node.along));
        mix(static_cast<std::uint64_t>(node.first) << 32 | static_cast<std::uint32_t>(node.last));
        mix(static_cast<std::uint64_t>(node.value));
        return hash;
    };
    const auto worse = [](const Node& a, const Node& b) { return a.bound < b.bound; };
    Node root;
    root.value = -m_board->lowEndCut();
    root.slack = m_allSlack;
    grow(root);
    for (std::vector<Node>& open : m_open) {
        std::size_t grown = 0;
        while (!open.empty()) {
            if (interrupt.isCalled()) {
                m_leftOut = true;
                break;
            }
            std::pop_heap(open.begin(), open.end(), worse);
            const Node node = open.back();
            open.pop_back();
            if (node.bound <= atLeast()) {
                break;
            }
            if (grown >= width) {
                m_leftOut = true;
                break;
            }
            if (met.insert(key(node)).second) {
                ++grown;
                grow(node);
            }
        }
        std::vector<Node>().swap(open);
    }
    if (m_bestStep) {
        m_best = written(*m_bestStep);
    }
    if (!m_leftOut) {
        m_bound = std::min(m_bound, atLeast());
    }
}

ClearPattern ClearFill::written(const Step& last) const {
    std::vector<Step> steps = {last};
    while (steps.back().previous >= 0) {
        steps.push_back(m_steps[static_cast<std::size_t>(steps.back().previous)]);
    }
    if (steps.back().item < 0 && steps.back().section < 0) {
        steps.pop_back(); // the empty board
    }
    ClearPattern pattern;
    for (auto at = steps.rbegin(); at != steps.rend(); ++at) {
        if (at->item < 0) {
            pattern.sections.push_back(
                {m_board->lengths()[static_cast<std::size_t>(at->section)], {}});
            continue;
        }
        std::vector<std::vector<int>>& strips = pattern.sections.back().strips;
        if (at->newStrip) {
            strips.emplace_back();
        }
        strips.back().push_back(at->item);
    }
    return pattern;
}

} // namespace stavewright::cutting
