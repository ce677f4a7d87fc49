#pragma once
// The pricing problem of one board: what is the best pattern when blanks are worth so much? Three
// answer it: LatticeMenu at once and roughly, BoardMenu thoroughly, PlaceMenu exactly where places
// are few.

#include <memory>
#include <optional>
#include <vector>

#include "core/cutting/Interrupt.h"
#include "core/cutting/SectionCeilings.h"
#include "core/cutting/SectionMenu.h"

namespace stavewright::cutting {

struct BoardChoice {
    Cost value = 0; ///< of the blanks less fills and cuts; the board's own cost is not in it
    struct Section {
        const SectionMenu* menu = nullptr;
        SectionChoice choice;
    };
    std::vector<Section> sections; ///< by ascending x
    std::vector<Section> near;     ///< others that were looked into and seem to lose least
    std::optional<Pattern> whole;  ///< instead of sections, where it is written out already
    /// What the sections rest on, where their menus were made for this choice alone.
    std::vector<std::shared_ptr<const void>> keeps;
};

/// What was looked into under these values.
struct SeenSections {
    std::size_t board = 0;
    Values values;
    std::vector<BoardChoice::Section> sections;
};

class BoardPricing {
  public:
    virtual ~BoardPricing() = default;

    [[nodiscard]] virtual const BoardModel& model() const = 0;
    /// Best pattern clear of the stretches that are taken already, each with a crosscut between.
    /// Safe to call from several threads. Nothing of use once the interrupt is called. Adds the
    /// steps taken to `work`.
    [[nodiscard]] virtual BoardChoice bestBeside(const std::vector<Stretch>& taken,
                                                 const Values& values, const Interrupt& interrupt,
                                                 std::int64_t& work) const = 0;
    [[nodiscard]] BoardChoice best(const Values& values, const Interrupt& interrupt,
                                   std::int64_t& work) const {
        return bestBeside({}, values, interrupt, work);
    }
    /// The same as best, for one thread alone: what is worked out becomes a start for values near
    /// these.
    [[nodiscard]] virtual BoardChoice rebase(const Values& values, const Interrupt& interrupt,
                                             std::int64_t& work) {
        return best(values, interrupt, work);
    }
    /// Considers these sections from now on; for one thread alone.
    virtual void widen(const std::vector<BoundSection>& sections) { static_cast<void>(sections); }
    /// From now on what is known of its sections spares looking into most of them. For one thread
    /// alone.
    virtual void cap(SectionCeilings&& ceilings) { static_cast<void>(ceilings); }
    /// Looks among many more sections for the best under these values, those that it was capped
    /// for, and considers these from now on. For one thread alone.
    virtual void refine(const Values& values, const Interrupt& interrupt, std::int64_t& work) {
        static_cast<void>(values);
        static_cast<void>(interrupt);
        static_cast<void>(work);
    }
    /// The same as best, among all the sections that refine() looks among, as far as some work
    /// goes.
    [[nodiscard]] virtual BoardChoice bestOfMore(const Values& values, const Interrupt& interrupt,
                                                 std::int64_t& work) const {
        return best(values, interrupt, work);
    }
    /// A choice tells so many sections besides, at most; none unless asked for. For one thread
    /// alone.
    virtual void tellNear(std::size_t most) { static_cast<void>(most); }
    /// Counted work of the preparation.
    [[nodiscard]] virtual std::int64_t preparation() const = 0;

    /// The choice written out; `values` are those it was made with.
    [[nodiscard]] Pattern cut(const Values& values, const BoardChoice& choice) const {
        if (choice.whole) {
            return *choice.whole;
        }
        Pattern pattern;
        pattern.board = model().index();
        for (const BoardChoice::Section& section : choice.sections) {
            pattern.sections.push_back(section.menu->cut(values, section.choice));
        }
        return pattern;
    }
};

} // namespace stavewright::cutting
