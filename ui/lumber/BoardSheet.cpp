#include "ui/lumber/BoardSheet.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

#include "ui/widgets/FractionText.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double margin = 24;
constexpr double tape = 30;
constexpr double caption = 24;
constexpr double mostZoom = 40;

/// Distance between the numbers of the tape, the first that leaves them room.
Length tapeStep(UnitSystem units, double pixelsPerMm) {
    const std::vector<Length> steps =
        units == UnitSystem::Inches
            ? std::vector<Length>{Length::inches(1),  Length::inches(3),  Length::inches(6),
                                  Length::inches(12), Length::inches(24), Length::inches(48)}
            : std::vector<Length>{Length::millimetres(10), Length::millimetres(50),
                                  Length::millimetres(100), Length::millimetres(500),
                                  Length::millimetres(1'000)};
    for (const Length step : steps) {
        if (step.toMillimetres() * pixelsPerMm >= 44) {
            return step;
        }
    }
    return steps.back();
}

} // namespace

BoardSheet::BoardSheet(QWidget* parent)
    : QWidget(parent) {
    setObjectName("boardSheet");
    setAccessibleName(tr("The selected board, face A above and face B below"));
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(260, 200);
    setMouseTracking(false);
}

void BoardSheet::setBoard(std::optional<BoardPicture> picture, const LengthStyle& style) {
    const bool same = m_picture && picture && m_picture->board.id == picture->board.id;
    const bool alike = same && m_picture->board == picture->board;
    m_picture = std::move(picture);
    m_style = style;
    if (!alike) {
        m_cacheA.clear();
        m_cacheB.clear();
    }
    if (!same) {
        fit();
    }
    update();
}

void BoardSheet::setSelectedDefect(std::optional<DefectId> defect) {
    m_defect = defect;
    update();
}

void BoardSheet::fit() {
    m_zoom = 1;
    m_offset = {};
    update();
}

QRectF BoardSheet::roomOf(BoardFace face) const {
    const double each = (height() - tape) / 2.0;
    const double top = tape + (face == BoardFace::A ? 0 : each);
    return {0, top + caption, double(width()), each - caption};
}

double BoardSheet::fittingScale() const {
    if (!m_picture || m_picture->length <= 0) {
        return 1;
    }
    const double high = std::max(1.0, m_picture->highest - m_picture->lowest);
    return std::max(0.02, std::min((width() - 2 * margin) / m_picture->length,
                                   (roomOf(BoardFace::A).height() - 16) / high));
}

QTransform BoardSheet::toPixels(BoardFace face) const {
    if (!m_picture) {
        return {};
    }
    const double scale = fittingScale() * m_zoom;
    const QRectF room = roomOf(face);
    const double middle = (m_picture->highest + m_picture->lowest) / 2;
    // Seen from face A the near edge hangs below; turned over its long axis it stands above.
    const double up = face == BoardFace::A ? -1 : 1;
    return {scale,
            0,
            0,
            up * scale,
            margin + m_offset.x(),
            room.center().y() - up * middle * scale - up * m_offset.y()};
}

void BoardSheet::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(rect(), colours.ground);
    if (!m_picture) {
        return;
    }
    paintTape(painter, colours);
    paintFace(painter, BoardFace::A, colours);
    paintFace(painter, BoardFace::B, colours);
}

void BoardSheet::paintTape(QPainter& painter, const Colours& colours) const {
    painter.save();
    painter.fillRect(QRectF(0, 0, width(), tape), colours.panel);
    painter.setFont(sized(font(), TextSize::Caption));
    const QTransform map = toPixels(BoardFace::A);
    const Length step = tapeStep(m_style.units, map.m11());
    for (std::int64_t k = 0;; ++k) {
        const double mm = (step * k).toMillimetres();
        const double x = map.map(QPointF(mm, 0)).x();
        if (x > width() || mm > m_picture->length + step.toMillimetres()) {
            break;
        }
        painter.setPen(QPen(colours.ink, 1));
        painter.drawLine(QPointF(x, tape - 10), QPointF(x, tape - 1));
        const QString text = tapeText(step * k, m_style);
        if (x + fractionTextWidth(text, painter.font()) / 2 > width()) {
            break; // half a figure could be read as another
        }
        drawFractionText(painter, QRectF(x - 30, 2, 60, tape - 13),
                         Qt::AlignHCenter | Qt::AlignVCenter, text);
    }
    painter.setPen(colours.hairline);
    painter.drawLine(QPointF(0, tape - 0.5), QPointF(width(), tape - 0.5));
    painter.restore();
}

