#include "core/planning/Assembly.h"

#include <algorithm>
#include <utility>

namespace stavewright::planning {

namespace {

class Assembler {
  public:
    Assembler(const Statement& statement, std::int64_t& nextId)
        : m_statement(statement)
        , m_nextId(nextId)
        , m_used(statement.specs.size(), 0)
        , m_panels(statement.specs.size()) {
        for (std::size_t k = 0; k < m_panels.size(); ++k) {
            m_panels[k].resize(static_cast<std::size_t>(std::max(0, statement.specs[k].count)));
        }
    }

    Plan make(const cutting::Solution& solution) {
        Plan plan;
        for (const cutting::Pattern& pattern : solution.patterns) {
            plan.boards.push_back(board(pattern));
        }
        addUnplaced(plan);
        return plan;
    }

  private:
    struct Panel {
        int staves = 0;
        Length net;
    };

    template <class AnyId>
    AnyId take() {
        return AnyId{m_nextId++};
    }

    BoardLayout board(const cutting::Pattern& pattern) {
        BoardLayout layout;
        layout.board = m_statement.boards[static_cast<std::size_t>(pattern.board)];
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
        return layout;
    }

    Blank blank(const cutting::Placed& placed) {
        const auto kind = static_cast<std::size_t>(placed.kind);
        const BlankSpec& spec = m_statement.specs[kind];
        Blank made;
        made.id = take<BlankId>();
        made.rect = placed.rect;
        made.pose = {placed.endForEnd, placed.faceOver};
        if (spec.staves) {
            Panel& panel = m_panels[kind][static_cast<std::size_t>(placed.panel)];
            made.purpose = purposeOf(spec, placed.panel);
            made.purpose.stave = ++panel.staves;
            panel.net += placed.rect.width() - spec.staves->jointAllowance;
        } else {
            made.purpose = purposeOf(spec, m_used[kind]++);
        }
        return made;
    }

    void addUnplaced(Plan& plan) const {
        for (std::size_t k = 0; k < m_statement.specs.size(); ++k) {
            const BlankSpec& spec = m_statement.specs[k];
            for (int index = 0; index < spec.count; ++index) {
                bool isMissing = index >= m_used[k];
                if (spec.staves) {
                    const Panel& panel = m_panels[k][static_cast<std::size_t>(index)];
                    isMissing =
                        panel.net < spec.staves->netWanted || panel.staves < spec.staves->fewest;
                }
                if (isMissing) {
                    plan.unplaced.push_back({purposeOf(spec, index), {}});
                }
            }
        }
    }

    const Statement& m_statement;
    std::int64_t& m_nextId;
    std::vector<int> m_used; ///< fixed blanks placed, by kind
    std::vector<std::vector<Panel>> m_panels;
};

} // namespace

Plan assemble(const Statement& statement, const cutting::Solution& solution, std::int64_t& nextId) {
    return Assembler(statement, nextId).make(solution);
}

} // namespace stavewright::planning
