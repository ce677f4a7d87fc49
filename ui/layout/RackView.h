#pragma once
// The view on the rack: zoom with the wheel, pan with the middle button or Space, one blank to the
// next by keyboard, and the tape along the top. What is selected comes from the session and goes to
// it. Blanks are moved with the pointer or by keys (HandTool.h), cuts with the pointer (CutTool.h).

#include <QGraphicsView>
#include <QPixmap>
#include <QPointer>
#include <QTimer>

#include <functional>

#include "ui/layout/CutTool.h"
#include "ui/layout/HandTool.h"
#include "ui/layout/RackScene.h"

class QMenu;

namespace stavewright::ui {

class DocumentSession;
class ReadingPrompt;
class TapeRuler;

class RackView : public QGraphicsView {
    Q_OBJECT
  public:
    explicit RackView(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] RackScene& rack() { return m_scene; }
    [[nodiscard]] HandTool& hand() { return m_hand; }
    [[nodiscard]] CutTool& cuts() { return m_cuts; }
    /// A blank that is let go over this widget is laid in the tray.
    void setTray(QWidget* tray) { m_tray = tray; }
    /// False while the plan shown is not the document's own; `shownAgain` says how one that was
    /// put away comes back.
    void setPlanIsOwn(bool own, const QString& shownAgain = {});
    /// Takes the selected blank into the hand, where the pointer or the arrows move it.
    void pickUp();
    void pickUpFromTray(const BlankPurpose& purpose);
    /// What is in the hand, blank or cut, goes back where it was; false: there was nothing in it.
    bool putBack();
    void toggleLock();
    /// What this key does on the rack with nothing in the hand; for menus and links.
    bool press(int key);
    /// What can be done with what is selected, with its keys.
    void fillMenu(QMenu& menu);
    /// New pictures of document and plan; keeps zoom and place.
    void setPictures(std::vector<BoardPicture> pictures);
    void setUnits(const LengthStyle& style);

    /// So many pixels at the foot are lent to a message. The boards are hung as if they were there.
    void setFoot(int pixels) { m_foot = pixels; }

    void zoomBy(double factor);
    void fitAll(); ///< all boards at once, in rows and columns
    /// All boards at once where they still show what lies on them, else one after another.
    void fitBest();
    void fitLength(); ///< the longest board fills the width
    void setFace(BoardFace face);
    [[nodiscard]] BoardFace face() const { return m_scene.face(); }
    /// Scrolls what is selected into sight.
    void reveal();
    /// Middle of the blank in viewport pixels; for tests and for pointing at a finding.
    [[nodiscard]] QPoint viewportPointOf(BlankId id) const;

  signals:
    /// The menu is about to be shown; who knows more of what is selected adds to it.
    void menuFilling(QMenu& menu);
    /// Something is about to be done by hand, which is done to the job's own plan.
    void ownPlanWanted();
    void faceChanged();
    void hint(const QString& text);     ///< what lies under the pointer, in words
    void answered(const QString& text); ///< what came of a key or a click; is told as hint too

  protected:
    bool viewportEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void drawBackground(QPainter* painter, const QRectF& rect) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    void leaveEvent(QEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;

  private:
    enum class Fit { Length, All, Best, Free };

    [[nodiscard]] QSizeF room() const; ///< in which the boards are hung
    void forgetStill();
    void forgetInStill(const QRectF& scenePart);
    /// The still as the boards look now: what was forgotten of it is painted, or all of it.
    void freshenStill();
    bool scrollStill();
    void freshenMarked();
    void setScaleAround(double scale, QPoint anchor);
    void applyFit();
    void hangAll();
    void hangBest();
    void updateTape();
    void showSelection();
    bool stepBlank(int by);
    bool stepBoard(int by);
    void selectBlank(BlankId id);
    /// Words that answer what was done: they stay until the pointer goes on to something else.
    void say(const QString& text);
    /// A plan that is only shown is put away before the hand works. False, and told, where what is
    /// selected lies elsewhere in the job's own plan, or nowhere.
    bool isOnOwnPlan();
    void showBracket(); ///< on the tape, over what is held or selected
    bool handKey(QKeyEvent* event);
    bool moveHeld(QKeyEvent* event);
    bool planKey(QKeyEvent* event);
    void turnSelected(bool endForEnd);
    void swapWith(BlankId blank);
    [[nodiscard]] QString swapWords(std::optional<BlankId> under) const;
    void layInTray();
    enum class Dropped { StaysInHand, PutsBack };
    void askReading(Dropped dropped);
    void askCutReading();
    ReadingPrompt* ask(const QString& question, Length now,
                       const std::function<void(Length)>& take);
    void takeNextCut(int by);
    void dragTo(QMouseEvent* event);
    /// What is held goes with the pointer, which stands here in the viewport.
    void holdAtPointer(QPoint at);
    /// Marks draw what is held at the pointer, or not, from now on.
    void setSnapping(bool on);
    /// At the rim of the view the rack goes on under what is held, as long as the pointer stays.
    void scrollAtRim();
    /// Scrolls what is held into sight; the pointer does not say where it is.
    void revealHeld();
    bool dragCut(QMouseEvent* event);
    bool cutKey(QKeyEvent* event);
    [[nodiscard]] QString describe(const RackHit& hit) const;

    DocumentSession& m_session;
    RackScene m_scene;
    HandTool m_hand;
    CutTool m_cuts;
    /// The boards as they were painted last: painting them all again for every move of what is held
    /// over them takes longer than the eye forgives. Null when they look different now.
    QPixmap m_still;
    QTransform m_stillAt;
    QPixmap m_marked; ///< the still with what is marked over the boards; null when that changed
    std::vector<QRect> m_unmarked; ///< parts of the viewport that `m_marked` holds as they were
    std::vector<QRectF> m_stale;   ///< parts of the scene that look different from the still
    std::optional<CutTool::Found> m_pressedCut; ///< under the pointer when it was pressed
    QPointer<QWidget> m_tray;
    bool m_planIsOwn = true;
    QString m_shownAgain;              ///< how a plan that is put away is seen again
    std::optional<QPoint> m_pressedAt; ///< on a blank, before the pointer moved far enough
    bool m_isDragging = false;         ///< with the button held
    std::optional<BlankId> m_swapping; ///< waits for the other one
    QPoint m_pointer;                  ///< last seen here
    std::optional<QPoint> m_saidAt;    ///< where the pointer was when something was said
    TapeRuler* m_tape;
    Fit m_fit = Fit::Best;
    int m_foot = 0; ///< pixels
    bool m_spaceHeld = false;
    std::optional<QPoint> m_panFrom;
    QTimer m_rim;               ///< ticks while what is held is at the rim of the view
    QPoint m_dragAt;            ///< pointer of the last move with something in the hand
    bool m_isAtPointer = false; ///< it has not been moved by keys since
    bool m_isSnapping = true;   ///< at that move
};

} // namespace stavewright::ui
