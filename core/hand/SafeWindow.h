#pragma once
// How far a cut may land off its mark before something is lost, and what. All other cuts are as
// marked (those made before, as they were made); blanks may slide in their strips, and the blank at
// the cut may lose its allowance down to the finished size.
//
//   const SafeWindows windows(document);
//   for (const CutWindow& cut : windows.onBoard(board)) ... cut.mark, cut.window, cut.lostBelow

#include <map>
#include <memory>

#include "core/audit/BoardJudge.h"
#include "core/document/Document.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::hand {

/// A cut of the plan: one end of a section (crosscut), or one edge of a strip (rip).
struct CutRef {
    SectionId section;
    std::optional<StripId> strip; ///< set for a rip
    bool high = true;             ///< the far end, or the far edge
    friend bool operator==(const CutRef&, const CutRef&) = default;
};

/// What becomes of a board when one of its cuts lands somewhere.
struct Landed {
    BoardLayout layout;      ///< the sections at the cut are cut, their blanks where they fit
    std::vector<Blank> lost; ///< that no longer come out of it
};

struct CutWindow {
    CutRef cut;
    Length mark;            ///< reading on the tape; of a rip v in the section's frame
    Stretch window;         ///< anywhere in it every part still comes out
    bool openBelow = false; ///< looked no further on that side; nothing is lost up to there
    bool openAbove = false;
    std::vector<BlankPurpose> lostBelow; ///< a mark of the tape below the window
    std::vector<BlankPurpose> lostAbove;
    std::string whyBelow; ///< the audit's word, where no blank but a size of the piece is at fault
    std::string whyAbove;
};

class SafeWindows {
  public:
    /// The document has to outlive the windows; it has a plan.
    explicit SafeWindows(const Document& document);

    /// The cuts that are not made yet, in the order of the board sheet: crosscuts from the datum
    /// end, then the rips of each section.
    [[nodiscard]] std::vector<CutRef> cutsOn(BoardId board) const;
    [[nodiscard]] std::vector<CutWindow> onBoard(BoardId board) const;
    /// Nothing where the plan is wrong already with the cut on its mark.
    [[nodiscard]] std::optional<CutWindow> windowOf(BoardId board, const CutRef& cut) const;
    /// The board after the cut landed at `where`; nothing where that is no place for a cut.
    [[nodiscard]] std::optional<Landed> landed(BoardId board, const CutRef& cut,
                                               Length where) const;
    /// Landed there, everything still comes out and the audit finds nothing.
    [[nodiscard]] bool isSafe(BoardId board, const CutRef& cut, Length where) const;

    /// Where the plan has the cut; nothing when it no longer has it.
    [[nodiscard]] std::optional<Length> markOf(BoardId board, const CutRef& cut) const;

    /// Cuts are looked at no further off than this.
    static constexpr Length farthest = Length::inches(3);

  private:
    [[nodiscard]] Length markOf(const BoardLayout& layout, const CutRef& cut) const;
    [[nodiscard]] bool panelsHold(const BoardLayout& before, const BoardLayout& after) const;

    const Document& m_document;
    std::vector<BlankSpec> m_specs;
    BoardJudge m_judge;
    std::map<BlankPurpose, Length> m_nets; ///< of each panel in the plan
};

/// "anything from 50 1/4 to 54 1/8 still gives every part; beyond, R3 is lost"
[[nodiscard]] std::string sentenceOf(const Document& document, const CutWindow& window);

} // namespace stavewright::hand
