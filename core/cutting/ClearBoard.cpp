#include "core/cutting/ClearBoard.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/cutting/Facing.h"

namespace stavewright::cutting {

namespace {

constexpr Nm mostUnits = 10'000;
/// Cells of the strips' table that are kept for others to look at.
constexpr std::size_t mostKept = 16'000'000;
constexpr Cost never = std::numeric_limits<Cost>::min() / 4;
constexpr Cost unknown = -1;

} // namespace

std::optional<ClearBoard> ClearBoard::of(const Context& context, const BoardModel& model) {
    ClearBoard board(context, model);
    if (!board.isTrue() || !board.read()) {
        return std::nullopt;
    }
    return board;
}

bool ClearBoard::isTrue() const {
    const Board& board = m_model->board();
    const bool clear =
        std::all_of(board.layers.begin(), board.layers.end(),
                    [](const RuleLayer& layer) { return layer.onA.empty() && layer.onB.empty(); });
    if (!clear || m_model->freeStretches().size() != 1) {
        return false;
    }
    const Nm begin = m_model->freeStretches()[0].from.inNanometres();
    const Nm end = m_model->freeStretches()[0].to.inNanometres();
    const EdgeChain& low = m_model->nearEdge();
    const EdgeChain& high = m_model->farEdge();
    if (low.lowest(begin, end) != low.highest(begin, end) ||
        high.lowest(begin, end) != high.highest(begin, end)) {
        return false;
    }
    const SectionShape shape(*m_model, begin, end);
    const Facing facing(*m_context, *m_model, shape);
    for (std::size_t k = 0; k < m_context->problem->kinds.size(); ++k) {
        const Kind& kind = m_context->problem->kinds[k];
        const bool wanted = suits(kind, board) && kind.demand > 0 && kind.length <= end - begin &&
                            kind.width <= shape.vTop();
        if (wanted && (kind.isPool || !facing.whole(k) ||
                       kind.length < m_context->problem->limits.leastFacedLength)) {
            return false;
        }
    }
    return true;
}

bool ClearBoard::read() {
    const Problem& problem = *m_context->problem;
    const Limits& limits = problem.limits;
    const Stretch& stretch = m_model->freeStretches()[0];
    m_begin = stretch.from.inNanometres();
    const Nm length = stretch.length().inNanometres();
    const SectionShape shape(*m_model, m_begin, m_begin + length);
    m_unitAlong = std::gcd(limits.crosscutKerf, limits.stripCrosscutKerf);
    m_unitAcross = std::gcd(limits.ripKerf, limits.narrowestRip);
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        if (suits(kind, m_model->board()) && kind.demand > 0 && kind.length <= length &&
            kind.width <= shape.vTop() && kind.width >= limits.narrowestRip) {
            m_items.push_back({static_cast<int>(k), 0, 0, 0});
            m_unitAlong = std::gcd(m_unitAlong, kind.length);
            m_unitAcross = std::gcd(m_unitAcross, kind.width);
        }
    }
    if (m_items.empty() || m_unitAlong <= 0 || m_unitAcross <= 0 ||
        length / m_unitAlong > mostUnits || shape.vTop() / m_unitAcross > mostUnits) {
        return false;
    }
    // A rest of less than a unit is of no use, but it keeps the end of the board from being flush.
    m_length = static_cast<int>(length / m_unitAlong);
    m_width = static_cast<int>(shape.vTop() / m_unitAcross);
    m_crosscutKerf = static_cast<int>(limits.crosscutKerf / m_unitAlong);
    m_stripKerf = static_cast<int>(limits.stripCrosscutKerf / m_unitAlong);
    m_ripKerf = static_cast<int>(limits.ripKerf / m_unitAcross);
    m_narrowestRip = static_cast<int>(limits.narrowestRip / m_unitAcross);
    // Sections lie one behind the other from an end of the board that needs no cut, if there is
    // one; where both are, a board filled to the end saves one more.
    const bool lowFree = m_begin == m_model->size().xBegin;
    const bool highFree = m_begin + length == m_model->size().xEnd;
    m_fromHighEnd = highFree && !lowFree;
    m_end = m_begin + length;
    m_lowEndCut = lowFree || highFree ? 0 : limits.crosscutCost;
    m_highEndSaved = lowFree && highFree && length % m_unitAlong == 0 ? limits.crosscutCost : 0;
    for (ClearItem& item : m_items) {
        const Kind& kind = problem.kinds[static_cast<std::size_t>(item.kind)];
        item.length = static_cast<int>(kind.length / m_unitAlong);
        item.width = static_cast<int>(kind.width / m_unitAcross);
    }
    std::stable_sort(m_items.begin(), m_items.end(), [](const ClearItem& a, const ClearItem& b) {
        return a.width != b.width ? a.width > b.width : a.length > b.length;
    });
    for (ClearItem& item : m_items) {
        if (m_heights.empty() || m_heights.back() != item.width) {
            m_heights.push_back(item.width);
        }
        item.height = static_cast<int>(m_heights.size()) - 1;
    }
    std::vector<bool> reached(static_cast<std::size_t>(m_length + m_stripKerf) + 1, false);
    reached[0] = true;
    for (std::size_t at = 0; at < reached.size(); ++at) {
        for (const ClearItem& item : m_items) {
            const std::size_t next = at + static_cast<std::size_t>(item.length + m_stripKerf);
            if (reached[at] && next < reached.size()) {
                reached[next] = true;
            }
        }
        if (reached[at] && at > 0) {
            m_lengths.push_back(static_cast<int>(at) - m_stripKerf);
        }
    }
    return true;
}

