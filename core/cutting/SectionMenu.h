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
#include <limits>
#include <optional>

#include "core/cutting/BoundSection.h"
#include "core/cutting/Obstacles.h"
#include "core/cutting/SectionShape.h"
#include "core/cutting/Values.h"

namespace stavewright::cutting {

/// The problem with what the search derives from it once.
struct Context {
    explicit Context(const Problem& wanted);

    const Problem* problem;
    std::vector<BlankPose> poses; ///< of all kinds that are wanted
    std::size_t rules = 0;
    Nm shortest = 0;  ///< length of the shortest of them
    Nm narrowest = 0; ///< least width of any
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
    int inARow = 1;                    ///< sections as long as so many kinds in a row, or less
    /// Strips of several blanks also start where any of them just clears a defect, not only the one
    /// that gives the strip its width. Needed to be exact; gains little (3 of 400 tiny sections).
    bool everyStart = false;
    std::size_t stripsPerStack = 1000; ///< strips that are tried on top of one stack
    bool everyPose = true;             ///< otherwise only as it lies and face over

    [[nodiscard]] static Fineness first() { return {12, 5, 12, 2, 1, false, 8, true}; }
    [[nodiscard]] static Fineness quick() { return {12, 5, 4, 2, 1, false, 8, false}; }
    [[nodiscard]] static Fineness usual() { return {48, 8, 10, 3, 1, false, 24, true}; }
    /// Where a proof says which sections cannot be among the best.
    [[nodiscard]] static Fineness capped() { return {200, 40, 10, 3, 2, false, 24, true}; }
    [[nodiscard]] static Fineness fine() { return {120, 10, 16, 4, 2, true, 1000, true}; }
    friend bool operator==(const Fineness&, const Fineness&) = default;
};

class SectionMenu {
  public:
    /// `foreseen`: strips that are thought to be worth much, right to a step or two of a lattice;
    /// places like theirs are tried as well.
    SectionMenu(const Context& context, const BoardModel& model, Nm x0, Nm x1,
                const Fineness& fineness, const BoundSection* foreseen = nullptr);

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
    /// Options that ask the same across: of one kind, with the same obstacles.
    struct Group {
        int kind = 0;
        Nm top = 0; ///< clear top of the outline over the options
        std::uint32_t firstObstacle = 0, lastObstacle = 0;
        bool hasSoft = false;
        Nm widestRipped = 0; ///< widest strip of a rough-ripped section that still reaches
        bool wholeReaches = false;
        Cost fewestCuts = 0; ///< crosscuts of an option that stands alone, at least
    };
    struct Option {
        int pose = 0;
        std::uint32_t group = 0;
        Nm u0 = 0, u1 = 0;
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

    /// What strips need of a group under given values.
    struct Wanted {
        std::uint32_t group = 0;
        Nm width = 0; ///< least
        Nm top = 0;
        Nm widest = 0;  ///< no strip may be wider
        Cost worth = 0; ///< of a blank of its least width
        double length = 0;
        ObstacleRange obstacles;
        bool isPool = false;
        bool hasSoft = false;
    };
    /// A strip filled: by group its best fit, and what it gains, its crosscuts aside; below 0: it
    /// does not fit.
    struct Row {
        std::vector<Wanted> wanted; ///< groups that are worth something, narrow ones first
        std::vector<Fit> fits;
        std::vector<Cost> gains;
        std::vector<Cost> best;  ///< [i]: most that the first i options give
        std::vector<Cost> endAt; ///< [i]: that those of them give that end where option i does
    };
    /// What the row's programme needs of an option.
    struct Link {
        std::uint32_t group = 0;
        std::uint32_t before = 0; ///< options that end early enough to stand before this one
        bool joins = false;       ///< the last of these end just one crosscut before it
        bool endsAlike = false;   ///< as the option before it
        Cost cutBefore = 0;       ///< where none is joined; nothing at the section's own end
        Cost cutBehind = 0;
    };

