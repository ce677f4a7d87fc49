#pragma once
// The exact pricing of a board on which edges need to stand at few places only (PlaceGrid): the
// best pattern of the whole family for given values, without any place or combination left out.
// Boards whose near edge is straight along x and all of whose sections may be faced whole.
//
// What a strip's blanks give depends on where the section begins, not on where it ends: a row is
// worked out once for all ends, then strips are stacked for each section, then sections are
// chained.
//
//   if (auto menu = PlaceMenu::of(context, model)) {
//       BoardChoice choice = menu->best(values, interrupt, work);
//   }

#include <memory>

#include "core/cutting/BoardPricing.h"
#include "core/cutting/PlaceGrid.h"

namespace stavewright::cutting {

class PlaceMenu : public BoardPricing {
  public:
    /// Nothing where the board has too many places or is not as told above.
    [[nodiscard]] static std::unique_ptr<PlaceMenu> of(const Context& context,
                                                       const BoardModel& model);

    [[nodiscard]] const BoardModel& model() const override { return *m_model; }
    [[nodiscard]] BoardChoice bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                         const Interrupt& interrupt,
                                         std::int64_t& work) const override;
    [[nodiscard]] std::int64_t preparation() const override { return m_preparation; }

  private:
    /// A blank at one place along a strip.
    struct Spot {
        std::uint32_t item = 0;
        std::uint32_t place = 0; ///< across
        std::uint32_t low = 0, high = 0;
        Cost cost = 0; ///< of its fills and its trimming rip
    };
    struct Strip {
        std::size_t bottom = 0, top = 0;
        std::vector<Spot> spots;          ///< by ascending low
        std::vector<std::uint32_t> first; ///< by low: the first spot from there on
    };
    /// One free stretch.
    struct Part {
        explicit Part(PlaceGrid places)
            : grid(std::move(places)) {}
        PlaceGrid grid;
        std::vector<Strip> strips; ///< by ascending bottom
    };
    class Run;

    PlaceMenu(const Context& context, const BoardModel& model)
        : m_context(&context)
        , m_model(&model) {}
    [[nodiscard]] bool findItems();
    [[nodiscard]] bool addPart(const Stretch& stretch);

    const Context* m_context;
    const BoardModel* m_model;
    std::vector<PlaceItem> m_items;
    std::vector<Part> m_parts;
    std::int64_t m_preparation = 0;
};

} // namespace stavewright::cutting
