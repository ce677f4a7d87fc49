#include "core/cutting/LatticeMenu.h"

#include <algorithm>

#include "core/cutting/LatticeBest.h"

namespace stavewright::cutting {

namespace {

/// Counted for working out a section for the first time.
constexpr std::int64_t workPerSection = 2'000;
/// An inch: coarse, because each section is worked out exactly afterwards.
constexpr Nm stepAlong = 25'400'000;

} // namespace

LatticeMenu::LatticeMenu(const Context& context, const BoardModel& model)
    : m_context(&context)
    , m_model(&model)
    , m_hasManyKinds(areMany(*context.problem)) {
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.to.inNanometres() - stretch.from.inNanometres() >= context.shortest) {
            m_lattices.emplace_back(context, model, stretch,
                                    LatticeStep{stepAlong, stepAcross(*context.problem), true});
            m_known.push_back(std::make_unique<LatticeKnown>());
            m_preparation += static_cast<std::int64_t>(m_lattices.back().cells()) *
                             static_cast<std::int64_t>(context.poses.size());
        }
    }
}

const SectionMenu& LatticeMenu::menuOf(Nm x0, Nm x1, const FewKinds* few, BoardChoice& choice,
                                       std::int64_t& work) const {
    work += workPerSection;
    if (few != nullptr) {
        auto own =
            std::make_shared<const SectionMenu>(few->context, *m_model, x0, x1, Fineness::first());
        const SectionMenu& menu = *own;
        choice.keeps.push_back(std::move(own));
        return menu;
    }
    const std::pair<Nm, Nm> key{x0, x1};
    {
        const std::scoped_lock lock(m_mutex);
        const auto known = m_sections.find(key);
        if (known != m_sections.end()) {
            return *known->second;
        }
    }
    auto made = std::make_unique<SectionMenu>(*m_context, *m_model, x0, x1, Fineness::first());
    const std::scoped_lock lock(m_mutex);
    return *m_sections.try_emplace(key, std::move(made)).first->second;
}

BoardChoice::Section LatticeMenu::sectionAt(const Values& values, Nm x0, Nm length, Nm end,
                                            const FewKinds* few, BoardChoice& choice,
                                            std::int64_t& work) const {
    const Nm span = spanFrom(*m_model, x0, length, end);
    if (x0 + span > end) {
        return {};
    }
    const SectionMenu& menu = menuOf(x0, x0 + span, few, choice, work);
    return {&menu, menu.best(values, work)};
}

BoardChoice LatticeMenu::bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                    const Interrupt& interrupt, std::int64_t& work) const {
    BoardChoice chosen;
    const Limits& limits = m_context->problem->limits;
    std::shared_ptr<const FewKinds> few;
    if (m_hasManyKinds) {
        const Problem& problem = *m_context->problem;
        few = std::make_shared<const FewKinds>(problem, kindsWorthIt(problem, values));
        chosen.keeps.push_back(few);
    }
    for (std::size_t l = 0; l < m_lattices.size(); ++l) {
        const Lattice& lattice = m_lattices[l];
        const Nm half = lattice.step().along / 2;
        // Of many kinds others are asked for each time, and on several threads at once: what was
        // found before helps little, and would depend on their order.
        LatticeKnown fresh;
        LatticeKnown& known = m_hasManyKinds ? fresh : *m_known[l];
        const LatticeChain chain = LatticeBest(lattice, known).find(taken, values, interrupt, work);
        if (interrupt.isCalled()) {
            return {};
        }
        Nm from = lattice.begin();
        for (const LatticeChain::Section& section : chain.sections) {
            // The lattice only says in which cell it begins.
            const Nm low = std::max(from, section.x0);
            BoardChoice::Section best =
                sectionAt(values, low, section.length, lattice.end(), few.get(), chosen, work);
            if (best.menu == nullptr || best.choice.value < section.worth) {
                const Nm high = std::max(from, section.x0 + half);
                BoardChoice::Section other =
                    sectionAt(values, high, section.length, lattice.end(), few.get(), chosen, work);
                if (other.menu != nullptr &&
                    (best.menu == nullptr || other.choice.value > best.choice.value)) {
                    best = other;
                }
            }
            if (best.menu == nullptr || best.choice.isEmpty ||
                !isBeside(taken, best.menu->x0(), best.menu->x1(), limits.crosscutKerf)) {
                continue;
            }
            chosen.value += best.choice.value;
            const Nm x0 = best.menu->x0();
            const bool joined = !chosen.sections.empty() &&
                                chosen.sections.back().menu->x1() + limits.crosscutKerf == x0;
            chosen.value -= (joined || x0 == m_model->size().xBegin ? 0 : 1) * limits.crosscutCost;
            chosen.value -= (best.menu->x1() == m_model->size().xEnd ? 0 : 1) * limits.crosscutCost;
            chosen.sections.push_back(best);
            from = best.menu->x1() + limits.crosscutKerf;
        }
    }
    return chosen;
}

} // namespace stavewright::cutting