    [[nodiscard]] const Kind& kindOf(const Group& group) const {
        return m_context->problem->kinds[static_cast<std::size_t>(group.kind)];
    }
    [[nodiscard]] ObstacleRange obstaclesOf(const Group& group) const {
        return {m_obstacles.data() + group.firstObstacle, m_obstacles.data() + group.lastObstacle};
    }
    /// Widest strip that still gives the group's thickness; 0: none does.
    [[nodiscard]] static Nm widestStrip(const Group& group, bool ripped) {
        return ripped               ? group.widestRipped
               : group.wholeReaches ? std::numeric_limits<Nm>::max()
                                    : 0;
    }
    /// For the rip that trims a strip to a blank's width; none where it has no room.
    [[nodiscard]] std::optional<Cost> trimming(Nm strip, Nm width) const;
    [[nodiscard]] Wanted wantedOf(std::uint32_t group, const Values& values, bool ripped) const;
    /// The best of the group that lies in a strip; none where nothing fits or pays.
    [[nodiscard]] Fit fitIn(const Wanted& wanted, const Values& values, Nm v0, Nm v1) const;
    [[nodiscard]] Fit fitFixed(const Wanted& wanted, Nm v0, Nm v1) const;
    [[nodiscard]] Fit fitPool(const Wanted& wanted, const Values& values, Nm v0, Nm v1) const;
    /// A row for these values.
    [[nodiscard]] Row emptyRow(const Values& values, bool ripped) const;
    /// Most that blanks of this section are worth by their width, across the whole length.
    [[nodiscard]] double worthAcross(const Values& values) const;
    /// The fits of a strip; at most what its row can be worth.
    [[nodiscard]] double fitRow(const Values& values, Nm v0, Nm v1, Row& row) const;
    /// The best row of these fits.
    void fillRow(Row& row) const;
    /// A strip that a group asks for.
    struct Asked {
        Nm v0 = 0, v1 = 0;
        std::uint32_t by = 0;
        int rank = 0; ///< lower is tried first where not all can be; below 0 always
    };
    /// Places along like those of the foreseen strips, by what is `allowed`.
    void addForeseenPlaces(const BoundSection& foreseen, const SectionPieces& pieces,
                           const std::vector<std::pair<int, Group>>& allowed,
                           std::vector<std::vector<Nm>>& places) const;
    void addForeseenStrips(Nm v, std::vector<Asked>& strips) const;
    /// Where strips start with Fineness::everyStart.
    void findStarts();
    void addEveryStart(Nm v, std::vector<Asked>& strips) const;
    void stripsFrom(const Values& values, bool ripped, Nm v, std::vector<Asked>& strips) const;
    /// `row`: empty, for these values.
    [[nodiscard]] int stack(const Values& values, bool ripped, Row& row, std::vector<State>& states,
                            std::int64_t& work) const;
    /// Calls visit(option, fit) for the blanks of the strip that a state stands for, from the high
    /// end.
    template <class Visit>
    void visitStrip(const Values& values, const State& state, Row& row, const Visit& visit) const;
    /// `poses` with the group that its options begin with.
    void findOptions(const SectionPieces& pieces, const Fineness& fineness,
                     const std::vector<std::pair<int, Group>>& poses, const BoundSection* foreseen);
    /// Says of every option which ones can stand before it.
    void linkOptions();
    /// The group with the obstacles at the end of m_obstacles, which stay only where it is new.
    [[nodiscard]] std::uint32_t groupLike(const Group& group);

    const Context* m_context;
    SectionShape m_shape;
    bool m_mayWhole = false;  ///< narrow enough for the jointer, long enough to be faced
    bool m_mayRipped = false; ///< some kind reaches its thickness only so
    std::vector<Group> m_groups;
    std::vector<std::uint32_t> m_byWidth; ///< groups, narrow ones first
    std::vector<Option> m_options;        ///< by ascending u1
    std::vector<Link> m_links;            ///< by option
    std::vector<Obstacle> m_obstacles;
    bool m_oneInARow = true; ///< no strip can hold two blanks
    std::size_t m_startsPerWidth = 4;
    bool m_everyStart = false;
    std::size_t m_stripsPerStack = 1000;
    std::vector<Nm> m_starts; ///< that are tried besides, ascending
    std::vector<BoundStrip> m_foreseen;
    std::vector<Nm> m_widths; ///< distinct least widths of the kinds that have options
};

} // namespace stavewright::cutting
