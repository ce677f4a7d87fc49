#include "ui/layout/RackView.h"

#include <QApplication>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <QToolTip>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "ui/layout/BoardItem.h"
#include "ui/layout/FacePictures.h"
#include "ui/layout/TapeRuler.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

namespace {
constexpr double leastScale = 0.01; // px a mm
constexpr double mostScale = 40;
constexpr int keepWordsPixels = 24; // that the pointer may move before an answer gives way
constexpr int rimPixels = 28;       // from the edge of the view, where a drag scrolls it
constexpr int rimMilliseconds = 25; // from step to step
} // namespace

RackView::RackView(DocumentSession& session, QWidget* parent)
    : QGraphicsView(parent)
    , m_session(session)
    , m_scene(this)
    , m_hand(session, m_scene)
    , m_cuts(session, m_scene)
    , m_tape(new TapeRuler(this)) {
    setObjectName("rack");
    setAccessibleName(tr("Rack"));
    setAccessibleDescription(tr("All boards to scale. Tab and the arrow keys go from blank to "
                                "blank; the list beside it holds "
                                "the same blanks."));
    setScene(&m_scene);
    FacePictures& photos = FacePictures::of(m_session);
    m_scene.setPhotos([&photos](const Board& board, BoardFace face) {
        return photos.find(board, face, FacePictures::Detail::Row);
    });
    connect(&photos, &FacePictures::ready, this, [this](BoardId board) {
        if (BoardItem* item = m_scene.itemOf(board)) {
            item->paintAnew();
        }
    });
    setFrameShape(QFrame::NoFrame);
    setViewportMargins(0, TapeRuler::tapeHeight, 0, 0);
    setAlignment(Qt::AlignLeft | Qt::AlignTop);
    setTransformationAnchor(QGraphicsView::NoAnchor);
    setResizeAnchor(QGraphicsView::NoAnchor);
    // Headers and readings hold their place on the screen while the boards move under them.
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    // Always there: a bar that came and went would change the width that the rack is fitted to.
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    connect(&m_session, &DocumentSession::selectionChanged, this, &RackView::showSelection);
    connect(&m_hand, &HandTool::words, this, &RackView::say);
    connect(&m_hand, &HandTool::changed, this, [this] {
        showBracket();
        viewport()->update();
    });
    connect(&m_cuts, &CutTool::words, this, &RackView::say);
    connect(&m_scene, &RackScene::looksChanged, this, &RackView::forgetInStill);
    connect(&m_scene, &RackScene::hungAnew, this, &RackView::forgetStill);
    m_rim.setInterval(rimMilliseconds);
    connect(&m_rim, &QTimer::timeout, this, &RackView::scrollAtRim);
    connect(&m_cuts, &CutTool::changed, this, [this] { viewport()->update(); });
}

void RackView::setPictures(std::vector<BoardPicture> pictures) {
    m_scene.setPictures(std::move(pictures));
    m_scene.setSelection(m_session.selection());
    viewport()->update();
    applyFit();
    showBracket();
}

void RackView::setPlanIsOwn(bool own, const QString& shownAgain) {
    m_planIsOwn = own;
    if (!own) {
        m_shownAgain = shownAgain;
    }
}

