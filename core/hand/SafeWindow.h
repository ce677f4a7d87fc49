#pragma once
// How far a cut may land off its mark before something is lost, and what. All other cuts are as
// marked (those made before, as they were made); blanks may slide in their strips, to either side
// of a second crosscut, and the blank at the cut may lose its allowance down to the finished size.
//
//   const SafeWindows windows(document);
//   for (const CutWindow& cut : windows.onBoard(board)) ... cut.mark, cut.window, cut.lostBelow

#include <map>
#include <memory>
#include <stop_token>

#include "core/audit/BoardJudge.h"
#include "core/hand/Cuts.h"
#include "core/hand/Packing.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::hand {

/// What becomes of a board when one of its cuts lands somewhere.
struct Landed {
    BoardLayout layout;      ///< what the cut touches is cut, its blanks where they fit
    std::vector<Blank> lost; ///< that no longer come out of it
};

/// A panel whose staves no longer add up to its width.
struct PanelMissed {
    enum class By { TooNarrow, TooWide };
    BlankPurpose panel;
    By by = By::TooNarrow;
};

/// Readings as Cuts.h says them.
struct CutWindow {
    CutRef cut;
    Length mark;
    Stretch window;         ///< anywhere in it every part still comes out
    bool openBelow = false; ///< looked no further on that side; nothing is lost up to there
    bool openAbove = false;
    Length beyondBelow; ///< the next place looked at, less than a mark below, where it is lost
    Length beyondAbove;
    std::vector<BlankPurpose> lostBelow; ///< there
    std::vector<BlankPurpose> lostAbove;
    std::string whyBelow; ///< the audit's word, where no blank but a size of the piece is at fault
    std::string whyAbove;
    std::optional<PanelMissed> panelBelow; ///< where no blank but a panel is at fault
    std::optional<PanelMissed> panelAbove;
};

class SafeWindows {
  public:
    /// The document has to outlive the windows; it has a plan. One thread at a time.
    explicit SafeWindows(const Document& document);

    /// Of all cuts that are not made yet; a stop ends it early with those that are known.
    [[nodiscard]] std::vector<CutWindow> onBoard(BoardId board,
                                                 const std::stop_token& stop = {}) const;
    /// Nothing where the plan is wrong already with the cut on its mark.
    [[nodiscard]] std::optional<CutWindow> windowOf(BoardId board, const CutRef& cut) const;
    /// The board after the cut landed at `where`; nothing where that is no place for a cut.
    [[nodiscard]] std::optional<Landed> landed(BoardId board, const CutRef& cut,
                                               Length where) const;
    /// Landed there, everything still comes out and the audit finds nothing.
    [[nodiscard]] bool isSafe(BoardId board, const CutRef& cut, Length where) const;

    /// Cuts are looked at no further off than this.
    static constexpr Length farthest = Length::inches(3);

  private:
    [[nodiscard]] std::optional<Landed> crosscutLanded(const Packer& packer, Landed landed,
                                                       const CutRef& cut, Length where) const;
    [[nodiscard]] std::optional<Landed> ripLanded(const Packer& packer, Landed landed,
                                                  const CutRef& cut, Length where) const;
    [[nodiscard]] std::optional<Landed> secondLanded(const Packer& packer, Landed landed,
                                                     const CutRef& cut, Length where) const;
    /// A blank beside a second crosscut, on wood as long as the saw left it.
    [[nodiscard]] Blank reaching(Stretch ends, BoardLayout layout, StripId strip,
                                 const Blank& blank) const;
    /// Whether nothing is wrong: all of the board is judged, or only what the cut can have touched.
    enum class Judged { Board, AtCut };
    [[nodiscard]] bool isSafe(BoardId board, const CutRef& cut, const std::optional<Landed>& there,
                              Judged judged) const;
    /// The first place that is not safe from one mark to the next; nothing when all are.
    [[nodiscard]] std::optional<Length> unsafeBetween(BoardId board, const CutRef& cut, Length from,
                                                      Length to, const Landed& before,
                                                      const Landed& there) const;
    /// The first panel whose width no longer comes out that came out, or came nearer to it, before.
    [[nodiscard]] std::optional<PanelMissed> panelMissed(const BoardLayout& before,
                                                         const BoardLayout& after) const;
    /// Nothing is lost, no panel and no lock is broken; what the judge says is not asked.
    [[nodiscard]] bool holds(const BoardLayout& planned, const Landed& there) const;
    /// What is lost on one side of a window, and why.
    struct Loss {
        std::vector<BlankPurpose> blanks;
        std::string why;
        std::optional<PanelMissed> panel;
    };
    [[nodiscard]] Loss lossOf(const Landed& beyond) const;

    const Document& m_document;
    std::vector<BlankSpec> m_specs;
    BoardJudge m_judge;
    std::map<BlankPurpose, Length> m_nets; ///< of each piece and panel in the plan
    mutable std::map<BoardId, std::shared_ptr<Ground::Known>> m_grounds;
};

/// "anything from 50 1/4 to 54 1/8 still gives every part; beyond, R3 is lost"; "nothing but 2 5/16
/// still gives every part".
[[nodiscard]] std::string sentenceOf(const Document& document, const CutWindow& window);

/// "R3, S2"; empty for nothing.
[[nodiscard]] std::string namesOf(const Document& document, const std::vector<BlankPurpose>& lost);

} // namespace stavewright::hand
