#pragma once
// All the sections that are considered on one board, and the best pattern of the board for given
// values: the pricing problem. Exact over its set of sections (see SectionMenu for what is exact
// inside one).
//
// Sections start at the end of a free stretch, just past a defect, or one crosscut behind another
// section; or they end at the far end or just before a defect. Their lengths are those of the
// kinds, of two kinds in a row, and whole stretches between defects.
//
// Most sections are never looked into: the best chain of sections is found with upper bounds, only
// the sections on that chain are worked out, their bounds become values, and so on until the best
// chain consists of worked-out sections. Then no other chain can be better.
//
//   BoardMenu menu(context, model, Fineness::quick());
//   BoardChoice choice = menu.best(values, interrupt, work);
//   Pattern pattern = menu.cut(values, choice);

#include <memory>
#include <mutex>

#include "core/cutting/BoardPricing.h"
#include "core/cutting/UsableWood.h"

namespace stavewright::cutting {

class BoardMenu : public BoardPricing {
  public:
    /// `whole`, where the context is of a few kinds only: that of all of them, for the sections
    /// that it is widened by. They may be passed over all the same: what a section is taken to be
    /// worth before it is worked out is of the few.
    BoardMenu(const Context& context, const BoardModel& model, const Fineness& fineness,
              const Context* whole = nullptr);

    [[nodiscard]] const BoardModel& model() const override { return *m_model; }
    [[nodiscard]] BoardChoice bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                         const Interrupt& interrupt,
                                         std::int64_t& work) const override;
    [[nodiscard]] std::size_t sections() const { return m_sections.size(); }
    /// They are worked out finely.
    void widen(const std::vector<BoundSection>& sections) override;
    void cap(SectionCeilings&& ceilings) override;
    void refine(const Values& values, const Interrupt& interrupt, std::int64_t& work) override;
    [[nodiscard]] BoardChoice bestOfMore(const Values& values, const Interrupt& interrupt,
                                         std::int64_t& work) const override;
    void tellNear(std::size_t most) override { m_mostNear = most; }
    [[nodiscard]] std::int64_t preparation() const override { return m_preparation; }

    /// Works out the best pattern and remembers the sections' values, which then bound their values
    /// at values near by. Not while other threads use the menu.
    [[nodiscard]] BoardChoice rebase(const Values& values, const Interrupt& interrupt,
                                     std::int64_t& work) override;

  private:
    /// A section that is worked out when it is first wanted.
    struct Section {
        Nm x0 = 0, x1 = 0;
        double area = 0;        ///< nm^2 that blanks could cover at most
        std::size_t before = 0; ///< sections that end early enough to stand before this one
        Cost crosscuts = 0;
        std::size_t ceiling = SectionCeilings::none;
        Fineness fineness;
        std::unique_ptr<BoundSection> foreseen; ///< strips that are to be tried
        std::once_flag once;
        std::unique_ptr<SectionMenu> menu;
    };
    /// What the wood of a free stretch can be worth, on a coarse lattice.
    struct Wood {
        Lattice lattice;
        UsableWood usable;
    };
    struct Remembered {
        Values values;
        std::vector<SectionChoice> section;
        std::vector<bool> worked; ///< by section; only these choices count
    };

    /// Null when nothing can be cut from it.
    [[nodiscard]] std::unique_ptr<Section> makeSection(Nm x0, Nm x1,
                                                       const Fineness& fineness) const;
    void cap(std::shared_ptr<const SectionCeilings> ceilings);
    using Sections = std::vector<std::unique_ptr<Section>>;
    /// The first section that does not end, or begin, before these places.
    [[nodiscard]] Sections::iterator placeOf(Nm x0, Nm x1);
    /// The section that begins and ends there; null: none is known.
    [[nodiscard]] const Section* known(Nm x0, Nm x1);
    /// In the place of one that stands at the same places.
    void insert(std::unique_ptr<Section> section);
    /// Says of every section which ones can stand before it.
    void chainUp();
    void findSections(const Fineness& fineness, std::vector<std::pair<Nm, Nm>>& found) const;
    [[nodiscard]] const SectionMenu& menuOf(std::size_t index) const;
    /// Upper bounds of the sections' values. `reusable` says of which kinds (as bits) the values
    /// are still the remembered ones while no other value is higher; a section of such kinds alone
    /// keeps its choice.
    [[nodiscard]] std::vector<Cost> bounds(const Values& values, std::uint64_t& reusable) const;
    /// After so much work the best of the sections that were looked into by then.
    [[nodiscard]] BoardChoice choose(const std::vector<Stretch>& taken, const Values& values,
                                     const Interrupt& interrupt, std::int64_t& work,
                                     std::int64_t mostWork, Remembered* remember) const;

    /// Of the sections that were worked out, those with the best chains through them, the chosen
    /// ones aside. `value`: of all sections, of some a bound only; `upTo`: of the best chain among
    /// the first so many.
    [[nodiscard]] std::vector<std::size_t> nearest(const std::vector<Cost>& value,
                                                   const std::vector<Cost>& upTo,
                                                   const std::vector<bool>& worked,
                                                   const std::vector<std::size_t>& chosen) const;

    const Context* m_context;
    const Context* m_whole;
    const BoardModel* m_model;
    std::size_t m_mostNear = 0;
    Sections m_sections; ///< by ascending x1, then x0
    std::vector<Wood> m_woods;
    std::shared_ptr<const SectionCeilings> m_ceilings;
    std::unique_ptr<BoardMenu> m_more; ///< that refine() looks among
    std::int64_t m_preparation = 0;
    Remembered m_remembered;
};

} // namespace stavewright::cutting