bool RackView::isOnOwnPlan() {
    const auto lies = [this](const std::optional<BlankId>& id) {
        const BoardItem* item = id ? m_scene.itemOf(*id) : nullptr;
        QPolygonF outline;
        for (const BlankPicture& each :
             item != nullptr ? item->picture().blanks : std::vector<BlankPicture>()) {
            outline = each.id == *id ? each.outline : outline;
        }
        return std::pair(item != nullptr ? item->picture().board.id : BoardId(), outline);
    };
    const Selection selection = m_session.selection();
    const auto before = lies(selection.blank);
    const bool wasOwn = m_planIsOwn;
    if (!wasOwn && !m_session.document().plan) {
        say(tr("The job has no plan of its own yet. %1").arg(m_shownAgain));
        return false;
    }
    emit ownPlanWanted(); // nor does one come up under the hand
    if (wasOwn) {
        return true;
    }
    const QString away =
        tr("The plan that was only shown is put away; the boards show the job's own. %1")
            .arg(m_shownAgain);
    if (!selection.blank || lies(selection.blank) == before) {
        say(away);
        return true;
    }
    if (lies(selection.blank).second.isEmpty()) {
        m_session.select({});
        say(tr("%1 What was picked is not in it.").arg(away));
    } else {
        reveal();
        say(tr("%1 What was picked lies in another place in it, where it is marked now.")
                .arg(away));
    }
    return false;
}

void RackView::setUnits(const LengthStyle& style) { m_tape->setUnits(style); }

void RackView::setFace(BoardFace face) {
    if (face != m_scene.face()) {
        m_scene.setFace(face);
        emit faceChanged();
    }
}

// ---- zoom ------------------------------------------------------------------------------------

void RackView::setScaleAround(double scale, QPoint anchor) {
    scale = std::clamp(scale, leastScale, mostScale);
    // Headers keep their pixels, so the rack is laid out anew: hold the wood under the anchor, not
    // the scene point.
    const QPointF before = mapToScene(anchor);
    const BoardItem* item = m_scene.itemNear(before);
    const QPointF onBoard =
        item != nullptr ? item->boardToItem().inverted().map(item->mapFromScene(before)) : before;
    m_scene.setScale(scale);
    setTransform(QTransform::fromScale(scale, scale));
    if (item != nullptr) {
        const QPointF now = item->mapToScene(item->boardToItem().map(onBoard));
        const QPoint off = mapFromScene(now) - anchor;
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() + off.x());
        verticalScrollBar()->setValue(verticalScrollBar()->value() + off.y());
    }
    updateTape();
}

void RackView::zoomBy(double factor) {
    m_fit = Fit::Free;
    setScaleAround(m_scene.scale() * factor, viewport()->rect().center());
}

void RackView::applyFit() {
    const bool fromTheTop = verticalScrollBar()->value() == verticalScrollBar()->minimum();
    if (m_fit == Fit::Length) {
        setScaleAround(m_scene.scaleForWidth(room().width()), QPoint(0, 0));
    } else if (m_fit == Fit::Best) {
        hangBest();
    } else if (m_fit == Fit::All) {
        hangAll();
    } else {
        setScaleAround(m_scene.scale(), viewport()->rect().center());
    }
    if (fromTheTop) { // wood is held where it is, and the first header would slip out of sight
        verticalScrollBar()->setValue(verticalScrollBar()->minimum());
    }
}

QSizeF RackView::room() const { return viewport()->size() + QSize(0, m_foot); }

void RackView::hangAll() {
    m_scene.setRoom(room());
    setTransform(QTransform::fromScale(m_scene.scale(), m_scene.scale()));
    updateTape();
}

void RackView::fitAll() {
    m_fit = Fit::All;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
    verticalScrollBar()->setValue(verticalScrollBar()->minimum());
}

void RackView::fitBest() {
    m_fit = Fit::Best;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
    verticalScrollBar()->setValue(verticalScrollBar()->minimum());
}

/// One board after another where they all are in sight so or would be too small all at once.
void RackView::hangBest() {
    constexpr double readable = 0.6; // of the scale at which the longest board fills the width
    const double scale = m_scene.scaleForWidth(room().width());
    const bool isAllInSight = m_scene.heightInRows(scale) * scale <= room().height();
    if (isAllInSight || m_scene.scaleOfAll(room()) < readable * scale) {
        setScaleAround(scale, QPoint(0, 0));
    } else {
        hangAll();
    }
}

void RackView::fitLength() {
    m_fit = Fit::Length;
    applyFit();
    horizontalScrollBar()->setValue(horizontalScrollBar()->minimum());
}