bool ClearBoard::fits(const ClearItem& item, int height, Cost& trim) const {
    const int spare = m_heights[static_cast<std::size_t>(height)] - item.width;
    trim = spare > 0 ? ripCost() : 0;
    return spare == 0 || (spare > 0 && spare >= m_ripKerf);
}

Pattern ClearBoard::cut(const ClearPattern& pattern) const {
    Pattern made;
    made.board = m_model->index();
    Nm x0 = m_begin;
    if (m_fromHighEnd) {
        x0 = m_end + m_crosscutKerf * m_unitAlong;
        for (const ClearPattern::Section& section : pattern.sections) {
            x0 -= (section.length + m_crosscutKerf) * m_unitAlong;
        }
    }
    for (const ClearPattern::Section& section : pattern.sections) {
        PlacedSection placed;
        placed.x0 = x0;
        placed.x1 = x0 + section.length * m_unitAlong;
        placed.frame = SectionShape(*m_model, placed.x0, placed.x1).frame();
        Nm v0 = 0;
        for (const std::vector<int>& row : section.strips) {
            PlacedStrip strip;
            strip.v0 = v0;
            Nm u0 = 0;
            for (const int index : row) {
                const ClearItem& item = m_items[static_cast<std::size_t>(index)];
                const Nm v1 = v0 + item.width * m_unitAcross;
                const Nm u1 = u0 + item.length * m_unitAlong;
                Placed blank;
                blank.kind = item.kind;
                blank.rect = {Length::nanometres(u0), Length::nanometres(v0),
                              Length::nanometres(u1), Length::nanometres(v1)};
                strip.v1 = std::max(strip.v1, v1);
                strip.blanks.push_back(blank);
                u0 = u1 + m_stripKerf * m_unitAlong;
            }
            v0 = strip.v1 + m_ripKerf * m_unitAcross;
            placed.strips.push_back(std::move(strip));
        }
        x0 = placed.x1 + m_crosscutKerf * m_unitAlong;
        made.sections.push_back(std::move(placed));
    }
    return made;
}

Cost ClearBoard::cutCost(const ClearPattern& pattern) const {
    if (pattern.sections.empty()) {
        return 0;
    }
    Cost cost = m_lowEndCut;
    int end = -m_crosscutKerf;
    for (const ClearPattern::Section& section : pattern.sections) {
        end += m_crosscutKerf + section.length;
        cost += crosscutCost() + ripCost();
        for (const std::vector<int>& strip : section.strips) {
            cost += ripCost();
            const int height = m_items[static_cast<std::size_t>(strip.front())].height;
            int along = -m_stripKerf;
            for (const int index : strip) {
                const ClearItem& item = m_items[static_cast<std::size_t>(index)];
                Cost trim = 0;
                (void)fits(item, height, trim);
                cost += trim + crosscutCost();
                along += m_stripKerf + item.length;
            }
            cost -= along == section.length ? crosscutCost() : 0;
        }
    }
    return cost - (end == m_length ? m_highEndSaved : 0);
}

