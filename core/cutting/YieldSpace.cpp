#include "core/cutting/YieldSpace.h"

#include <bit>

namespace stavewright::cutting {

std::size_t YieldSpace::addField(std::int64_t most) {
    const auto limit = static_cast<std::uint64_t>(most);
    const int bits = static_cast<int>(std::bit_width(limit));
    if (m_bits + bits + 1 <= 63) {
        const std::uint64_t mask = (std::uint64_t{1} << bits) - 1;
        m_fields.push_back({m_bits, mask, m_size});
        m_bias += (mask - limit) << m_bits;
        m_guards |= std::uint64_t{1} << (m_bits + bits);
        m_size *= limit + 1;
    } else {
        m_fields.push_back({});
    }
    m_bits += bits + 1;
    return m_fields.size() - 1;
}

Yield YieldSpace::times(std::size_t field, std::int64_t amount) const {
    const Field& at = m_fields[field];
    const auto count = static_cast<std::uint64_t>(amount);
    return {count << at.shift, count * at.stride};
}

std::int64_t YieldSpace::amount(const Yield& yield, std::size_t field) const {
    const Field& at = m_fields[field];
    return static_cast<std::int64_t>((yield.fields >> at.shift) & at.mask);
}

void Cheapest::settle(std::vector<Label>& labels) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        int& at = m_at[labels[i].yield.index];
        if (at < 0) {
            at = static_cast<int>(kept);
            labels[kept++] = labels[i];
        } else if (labels[i].cost < labels[static_cast<std::size_t>(at)].cost) {
            labels[static_cast<std::size_t>(at)] = labels[i];
        }
    }
    labels.resize(kept);
    for (const Label& label : labels) {
        m_at[label.yield.index] = -1;
    }
}

void Cheapest::settle(std::vector<Label>& labels, std::vector<LabelNode>& nodes) {
    settle(labels);
    for (Label& label : labels) {
        if (label.node < 0) {
            label.node = static_cast<int>(nodes.size());
            nodes.push_back({label.previous, label.piece});
        }
    }
}

} // namespace stavewright::cutting