void RackView::updateTape() {
    m_tape->setGeometry(0, 0, viewport()->width(), TapeRuler::tapeHeight);
    std::vector<double> origins;
    for (const double line : m_scene.datumLines()) {
        origins.push_back(mapFromScene(QPointF(line, 0)).x());
    }
    m_tape->setScaleAndOrigins(m_scene.scale(), std::move(origins), m_scene.columnWidth());
}

void RackView::drawBackground(QPainter* painter, const QRectF& rect) {
    painter->fillRect(rect, coloursOf(palette()).ground);
}

void RackView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - event->angleDelta().y());
        return;
    }
    m_fit = Fit::Free;
    setScaleAround(m_scene.scale() * std::pow(1.0015, event->angleDelta().y()),
                   event->position().toPoint());
    event->accept();
}

void RackView::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    if (m_fit == Fit::Free) {
        updateTape();
    } else {
        applyFit();
    }
}

void RackView::scrollContentsBy(int dx, int dy) {
    QGraphicsView::scrollContentsBy(dx, dy);
    updateTape();
}

// ---- pointer ---------------------------------------------------------------------------------

void RackView::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    m_pointer = event->position().toPoint();
    if (event->button() == Qt::MiddleButton || (event->button() == Qt::LeftButton && m_spaceHeld)) {
        m_panFrom = event->position().toPoint();
        viewport()->setCursor(Qt::ClosedHandCursor);
        return;
    }
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (m_hand.isHolding()) { // picked up by key, laid down where the pointer is
        m_hand.lay();
        return;
    }
    const QPointF scenePoint = mapToScene(event->position().toPoint());
    if (m_cuts.isHolding()) { // it stayed in the hand over a place that is not good
        m_cuts.holdAt(scenePoint, true);
        m_cuts.lay();
        return;
    }
    m_pressedCut = m_planIsOwn && !m_swapping ? m_cuts.cutAt(scenePoint) : std::nullopt;
    const RackHit hit = m_scene.hitAt(scenePoint);
    if (m_pressedCut) {
        m_pressedAt = event->position().toPoint();
    }
    if (hit.blank) {
        if (m_swapping) {
            swapWith(*hit.blank);
            return;
        }
        selectBlank(*hit.blank);
        m_pressedAt = event->position().toPoint();
    } else {
        if (m_swapping) {
            m_swapping.reset();
            say(tr("Nothing changes places: no blank lies there."));
        }
        Selection selection;
        selection.board = hit.board;
        selection.defect = hit.defect;
        m_session.select(selection);
    }
}

void RackView::mouseMoveEvent(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    m_pointer = at;
    if (m_panFrom) {
        const QPoint by = at - *m_panFrom;
        m_panFrom = at;
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() - by.x());
        verticalScrollBar()->setValue(verticalScrollBar()->value() - by.y());
        return;
    }
    const QPointF scenePoint = mapToScene(at);
    if (dragCut(event)) {
        return;
    }
    if (m_pressedAt || m_hand.isHolding()) {
        dragTo(event);
        return;
    }
    m_tape->setPointer(scenePoint.x() - m_scene.datumLines().front());
    const RackHit hit = m_scene.hitAt(scenePoint);
    const auto cut = m_planIsOwn && !m_swapping ? m_cuts.cutAt(scenePoint) : std::nullopt;
    if (!m_spaceHeld) {
        viewport()->setCursor(m_swapping   ? Qt::CrossCursor
                              : !cut       ? Qt::ArrowCursor
                              : cut->isRip ? Qt::SplitVCursor
                                           : Qt::SplitHCursor);
    }
    if (m_saidAt && (at - *m_saidAt).manhattanLength() < keepWordsPixels) {
        return; // what was said just now is still to be read
    }
    m_saidAt.reset();
    if (m_swapping) {
        emit hint(swapWords(hit.blank));
    } else {
        emit hint(cut ? m_cuts.about(*cut) : describe(hit));
    }
}

