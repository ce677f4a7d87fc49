#include "core/planning/Assembly.h"

#include <algorithm>
#include <map>
#include <utility>

namespace stavewright::planning {

namespace {

class Assembler {
  public:
    Assembler(const Statement& statement, std::int64_t& nextId)
        : m_statement(statement)
        , m_nextId(nextId)
        , m_used(statement.specs.size(), 0)
        , m_panels(statement.pieces) {}

    Plan make(const cutting::Solution& solution) {
        std::map<BoardId, BoardLayout> layouts;
        for (const BoardLayout& layout : m_statement.kept.boards) {
            layouts[layout.board] = layout;
        }
        for (const cutting::Pattern& pattern : solution.patterns) {
            const BoardId board = m_statement.boards[static_cast<std::size_t>(pattern.board)];
            BoardLayout& layout = layouts[board];
            layout.board = board;
            addSections(pattern, layout);
        }
        Plan plan;
        for (const BoardId board : m_statement.boards) { // in rack order
            const auto found = layouts.find(board);
            if (found != layouts.end()) {
                plan.boards.push_back(std::move(found->second));
            }
        }
        addUnplaced(plan);
        return plan;
    }

  private:
    template <class AnyId>
    AnyId take() {
        return AnyId{m_nextId++};
    }

    void addSections(const cutting::Pattern& pattern, BoardLayout& layout) {
        for (const cutting::PlacedSection& placed : pattern.sections) {
            Section section;
            section.id = take<SectionId>();
            section.along = {Length::nanometres(placed.x0), Length::nanometres(placed.x1)};
            section.frame = placed.frame;
            section.facing =
                placed.roughRippedFirst ? FirstFacing::RoughRippedFirst : FirstFacing::Whole;
            for (const cutting::PlacedStrip& cut : placed.strips) {
                Strip strip;
                strip.id = take<StripId>();
                strip.across = {Length::nanometres(cut.v0), Length::nanometres(cut.v1)};
                for (const cutting::Placed& piece : cut.blanks) {
                    strip.blanks.push_back(blank(piece));
                }
                section.strips.push_back(std::move(strip));
            }
            layout.sections.push_back(std::move(section));
        }
        std::sort(layout.sections.begin(), layout.sections.end(),
                  [](const Section& a, const Section& b) { return a.along.from < b.along.from; });
    }

    Blank blank(const cutting::Placed& placed) {
        const auto kind = static_cast<std::size_t>(placed.kind);
        const BlankSpec& spec = m_statement.specs[kind];
        Blank made;
        made.id = take<BlankId>();
        made.rect = placed.rect;
        made.pose = {placed.endForEnd, placed.faceOver};
        if (spec.staves) {
            WantedPiece& panel = m_panels[kind][static_cast<std::size_t>(placed.panel)];
            made.purpose = purposeOf(spec, panel.number);
            made.purpose.stave = firstFree(panel.keptStaves);
            panel.keptStaves.insert(made.purpose.stave);
            panel.keptNet += placed.rect.width() - spec.staves->jointAllowance;
        } else {
            made.purpose = purposeOf(spec, m_statement.pieces[kind][m_used[kind]++].number);
        }
        return made;
    }

    static int firstFree(const std::set<int>& staves) {
        int number = 1;
        while (staves.contains(number)) {
            ++number;
        }
        return number;
    }

    void addUnplaced(Plan& plan) const {
        for (std::size_t k = 0; k < m_statement.specs.size(); ++k) {
            const BlankSpec& spec = m_statement.specs[k];
            for (std::size_t i = 0; i < m_panels[k].size(); ++i) {
                const WantedPiece& piece = m_panels[k][i];
                const bool isMissing = spec.staves ? piece.keptNet < spec.staves->netWanted ||
                                                         static_cast<int>(piece.keptStaves.size()) <
                                                             spec.staves->fewest
                                                   : i >= m_used[k];
                if (isMissing) {
                    plan.unplaced.push_back({purposeOf(spec, piece.number), {}});
                }
            }
        }
    }

    const Statement& m_statement;
    std::int64_t& m_nextId;
    std::vector<std::size_t> m_used; ///< of the kind's wanted blanks, those that are placed
    std::vector<std::vector<WantedPiece>> m_panels; ///< filled as staves are placed
};

} // namespace

Plan assemble(const Statement& statement, const cutting::Solution& solution, std::int64_t& nextId) {
    return Assembler(statement, nextId).make(solution);
}

} // namespace stavewright::planning
