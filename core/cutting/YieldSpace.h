#pragma once
// What part of a job gives, counted exactly: how many of each kind, each number up to a limit, all
// packed into one word so that two yields add in one step; and tables with the least cost of each
// yield.
//
//   YieldSpace space;
//   std::size_t legs = space.addField(4);
//   Label one = Label::of(space.unit(legs), cost);
//   YieldTable table(space);  table.offer(labels, one);  table.settle(labels, nodes);

#include <cstdint>
#include <vector>

#include "core/cutting/Problem.h"

namespace stavewright::cutting {

/// Both members add without carrying from one field into the next while YieldSpace::holds is true.
struct Yield {
    std::uint64_t fields = 0; ///< each with a spare bit
    std::uint64_t index = 0;  ///< among all the yields that there are
    friend Yield operator+(const Yield& a, const Yield& b) {
        return {a.fields + b.fields, a.index + b.index};
    }
    friend bool operator==(const Yield&, const Yield&) = default;
};

class YieldSpace {
  public:
    /// A number from 0 to `most`; returns which field it is.
    std::size_t addField(std::int64_t most);

    /// How many yields there are; 0 when the fields do not fit into one word.
    [[nodiscard]] std::uint64_t size() const { return m_bits <= 63 ? m_size : 0; }
    [[nodiscard]] Yield times(std::size_t field, std::int64_t amount) const;
    [[nodiscard]] std::int64_t amount(const Yield& yield, std::size_t field) const;
    /// No field of the sum of two yields is above its limit.
    [[nodiscard]] bool holds(const Yield& sum) const {
        return ((sum.fields + m_bias) & m_guards) == 0;
    }

  private:
    struct Field {
        int shift = 0;
        std::uint64_t mask = 0;
        std::uint64_t stride = 1;
    };
    std::vector<Field> m_fields;
    int m_bits = 0;
    std::uint64_t m_size = 1;
    std::uint64_t m_bias = 0; ///< lifts a field above its limit into its spare bit
    std::uint64_t m_guards = 0;
};

/// Part of a plan that gives `yield` for `cost`. It goes on from the part `previous` with `piece`,
/// whatever these numbers mean to their owner.
struct Label {
    Yield yield;
    Cost cost = 0;
    int previous = -1;
    int piece = -1;
    int node = -1; ///< where it is written down; set when a table is settled
};

/// Where the labels that survived are written down, to follow a plan back.
struct LabelNode {
    int previous = -1;
    int piece = -1;
};

/// Keeps of each yield the cheapest label, of equals the first.
class Cheapest {
  public:
    explicit Cheapest(const YieldSpace& space)
        : m_at(space.size(), -1) {}

    void settle(std::vector<Label>& labels);
    /// The same, and writes down those that are new.
    void settle(std::vector<Label>& labels, std::vector<LabelNode>& nodes);

  private:
    std::vector<int> m_at; ///< by index of the yield
};

} // namespace stavewright::cutting
