#include "core/cutting/Surplus.h"

#include <algorithm>

#include "core/cutting/SectionFit.h"

namespace stavewright::cutting {

namespace {

/// What is left to make, blank by blank.
class Wanted {
  public:
    Wanted(const Problem& problem, const Values& values, const Demand& open)
        : m_problem(&problem)
        , m_values(&values)
        , m_left(open.open) {}

    [[nodiscard]] bool is(std::size_t kind) const { return m_left[kind] > 0; }
    /// Worth of a blank, nothing where it is too much; it is made then.
    Cost make(std::size_t kind, Nm width) {
        const Cost worth = is(kind) ? worthOf(kind, width) : 0;
        const Kind& made = m_problem->kinds[kind];
        m_left[kind] -= made.isPool ? width - made.jointAllowance : 1;
        return worth;
    }
    /// The blanks of a section, as they come.
    Cost make(const PlacedSection& section) {
        Cost worth = 0;
        for (const PlacedStrip& strip : section.strips) {
            for (const Placed& placed : strip.blanks) {
                worth +=
                    make(static_cast<std::size_t>(placed.kind), placed.rect.width().inNanometres());
            }
        }
        return worth;
    }
    /// The dearest that fits in so much room; its width is 0 where none does.
    [[nodiscard]] BoundBlank dearestWithin(Nm length, Nm width, Nm along) const {
        BoundBlank dearest{0, along, 0};
        Cost most = 0;
        for (std::size_t k = 0; k < m_left.size(); ++k) {
            const Kind& kind = m_problem->kinds[k];
            if (!is(k) || kind.length > length || kind.width > width) {
                continue;
            }
            const Nm step = std::max<Nm>(1, kind.step);
            const Nm widest = std::min(width, kind.isPool ? kind.widest : kind.width);
            const Nm taken = kind.width + (widest - kind.width) / step * step;
            if (worthOf(k, taken) > most) {
                most = worthOf(k, taken);
                dearest = {k, along, taken};
            }
        }
        return dearest;
    }

  private:
    [[nodiscard]] Cost worthOf(std::size_t kind, Nm width) const {
        return m_values->of(m_problem->kinds[kind], kind, width);
    }

    const Problem* m_problem;
    const Values* m_values;
    std::vector<std::int64_t> m_left;
};

/// The section's strips with what is too much exchanged; false where nothing was.
bool exchange(const PlacedSection& section, Wanted wanted, BoundSection& exchanged) {
    bool isChanged = false;
    for (const PlacedStrip& strip : section.strips) {
        BoundStrip other{strip.v0, strip.v1 - strip.v0, strip.v1 - strip.v0, {}};
        for (const Placed& placed : strip.blanks) {
            const Nm width = placed.rect.width().inNanometres();
            BoundBlank blank{static_cast<std::size_t>(placed.kind),
                             section.x0 + placed.rect.x0.inNanometres(), width};
            if (!wanted.is(blank.kind)) {
                blank =
                    wanted.dearestWithin(placed.rect.length().inNanometres(), width, blank.along);
                isChanged = isChanged || blank.width > 0;
            }
            if (blank.width > 0) {
                wanted.make(blank.kind, blank.width);
                other.blanks.push_back(blank);
            }
        }
        if (!other.blanks.empty()) {
            exchanged.strips.push_back(std::move(other));
        }
    }
    return isChanged;
}

} // namespace

Pattern withoutSurplus(const Context& context, const BoardModel& model, Pattern pattern,
                       const Values& values, const Demand& open) {
    Wanted wanted(*context.problem, values, open);
    for (PlacedSection& section : pattern.sections) {
        BoundSection exchanged{section.x0, section.x1, {}};
        if (exchange(section, wanted, exchanged)) {
            const SectionFit fit(context, model, exchanged, section.x0, section.x1);
            if (Wanted(wanted).make(fit.cut()) > Wanted(wanted).make(section)) {
                section = fit.cut();
            }
        }
        wanted.make(section);
    }
    return pattern;
}

} // namespace stavewright::cutting