/// A cut that was pressed goes with the pointer; false where none was.
bool RackView::dragCut(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    if (m_pressedCut && m_pressedAt && !m_cuts.isHolding()) {
        if ((at - *m_pressedAt).manhattanLength() < 4) {
            return true;
        }
        const CutTool::Found found = *m_pressedCut;
        m_pressedAt.reset();
        m_pressedCut.reset();
        if (!m_cuts.take(found)) {
            return true;
        }
    }
    if (!m_cuts.isHolding()) {
        return false;
    }
    m_isSnapping = !event->modifiers().testFlag(Qt::ControlModifier);
    holdAtPointer(at);
    return true;
}

void RackView::dragTo(QMouseEvent* event) {
    const QPoint at = event->position().toPoint();
    const auto far = QApplication::startDragDistance() / 2; // so that a click moves nothing
    const std::optional<BlankId> blank = m_session.selection().blank;
    if (m_pressedAt && !m_hand.isHolding()) {
        if ((at - *m_pressedAt).manhattanLength() < std::max(far, 4) || !blank) {
            return;
        }
        const QPoint pressed = *m_pressedAt;
        m_pressedAt.reset();
        m_isDragging = isOnOwnPlan() && m_hand.lift(*blank, mapToScene(pressed));
        if (!m_isDragging) {
            return;
        }
        viewport()->setCursor(Qt::ClosedHandCursor);
    }
    const bool overTray =
        m_tray != nullptr &&
        m_tray->rect().contains(m_tray->mapFromGlobal(event->globalPosition().toPoint()));
    if (overTray) {
        m_rim.stop();
        m_hand.holdOverTray();
        return;
    }
    m_isSnapping = !event->modifiers().testFlag(Qt::ControlModifier);
    holdAtPointer(at);
    if (m_isDragging) { // with the button held; a blank picked up by key scrolls by wheel and keys
        m_rim.start();
    }
}

void RackView::holdAtPointer(QPoint at) {
    m_dragAt = at;
    m_isAtPointer = true;
    const QPointF scenePoint = mapToScene(at);
    m_tape->setPointer(scenePoint.x() - m_scene.datumLines().front());
    if (m_cuts.isHolding()) {
        m_cuts.holdAt(scenePoint, m_isSnapping);
        return;
    }
    m_hand.holdAt(scenePoint,
                  m_isSnapping ? HandTool::Snapping::On : HandTool::Snapping::Suspended);
}

void RackView::setSnapping(bool on) {
    if (m_isAtPointer && m_isSnapping != on && (m_hand.isHolding() || m_cuts.isHolding())) {
        m_isSnapping = on;
        holdAtPointer(m_dragAt);
    }
}

void RackView::scrollAtRim() {
    if (!m_isDragging || !m_hand.isHolding()) {
        m_rim.stop();
        return;
    }
    const QRect inside = viewport()->rect().adjusted(0, rimPixels, 0, -rimPixels);
    const int over = m_dragAt.y() < inside.top()      ? m_dragAt.y() - inside.top()
                     : m_dragAt.y() > inside.bottom() ? m_dragAt.y() - inside.bottom()
                                                      : 0;
    QScrollBar* bar = verticalScrollBar();
    const int before = bar->value();
    bar->setValue(before + std::clamp(over, -rimPixels, rimPixels) / 2);
    if (bar->value() != before) {
        holdAtPointer(m_dragAt);
    }
}

void RackView::revealHeld() {
    const QRectF box = m_hand.heldBox();
    if (!box.isEmpty()) {
        ensureVisible(box, 24, 50);
    }
}

