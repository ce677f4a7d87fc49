// How the board's drawing is painted: tape, both faces with their captions, notes and suggestions,
// and the cross over the place pointed at.

#include <QApplication>
#include <QPainter>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "ui/layout/LabelPlace.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/SheetRooms.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

using namespace sheet;

namespace {

/// Distance between the numbers of the tape, the first that leaves them room.
Length numberStep(UnitSystem units, double pixelsPerMm) {
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
    paintCross(painter, colours);
    const QRectF foot(margin, height() - footer, width() - 2 * margin, footer);
    painter.fillRect(QRectF(0, foot.top(), width(), footer), colours.panel);
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(m_cross ? colours.ink : colours.quietInk);
    const QString said = m_cross ? placeWords() : hint();
    drawFractionText(painter, foot, Qt::AlignLeft | Qt::AlignVCenter, said);
}

void BoardSheet::paintTape(QPainter& painter, const Colours& colours) const {
    painter.save();
    painter.fillRect(QRectF(0, 0, width(), tape), colours.panel);
    painter.setFont(sized(font(), TextSize::Caption));
    const QTransform map = toPixels(BoardFace::A);
    const Length step = numberStep(m_style.units, map.m11());
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
    paintCaption(painter, face, colours);
    painter.save();
    painter.setClipRect(roomOf(face));
    // A board that no plan touches is painted paler; here it is what the place is about.
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.wood);
    painter.drawPolygon(toPixels(face).map(m_picture->outline));
    BoardLook look;
    look.colours = colours;
    look.font = QApplication::font();
    look.face = face;
    look.selectedDefect = m_defect;
    const auto photo = m_photos.find(face);
    look.photo = photo != m_photos.end() ? &photo->second : nullptr;
    paintBoard(painter, *m_picture, face == BoardFace::A ? m_cacheA : m_cacheB, toPixels(face),
               look);
    painter.setRenderHint(QPainter::Antialiasing);
    paintNotes(painter, face, colours);
    paintSuggestions(painter, face, colours);
    m_tool->paint(painter, face, colours);
    painter.restore();
}

void BoardSheet::paintCaption(QPainter& painter, BoardFace face, const Colours& colours) const {
    const QRectF room = roomOf(face);
    painter.save();
    painter.setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    painter.setPen(face == m_face ? colours.accent : colours.ink);
    const QString title = face == BoardFace::A ? tr("Face A") : tr("Face B, turned over");
    const QString edge = face == BoardFace::A ? tr("near edge below") : tr("near edge above");
    QRectF line(margin, room.top() - caption + 4, room.width() - 2 * margin, caption - 4);
    drawFractionText(painter, line, Qt::AlignLeft | Qt::AlignVCenter, title);
    line.setLeft(line.left() + fractionTextWidth(title, painter.font()) + 12);
    painter.setFont(sized(font(), TextSize::Caption));
    painter.setPen(colours.quietInk);
    drawFractionText(painter, line, Qt::AlignLeft | Qt::AlignVCenter, edge);
    line.setLeft(line.left() + fractionTextWidth(edge, painter.font()) + 12);
    const Board& shown = m_picture->board;
    if (shown.heart != HeartSide::Unknown) {
        // The end of the board as it stands: rings round a heart beyond the face nearer to it.
        const bool heartUp = (shown.heart == HeartSide::FaceA) == (face == BoardFace::A);
        const QRectF end(line.left(), line.center().y() - 5, 26, 10);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(colours.quietInk, 1));
        painter.drawRect(end);
        painter.setClipRect(end);
        for (const double radius : {10.0, 15.0, 20.0}) {
            const double y = heartUp ? end.top() - 6 : end.bottom() + 6;
            painter.drawEllipse(QPointF(end.center().x(), y), radius, radius);
        }
        painter.setClipping(false);
        const QString side = heartUp ? tr("heart side up") : tr("bark side up");
        line.setLeft(end.right() + 6);
        drawFractionText(painter, line, Qt::AlignLeft | Qt::AlignVCenter, side);
        line.setLeft(line.left() + fractionTextWidth(side, painter.font()) + 12);
    }
    if (const int planing = alongBoard(shown.planing); planing != 0) {
        const QString text = planing > 0 ? tr("feed \u2192") : tr("feed \u2190");
        drawFractionText(painter, line, Qt::AlignLeft | Qt::AlignVCenter, text);
    }
    painter.restore();
}