ClearPattern withinLimits(ClearPattern pattern, std::vector<int> limits) {
    for (ClearPattern::Section& section : pattern.sections) {
        for (std::vector<int>& strip : section.strips) {
            std::erase_if(strip,
                          [&](int item) { return limits[static_cast<std::size_t>(item)]-- <= 0; });
        }
        std::erase_if(section.strips, [](const auto& strip) { return strip.empty(); });
    }
    std::erase_if(pattern.sections, [](const auto& section) { return section.strips.empty(); });
    return pattern;
}

ClearTables::ClearTables(const ClearBoard& board, std::vector<Cost> prices, std::int64_t& work,
                         Cost floor)
    : m_board(&board)
    , m_prices(std::move(prices))
    , m_along(static_cast<std::size_t>(board.length()) + 1)
    , m_across(static_cast<std::size_t>(board.width()) + 1) {
    fillRows();
    fillStripWorths();
    fillSections(floor);
    work += m_steps / 8; // steps of a loop without branches
}

void ClearTables::addToRow(std::size_t item, Cost trim, Cost* exact) {
    const ClearItem& added = m_board->items()[item];
    const auto length = static_cast<std::size_t>(added.length);
    const std::size_t step = length + static_cast<std::size_t>(m_board->stripKerf());
    const Cost gain = m_prices[item] - trim - m_board->crosscutCost();
    exact[length] = std::max(exact[length], gain);
    for (std::size_t end = step + 1; end < m_along; ++end) {
        exact[end] = std::max(exact[end], exact[end - step] + gain);
    }
    m_steps += static_cast<std::int64_t>(m_along);
}

void ClearTables::fillRows() {
    const std::vector<int>& heights = m_board->heights();
    const std::vector<ClearItem>& items = m_board->items();
    const Cost crosscut = m_board->crosscutCost();
    m_exact.assign(heights.size() * m_along, never);
    m_row.assign(heights.size() * m_along, 0);
    // Blanks that are trimmed in a strip are trimmed in all higher ones too, so their rows go on
    // from strip to strip, the lowest first.
    std::vector<Cost> trimmed(m_along, never);
    std::size_t next = items.size();
    for (std::size_t h = heights.size(); h-- > 0;) {
        const int height = heights[h];
        for (; next > 0 && items[next - 1].width < height &&
               height - items[next - 1].width >= m_board->ripKerf();
             --next) {
            if (m_prices[next - 1] > 0) {
                addToRow(next - 1, m_board->ripCost(), trimmed.data());
            }
        }
        Cost* exact = &m_exact[h * m_along];
        std::copy(trimmed.begin(), trimmed.end(), exact);
        for (std::size_t i = next; i-- > 0 && items[i].width <= height;) {
            if (items[i].width == height && m_prices[i] > 0) {
                addToRow(i, 0, exact);
            }
        }
        Cost* row = &m_row[h * m_along];
        for (std::size_t room = 1; room < m_along; ++room) {
            // Where the row fills the section to its end, the last crosscut falls away. Keeping it
            // saved for longer rooms as well makes this a bound; sections have exact lengths.
            row[room] = std::max({row[room - 1], exact[room] + crosscut});
        }
    }
    m_steps += static_cast<std::int64_t>(heights.size() * m_along);
}

void ClearTables::stackStrips(std::size_t lengthIndex, std::vector<Cost>& strips) {
    const std::vector<int>& heights = m_board->heights();
    const auto kerf = static_cast<std::size_t>(m_board->ripKerf());
    strips.assign(m_across, 0);
    // The lowest first, so that a strip no better than lower ones in its room is seen at once.
    for (std::size_t h = heights.size(); h-- > 0;) {
        const auto height = static_cast<std::size_t>(heights[h]);
        const Cost worth = stripWorth(h, lengthIndex);
        if (worth <= strips[height]) {
            continue;
        }
        const std::size_t step = height + kerf;
        const std::size_t alone = std::min(step, m_across);
        for (std::size_t room = height; room < alone; ++room) {
            strips[room] = std::max(strips[room], worth);
        }
        for (std::size_t room = step; room < m_across; ++room) {
            strips[room] = std::max(strips[room], strips[room - step] + worth);
        }
        m_steps += static_cast<std::int64_t>(m_across - height);
    }
}

