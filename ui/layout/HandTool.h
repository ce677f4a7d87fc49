#pragma once
// A blank in the hand over the rack: lifted with the pointer or by keys, judged wherever it is
// held, laid down or put back. Whether a place is legal, and which is next to it, the core says
// (core/hand/Drag.h); nothing of the job changes before it is laid down.

#include <QObject>
#include <QPoint>
#include <QPolygonF>

#include <optional>

#include "core/hand/Drag.h"
#include "ui/session/DocumentSession.h"

class QPainter;

namespace stavewright::ui {

class RackScene;
struct Colours;

class HandTool : public QObject {
    Q_OBJECT
  public:
    HandTool(DocumentSession& session, RackScene& scene, QObject* parent = nullptr);

    [[nodiscard]] bool isHolding() const { return m_drag.has_value(); }
    [[nodiscard]] const std::optional<hand::Drag::Held>& held() const { return m_held; }

    /// Lifts the blank; `grip` is where on the scene it was taken, or its own corner without one.
    /// What is locked or cut stays, and words() says so.
    bool lift(BlankId blank, std::optional<QPointF> grip);
    /// Takes one out of the tray and holds it over the selected board, or the first one.
    bool liftFromTray(const BlankPurpose& purpose);

    enum class Snapping { On, Suspended };
    void holdAt(QPointF scenePoint, Snapping snapping);
    /// The pointer is over the tray: to be let go there is always legal.
    void holdOverTray();
    [[nodiscard]] bool isOverTray() const { return isHolding() && m_isOverTray; }
    /// By so many marks of the tape along and across, or by ten at once.
    void nudge(int along, int across, bool byTen);
    /// With its low end at this reading of the tape.
    void holdAtReading(Length reading);
    void holdOverBoard(int by); ///< the next or the one before
    void turnEndForEnd();
    void turnFaceOver();
    /// Over to the legal place that is offered, or to the next board that has one; nothing is laid
    /// down yet.
    void takeNearest();

    /// Lays it down where that is legal, and says why not elsewhere: it is then still in the hand.
    bool lay();
    bool layInTray();
    /// The job is being changed by it just now: the boards are to be shown at once.
    [[nodiscard]] bool isLaying() const { return m_isLaying; }
    void putBack(); ///< as if it had never been lifted

    void paint(QPainter& painter, const Colours& colours) const; ///< in scene coordinates
    /// Where what is held lies on the scene; empty when nothing is held, and over the tray.
    [[nodiscard]] QRectF heldBox() const;

  signals:
    void changed();                      ///< what is to be drawn
    void overTray(const QString& label); ///< what would lie in it; empty: no longer over it
    void words(const QString& text);     ///< one line: fits, or what is in the way

  private:
    bool hold(Result<hand::Drag> drag);
    /// By the pointer ends within reach are drawn to marks; by keys none is, and Enter lays it
    /// down.
    enum class By { Pointer, Keys };
    void judge(By by, Length snapWithin = Length());
    bool holdOverNearestBoard();
    void leaveTray();
    void end();
    [[nodiscard]] QString labelled(const QString& text) const;
    [[nodiscard]] QPolygonF onScene(const Polygon& polygon) const; ///< on the board it is held over

    DocumentSession& m_session;
    RackScene& m_scene;
    std::optional<hand::Drag> m_drag;
    std::optional<hand::Drag::Held> m_held;
    BoardId m_board;
    Point m_corner; ///< wished, board frame
    Pose m_pose;
    Point m_grip; ///< from the corner to where it was taken
    std::int64_t m_revision = 0;
    bool m_isOverTray = false;
    bool m_isLaying = false;
};

} // namespace stavewright::ui
