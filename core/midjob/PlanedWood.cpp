#include "core/midjob/PlanedWood.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/midjob/Marking.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/Statement.h"

namespace stavewright::midjob {

namespace {

class Planed {
  public:
    explicit Planed(const Document& document)
        : m_document(document) {
        for (const ThicknessChoice& choice : document.plan->thicknesses) {
            m_chosen[choice.part] = choice.finished;
        }
    }

    [[nodiscard]] Length neededIn(const Strip& strip) const {
        Length most;
        for (const Blank& blank : strip.blanks) {
            if (const Part* part = findPart(m_document, blank.purpose.part)) {
                const Length finished = planning::finishedThickness(m_document, *part, m_chosen);
                most = std::max(most, thicknessToReach(m_document, *part, finished));
            }
        }
        return most;
    }
    [[nodiscard]] Length neededIn(const Section& section) const {
        Length most;
        for (const Strip& strip : section.strips) {
            most = std::max(most, neededIn(strip));
        }
        return most;
    }

  private:
    const Document& m_document;
    planning::Thicknesses m_chosen;
};

template <class Piece>
void note(std::optional<Length>& noted, bool milled, const Planed& planed, const Piece& piece,
          const Piece* was) {
    if (!milled) {
        noted.reset();
    } else if (!noted) {
        const Length most =
            std::max(planed.neededIn(piece), was ? planed.neededIn(*was) : Length());
        noted = most > Length() ? std::optional(most) : std::nullopt;
    }
}

template <class Piece>
const Piece* sameIn(const std::vector<Piece>& pieces, const Piece& wanted) {
    const auto found = std::find_if(pieces.begin(), pieces.end(),
                                    [&](const Piece& each) { return each.id == wanted.id; });
    return found == pieces.end() ? nullptr : &*found;
}

} // namespace

void notePlaned(const Document& before, Document& after, const std::set<BoardId>& touched) {
    const Planed planed(before);
    for (BoardLayout& layout : after.plan->boards) {
        if (!touched.contains(layout.board)) {
            continue;
        }
        const BoardLayout* boardWas = hand::layoutOf(*before.plan, layout.board);
        for (Section& section : layout.sections) {
            const Section* was = boardWas ? sameIn(boardWas->sections, section) : nullptr;
            if (section.facing == FirstFacing::Whole) {
                const bool milled =
                    std::any_of(section.strips.begin(), section.strips.end(),
                                [&](const Strip& strip) { return isMilled(section, strip); });
                note(section.planedTo, milled, planed, section, was);
                continue;
            }
            for (Strip& strip : section.strips) {
                note(strip.planedTo, isMilled(section, strip), planed, strip,
                     was ? sameIn(was->strips, strip) : nullptr);
            }
        }
    }
}

} // namespace stavewright::midjob
