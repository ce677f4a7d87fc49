#pragma once
// A crosscut or rip under the pointer: it says its safe window there, and is dragged to another
// place. Whether that is good, and which place next to it is, the core says (core/hand/CutDrag.h);
// nothing of the job changes before it is let go.

#include <QObject>
#include <QPointF>

#include <optional>

#include "core/hand/CutDrag.h"
#include "ui/session/DocumentSession.h"

class QPainter;

namespace stavewright::ui {

class RackScene;
struct Colours;

class CutTool : public QObject {
    Q_OBJECT
  public:
    CutTool(DocumentSession& session, RackScene& scene, QObject* parent = nullptr);

    struct Found {
        BoardId board;
        hand::CutRef cut;
        bool isRip = false;
    };
    /// The cut of the plan whose line runs within a few pixels of the point.
    [[nodiscard]] std::optional<Found> cutAt(QPointF scenePoint) const;
    /// "Crosscut at 52: anything from ... still gives every part", as far as it is known.
    [[nodiscard]] QString about(const Found& found) const;

    [[nodiscard]] bool isHolding() const { return m_drag.has_value(); }
    [[nodiscard]] BoardId board() const { return m_drag->board(); } ///< while one is in the hand
    [[nodiscard]] const std::optional<hand::CutDrag::Held>& held() const { return m_held; }
    bool take(const Found& found); ///< false, and told, where it cannot move
    /// The next cut of the board that can move (`by` 1) or the one before (-1): from the one in the
    /// hand on, else from the section of the blank. A cut that was moved stays in the hand.
    void takeNext(BoardId board, std::optional<BlankId> blank, int by);
    void holdAt(QPointF scenePoint, bool snapping);
    void nudge(int marks); ///< of the tape
    void holdAtReading(Length where);
    void takeNearest(); ///< over to the good place that is offered
    bool lay();         ///< where that is good; else it stays in the hand and says why
    /// The job is being changed by it just now: the boards are to be shown at once.
    [[nodiscard]] bool isLaying() const { return m_isLaying; }
    void putBack();

    void paint(QPainter& painter, const Colours& colours) const; ///< in scene coordinates

  signals:
    void changed();
    void words(const QString& text);

  private:
    [[nodiscard]] QLineF lineOf(BoardId board, const hand::CutRef& cut, Length where) const;
    void judge(Length where, Length snapWithin);
    void end();

    DocumentSession& m_session;
    RackScene& m_scene;
    std::optional<hand::CutDrag> m_drag;
    std::optional<hand::CutDrag::Held> m_held;
    bool m_isLaying = false;
};

} // namespace stavewright::ui