void RackView::mouseReleaseEvent(QMouseEvent* event) {
    m_panFrom.reset();
    m_pressedAt.reset();
    m_pressedCut.reset();
    if (m_cuts.isHolding() && event->button() == Qt::LeftButton) {
        m_cuts.lay(); // else it stays in the hand: N, Enter or Esc decide
        return;
    }
    if (m_isDragging && event->button() == Qt::LeftButton) {
        m_isDragging = false;
        const QPoint global = event->globalPosition().toPoint();
        if (m_tray != nullptr && m_tray->rect().contains(m_tray->mapFromGlobal(global))) {
            m_hand.layInTray();
        } else if (!m_hand.lay() && m_hand.isHolding()) {
            // It stays in the hand over the place that is not legal: N, Enter or Esc decide.
            viewport()->setCursor(Qt::OpenHandCursor);
            return;
        }
    }
    viewport()->setCursor(m_spaceHeld ? Qt::OpenHandCursor : Qt::ArrowCursor);
}

void RackView::leaveEvent(QEvent* event) {
    m_tape->setPointer(std::nullopt);
    if (!m_saidAt && !m_swapping) {
        emit hint({});
    }
    QGraphicsView::leaveEvent(event);
}

/// What a small blank has no room to say.
bool RackView::viewportEvent(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QGraphicsView::viewportEvent(event);
    }
    const auto* help = static_cast<QHelpEvent*>(event);
    const RackHit hit = m_scene.hitAt(mapToScene(help->pos()));
    const QString text = describe(hit);
    QToolTip::showText(help->globalPos(), text, viewport());
    return true;
}

QString RackView::describe(const RackHit& hit) const {
    const BoardItem* item = hit.board ? m_scene.itemOf(*hit.board) : nullptr;
    if (item == nullptr) {
        return {};
    }
    const BoardPicture& picture = item->picture();
    for (const BlankPicture& blank : picture.blanks) {
        if (hit.blank == blank.id) {
            return tr("%1, %2, on %3").arg(blank.names, blank.size, picture.title.toLower());
        }
    }
    for (const DefectPicture& defect : picture.defects) {
        if (hit.defect == defect.id) {
            const auto name = nameOf(defect.kind);
            return tr("%1 %2 on %3")
                .arg(QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())),
                     defect.mark, picture.title.toLower());
        }
    }
    QString text = tr("%1: %2").arg(picture.title, picture.facts);
    if (picture.touched) {
        text += tr("; %1, gives %2").arg(picture.yield, picture.contents);
    }
    return text;
}

// ---- selection and keyboard -------------------------------------------------------------------

void RackView::selectBlank(BlankId id) {
    const BoardItem* item = m_scene.itemOf(id);
    if (item == nullptr) {
        return;
    }
    for (const BlankPicture& blank : item->picture().blanks) {
        if (blank.id == id) {
            Selection selection;
            selection.board = item->picture().board.id;
            selection.part = blank.part;
            selection.blank = id;
            m_session.select(selection);
        }
    }
}

void RackView::showSelection() {
    const Selection& selection = m_session.selection();
    m_scene.setSelection(selection);
    m_marked = QPixmap();
    viewport()->update();
    showBracket();
    reveal();
}

void RackView::showBracket() {
    const std::optional<BlankId>& blank = m_session.selection().blank;
    const QRectF held = m_hand.heldBox();
    const QRectF box = !held.isEmpty() ? held : blank ? m_scene.boxOf(*blank) : QRectF();
    const double first = m_scene.datumLines().front(); // the tape counts from the first datum line
    m_tape->setBracket(box.isEmpty() ? std::nullopt
                                     : std::make_optional(std::make_pair(box.left() - first,
                                                                         box.right() - first)));
}

void RackView::say(const QString& text) {
    m_saidAt = m_pointer;
    emit hint(text);
    emit answered(text);
}

