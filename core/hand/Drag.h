#pragma once
// One blank in the maker's hand: lifted off its board (or out of the tray) on a copy of the job,
// and judged wherever it is held. Quick enough to be asked at every move of the pointer: only the
// board under it is looked at.
//
//   Result<Drag> drag = Drag::lift(document, blank);
//   Drag::Held held = drag.value().at(board, corner, pose, snapWithin);
//   if (held.isLegal) session.edit(tr("Move R2"), drag.value().drop(held.laying).value());

#include <map>
#include <memory>

#include "core/audit/BoardJudge.h"
#include "core/document/Edit.h"
#include "core/hand/Laying.h"

namespace stavewright::hand {

class Drag {
  public:
    static Result<Drag> lift(const Document& document, BlankId blank);
    /// A blank that waits in the tray. A stave is as wide as its panel still wants, within limits.
    static Result<Drag> fromTray(const Document& document, const BlankPurpose& purpose);
    Drag(Drag&&) noexcept;
    ~Drag();

    /// What the blank's end or edge was drawn to.
    struct Snap {
        Length at;         ///< where the mark stands: x on the board
        std::string name;  ///< "loose knot K3", "R2 plus kerf"
        bool high = false; ///< its far end stands there, not the low one
    };
    struct Held {
        Laying laying;
        Polygon outline; ///< in the board frame
        bool isLegal = false;
        std::vector<std::string> reasons; ///< sentences why not, the nearest remedy in the first
        std::vector<DefectId> defects;    ///< that are in the way
        std::optional<Snap> snap;
        std::optional<Laying> nearest; ///< legal place next to it on this board
        std::string words;             ///< one line for the foot of the window
    };

    /// The blank with its low corner at `corner` of the board's frame. Ends within `snapWithin` of
    /// a mark are drawn to it; zero: none.
    [[nodiscard]] Held at(BoardId board, Point corner, Pose pose, Length snapWithin) const;
    /// The legal place nearest to that corner on the board; nothing when there is none.
    [[nodiscard]] std::optional<Laying> nearest(BoardId board, Point corner, Pose pose) const;
    /// Why this laying is not legal: sentences of the audit. Empty: it is.
    [[nodiscard]] std::vector<std::string> whyNot(const Laying& laying) const;

    /// The edit of the document that the blank was lifted from.
    [[nodiscard]] Result<Edit> drop(const Laying& laying) const;
    [[nodiscard]] Result<Edit> dropInTray() const;

    [[nodiscard]] const std::string& label() const;
    [[nodiscard]] Length length() const;
    [[nodiscard]] Length width() const;
    /// Where it was lifted from; nothing for one from the tray.
    [[nodiscard]] const std::optional<Laying>& origin() const;

  private:
    struct Inner;
    explicit Drag(std::unique_ptr<Inner> inner);
    std::unique_ptr<Inner> m_inner;
};

} // namespace stavewright::hand
