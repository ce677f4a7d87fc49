#include "core/cutting/LatticeBest.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "core/cutting/FewKinds.h"

namespace stavewright::cutting {

namespace {

constexpr Cost nothing = std::numeric_limits<Cost>::min() / 4;

} // namespace

LatticeBest::LatticeBest(const Lattice& lattice, LatticeKnown& known)
    : m_lattice(&lattice)
    , m_known(&known)
    , m_section(lattice)
    , m_hasManyKinds(areMany(*lattice.context().problem)) {
    const Problem& problem = *lattice.context().problem;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        if (!lattice.kind(k).isHere) {
            continue;
        }
        // One blank; two in a row; and where one is too short for the machines, a few.
        const Nm kerf = problem.limits.stripCrosscutKerf;
        for (Nm count = 1, length = problem.kinds[k].length;
             length <= lattice.end() - lattice.begin();
             ++count, length += problem.kinds[k].length + kerf) {
            const bool machines = length >= problem.limits.leastFacedLength;
            if (machines) {
                m_lengths.push_back(
                    {length, lattice.cellsOf(length + problem.limits.crosscutKerf), {k}});
            }
            if (machines && count >= 2) {
                break;
            }
        }
    }
    std::sort(m_lengths.begin(), m_lengths.end(),
              [](const Length& a, const Length& b) { return a.length < b.length; });
    std::vector<Length> distinct;
    for (Length& length : m_lengths) {
        if (distinct.empty() || distinct.back().length != length.length) {
            distinct.push_back(std::move(length));
        } else {
            distinct.back().kinds.push_back(length.kinds.front());
        }
    }
    m_lengths = std::move(distinct);
    m_placeOf.resize(m_lengths.size());
}

void LatticeBest::takeLengths(const Values& values) {
    const std::vector<Kind>& kinds = m_lattice->context().problem->kinds;
    const auto isWorthIt = [&](std::size_t k) {
        const Kind& kind = kinds[k];
        return values.of(kind, k, kind.isPool ? kind.widest : kind.width) > 0;
    };
    m_longestFirst.clear();
    for (std::size_t c = 0; c < m_lengths.size(); ++c) {
        if (!m_hasManyKinds ||
            std::any_of(m_lengths[c].kinds.begin(), m_lengths[c].kinds.end(), isWorthIt)) {
            m_longestFirst.push_back(c);
        }
    }
    std::stable_sort(
        m_longestFirst.begin(), m_longestFirst.end(),
        [&](std::size_t a, std::size_t b) { return m_lengths[a].cells > m_lengths[b].cells; });
    m_placeOf.assign(m_lengths.size(), m_longestFirst.size());
    m_cellsBack.clear();
    for (std::size_t place = 0; place < m_longestFirst.size(); ++place) {
        m_placeOf[m_longestFirst[place]] = place;
        m_cellsBack.push_back(m_lengths[m_longestFirst[place]].cells);
    }
}

LatticeChain LatticeBest::find(const std::vector<Stretch>& taken, const Values& values,
                               const Interrupt& interrupt, std::int64_t& work) {
    LatticeChain chain;
    takeLengths(values);
    const std::size_t classes = m_longestFirst.size();
    if (classes == 0) {
        return chain;
    }
    const Problem& problem = *m_lattice->context().problem;
    m_section.price(values);
    m_asked = m_known->before(problem, values);
    begin(taken);
    const int cells = m_lattice->cells();
    std::int64_t spent = 0;
    int changed = -1; // the first section of which more is known
    for (bool settled = false; !settled;) {
        reachFrom(changed + 1);
        changed = cells;
        spent += static_cast<std::int64_t>(static_cast<std::size_t>(cells) * classes / 16);
        if (interrupt.isCalled()) {
            work += spent;
            return {};
        }
        chain.worth = m_apart[static_cast<std::size_t>(cells)];
        chain.sections.clear();
        settled = true;
        for (int p = m_cameApart[static_cast<std::size_t>(cells)]; p >= 0;) {
            const std::size_t c = m_cameTouch[static_cast<std::size_t>(p)];
            const int i = m_cameFrom[static_cast<std::size_t>(p)];
            const auto cell = static_cast<std::size_t>(i);
            if (m_worth[placeOf(c, i)] > 0 && m_asked.how[indexOf(c, i)] != How::exactly) {
                settled = false;
                spent += m_lattice->rows();
                changed = std::min(changed, lookInto(c, i));
            }
            chain.sections.push_back(
                {m_lattice->xOf(i), m_lengths[c].length, m_worth[placeOf(c, i)]});
            p = m_isJoined[cell] != 0 ? i : m_cameApart[cell];
        }
    }
    // What is known already counts as if it were found anew, as sections do (LatticeMenu).
    m_asked.work = std::max(m_asked.work, spent);
    work += m_asked.work;
    m_known->keep(problem, values, std::move(m_asked));
    std::reverse(chain.sections.begin(), chain.sections.end());
    return chain;
}