void RackView::reveal() {
    const Selection& selection = m_session.selection();
    QRectF box;
    if (selection.blank) {
        box = m_scene.boxOf(*selection.blank);
    } else if (selection.board && selection.defect) {
        box = m_scene.boxOf(*selection.board, *selection.defect);
    } else if (selection.board) {
        box = m_scene.boxOf(*selection.board);
        box.setWidth(1); // the datum end; a whole board may be wider than the view
    }
    if (!box.isNull()) {
        ensureVisible(box, 24, 50);
    }
}

QPoint RackView::viewportPointOf(BlankId id) const {
    return mapFromScene(m_scene.boxOf(id).center());
}

bool RackView::stepBlank(int by) {
    std::vector<BlankId> order;
    for (const BoardItem* item : m_scene.boards()) {
        for (const BlankPicture& blank : item->picture().blanks) {
            order.push_back(blank.id);
        }
    }
    if (order.empty()) {
        return false;
    }
    const std::optional<BlankId> now = m_session.selection().blank;
    const auto found = now ? std::find(order.begin(), order.end(), *now) : order.end();
    if (found == order.end()) {
        selectBlank(by > 0 ? order.front() : order.back());
        return true;
    }
    const auto next = (found - order.begin()) + by;
    if (next < 0 || next >= static_cast<std::ptrdiff_t>(order.size())) {
        return false;
    }
    selectBlank(order[static_cast<std::size_t>(next)]);
    return true;
}

/// To the blank of the next board that lies nearest along the tape.
bool RackView::stepBoard(int by) {
    const std::optional<BlankId> now = m_session.selection().blank;
    const BoardItem* here = now ? m_scene.itemOf(*now) : nullptr;
    if (here == nullptr) {
        return stepBlank(by);
    }
    const double x = m_scene.boxOf(*now).center().x() - here->pos().x();
    const std::vector<BoardItem*>& boards = m_scene.boards();
    auto at = std::find(boards.begin(), boards.end(), here) - boards.begin() + by;
    for (; at >= 0 && at < static_cast<std::ptrdiff_t>(boards.size()); at += by) {
        const BoardPicture& picture = boards[static_cast<std::size_t>(at)]->picture();
        double nearest = std::numeric_limits<double>::max();
        std::optional<BlankId> best;
        for (const BlankPicture& blank : picture.blanks) {
            const double off = std::abs(blank.outline.boundingRect().center().x() - x);
            if (off < nearest) {
                nearest = off;
                best = blank.id;
            }
        }
        if (best) {
            selectBlank(*best);
            return true;
        }
    }
    return true;
}

bool RackView::event(QEvent* event) {
    // Tab walks the blanks; past the last one it leaves the rack as everywhere else.
    if (event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event); // the type was asked above
        if (key->key() == Qt::Key_Tab && stepBlank(1)) {
            return true;
        }
        if (key->key() == Qt::Key_Backtab && stepBlank(-1)) {
            return true;
        }
    }
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange) {
        forgetStill();
    }
    return QGraphicsView::event(event);
}

void RackView::forgetStill() {
    m_still = QPixmap();
    m_stale.clear();
    // The view's own account of what is to be painted is kept by a painting that is not used here.
    viewport()->update();
}

void RackView::forgetInStill(const QRectF& scenePart) {
    viewport()->update(); // as above
    if (std::none_of(m_stale.begin(), m_stale.end(),
                     [&](const QRectF& known) { return known.contains(scenePart); })) {
        m_stale.push_back(scenePart);
    }
}

/// Scrolled up or down the still holds, but for what came into sight; sideways the words beside the
/// boards stay where they are, so that all is painted anew.
bool RackView::scrollStill() {
    const QTransform now = viewportTransform();
    const double by = (now.dy() - m_stillAt.dy()) * m_still.devicePixelRatio();
    const QTransform moved = m_stillAt * QTransform::fromTranslate(0, now.dy() - m_stillAt.dy());
    const int pixels = qRound(by);
    if (moved != now || by != pixels || std::abs(pixels) >= m_still.height()) {
        return false;
    }
    if (pixels != 0) {
        m_still.scroll(0, pixels, m_still.rect());
        m_stillAt = now;
        m_marked = QPixmap();
    }
    return true;
}

