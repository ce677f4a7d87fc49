#include "ui/layout/HandTool.h"

#include <QApplication>
#include <QPainter>
#include <QScopedValueRollback>

#include <algorithm>
#include <cmath>

#include "core/hand/Ground.h"
#include "core/hand/HandEdits.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/RackScene.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double snapPixels = 10;

Length fromMillimetres(double millimetres) {
    return Length::nanometres(std::llround(millimetres * 1e6));
}

QPointF inMillimetres(Point point) { return {point.x.toMillimetres(), point.y.toMillimetres()}; }

} // namespace

HandTool::HandTool(DocumentSession& session, RackScene& scene, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_scene(scene) {
    // What is held was judged on the job as it was.
    connect(&m_session, &DocumentSession::changed, this, [this] { end(); });
    connect(&m_session, &DocumentSession::adopted, this, [this] { end(); });
}

bool HandTool::hold(Result<hand::Drag> drag) {
    if (!drag) {
        emit words(QString::fromStdString(drag.error().message));
        return false;
    }
    m_drag.emplace(std::move(drag).value());
    m_held.reset();
    m_revision = m_session.revision();
    return true;
}

bool HandTool::lift(BlankId blank, std::optional<QPointF> grip) {
    if (!hold(hand::Drag::lift(m_session.document(), blank))) {
        return false;
    }
    const hand::Laying& origin = *m_drag->origin();
    m_board = origin.board;
    m_corner = toOuter(origin.bed.frame, Point{origin.along, origin.bed.across.from});
    m_pose = origin.pose;
    m_grip = {};
    const BoardItem* item = m_scene.itemOf(m_board);
    if (grip && item != nullptr) {
        const QPointF at = item->boardToItem().inverted().map(item->mapFromScene(*grip));
        m_grip = {fromMillimetres(at.x()) - m_corner.x, fromMillimetres(at.y()) - m_corner.y};
    }
    judge(grip ? By::Pointer : By::Keys);
    return true;
}

bool HandTool::liftFromTray(const BlankPurpose& purpose) {
    if (m_session.document().boards.empty() ||
        !hold(hand::Drag::fromTray(m_session.document(), purpose))) {
        return false;
    }
    m_board = m_session.selection().board.value_or(m_session.document().boards.front().id);
    m_corner = {};
    m_pose = {};
    m_grip = {};
    judge(By::Keys);
    return true;
}

void HandTool::holdAt(QPointF scenePoint, Snapping snapping) {
    if (!isHolding()) {
        return;
    }
    const BoardItem* item = m_scene.itemNear(scenePoint);
    if (item == nullptr) {
        return;
    }
    const QPointF at = item->boardToItem().inverted().map(item->mapFromScene(scenePoint));
    m_board = item->picture().board.id;
    m_corner = {fromMillimetres(at.x()) - m_grip.x, fromMillimetres(at.y()) - m_grip.y};
    judge(By::Pointer,
          snapping == Snapping::On ? fromMillimetres(snapPixels / m_scene.scale()) : Length());
}

void HandTool::holdOverTray() {
    if (!isHolding() || m_isOverTray) {
        return;
    }
    m_isOverTray = true;
    emit words(labelled(tr("goes to the tray. Let go to lay it there, Esc puts it back.")));
    emit overTray(QString::fromStdString(m_drag->label()));
    emit changed();
}

void HandTool::leaveTray() {
    if (m_isOverTray) {
        m_isOverTray = false;
        emit overTray({});
    }
}

void HandTool::nudge(int along, int across, bool byTen) {
    if (isHolding()) {
        const Length step = hand::tapeMarksOf(m_session.document(), {}).step * (byTen ? 10 : 1);
        m_corner.x += step * along;
        m_corner.y += step * across;
        judge(By::Keys);
    }
}

void HandTool::holdAtReading(Length reading) {
    if (isHolding()) {
        m_corner.x = reading;
        judge(By::Keys);
    }
}

void HandTool::holdOverBoard(int by) {
    const std::vector<BoardItem*>& items = m_scene.boards();
    const auto here = std::find(items.begin(), items.end(), m_scene.itemOf(m_board));
    const auto next = here - items.begin() + by;
    if (isHolding() && next >= 0 && next < static_cast<std::ptrdiff_t>(items.size())) {
        m_board = items[static_cast<std::size_t>(next)]->picture().board.id;
        judge(By::Keys);
    }
}

void HandTool::turnEndForEnd() {
    if (isHolding()) {
        m_pose.endForEnd = !m_pose.endForEnd;
        judge(By::Keys);
    }
}

void HandTool::turnFaceOver() {
    if (isHolding()) {
        m_pose.faceOver = !m_pose.faceOver;
        judge(By::Keys);
    }
}

void HandTool::takeNearest() {
    if (!isHolding() || !m_held || m_held->isLegal) {
        return;
    }
    if (!m_held->nearest && !holdOverNearestBoard()) {
        emit words(tr("There is no legal place for %1 on any board as they are laid out now.")
                       .arg(QString::fromStdString(m_drag->label())));
        return;
    }
    if (m_held->isLegal) {
        return; // it fits on the other board just as it is held
    }
    const hand::Laying place = *m_held->nearest;
    m_corner = toOuter(place.bed.frame, Point{place.along, place.bed.across.from});
    judge(By::Keys);
    if (!m_held->isLegal) { // another bed is as near; the offered one counts
        m_held->laying = place;
        m_held->outline = hand::outlineOf(place, m_drag->length());
        m_held->isLegal = true;
        m_held->nearest.reset();
        emit words(labelled(tr("fits here. Enter lays it down.")));
        emit changed();
    }
}

/// The board next to this one, above or below, that has a legal place; false where none has.
bool HandTool::holdOverNearestBoard() {
    const std::vector<BoardItem*>& items = m_scene.boards();
    const auto count = static_cast<std::ptrdiff_t>(items.size());
    const std::ptrdiff_t here =
        std::find(items.begin(), items.end(), m_scene.itemOf(m_board)) - items.begin();
    for (std::ptrdiff_t away = 1; away < count; ++away) {
        for (const std::ptrdiff_t at : {here + away, here - away}) {
            if (at < 0 || at >= count) {
                continue;
            }
            const BoardId board = items[static_cast<std::size_t>(at)]->picture().board.id;
            if (m_drag->nearest(board, m_corner, m_pose)) {
                m_board = board;
                judge(By::Keys);
                return m_held->isLegal || m_held->nearest.has_value();
            }
        }
    }
    return false;
}

void HandTool::judge(By by, Length snapWithin) {
    leaveTray();
    m_held = m_drag->at(m_board, m_corner, m_pose, snapWithin);
    QString text = QString::fromStdString(m_held->words);
    if (m_held->snap) {
        text += tr(" Hold Ctrl to let no mark draw it.");
    } else if (by == By::Keys) {
        text += m_held->isLegal   ? tr(" Enter lays it down, Esc puts it back.")
                : m_held->nearest ? tr(" N takes that place, Esc puts it back.")
                                  : tr(" N looks on the other boards, Esc puts it back.");
    }
    emit words(text);
    emit changed();
}

bool HandTool::lay() {
    if (!isHolding() || !m_held) {
        return false;
    }
    if (!m_held->isLegal) {
        QString text = QString::fromStdString(m_held->words);
        if (m_held->nearest) {
            text += tr(" N takes that place.");
        } else {
            text += tr(" N looks on the other boards.");
        }
        emit words(text);
        return false;
    }
    if (m_drag->origin() == m_held->laying) {
        putBack(); // no step of its own
        return false;
    }
    const Result<Edit> edit = m_drag->drop(m_held->laying);
    const QString label = QString::fromStdString(m_drag->label());
    const bool isNew = !m_drag->origin();
    end();
    if (!edit) {
        emit words(QString::fromStdString(edit.error().message));
        return false;
    }
    emit words(tr("%1 is laid down. Ctrl+Z takes it back.").arg(label));
    const QScopedValueRollback laying(m_isLaying, true);
    return m_session.edit(isNew ? tr("Lay down %1").arg(label) : tr("Move %1").arg(label),
                          edit.value());
}

bool HandTool::layInTray() {
    if (!isHolding()) {
        return false;
    }
    if (!m_drag->origin()) {
        putBack();
        return true;
    }
    const Result<Edit> edit = m_drag->dropInTray();
    const QString label = QString::fromStdString(m_drag->label());
    end();
    const QScopedValueRollback laying(m_isLaying, true);
    return edit && m_session.edit(tr("Lay %1 in the tray").arg(label), edit.value());
}

void HandTool::putBack() {
    if (isHolding()) {
        const QString text =
            labelled(m_drag->origin() ? tr("is back where it was.") : tr("is back in the tray."));
        end();
        emit words(text);
    }
}

void HandTool::end() {
    leaveTray();
    m_drag.reset();
    m_held.reset();
    emit changed();
}

QString HandTool::labelled(const QString& text) const {
    return QString::fromStdString(m_drag->label()) + ' ' + text;
}

// ---- drawing ---------------------------------------------------------------------------------

QPolygonF HandTool::onScene(const Polygon& polygon) const {
    const BoardItem* item = m_scene.itemOf(m_held->laying.board);
    QPolygonF points;
    for (const Point& corner : polygon) {
        points << item->mapToScene(item->boardToItem().map(inMillimetres(corner)));
    }
    return points;
}

QRectF HandTool::heldBox() const {
    const bool isSeen = m_held && !m_isOverTray && m_scene.itemOf(m_held->laying.board) != nullptr;
    return isSeen ? onScene(m_held->outline).boundingRect() : QRectF();
}

void HandTool::paint(QPainter& painter, const Colours& colours) const {
    if (!m_held || m_isOverTray) { // the tray itself shows what goes there
        return;
    }
    const BoardItem* item = m_scene.itemOf(m_held->laying.board);
    if (item == nullptr) {
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const auto drawOutline = [&](const Polygon& polygon, const QColor& colour, Qt::PenStyle style,
                                 double width) {
        QPen pen(colour, width, style);
        pen.setCosmetic(true);
        painter.setPen(pen);
        painter.drawPolygon(onScene(polygon));
    };
    if (const std::optional<hand::Laying>& nearest = m_held->nearest) {
        painter.setBrush(Qt::NoBrush);
        drawOutline(hand::outlineOf(*nearest, m_drag->length()), colours.good, Qt::DotLine, 2);
    }
    QColor fill = m_held->isLegal ? colours.blank : colours.panel;
    fill.setAlphaF(0.75F);
    painter.setBrush(fill);
    drawOutline(m_held->outline, m_held->isLegal ? colours.accent : colours.wrong,
                m_held->isLegal ? Qt::SolidLine : Qt::DashLine, 3);
    // Words and signs keep their size at every zoom.
    const QTransform toPixels = painter.worldTransform();
    const QRectF box = toPixels.mapRect(onScene(m_held->outline).boundingRect());
    painter.resetTransform();
    const double side = std::min(14.0, box.height());
    const QRectF sign(box.left() + 4, box.center().y() - side / 2, side, side);
    drawSign(painter, sign, m_held->isLegal ? Sign::Tick : Sign::Cross, colours);
    painter.setPen(colours.dark ? colours.ink : colours.blankInk);
    painter.setFont(sized(QApplication::font(), TextSize::Body, QFont::DemiBold));
    painter.drawText(box.adjusted(side + 8, 0, -4, 0), Qt::AlignVCenter | Qt::AlignLeft,
                     QString::fromStdString(m_drag->label()));
    if (m_held->snap) {
        const QPointF foot = toPixels.map(item->mapToScene(
            item->boardToItem().map(QPointF(m_held->snap->at.toMillimetres(), 0))));
        painter.setPen(QPen(colours.accent, 2));
        painter.drawLine(QPointF(foot.x(), box.top() - 12), QPointF(foot.x(), box.bottom() + 12));
        const QPointF tip(foot.x(), box.top() - 4);
        painter.setBrush(colours.accent);
        painter.drawPolygon(QPolygonF({tip, tip + QPointF(-5, -8), tip + QPointF(5, -8)}));
        const QString name = QString::fromStdString(m_held->snap->name);
        const QFont small = sized(QApplication::font(), TextSize::Caption, QFont::DemiBold);
        const QSizeF size = QFontMetricsF(small).size(Qt::TextSingleLine, name);
        const QRectF plate(foot.x() + 8, box.top() - size.height() - 10, size.width() + 8,
                           size.height() + 2);
        painter.setPen(Qt::NoPen);
        painter.setBrush(colours.panel);
        painter.drawRect(plate);
        painter.setPen(colours.ink);
        painter.setFont(small);
        painter.drawText(plate, Qt::AlignCenter, name);
    }
    painter.restore();
}

} // namespace stavewright::ui