Cost ClearTables::bestStack(std::size_t lengthIndex, Cost floor) {
    // Strips by what a unit of width gives, with the kerf behind them; as many of the best as there
    // is room for, then fewer and fewer, as long as the next ones could make up for it.
    constexpr int mostSteps = 4'000;
    const std::vector<int>& heights = m_board->heights();
    m_choices.clear();
    Cost lower = 0; // the most of any lower strip
    for (std::size_t h = heights.size(); h-- > 0;) {
        const Cost worth = stripWorth(h, lengthIndex);
        if (worth > lower) {
            lower = worth;
            m_choices.push_back({heights[h] + m_board->ripKerf(), worth});
        }
    }
    std::sort(m_choices.begin(), m_choices.end(), [](const Choice& a, const Choice& b) {
        const double left = static_cast<double>(a.worth) * b.size;
        const double right = static_cast<double>(b.worth) * a.size;
        return left != right ? left > right : a.size < b.size;
    });
    Cost best = floor;
    int steps = 0;
    const auto fill = [&](const auto& self, std::size_t next, int room, Cost worth) -> void {
        best = std::max(best, worth);
        for (; next < m_choices.size() && steps < mostSteps; ++next) {
            const Choice& choice = m_choices[next];
            const double most =
                static_cast<double>(worth) + static_cast<double>(choice.worth) * room / choice.size;
            if (most <= static_cast<double>(best)) {
                return;
            }
            for (int n = room / choice.size; n > 0 && steps < mostSteps; --n) {
                ++steps;
                self(self, next + 1, room - n * choice.size, worth + n * choice.worth);
            }
        }
    };
    fill(fill, 0, m_board->width() + m_board->ripKerf(), 0);
    m_steps += steps * 8;
    if (steps < mostSteps) {
        return best;
    }
    std::vector<Cost> strips;
    stackStrips(lengthIndex, strips);
    return std::max(floor, strips[m_across - 1]);
}

Cost ClearTables::strips(int lengthIndex, int room) {
    if (room < 0) {
        return 0;
    }
    constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    const auto l = static_cast<std::size_t>(lengthIndex);
    m_rowOfStrips.resize(m_board->lengths().size(), none);
    if (m_rowOfStrips[l] == none) {
        std::vector<Cost> strips;
        stackStrips(l, strips);
        m_rowOfStrips[l] = m_strips.size();
        m_strips.insert(m_strips.end(), strips.begin(), strips.end());
    }
    return m_strips[m_rowOfStrips[l] + static_cast<std::size_t>(room)];
}

Cost ClearTables::mostOfSection(std::size_t lengthIndex) const {
    // As if strips could be cut in parts: the best one over the whole width, with a kerf behind it.
    double most = 0;
    for (std::size_t h = 0; h < m_board->heights().size(); ++h) {
        most = std::max(most, static_cast<double>(stripWorth(h, lengthIndex)) /
                                  (m_board->heights()[h] + m_board->ripKerf()));
    }
    return static_cast<Cost>(std::ceil(most * (m_board->width() + m_board->ripKerf()))) -
           m_board->ripCost();
}

std::vector<Cost> ClearTables::mostOfBoards() const {
    const std::vector<int>& lengths = m_board->lengths();
    const auto kerf = static_cast<std::size_t>(m_board->crosscutKerf());
    std::vector<Cost> most;
    std::vector<Cost> board(m_along, 0); // sections by room
    for (std::size_t l = 0; l < lengths.size(); ++l) {
        const auto length = static_cast<std::size_t>(lengths[l]);
        most.push_back(m_mostOfSection[l] - m_board->crosscutCost());
        if (most[l] <= board[length]) {
            continue; // shorter ones do as well
        }
        const std::size_t step = length + kerf;
        for (std::size_t room = length; room < m_along; ++room) {
            board[room] = std::max(board[room], most[l] + (room > step ? board[room - step] : 0));
        }
    }
    for (std::size_t l = 0; l < lengths.size(); ++l) {
        const auto step = static_cast<std::size_t>(lengths[l]) + kerf;
        most[l] += (m_along > step ? board[m_along - 1 - step] : 0) + m_board->highEndSaved() -
                   m_board->lowEndCut();
    }
    return most;
}

