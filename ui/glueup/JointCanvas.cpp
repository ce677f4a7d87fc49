#include "ui/glueup/JointCanvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "core/panels/LaidEdits.h"

namespace stavewright::ui {

namespace {

constexpr double margin = 16;
constexpr double largeHigh = 96; ///< px of the stretches shown large
constexpr double largeMm = 24;   ///< what they show across the joint
constexpr double grip = 7;       ///< px round a line
constexpr double endShare = 0.2; ///< of the length; taken there, a line leans about its other end

} // namespace

JointCanvas::JointCanvas(QWidget* parent)
    : QWidget(parent) {
    setObjectName("jointCanvas");
    setAccessibleName(tr("The staves laid out, with their joints"));
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(260, 200);
}

void JointCanvas::setLaidOut(const LaidOut& laid, std::vector<QString> labels) {
    m_laid = laid;
    m_labels = std::move(labels);
    m_dragged.reset();
    if (m_picked && *m_picked >= m_laid->joints.size()) {
        m_picked.reset();
    }
    update();
}

void JointCanvas::clear(const QString& words) {
    m_laid.reset();
    m_picked.reset();
    m_words = words;
    update();
}

QRectF JointCanvas::area() const {
    const QRectF room = QRectF(rect()).adjusted(margin, margin, -margin, -2 * margin - largeHigh);
    const double scale = std::min(room.width() / longMm(), room.height() / wideMm());
    const QSizeF size(longMm() * scale, wideMm() * scale);
    return {room.center() - QPointF(size.width() / 2, size.height() / 2), size};
}

double JointCanvas::yOf(Length across) const {
    const QRectF here = area();
    const double share = across.toMillimetres() / wideMm();
    return isBack() ? here.top() + share * here.height() : here.bottom() - share * here.height();
}

Length JointCanvas::acrossAt(double y) const {
    const QRectF here = area();
    const double share = (isBack() ? y - here.top() : here.bottom() - y) / here.height();
    return Length::micrometres(std::llround(share * wideMm() * 1000));
}

Length JointCanvas::placeOf(std::size_t joint) const {
    return m_dragged && m_picked == joint ? *m_dragged : m_laid->joints[joint];
}

JointLie JointCanvas::lieOf(std::size_t joint) const {
    JointLie lie = m_laid->lieOf(joint);
    if (m_dragged && m_picked == joint) {
        lie.lean = m_draggedLean;
    }
    return lie;
}

Length JointCanvas::acrossOf(std::size_t joint, double share) const {
    const double lean = lieOf(joint).lean.toMillimetres() * (share - 0.5);
    return placeOf(joint) + Length::micrometres(std::llround(lean * 1000));
}

QPointF JointCanvas::middleOf(std::size_t joint) const {
    return {area().center().x(), yOf(placeOf(joint))};
}

/// A rectangle of the picture's frame, its y upwards.
void JointCanvas::paintPhoto(QPainter& painter, const QRectF& into,
                             const QRectF& millimetres) const {
    const FacePhoto* photo = m_picture ? m_picture() : nullptr;
    if (photo == nullptr) {
        return;
    }
    const double perMm = into.width() / millimetres.width() * devicePixelRatioF();
    const QImage& image = photo->fineEnough(perMm);
    const double across = image.width() / photo->place.width();
    const double down = image.height() / photo->place.height();
    const QRectF source((millimetres.left() - photo->place.left()) * across,
                        (photo->place.bottom() - millimetres.bottom()) * down,
                        millimetres.width() * across, millimetres.height() * down);
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    if (isBack()) { // kept as seen through from the show face
        painter.translate(0, into.top() + into.bottom());
        painter.scale(1, -1);
    }
    painter.drawImage(into, image, source);
    painter.restore();
}

void JointCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(rect(), colours.ground);
    if (!m_laid) {
        painter.setPen(colours.quietInk);
        painter.drawText(QRectF(rect()).adjusted(24, 0, -24, 0),
                         static_cast<int>(Qt::AlignCenter) | Qt::TextWordWrap, m_words);
        return;
    }
    const QRectF here = area();
    painter.fillRect(here, colours.wood);
    paintPhoto(painter, here, QRectF(0, 0, longMm(), wideMm()));
    painter.setFont(sized(font(), TextSize::Caption, QFont::DemiBold));
    const QFontMetricsF metrics(painter.font());
    for (std::size_t place = 0; place < m_laid->staves.size(); ++place) {
        const double near = yOf(place == 0 ? Length() : placeOf(place - 1));
        const double far =
            yOf(place == m_laid->joints.size() ? m_laid->photo.size.widthAtDatum : placeOf(place));
        const QString label = place < m_labels.size() ? m_labels[place] : QString();
        const QRectF box(here.left() + 6, (near + far) / 2 - metrics.height() / 2,
                         metrics.horizontalAdvance(label) + 8, metrics.height());
        painter.fillRect(box, QColor(20, 20, 20, 200));
        painter.setPen(Qt::white);
        painter.drawText(box, Qt::AlignCenter, label);
    }
    for (std::size_t joint = 0; joint < m_laid->joints.size(); ++joint) {
        paintJoint(painter, joint, colours);
    }
    paintLarge(painter, colours);
    if (hasFocus()) {
        painter.setPen(QPen(colours.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void JointCanvas::paintJoint(QPainter& painter, std::size_t joint, const Colours& colours) const {
    const QRectF here = area();
    const bool isPicked = m_picked == joint;
    const double half = lieOf(joint).gap.toMillimetres() / 2 / wideMm() * here.height();
    const QLineF line(here.left() - 8, yOf(acrossOf(joint, 0)), here.right() + 8,
                      yOf(acrossOf(joint, 1)));
    painter.setPen(QPen(QColor(0, 0, 0, 170), (isPicked ? 4 : 3) + 2 * half));
    painter.drawLine(line);
    painter.setPen(isPicked ? QPen(colours.accent, 2) : QPen(Qt::white, 1.2, Qt::DashLine));
    painter.drawLine(line);
}

/// The picked joint large, at both ends and in the middle.
void JointCanvas::paintLarge(QPainter& painter, const Colours& colours) const {
    const double top = height() - margin - largeHigh;
    painter.setFont(sized(font(), TextSize::Caption));
    if (!m_picked) {
        painter.setPen(colours.quietInk);
        painter.drawText(QRectF(margin, top, width() - 2 * margin, largeHigh),
                         static_cast<int>(Qt::AlignCenter) | Qt::TextWordWrap,
                         m_laid->joints.empty() ? tr("One stave has no joint.")
                                                : tr("Tab picks a joint; it is shown large here."));
        return;
    }
    const double wide = (width() - 4 * margin) / 3;
    const double gap = lieOf(*m_picked).gap.toMillimetres() / largeMm * largeHigh;
    const double longPiece = std::min(longMm(), largeMm * wide / largeHigh);
    for (int piece = 0; piece < 3; ++piece) {
        const QRectF box(margin + piece * (wide + margin), top, wide, largeHigh);
        const double from = (longMm() - longPiece) * piece / 2;
        painter.save();
        painter.setClipRect(box);
        painter.fillRect(box, colours.wood);
        const double at = acrossOf(*m_picked, (from + longPiece / 2) / longMm()).toMillimetres();
        paintPhoto(painter, box, QRectF(from, at - largeMm / 2, longPiece, largeMm));
        for (const double side : gap > 0 ? std::vector{-0.5, 0.5} : std::vector{0.0}) {
            const double y = box.center().y() + side * gap;
            for (const bool halo : {true, false}) {
                painter.setPen(QPen(halo ? QColor(0, 0, 0, 160) : QColor(Qt::white), halo ? 3 : 1));
                painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
            }
        }
        painter.restore();
        painter.setPen(QPen(colours.accent, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box);
    }
}

bool JointCanvas::event(QEvent* event) {
    if (event->type() == QEvent::KeyPress && m_laid && !m_laid->joints.empty()) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab) {
            pickNext(key->key() == Qt::Key_Tab ? 1 : -1);
            return true;
        }
    }
    return QWidget::event(event);
}

void JointCanvas::pickNext(int by) {
    const auto count = static_cast<std::ptrdiff_t>(m_laid->joints.size());
    const auto now = m_picked ? static_cast<std::ptrdiff_t>(*m_picked) : (by > 0 ? -1 : count);
    m_picked = static_cast<std::size_t>((now + by + count) % count);
    setAccessibleDescription(tr("Joint %1 of %2").arg(*m_picked + 1).arg(count));
    update();
}

void JointCanvas::place(Length at, JointLie lie, bool nudge) {
    const Stretch room = panels::roomOfJoint(*m_laid, *m_picked);
    lie.lean = std::clamp(lie.lean, -mostJointLean, mostJointLean);
    lie.gap = std::clamp(lie.gap, Length(), mostJointGap);
    emit placed(*m_picked, std::clamp(at, room.from, room.to), lie, nudge);
}

/// Up and Down as they look; Right lifts the line's right end, Left lowers it.
void JointCanvas::nudge(int key, Length step) {
    Length at = m_laid->joints[*m_picked];
    JointLie lie = m_laid->lieOf(*m_picked);
    const Length upwards = isBack() ? -step : step;
    switch (key) {
    case Qt::Key_Up:
        at += upwards;
        break;
    case Qt::Key_Down:
        at += -upwards;
        break;
    case Qt::Key_Right:
        lie.lean += upwards;
        break;
    case Qt::Key_Left:
        lie.lean += -upwards;
        break;
    default:
        lie.gap += key == Qt::Key_Minus ? -step : step;
        break;
    }
    place(at, lie, true);
}

void JointCanvas::keyPressEvent(QKeyEvent* event) {
    if (!m_laid) {
        if (event->key() == Qt::Key_Escape) {
            emit leaveWanted();
            return;
        }
        return QWidget::keyPressEvent(event);
    }
    Length step = Length::micrometres(500);
    if (event->modifiers().testFlag(Qt::ShiftModifier) && event->key() != Qt::Key_Plus) {
        step = Length::millimetres(5);
    } else if (event->modifiers().testFlag(Qt::ControlModifier)) {
        step = Length::micrometres(100);
    }
    switch (event->key()) {
    case Qt::Key_Up:
    case Qt::Key_Down:
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Plus:
    case Qt::Key_Equal: // the same key without Shift
    case Qt::Key_Minus:
        if (!m_picked) {
            return pickNext(event->key() == Qt::Key_Up ? 1 : -1);
        }
        return nudge(event->key(), step);
    case Qt::Key_F:
        return emit findWanted();
    case Qt::Key_W:
        return emit widthsWanted();
    case Qt::Key_Escape:
        if (m_dragged) {
            m_dragged.reset();
            m_pressed = false;
            return update();
        }
        return emit leaveWanted();
    default:
        QWidget::keyPressEvent(event);
    }
}

void JointCanvas::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    if (event->button() != Qt::LeftButton || !m_laid) {
        return;
    }
    double best = grip;
    m_picked.reset();
    const QRectF here = area();
    m_pressedAt =
        std::clamp((event->position().x() - here.left()) / std::max(1.0, here.width()), 0.0, 1.0);
    for (std::size_t joint = 0; joint < m_laid->joints.size(); ++joint) {
        const double away = std::abs(yOf(acrossOf(joint, m_pressedAt)) - event->position().y());
        if (away <= best) {
            best = away;
            m_picked = joint;
        }
    }
    m_pressed = m_picked.has_value();
    update();
}

void JointCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (!m_pressed || !m_picked || !m_laid) {
        return;
    }
    const Stretch room = panels::roomOfJoint(*m_laid, *m_picked);
    const Length from = m_laid->joints[*m_picked];
    const Length lean = m_laid->lieOf(*m_picked).lean;
    const Length there = acrossAt(event->position().y());
    m_draggedLean = lean;
    const bool isNearEnd = m_pressedAt < endShare;
    if (isNearEnd || m_pressedAt > 1 - endShare) { // the other end stays
        const Length stays = isNearEnd ? from + lean / 2 : from - lean / 2;
        m_draggedLean =
            std::clamp(isNearEnd ? stays - there : there - stays, -mostJointLean, mostJointLean);
        m_dragged = stays + (isNearEnd ? -m_draggedLean / 2 : m_draggedLean / 2);
    } else {
        m_dragged = there;
    }
    m_dragged = std::clamp(*m_dragged, room.from, room.to);
    update();
}

void JointCanvas::mouseReleaseEvent(QMouseEvent* /*event*/) {
    m_pressed = false;
    if (m_dragged && m_picked) {
        JointLie lie = m_laid->lieOf(*m_picked);
        lie.lean = m_draggedLean;
        const Length to = *m_dragged;
        m_dragged.reset();
        place(to, lie, false);
    }
}

void JointCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (!m_picked && m_laid && !m_laid->joints.empty() && event->reason() != Qt::MouseFocusReason) {
        pickNext(1);
    }
    update();
}

} // namespace stavewright::ui
