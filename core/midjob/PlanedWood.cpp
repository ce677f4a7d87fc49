#include "core/midjob/PlanedWood.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/midjob/ShopMarks.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/Statement.h"

namespace stavewright::midjob {

namespace {

/// How thick the thickest blank needs its wood, by the thicknesses that a plan chose.
class ThicknessNeeded {
  public:
    explicit ThicknessNeeded(const Document& document)
        : m_document(document) {
        for (const ThicknessChoice& choice : document.plan->thicknesses) {
            m_chosen[choice.part] = choice.finished;
        }
    }

    [[nodiscard]] Length in(const Strip& strip) const {
        Length most;
        for (const Blank& blank : strip.blanks) {
            if (const Part* part = findPart(m_document, blank.purpose.part)) {
                const Length finished = planning::finishedThickness(m_document, *part, m_chosen);
                most = std::max(most, thicknessToReach(m_document, *part, finished));
            }
        }
        return most;
    }
    [[nodiscard]] Length in(const Section& section) const {
        Length most;
        for (const Strip& strip : section.strips) {
            most = std::max(most, in(strip));
        }
        return most;
    }

  private:
    const Document& m_document;
    planning::Thicknesses m_chosen;
};

template <class Piece>
void note(std::optional<Length>& noted, bool milled, const ThicknessNeeded& needed,
          const Piece& piece, const Piece* was) {
    if (!milled) {
        noted.reset();
    } else if (!noted) {
        const Length most = std::max(needed.in(piece), was ? needed.in(*was) : Length());
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
    const ThicknessNeeded needed(before);
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
                note(section.planedTo, milled, needed, section, was);
                continue;
            }
            for (Strip& strip : section.strips) {
                note(strip.planedTo, isMilled(section, strip), needed, strip,
                     was ? sameIn(was->strips, strip) : nullptr);
            }
        }
    }
}

} // namespace stavewright::midjob