/// Where the board is sawn how, and where small knots were left unmarked.
void BoardSheet::paintNotes(QPainter& painter, BoardFace face, const Colours& colours) const {
    const QTransform map = toPixels(face);
    painter.setFont(sized(font(), TextSize::Caption));
    const double high = painter.fontMetrics().height();
    const auto write = [&](const QRectF& room, const QString& text) {
        if (room.height() >= high && room.width() > 40) {
            drawFractionText(painter, room.adjusted(4, 1, -4, -1), Qt::AlignLeft | Qt::AlignTop,
                             text);
        }
    };
    QPen dashes(colours.woodInk, 1, Qt::DotLine);
    for (const SawnRegion& region : m_picture->board.sawn) {
        const QRectF box = map.mapRect(
            QRectF(QPointF(region.where.x0.toMillimetres(), region.where.y0.toMillimetres()),
                   QPointF(region.where.x1.toMillimetres(), region.where.y1.toMillimetres())));
        painter.setPen(dashes);
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box);
        painter.setPen(colours.woodInk);
        write(box.intersected(roomOf(face)), region.sawn == Sawn::Plain  ? tr("plain")
                                             : region.sawn == Sawn::Rift ? tr("rift")
                                                                         : tr("quartered"));
    }
    const Stretch whole{Length(), lengthOf(m_picture->board)};
    for (const QuickLook& look : quicklyLookedAt(m_picture->board, face, whole)) {
        QRectF box =
            map.mapRect(QRectF(QPointF(look.stretch.from.toMillimetres(), m_picture->lowest),
                               QPointF(look.stretch.to.toMillimetres(), m_picture->highest)));
        box = box.intersected(roomOf(face));
        painter.setPen(QPen(colours.woodInk, 1, Qt::DashLine));
        painter.drawLine(box.bottomLeft() - QPointF(0, 3), box.bottomRight() - QPointF(0, 3));
        painter.setPen(colours.woodInk);
        write(QRectF(box.left(), box.bottom() - high - 6, box.width(), high + 2),
              tr("quick look: knots under %1 not marked").arg(tapeText(look.knotsUnder, m_style)));
    }
}

void BoardSheet::paintSuggestions(QPainter& painter, BoardFace face, const Colours& colours) const {
    painter.setFont(sized(font(), TextSize::Caption, QFont::DemiBold));
    painter.setBrush(Qt::NoBrush);
    // Dashes in two tones read on pale wood, on dark wood and on a photograph of either.
    const auto dashed = [&](const QPolygonF& outline, double width) {
        painter.setPen(QPen(QColor(255, 255, 255, 220), width + 2));
        painter.drawPolygon(outline);
        painter.setPen(QPen(lightColours().accent, width, Qt::DashLine));
        painter.drawPolygon(outline);
    };
    if (m_suggestedOutline) {
        dashed(toPixels(face).map(inMillimetres(*m_suggestedOutline)), 1.5);
    }
    // The picked one and the surest have the first choice of a place for their words.
    std::vector<std::size_t> order;
    std::vector<QRectF> taken;
    for (std::size_t i = 0; i < m_suggestions.size(); ++i) {
        if (m_suggestions[i].face == face) {
            const bool isPicked = m_pickedSuggestion == static_cast<int>(i);
            order.insert(isPicked ? order.begin() : order.end(), i);
            const QPolygonF outline = toPixels(face).map(inMillimetres(m_suggestions[i].outline));
            dashed(outline, isPicked ? 3 : 1.5);
            taken.push_back(outline.boundingRect());
        }
    }
    for (const std::size_t i : order) {
        const SuggestedMark& mark = m_suggestions[i];
        const bool isPicked = m_pickedSuggestion == static_cast<int>(i);
        const QRectF box = toPixels(face).map(inMillimetres(mark.outline)).boundingRect();
        const QString letter = QString("%1?").arg(QChar::fromLatin1(letterOf(mark.kind)));
        for (const QString& text : {QString("%1 %2 %").arg(letter).arg(mark.confidencePercent),
                                    letter}) { // the letter alone where it is crowded
            const QSizeF size(fractionTextWidth(text, painter.font()) + 8, 15);
            std::optional<QRectF> label = placeBeside(box, size, roomOf(face), taken);
            if (!label && isPicked) { // never without its words
                label = QRectF(box.topRight() + QPointF(3, -8), size);
            }
            if (!label) {
                continue;
            }
            taken.push_back(*label);
            painter.setPen(Qt::NoPen);
            painter.setBrush(isPicked ? colours.accent : colours.panel);
            painter.drawRoundedRect(*label, 3, 3);
            painter.setBrush(Qt::NoBrush);
            painter.setPen(isPicked ? colours.panel : colours.ink);
            painter.drawText(*label, Qt::AlignCenter, text);
            break;
        }
    }
}

void BoardSheet::paintCross(QPainter& painter, const Colours& colours) const {
    if (!m_cross) {
        return;
    }
    painter.save();
    QColor ink = colours.accent;
    ink.setAlpha(170);
    painter.setPen(QPen(ink, 1));
    const double x = pixelOf(m_cross->face, m_cross->at).x();
    painter.drawLine(QPointF(x, 0), QPointF(x, tape));
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        const QRectF room = roomOf(face);
        painter.setClipRect(room);
        const QPointF at = pixelOf(face, m_cross->at);
        painter.drawLine(QPointF(at.x(), room.top()), QPointF(at.x(), room.bottom()));
        painter.drawLine(QPointF(at.x() - 14, at.y()), QPointF(at.x() + 14, at.y()));
    }
    painter.restore();
}

QString BoardSheet::placeWords() const {
    if (!m_cross || !m_picture) {
        return {};
    }
    const Length x = m_cross->at.x;
    const Length inside = std::clamp(x, Length(), lengthOf(m_picture->board));
    const auto across = acrossAt(m_picture->board.outline, inside);
    return tr("Face %1: %2 from the datum end, %3 from the near edge")
        .arg(
            m_cross->face == BoardFace::A ? "A" : "B",
            tapeText(onStep({x, {}}, tapeStep()).x, m_style),
            tapeText(onStep({m_cross->at.y - (across ? across->from : Length()), {}}, tapeStep()).x,
                     m_style));
}

} // namespace stavewright::ui
