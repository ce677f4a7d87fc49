#pragma once
// One free stretch of a board with a near edge straight along x: all the places where edges need to
// stand, along and across (EdgePlaces), and whether and how a blank may lie at each.
//
//   auto grid = PlaceGrid::of(context, model, stretch, items, limits);  // nothing: too many places
//   const PlaceGrid::Fit& fit = grid->fit(item, low, place);

#include <optional>

#include "core/cutting/EdgePlaces.h"
#include "core/cutting/SectionMenu.h"
#include "core/cutting/YieldSpace.h"

namespace stavewright::cutting {

/// A kind in one of the widths that it may have.
struct PlaceItem {
    int kind = 0;
    Nm length = 0;
    Nm width = 0;
    Yield yield; ///< where yields are counted
};

struct PlaceLimits {
    std::size_t along = 150; ///< edges of either sort; with more the tables grow out of hand
    std::size_t across = 60;
};

class PlaceGrid {
  public:
    struct Fit {
        Cost cost = -2; ///< of fills; -2: not yet known; -1: not allowed
        int pose = -1;
    };

    [[nodiscard]] static std::optional<PlaceGrid>
    of(const Context& context, const BoardModel& model, const Stretch& stretch,
       const std::vector<PlaceItem>& items, const PlaceLimits& limits);

    [[nodiscard]] const SectionShape& shape() const { return m_shape; }
    /// Low and high edges along, in the board frame.
    [[nodiscard]] const std::vector<Nm>& lows() const { return m_along.lows; }
    [[nodiscard]] const std::vector<Nm>& highs() const { return m_along.highs; }
    /// Low and high edges of strips, in the section frame.
    [[nodiscard]] const std::vector<Nm>& bottoms() const { return m_across.lows; }
    [[nodiscard]] const std::vector<Nm>& tops() const { return m_across.highs; }
    /// Where the low edge of a blank may stand across.
    [[nodiscard]] const std::vector<Nm>& places() const { return m_places; }
    [[nodiscard]] std::size_t placeAt(Nm v) const;

    /// Index among the high edges where an item at `low` ends; -1: it does not fit.
    [[nodiscard]] int endOf(std::size_t item, std::size_t low) const {
        return m_ends[item * m_along.lows.size() + low];
    }
    /// Worked out when it is first asked for; one thread alone.
    [[nodiscard]] const Fit& fit(std::size_t item, std::size_t low, std::size_t place);
    /// The blank of an item where it fits, as was asked before; `x0` is where its section begins.
    [[nodiscard]] Placed blank(std::size_t item, std::size_t low, std::size_t place, Nm x0) const;

  private:
    [[nodiscard]] std::size_t indexOf(std::size_t item, std::size_t low, std::size_t place) const {
        return (item * m_along.lows.size() + low) * m_places.size() + place;
    }
    PlaceGrid(const Context& context, const BoardModel& model, const Stretch& stretch,
              const std::vector<PlaceItem>& items);
    [[nodiscard]] std::vector<Nm> stopsAcross(const std::vector<bool>& asked) const;

    const Context* m_context;
    const std::vector<PlaceItem>* m_items;
    SectionShape m_shape;
    SectionPieces m_pieces;
    EdgePlaces m_along;
    EdgePlaces m_across;
    std::vector<Nm> m_places;
    std::vector<Fit> m_fits; ///< by item, low edge along, place across
    std::vector<int> m_ends; ///< by item and low edge along
};

} // namespace stavewright::cutting
