#include "ui/piece/PartSheet.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

#include "ui/layout/Hatch.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double margin = 28;
constexpr double caption = 24;
constexpr double head = 26;

bool isOn(ZoneFaces faces, BoardFace face) {
    return faces == ZoneFaces::Both || (faces == ZoneFaces::A) == (face == BoardFace::A);
}

} // namespace

PartSheet::PartSheet(QWidget* parent)
    : QWidget(parent) {
    setObjectName("partSheet");
    setAccessibleName(tr("The selected part with its zones, face A above and face B below"));
    setMinimumSize(260, 200);
    setFocusPolicy(Qt::ClickFocus);
}

void PartSheet::setPart(std::optional<PartPicture> picture, const LengthStyle& style) {
    m_picture = std::move(picture);
    m_style = style;
    update();
}

void PartSheet::setSelectedZone(int row) {
    m_selected = row;
    update();
}

QRectF PartSheet::faceBox(BoardFace face) const {
    if (!m_picture || m_picture->length <= Length() || m_picture->width <= Length()) {
        return {};
    }
    const double each = (height() - head) / 2.0;
    const QRectF room(margin, head + (face == BoardFace::A ? 0 : each) + caption,
                      width() - 2 * margin, each - caption - 14);
    const double scale = std::min(room.width() / m_picture->length.toMillimetres(),
                                  room.height() / m_picture->width.toMillimetres());
    const QSizeF size(m_picture->length.toMillimetres() * scale,
                      m_picture->width.toMillimetres() * scale);
    return {QPointF(room.left(), room.center().y() - size.height() / 2), size};
}

QRectF PartSheet::boxOf(const ZoneArea& area, BoardFace face) const {
    const QRectF part = faceBox(face);
    const Stretch along = area.along.in(m_picture->length);
    const Stretch across = area.across.in(m_picture->width);
    const double scale = part.width() / m_picture->length.toMillimetres();
    const double x0 = part.left() + along.from.toMillimetres() * scale;
    const double x1 = part.left() + along.to.toMillimetres() * scale;
    const double low = across.from.toMillimetres() * scale;
    const double high = across.to.toMillimetres() * scale;
    // The near edge hangs below on face A and stands above on face B.
    const double y0 = face == BoardFace::A ? part.bottom() - high : part.top() + low;
    return QRectF(x0, y0, x1 - x0, high - low).intersected(part);
}

void PartSheet::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Colours& colours = coloursOf(palette());
    painter.fillRect(rect(), colours.ground);
    if (!m_picture) {
        return;
    }
    painter.setFont(sized(font(), TextSize::Lead, QFont::DemiBold));
    painter.setPen(colours.ink);
    drawFractionText(painter, QRectF(margin, 4, width() - 2 * margin, head),
                     Qt::AlignLeft | Qt::AlignVCenter, m_picture->title);
    paintFace(painter, BoardFace::A);
    paintFace(painter, BoardFace::B);
}

void PartSheet::paintFace(QPainter& painter, BoardFace face) const {
    const Colours& colours = coloursOf(palette());
    const QRectF part = faceBox(face);
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(colours.quietInk);
    const QString words = face == BoardFace::A ? tr("Face A, near edge below")
                                               : tr("Face B, turned over, near edge above");
    drawFractionText(
        painter, QRectF(part.left(), part.top() - caption + 4, width() - 2 * margin, caption - 6),
        Qt::AlignLeft | Qt::AlignVCenter, words);
    painter.fillRect(part, colours.wood);
    for (const PaintedZone& zone : m_picture->zones) {
        if (isOn(zone.area.faces, face)) {
            paintZone(painter, zone, boxOf(zone.area, face));
        }
    }
    for (const PaintedZone& zone : m_picture->zones) { // names last: no hatch runs over them
        if (isOn(zone.area.faces, face)) {
            paintName(painter, zone, boxOf(zone.area, face));
        }
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.ink, 1.5));
    painter.drawRect(part);
}