void LatticeBest::begin(const std::vector<Stretch>& taken) {
    const Nm kerf = m_lattice->context().problem->limits.crosscutKerf;
    const Nm g = m_lattice->step().along;
    const int cells = m_lattice->cells();
    const std::size_t classes = m_lengths.size();
    std::vector<double> area(static_cast<std::size_t>(cells) + 1, 0);
    for (int i = 0; i < cells; ++i) {
        area[static_cast<std::size_t>(i) + 1] =
            area[static_cast<std::size_t>(i)] +
            static_cast<double>(m_lattice->heightAt(i)) * static_cast<double>(g);
    }
    const bool isFirst = m_asked.most.empty();
    m_asked.most.resize(classes * static_cast<std::size_t>(cells), 0);
    m_asked.how.resize(classes * static_cast<std::size_t>(cells), How::byArea);
    m_worth.assign(static_cast<std::size_t>(cells + m_lengths.back().cells + 1) *
                       m_longestFirst.size(),
                   nothing);
    for (std::size_t c = 0; c < classes; ++c) {
        const Nm length = m_lengths[c].length;
        const double density = m_section.density(length);
        const bool isTaken = m_placeOf[c] < m_longestFirst.size();
        for (int i = 0; i < cells && m_lattice->xOf(i) + length <= m_lattice->end(); ++i) {
            const int far = std::min(cells, i + static_cast<int>(length / g) + 1);
            const auto byArea = static_cast<Cost>(density * (area[static_cast<std::size_t>(far)] -
                                                             area[static_cast<std::size_t>(i)]));
            Cost& most = m_asked.most[indexOf(c, i)];
            most = isFirst ? byArea : std::min(most, byArea);
            if (!isTaken) {
                continue;
            }
            const Nm x0 = m_lattice->xOf(i);
            m_worth[placeOf(c, i)] = isBeside(taken, x0, x0 + length, kerf) ? most : 0;
        }
    }
    const std::size_t places = static_cast<std::size_t>(cells) + 1;
    m_apart.resize(places);
    // Before the first place and behind the last cell none begins.
    m_begin.assign(places - 1 + 2 * static_cast<std::size_t>(m_lengths.back().cells), nothing);
    m_isJoined.resize(places);
    m_cameTouch.resize(places);
    m_cameFrom.resize(places);
    m_cameApart.resize(places);
}

void LatticeBest::reachFrom(int first) {
    const Limits& limits = m_lattice->context().problem->limits;
    const int cells = m_lattice->cells();
    const std::size_t classes = m_longestFirst.size();
    const bool atBoardEnd = m_lattice->begin() == m_lattice->model().size().xBegin;
    Cost* begin = m_begin.data() + m_lengths.back().cells;
    for (int p = first; p <= cells; ++p) {
        const auto at = static_cast<std::size_t>(p);
        Cost touch = nothing;
        // Behind the last cell a section ends just there, too.
        for (int end = p; end <= (p < cells ? p : cells + m_lengths.back().cells - 1); ++end) {
            const Cost* worth = m_worth.data() + static_cast<std::size_t>(end) * classes;
            for (std::size_t place = 0; place < classes; ++place) {
                const int from = end - m_cellsBack[place];
                const Cost value = begin[from] + worth[place];
                if (value > touch) {
                    touch = value;
                    m_cameTouch[at] = m_longestFirst[place];
                    m_cameFrom[at] = from;
                }
            }
        }
        m_apart[at] = p > 0 ? m_apart[at - 1] : 0;
        m_cameApart[at] = p > 0 ? m_cameApart[at - 1] : -1;
        if (touch > m_apart[at]) {
            m_apart[at] = touch;
            m_cameApart[at] = p;
        }
        const Cost joined = touch - limits.crosscutCost;
        const Cost apart = m_apart[at] - (p == 0 && atBoardEnd ? 1 : 2) * limits.crosscutCost;
        m_isJoined[at] = joined >= apart ? 1 : 0;
        if (p < cells) {
            begin[p] = std::max(joined, apart);
        }
    }
}

int LatticeBest::lookInto(std::size_t lengthClass, int cell) {
    const Nm length = m_lengths[lengthClass].length;
    const bool byBlock = m_asked.how[indexOf(lengthClass, cell)] == How::byArea;
    const int first = byBlock ? cell / Lattice::blockCells * Lattice::blockCells : cell;
    const int last =
        byBlock ? std::min(m_lattice->cells() - 1, first + Lattice::blockCells - 1) : cell;
    const Cost worth = m_section.worthAt(first, last, length, byBlock);
    for (int i = first; i <= last; ++i) {
        Cost& most = m_asked.most[indexOf(lengthClass, i)];
        most = std::min(most, worth);
        Cost& here = m_worth[placeOf(lengthClass, i)];
        here = std::min(here, most);
        How& how = m_asked.how[indexOf(lengthClass, i)];
        how = std::max(how, byBlock ? How::byBlock : How::exactly);
    }
    return first;
}

} // namespace stavewright::cutting