void ClearTables::ask(std::size_t l, Cost floor) {
    // At this and below a board with the section is worth no more than the floor.
    const Cost idle = m_mostOfSection[l] - (m_mostOfBoard[l] - floor);
    if (idle < 0) {
        m_section[l] = std::max<Cost>(0, bestStack(l, 0) - m_board->ripCost());
        return;
    }
    const Cost stack = bestStack(l, idle + m_board->ripCost());
    if (stack > idle + m_board->ripCost()) {
        m_section[l] = stack - m_board->ripCost();
    }
}

void ClearTables::fillSections(Cost floor) {
    constexpr std::size_t firstAsked = 12;
    const std::size_t count = m_board->lengths().size();
    m_section.assign(count, unknown);
    for (std::size_t l = 0; l < count; ++l) {
        m_mostOfSection.push_back(mostOfSection(l));
    }
    m_mostOfBoard = mostOfBoards();
    // A few promising ones show what the board is worth at least; then whatever can be part of more
    // than that.
    std::vector<std::size_t> order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto first = order.begin() + static_cast<std::ptrdiff_t>(std::min(count, firstAsked));
    std::partial_sort(order.begin(), first, order.end(), [&](std::size_t a, std::size_t b) {
        return m_mostOfBoard[a] != m_mostOfBoard[b] ? m_mostOfBoard[a] > m_mostOfBoard[b] : a < b;
    });
    std::for_each(order.begin(), first, [&](std::size_t l) { ask(l, floor); });
    fillBoard();
    know(std::max(floor, m_value));
}

void ClearTables::know(Cost floor) {
    for (std::size_t l = 0; l < m_section.size(); ++l) {
        if (m_section[l] == unknown && m_mostOfBoard[l] > floor) {
            ask(l, floor);
        }
    }
    fillBoard();
}

bool ClearTables::canKeepStrips() const { return m_board->lengths().size() * m_across <= mostKept; }

void ClearTables::fillBoard() {
    const std::vector<int>& lengths = m_board->lengths();
    const auto kerf = static_cast<std::size_t>(m_board->crosscutKerf());
    const Cost crosscut = m_board->crosscutCost();
    const Cost saved = m_board->highEndSaved();
    m_exactSections.assign(m_along, never);
    m_sections.assign(m_along, 0);
    Cost shorter = 0; // the most of all that is shorter
    std::size_t seen = 0;
    for (std::size_t l = 0; l < lengths.size(); ++l) {
        const auto length = static_cast<std::size_t>(lengths[l]);
        const Cost gain = m_section[l] - crosscut;
        if (m_section[l] <= 0 || gain + saved <= 0) {
            continue;
        }
        for (; seen <= length; ++seen) {
            shorter = std::max(shorter, m_exactSections[seen]);
        }
        if (saved == 0 && gain <= shorter) {
            continue;
        }
        m_exactSections[length] = std::max(m_exactSections[length], gain);
        shorter = std::max(shorter, m_exactSections[length]);
        const std::size_t step = length + kerf;
        for (std::size_t end = step + 1; end < m_along; ++end) {
            m_exactSections[end] =
                std::max(m_exactSections[end], m_exactSections[end - step] + gain);
        }
        m_steps += static_cast<std::int64_t>(m_along);
    }
    for (std::size_t room = 1; room < m_along; ++room) {
        m_sections[room] = std::max(m_sections[room - 1], m_exactSections[room]);
    }
    m_value = std::max(m_sections[m_along - 1], m_exactSections[m_along - 1] + saved);
    m_value = std::max<Cost>(0, m_value - m_board->lowEndCut());
}