void RackView::freshenStill() {
    const QSize size = viewport()->size() * viewport()->devicePixelRatioF();
    std::vector<QRect> stale;
    const QTransform before = m_stillAt;
    if (m_still.size() != size || !scrollStill()) {
        m_marked = QPixmap(); // which shares it
        m_still = QPixmap(size);
        m_still.setDevicePixelRatio(viewport()->devicePixelRatioF());
        m_stillAt = viewportTransform();
        stale = {viewport()->rect()};
    } else {
        const int by = qRound(m_stillAt.dy() - before.dy());
        QRect fresh = viewport()->rect();
        by > 0 ? fresh.setBottom(by) : fresh.setTop(fresh.bottom() + by);
        if (by != 0) {
            stale.push_back(fresh);
        }
        for (const QRectF& part : m_stale) {
            stale.push_back(
                m_stillAt.mapRect(part).toAlignedRect().intersected(viewport()->rect()));
        }
    }
    m_stale.clear();
    for (const QRect& part : stale) {
        if (!part.isEmpty()) {
            QPainter painter(&m_still);
            painter.setRenderHints(renderHints());
            painter.setClipRect(part);
            render(&painter, QRectF(part), part);
            m_unmarked.push_back(part);
        }
    }
}

void RackView::freshenMarked() {
    const bool isMarked = m_session.selection().part.has_value();
    if (m_marked.isNull() || !isMarked || m_marked.size() != m_still.size()) {
        m_marked = m_still; // shared until something is painted over it
        m_unmarked.clear();
        if (isMarked) {
            m_unmarked.push_back(viewport()->rect());
        }
    }
    for (const QRect& part : m_unmarked) {
        QPainter painter(&m_marked);
        painter.setClipRect(part);
        painter.setCompositionMode(QPainter::CompositionMode_Source);
        painter.drawPixmap(0, 0, m_still);
        painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
        m_scene.paintRelated(painter, viewportTransform(), coloursOf(palette()));
    }
    m_unmarked.clear();
}

void RackView::paintEvent(QPaintEvent* /*event*/) {
    freshenStill();
    freshenMarked();
    QPainter painter(viewport());
    painter.setRenderHints(renderHints());
    painter.drawPixmap(0, 0, m_marked);
    painter.setWorldTransform(viewportTransform());
    m_hand.paint(painter, coloursOf(palette()));
    m_cuts.paint(painter, coloursOf(palette()));
}

void RackView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control) {
        setSnapping(false); // at once, not only when the pointer moves on
    }
    if (m_cuts.isHolding() ? cutKey(event) : m_hand.isHolding() ? handKey(event) : planKey(event)) {
        m_isAtPointer = false;
        return;
    }
    switch (event->key()) {
    case Qt::Key_Right:
        stepBlank(1);
        return;
    case Qt::Key_Left:
        stepBlank(-1);
        return;
    case Qt::Key_Down:
        stepBoard(1);
        return;
    case Qt::Key_Up:
        stepBoard(-1);
        return;
    case Qt::Key_Escape:
        if (m_swapping) {
            m_swapping.reset();
            say(tr("Nothing changes places."));
            return;
        }
        m_session.select({});
        return;
    case Qt::Key_Space:
        if (!event->isAutoRepeat()) {
            m_spaceHeld = true;
            viewport()->setCursor(Qt::OpenHandCursor);
        }
        return;
    default:
        QGraphicsView::keyPressEvent(event);
    }
}

void RackView::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Control) {
        setSnapping(true);
    }
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_spaceHeld = false;
        viewport()->setCursor(Qt::ArrowCursor);
        return;
    }
    QGraphicsView::keyReleaseEvent(event);
}

} // namespace stavewright::ui