void BoardSheet::paintFace(QPainter& painter, BoardFace face, const Colours& colours) {
    const QRectF room = roomOf(face);
    painter.save();
    painter.setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    painter.setPen(colours.ink);
    const QString title = face == BoardFace::A ? tr("Face A") : tr("Face B, turned over");
    const QString edge = face == BoardFace::A ? tr("near edge below") : tr("near edge above");
    const QRectF line(margin, room.top() - caption + 4, room.width() - 2 * margin, caption - 4);
    drawFractionText(painter, line, Qt::AlignLeft | Qt::AlignVCenter, title);
    const double after = fractionTextWidth(title, painter.font()) + 12;
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(colours.quietInk);
    drawFractionText(painter, line.adjusted(after, 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                     edge);
    painter.setClipRect(room);
    // A board that no plan touches is painted paler; here it is what the place is about.
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.wood);
    painter.drawPolygon(toPixels(face).map(m_picture->outline));
    BoardLook look;
    look.colours = colours;
    look.font = QApplication::font();
    look.face = face;
    look.selectedDefect = m_defect;
    paintBoard(painter, *m_picture, face == BoardFace::A ? m_cacheA : m_cacheB, toPixels(face),
               look);
    painter.restore();
}

std::optional<DefectId> BoardSheet::defectAt(QPointF at) const {
    if (!m_picture) {
        return std::nullopt;
    }
    constexpr double near = 4; // px
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        if (!roomOf(face).contains(at)) {
            continue;
        }
        std::optional<DefectId> smallest;
        double area = 0;
        for (const DefectPicture& defect : m_picture->defects) {
            const Polygon& outline = face == BoardFace::A ? defect.onA : defect.onB;
            const QRectF box = toPixels(face).mapRect(inMillimetres(outline).boundingRect());
            if (outline.empty() || !box.adjusted(-near, -near, near, near).contains(at)) {
                continue;
            }
            const double size = box.width() * box.height();
            if (!smallest || size < area) {
                smallest = defect.id;
                area = size;
            }
        }
        return smallest;
    }
    return std::nullopt;
}

QPointF BoardSheet::spotOf(DefectId wanted) const {
    if (m_picture) {
        for (const DefectPicture& defect : m_picture->defects) {
            if (defect.id == wanted) {
                const BoardFace face = defect.onA.empty() ? BoardFace::B : BoardFace::A;
                const Polygon& outline = face == BoardFace::A ? defect.onA : defect.onB;
                return toPixels(face).map(inMillimetres(outline).boundingRect().center());
            }
        }
    }
    return {};
}

void BoardSheet::zoom(double factor, QPointF about) {
    const double before = m_zoom;
    m_zoom = std::clamp(m_zoom * factor, 1.0, mostZoom);
    const double ratio = m_zoom / before;
    const BoardFace face = roomOf(BoardFace::B).contains(about) ? BoardFace::B : BoardFace::A;
    const double up = face == BoardFace::A ? -1 : 1;
    const double fromMiddle = about.y() - roomOf(face).center().y();
    m_offset.setX(about.x() - margin - (about.x() - margin - m_offset.x()) * ratio);
    m_offset.setY(up * (-(fromMiddle - (fromMiddle + up * m_offset.y()) * ratio)));
    keepInSight();
}

void BoardSheet::keepInSight() {
    if (!m_picture) {
        return;
    }
    const double scale = fittingScale() * m_zoom;
    const double room = width() - 2 * margin;
    m_offset.setX(std::clamp(m_offset.x(), std::min(0.0, room - m_picture->length * scale), 0.0));
    const double high = (m_picture->highest - m_picture->lowest) * scale;
    const double slack = std::max(0.0, (high - roomOf(BoardFace::A).height()) / 2 + 12);
    const double limit = m_zoom > 1 ? slack : 0;
    m_offset.setY(std::clamp(m_offset.y(), -limit, limit));
    update();
}

void BoardSheet::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    keepInSight();
}

void BoardSheet::wheelEvent(QWheelEvent* event) {
    zoom(std::pow(1.0015, event->angleDelta().y()), event->position());
    event->accept();
}

void BoardSheet::mousePressEvent(QMouseEvent* event) {
    m_pressed = event->position();
    m_offsetAtPress = m_offset;
    m_dragging = false;
}

void BoardSheet::mouseMoveEvent(QMouseEvent* event) {
    const QPointF moved = event->position() - m_pressed;
    if (!m_dragging && moved.manhattanLength() < 4) {
        return;
    }
    m_dragging = true;
    const double up = roomOf(BoardFace::B).contains(m_pressed) ? 1 : -1;
    m_offset = m_offsetAtPress + QPointF(moved.x(), -up * moved.y());
    keepInSight();
}

void BoardSheet::mouseReleaseEvent(QMouseEvent* event) {
    if (m_dragging) {
        return;
    }
    if (const auto defect = defectAt(event->position())) {
        emit defectClicked(*defect);
    } else {
        emit woodClicked();
    }
}

void BoardSheet::mouseDoubleClickEvent(QMouseEvent* /*event*/) { fit(); }

void BoardSheet::keyPressEvent(QKeyEvent* event) {
    const QPointF middle(width() / 2.0, roomOf(BoardFace::A).center().y());
    switch (event->key()) {
    case Qt::Key_Plus:
        return zoom(1.25, middle);
    case Qt::Key_Minus:
        return zoom(0.8, middle);
    case Qt::Key_Home:
        return fit();
    case Qt::Key_Left:
        m_offset.rx() += 40;
        return keepInSight();
    case Qt::Key_Right:
        m_offset.rx() -= 40;
        return keepInSight();
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace stavewright::ui