void ClearTables::fillStripWorths() {
    // Best rows: flush, or shorter with their last crosscut.
    const std::vector<int>& lengths = m_board->lengths();
    const std::size_t heights = m_board->heights().size();
    const Cost crosscut = m_board->crosscutCost();
    m_stripWorth.assign(lengths.size() * heights, 0);
    for (std::size_t h = 0; h < heights; ++h) {
        const Cost* exact = &m_exact[h * m_along];
        const Cost* row = &m_row[h * m_along];
        for (std::size_t l = 0; l < lengths.size(); ++l) {
            const auto length = static_cast<std::size_t>(lengths[l]);
            const Cost shorter = length > 0 ? row[length - 1] - crosscut : 0;
            m_stripWorth[l * heights + h] =
                std::max(exact[length] + crosscut, shorter) - m_board->ripCost();
        }
    }
}

std::vector<int> ClearTables::bestRow(int height, int room) const {
    // The flush row or the best shorter one.
    const Cost crosscut = m_board->crosscutCost();
    const Cost* exact = &m_exact[at(height, 0)];
    int end = room;
    for (int shorter = room - 1; shorter > 0; --shorter) {
        const Cost bonus = end == room ? crosscut : 0;
        if (exact[shorter] > exact[end] + bonus) {
            end = shorter;
        }
    }
    std::vector<int> row;
    while (end > 0) {
        const Cost value = exact[end];
        int next = 0;
        for (std::size_t i = 0; i < m_prices.size(); ++i) {
            const ClearItem& item = m_board->items()[i];
            Cost trim = 0;
            if (m_prices[i] <= 0 || item.length > end || !m_board->fits(item, height, trim)) {
                continue;
            }
            const Cost gain = m_prices[i] - trim - crosscut;
            const int before = end - item.length - m_board->stripKerf();
            if ((item.length == end && gain == value) ||
                (before > 0 && exact[before] + gain == value)) {
                row.push_back(static_cast<int>(i));
                next = item.length == end && gain == value ? 0 : before;
                break;
            }
        }
        end = next;
    }
    std::sort(row.begin(), row.end()); // the widest first
    return row;
}

ClearPattern ClearTables::best() {
    ClearPattern pattern;
    if (m_value <= 0) {
        return pattern;
    }
    const std::vector<int>& lengths = m_board->lengths();
    const std::vector<int>& heights = m_board->heights();
    const Cost crosscut = m_board->crosscutCost();
    std::vector<Cost> strips;
    int end = m_board->length();
    for (int shorter = end - 1; shorter > 0; --shorter) {
        const Cost saved = end == m_board->length() ? m_board->highEndSaved() : 0;
        if (m_exactSections[static_cast<std::size_t>(shorter)] >
            m_exactSections[static_cast<std::size_t>(end)] + saved) {
            end = shorter;
        }
    }
    while (end > 0) {
        const Cost value = m_exactSections[static_cast<std::size_t>(end)];
        int next = 0;
        for (std::size_t l = 0; l < lengths.size(); ++l) {
            const Cost gain = m_section[l] - crosscut;
            const int before = end - lengths[l] - m_board->crosscutKerf();
            const bool whole = lengths[l] == end && gain == value;
            if (m_section[l] <= 0 ||
                !(whole || (before > 0 &&
                            m_exactSections[static_cast<std::size_t>(before)] + gain == value))) {
                continue;
            }
            ClearPattern::Section section;
            section.length = lengths[l];
            stackStrips(l, strips);
            const Cost* stack = strips.data();
            int room = m_board->width();
            while (room > 0 && stack[room] > 0) {
                if (stack[room] == stack[room - 1]) {
                    --room;
                    continue;
                }
                for (std::size_t h = 0; h < heights.size(); ++h) {
                    const Cost worth = stripWorth(h, l);
                    const int left = room - heights[h] - m_board->ripKerf();
                    if (heights[h] <= room && worth > 0 &&
                        stack[room] == worth + (left > 0 ? stack[left] : 0)) {
                        section.strips.push_back(bestRow(static_cast<int>(h), lengths[l]));
                        room = std::max(0, left);
                        break;
                    }
                }
            }
            pattern.sections.push_back(std::move(section));
            next = whole ? 0 : before;
            break;
        }
        end = next;
    }
    return pattern;
}

} // namespace stavewright::cutting
