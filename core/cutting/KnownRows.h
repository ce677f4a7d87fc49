#pragma once
// What rows of blanks are worth under one set of prices, as far as it was worked out: hundreds of
// thousands of rows for a rack, which are given back all at once and without a visit to any of
// them. Freed one by one they keep a search from ending for a fifth of a second.
//
//   std::span<const RowStep> steps = rows.at({v, height, step, begin, kinds}, [&] { return ...; });

#include <cstdint>
#include <memory>
#include <memory_resource>
#include <span>
#include <unordered_map>

#include "core/cutting/RowStep.h"
#include "core/cutting/StripRow.h"

namespace stavewright::cutting {

class KnownRows {
  public:
    /// Of which strip a row is, where it begins, and of which kinds (as bits, modulo 64).
    struct Key {
        int v;
        std::uint32_t height;
        int step;
        RowBegin begin;
        std::uint64_t kinds;
        friend bool operator==(const Key&, const Key&) = default;
    };

    /// `workOut()` says what the row is worth where that is not known; its steps are copied.
    template <class WorkOut>
    [[nodiscard]] std::span<const RowStep> at(const Key& key, const WorkOut& workOut) {
        const auto [known, isNew] = m_rows->try_emplace(key);
        if (isNew) {
            known->second = kept(workOut());
        }
        return known->second;
    }

  private:
    struct Hash {
        std::size_t operator()(const Key& key) const {
            std::uint64_t mixed = key.kinds;
            for (const std::uint64_t part :
                 {static_cast<std::uint64_t>(key.v), std::uint64_t{key.height},
                  static_cast<std::uint64_t>(key.step), static_cast<std::uint64_t>(key.begin.first),
                  static_cast<std::uint64_t>(key.begin.last), std::uint64_t{key.begin.isSquare}}) {
                mixed = (mixed ^ part) * 0x9E3779B97F4A7C15ULL;
                mixed ^= mixed >> 29;
            }
            return mixed;
        }
    };
    using ByKey = std::pmr::unordered_map<Key, std::span<const RowStep>, Hash>;

    [[nodiscard]] std::span<const RowStep> kept(std::span<const RowStep> steps) {
        if (steps.empty()) {
            return {};
        }
        RowStep* copy =
            std::pmr::polymorphic_allocator<RowStep>(m_memory.get()).allocate(steps.size());
        std::uninitialized_copy(steps.begin(), steps.end(), copy);
        return {copy, steps.size()};
    }

    std::unique_ptr<std::pmr::monotonic_buffer_resource> m_memory =
        std::make_unique<std::pmr::monotonic_buffer_resource>();
    /// In that memory, and gone with it: its destructor would go through all rows.
    ByKey* m_rows = std::pmr::polymorphic_allocator<>(m_memory.get()).new_object<ByKey>();
};

} // namespace stavewright::cutting
