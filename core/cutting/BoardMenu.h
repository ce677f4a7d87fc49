#pragma once
// All the sections that are considered on one board, and the best pattern of the board for given values:
// the pricing problem. Exact over its set of sections (see SectionMenu for what is exact inside one).
//
// Sections start at the end of a free stretch, just past a defect that is forbidden to a kind, or one
// crosscut behind another section; or they end at the far end or just before a defect. Their lengths are
// those of the kinds, of two kinds in a row, and whole stretches between two large defects.
//
//   BoardMenu menu(context, board, Fineness::quick());
//   BoardChoice choice = menu.best(values, work);
//   Pattern pattern = menu.cut(values, choice);

#include <memory>

#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

struct BoardChoice {
    Cost value = 0; ///< of the blanks less fills and cuts; the board's own cost is not in it
    struct Section {
        std::size_t index = 0;
        SectionChoice choice;
    };
    std::vector<Section> sections; ///< by ascending x
};

class BoardMenu {
  public:
    BoardMenu(const Context& context, int board, const Fineness& fineness);

    [[nodiscard]] const BoardModel& model() const { return m_model; }
    [[nodiscard]] BoardChoice best(const Values& values, std::int64_t& work) const;
    [[nodiscard]] Pattern cut(const Values& values, const BoardChoice& choice) const;
    [[nodiscard]] std::size_t sections() const { return m_sections.size(); }
    /// Work it took to prepare.
    [[nodiscard]] std::int64_t preparation() const { return m_preparation; }

  private:
    void findSections(const Fineness& fineness);
    void addSection(Nm x0, Nm x1, const Fineness& fineness);

    const Context* m_context;
    BoardModel m_model;
    std::vector<SectionMenu> m_sections;  ///< by ascending x1
    std::vector<std::size_t> m_before;    ///< sections that end early enough to stand before this one
    std::vector<Cost> m_crosscuts;        ///< cost of the section's own crosscuts
    std::int64_t m_preparation = 0;
};

} // namespace stavewright::cutting
