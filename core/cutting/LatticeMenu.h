#pragma once
// Pricing at once and roughly, for the first plan: the lattice says where the sections of the best
// chain begin and how long they are, and only those are worked out, each in its own frame.
//
//   LatticeMenu menu(context, model);
//   BoardChoice choice = menu.best(values, interrupt, work);

#include <map>
#include <memory>
#include <mutex>

#include "core/cutting/BoardPricing.h"
#include "core/cutting/FewKinds.h"
#include "core/cutting/Lattice.h"
#include "core/cutting/LatticeBest.h"

namespace stavewright::cutting {

class LatticeMenu : public BoardPricing {
  public:
    LatticeMenu(const Context& context, const BoardModel& model);

    [[nodiscard]] const BoardModel& model() const override { return *m_model; }
    [[nodiscard]] BoardChoice bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                         const Interrupt& interrupt,
                                         std::int64_t& work) const override;
    [[nodiscard]] std::int64_t preparation() const override { return m_preparation; }

  private:
    /// Where the kinds are many a section is worked out for those that are worth something, `few`,
    /// each time anew: kept by the choice.
    [[nodiscard]] const SectionMenu& menuOf(Nm x0, Nm x1, const FewKinds* few, BoardChoice& choice,
                                            std::int64_t& work) const;
    [[nodiscard]] BoardChoice::Section sectionAt(const Values& values, Nm x0, Nm length, Nm end,
                                                 const FewKinds* few, BoardChoice& choice,
                                                 std::int64_t& work) const;

    const Context* m_context;
    const BoardModel* m_model;
    std::vector<Lattice> m_lattices; ///< one for each free stretch
    std::vector<std::unique_ptr<LatticeKnown>> m_known;
    std::int64_t m_preparation = 0;
    bool m_hasManyKinds = false;
    /// Sections that have been worked out. What is in it does not depend on who put it there.
    mutable std::mutex m_mutex;
    mutable std::map<std::pair<Nm, Nm>, std::unique_ptr<SectionMenu>> m_sections;
};

} // namespace stavewright::cutting
