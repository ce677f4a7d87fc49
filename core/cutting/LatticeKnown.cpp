#include "core/cutting/LatticeKnown.h"

#include <algorithm>

namespace stavewright::cutting {

namespace {

/// No blank is worth more under the one than under the other; what is worth nothing is never cut.
bool isNoDearer(const Problem& problem, const Values& values, const Values& than) {
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Kind& kind = problem.kinds[k];
        const Nm widest = kind.isPool ? kind.widest : kind.width;
        for (Nm width = kind.width; width <= widest; width += std::max<Nm>(1, kind.step)) {
            if (values.of(kind, k, width) > std::max<Cost>(0, than.of(kind, k, width))) {
                return false;
            }
        }
    }
    return true;
}

} // namespace

LatticeKnown::Asked LatticeKnown::before(const Problem& problem, const Values& values) const {
    const std::scoped_lock lock(m_mutex);
    for (auto asked = m_asked.rbegin(); asked != m_asked.rend(); ++asked) {
        if (isNoDearer(problem, values, asked->first)) {
            Asked known = asked->second;
            if (values != asked->first) {
                // Looked into again a section may be worth less by far.
                std::fill(known.how.begin(), known.how.end(), How::byArea);
                known.work = 0;
            }
            return known;
        }
    }
    return {};
}

void LatticeKnown::keep(const Problem& problem, const Values& values, Asked asked) {
    const std::scoped_lock lock(m_mutex);
    while (!m_asked.empty() && !isNoDearer(problem, values, m_asked.back().first)) {
        m_asked.pop_back();
    }
    if (!m_asked.empty() && values == m_asked.back().first) {
        m_asked.back().second = std::move(asked);
        return;
    }
    if (m_asked.size() >= mostKept) {
        m_asked.erase(m_asked.begin() + 1); // the dearest bounds most
    }
    m_asked.emplace_back(values, std::move(asked));
}

} // namespace stavewright::cutting
