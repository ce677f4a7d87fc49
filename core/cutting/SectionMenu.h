#pragma once
// Everything that can be cut from one section, worked out once, and the best of it for given
// values.
//
// An option is a kind in a pose at one place along the section, with the obstacles it meets there
// across. `best` stacks strips from the straightened edge up. It is exact over: all places across
// (a blank stands on its strip's low edge, on the edge of an obstacle or on the strip below, which
// loses nothing), the options' places along, strips as wide as one of their blanks, and for free
// widths the widest that is clear, the least, and those that leave just enough room for one more
// kind above. With Fineness::everyStart it equals complete enumeration for fixed widths
// (tests/unit/core/cutting/SectionMenuTest.cpp); free widths are a reduced set.
//
//   SectionMenu menu(context, model, x0, x1);
//   SectionChoice choice = menu.best(values, work);
//   PlacedSection cut = menu.cut(values, choice);

#include <cstdint>

#include "core/cutting/Obstacles.h"
#include "core/cutting/SectionShape.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// The problem with what the search derives from it once.
struct Context {
    explicit Context(const Problem& wanted);

    const Problem* problem;
    std::vector<BlankPose> poses; ///< of all kinds
    std::size_t rules = 0;
    Nm shortest = 0;  ///< length of the shortest kind
    Nm narrowest = 0; ///< least width of any kind
};

struct SectionChoice {
    Cost value = 0; ///< of the blanks less fills and rips; 0 and nothing cut when nothing pays
    bool roughRippedFirst = false;
    bool isEmpty = true;
    std::uint64_t kinds = 0; ///< that it holds, as bits (kind modulo 64)
};

/// How finely places along a section are taken; finer costs time.
struct Fineness {
    std::size_t startsPerBoard = 48;
    std::size_t longSections = 6;      ///< stretches between large defects
    std::size_t placesPerSection = 24; ///< of one pose along a section
    std::size_t startsPerWidth = 4;    ///< places across that are tried for strips of one width
    bool pairs = false;                ///< sections as long as two kinds in a row
    /// Strips of several blanks also start where any of them just clears a defect, not only the one
    /// that gives the strip its width. Needed to be exact; gains little (3 of 400 tiny sections).
    bool everyStart = false;
    std::size_t stripsPerStack = 1000; ///< strips that are tried on top of one stack
    bool everyPose = true;             ///< otherwise only as it lies and face over

    [[nodiscard]] static Fineness first() { return {12, 5, 12, 2, false, false, 8, true}; }
    [[nodiscard]] static Fineness quick() { return {12, 5, 4, 2, false, false, 8, false}; }
    [[nodiscard]] static Fineness usual() { return {48, 8, 10, 3, false, false, 24, true}; }
    [[nodiscard]] static Fineness fine() { return {120, 10, 16, 4, true, true, 1000, true}; }
    friend bool operator==(const Fineness&, const Fineness&) = default;
};

class SectionMenu {
  public:
    SectionMenu(const Context& context, const BoardModel& model, Nm x0, Nm x1,
                const Fineness& fineness);

    [[nodiscard]] Nm x0() const { return m_shape.x0(); }
    [[nodiscard]] Nm x1() const { return m_shape.x1(); }
    [[nodiscard]] const SectionShape& shape() const { return m_shape; }
    /// Nothing can be cut from it.
    [[nodiscard]] bool isEmpty() const { return m_options.empty(); }

    /// Best strips for these values; adds the steps taken to `work`.
    [[nodiscard]] SectionChoice best(const Values& values, std::int64_t& work) const;
    /// The same strips written out.
    [[nodiscard]] PlacedSection cut(const Values& values, const SectionChoice& choice) const;

  private:
    struct Option {
        int pose = 0;
        int kind = 0;
        Nm u0 = 0, u1 = 0;
        Nm top = 0; ///< clear top of the outline over [u0, u1]
        std::uint32_t firstObstacle = 0, lastObstacle = 0;
        std::uint32_t before = 0; ///< options that end early enough to stand before this one
        Nm widestRipped = 0;      ///< widest strip of a rough-ripped section that still reaches
        bool wholeReaches = false;
    };
    struct State {
        Nm v = 0;
        Cost value = 0;
        int previous = -1;
        Nm v0 = 0, v1 = 0; ///< the strip that led here
    };
    struct Fit {
        Cost gain = 0;
        Nm v0 = -1, v1 = -1;
    };

    [[nodiscard]] ObstacleRange obstaclesOf(const Option& option) const;
    [[nodiscard]] bool allows(const Option& option, bool ripped, Nm stripWidth) const;
    [[nodiscard]] Fit fitIn(const Option& option, const Values& values, Nm v0, Nm v1) const;
    /// best[i]: most that the first i options give as blanks of the strip [v0, v1].
    void fillRow(const Values& values, bool ripped, Nm v0, Nm v1, std::vector<Cost>& best) const;
    /// A strip that one option asks for.
    struct Asked {
        Nm v0 = 0, v1 = 0;
        const Option* by = nullptr;
        int rank = 0; ///< lower is tried first where not all can be
    };
    void addEveryStart(Nm v, std::vector<Asked>& strips) const;
    void stripsFrom(const Values& values, bool ripped, Nm v, std::vector<Asked>& strips) const;
    [[nodiscard]] int stack(const Values& values, bool ripped, std::vector<State>& states,
                            std::int64_t& work) const;
    /// Calls visit(option, fit) for the blanks of the strip that a state stands for, from the high
    /// end.
    template <class Visit>
    void visitStrip(const Values& values, bool ripped, const State& state, std::vector<Cost>& row,
                    const Visit& visit) const;
    void findOptions(const SectionPieces& pieces, const Fineness& fineness);

    const Context* m_context;
    SectionShape m_shape;
    bool m_mayWhole = false;       ///< narrow enough for the jointer, long enough to be faced
    bool m_mayRipped = false;      ///< some kind reaches its thickness only so
    std::vector<Option> m_options; ///< by ascending u1
    std::vector<Obstacle> m_obstacles;
    bool m_oneInARow = true; ///< no strip can hold two blanks
    std::size_t m_startsPerWidth = 4;
    bool m_everyStart = false;
    std::size_t m_stripsPerStack = 1000;
    std::vector<Nm> m_widths; ///< distinct least widths of the kinds that have options
};

} // namespace stavewright::cutting