void PartSheet::paintZone(QPainter& painter, const PaintedZone& zone, const QRectF& box) const {
    const Colours& colours = coloursOf(palette());
    if (box.isEmpty()) {
        return;
    }
    const bool selected = zone.row && *zone.row == m_selected;
    QColor ink = selected ? colours.accent : colours.woodInk;
    QColor hatch = ink;
    hatch.setAlpha(selected ? 200 : 90);
    painter.save();
    painter.setClipRect(box);
    switch (zone.role) {
    case ZoneRole::ShowFace:
        break; // bare wood: what one sees
    case ZoneRole::HiddenFace:
        paintDots(painter, box, hatch, 7);
        break;
    case ZoneRole::JoineryEnd:
        paintHatch(painter, box, hatch, 6, HatchLean::Rising);
        break;
    case ZoneRole::GluedEdge:
        paintHatch(painter, box, hatch, 6, HatchLean::Falling);
        break;
    case ZoneRole::ProfiledEdge:
        paintHatch(painter, box, hatch, 10, HatchLean::Rising);
        paintHatch(painter, box, hatch, 10, HatchLean::Falling);
        break;
    }
    painter.restore();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(ink, selected ? 2.5 : 1, zone.joint ? Qt::DashLine : Qt::SolidLine));
    painter.drawRect(box.adjusted(1, 1, -1, -1));
}

void PartSheet::paintName(QPainter& painter, const PaintedZone& zone, const QRectF& box) const {
    const Colours& colours = coloursOf(palette());
    const bool selected = zone.row && *zone.row == m_selected;
    const QColor ink = selected ? colours.accent : colours.woodInk;
    const QFont small =
        sized(font(), TextSize::Caption, selected ? QFont::DemiBold : QFont::Normal);
    const QFontMetricsF metrics(small);
    const QRectF textRoom = box.adjusted(5, 2, -5, -2);
    painter.setFont(small);
    painter.setPen(ink);
    if (textRoom.height() >= metrics.height() && textRoom.width() > 24) {
        const double wide = std::min(textRoom.width(), fractionTextWidth(zone.name, small) + 2);
        const QRectF label(textRoom.left(), textRoom.top(), wide, metrics.height());
        QColor back = colours.wood;
        back.setAlpha(220);
        painter.fillRect(label.adjusted(-2, 0, 2, 0), back);
        drawFractionText(painter, label, Qt::AlignLeft | Qt::AlignVCenter, zone.name);
    } else if (box.width() <= 34 && box.height() > 60) {
        painter.save();
        painter.translate(box.center());
        painter.rotate(-90);
        drawFractionText(painter,
                         QRectF(-box.height() / 2 + 6, -metrics.height() / 2, box.height() - 12,
                                metrics.height()),
                         Qt::AlignLeft | Qt::AlignVCenter, zone.name);
        painter.restore();
    }
}

std::optional<int> PartSheet::zoneAt(QPointF at) const {
    std::optional<int> smallest;
    double area = 0;
    if (!m_picture) {
        return smallest;
    }
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        for (const PaintedZone& zone : m_picture->zones) {
            const QRectF box = boxOf(zone.area, face);
            if (zone.row && isOn(zone.area.faces, face) && box.contains(at) &&
                (!smallest || box.width() * box.height() < area)) {
                smallest = zone.row;
                area = box.width() * box.height();
            }
        }
    }
    return smallest;
}

void PartSheet::mousePressEvent(QMouseEvent* event) {
    if (const std::optional<int> row = zoneAt(event->position())) {
        emit zoneClicked(*row);
    }
}

void PartSheet::mouseDoubleClickEvent(QMouseEvent* event) {
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        const QRectF part = faceBox(face);
        if (!part.adjusted(-8, -8, 8, 8).contains(event->position())) {
            continue;
        }
        const bool inches = m_style.units == UnitSystem::Inches;
        const Length end =
            std::min(inches ? Length::inches(2) : Length::millimetres(50), m_picture->length / 2);
        ZoneArea area;
        area.faces = face == BoardFace::A ? ZoneFaces::A : ZoneFaces::B;
        const double along = (event->position().x() - part.left()) / part.width();
        if (along < 0.15) {
            area.along.to = {Anchored::From::Low, end};
        } else if (along > 0.85) {
            area.along.from = {Anchored::From::High, -end};
        }
        emit placeChosen(area);
        return;
    }
}

} // namespace stavewright::ui
