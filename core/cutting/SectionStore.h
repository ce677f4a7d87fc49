#pragma once
// The sections that the search has met on each board, out of whatever patterns they came. Put
// together anew they make patterns that nobody has priced yet, in microseconds: geometry is not
// asked again.
//
//   SectionStore store(context, accounts, models);
//   store.add(pattern);
//   SectionChain chain = store.best(board, wish, scratch);
//   Pattern pattern = store.patternOf(board, chain.sections);

#include <memory>
#include <vector>

#include "core/cutting/Accounts.h"

namespace stavewright::cutting {

/// Sections of one board, one behind the other.
struct SectionChain {
    double value = 0;                    ///< of what is wanted of it, less fills and cuts; Cost
    std::vector<std::uint32_t> sections; ///< numbers in the store, by ascending x
};

class SectionStore {
  public:
    SectionStore(const Context& context, const Accounts& accounts,
                 std::vector<const BoardModel*> models);

    /// Learns the sections of a pattern; true when any of them was new. Chains found before are out
    /// of date then.
    bool add(const Pattern& pattern);
    [[nodiscard]] std::size_t boards() const { return m_boards.size(); }
    [[nodiscard]] std::size_t kinds() const { return m_kinds; }
    [[nodiscard]] const BoardModel& model(std::size_t board) const { return *m_models[board]; }
    [[nodiscard]] std::size_t sectionsOf(std::size_t board) const {
        return m_boards[board].sections.size();
    }

    /// What is wanted and what it is worth; by kind.
    struct Wish {
        std::vector<double> worth;      ///< of a blank, or of a nanometre of net stave width
        std::vector<double> perStave;   ///< of a stave besides; 0 or less
        std::vector<std::int64_t> open; ///< blanks, or nanometres; what is beyond is worth nothing
    };
    /// Room to work in; one for each thread.
    struct Scratch {
        struct Label {
            double value;
            std::uint32_t place; ///< of its last section
            std::int32_t before; ///< label; -1: none
        };
        std::vector<Label> labels;
        std::vector<std::int64_t> yields; ///< by label, then kind
        std::vector<std::int32_t> front, firstOf, lastOf;
        std::vector<double> alone;  ///< by place: worth of the section, were it the only one
        std::vector<double> onward; ///< by place: most from there on
        std::vector<std::int64_t> made;
        std::int64_t steps = 0; ///< taken so far
    };
    /// No chain is worth more, unless a stave costs more than its width is worth.
    [[nodiscard]] double most(std::size_t board, const Wish& wish, Scratch& scratch) const {
        lookOnward(m_boards[board], wish, scratch);
        return scratch.onward.front();
    }
    /// The best chain that was met; of many that are nearly as good only a few are pursued.
    [[nodiscard]] SectionChain best(std::size_t board, const Wish& wish, Scratch& scratch) const;

    /// Blanks, or nanometres of net stave width, by kind.
    [[nodiscard]] std::vector<std::int64_t>
    yieldOf(std::size_t board, const std::vector<std::uint32_t>& sections) const;
    /// Of fills and cuts; offcuts are left out.
    [[nodiscard]] Cost costOf(std::size_t board, const std::vector<std::uint32_t>& sections) const;
    /// Adds the net widths of a pool's staves.
    void addNets(std::size_t board, const std::vector<std::uint32_t>& sections, std::size_t pool,
                 std::vector<Nm>& nets) const;
    [[nodiscard]] Pattern patternOf(std::size_t board,
                                    const std::vector<std::uint32_t>& sections) const;

  private:
    struct Stored {
        PlacedSection section;
        std::vector<std::int64_t> yield;                ///< by kind
        std::vector<std::int64_t> staves;               ///< by kind
        std::vector<std::pair<std::uint32_t, Nm>> nets; ///< pool and net width of each stave
        Cost cost = 0;
    };
    /// What a section gives of one kind.
    struct Gift {
        std::uint32_t kind;
        std::int64_t amount;
        double staves;
    };
    /// What best() needs of a section.
    struct Lean {
        double cost;
        std::uint32_t firstGift, lastGift; ///< into gifts
        std::uint32_t section;             ///< number
        std::uint32_t next = 0;            ///< place of the first one that may follow
    };
    struct Board {
        std::vector<Stored> sections;
        std::vector<Lean> lean; ///< a section's place is that in the order of their begins
        std::vector<Gift> gifts;
        std::vector<std::uint32_t> byEnd; ///< places
    };
    /// What best() needs, of all the board's sections.
    void arrange(Board& board) const;
    [[nodiscard]] static bool isAsGood(const Stored& a, const Stored& b);
    /// What a section adds to what is made already; in Cost.
    [[nodiscard]] static double gainOf(const Board& board, const Lean& section, const Wish& wish,
                                       const std::int64_t* made);
    static void addGifts(const Board& board, const Lean& section, std::int64_t* made);
    /// Fills in what each section is worth alone and what may come from each place on, as if
    /// nothing could be made too often.
    void lookOnward(const Board& board, const Wish& wish, Scratch& scratch) const;
    /// The chain that looked best so, without what it makes too often.
    [[nodiscard]] SectionChain unlimited(const Board& board, const Wish& wish,
                                         Scratch& scratch) const;

    const Context* m_context;
    const Accounts* m_accounts;
    std::vector<const BoardModel*> m_models;
    std::size_t m_kinds = 0;
    std::vector<Board> m_boards;
};

} // namespace stavewright::cutting
