#include "ui/glueup/PanelPainter.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "ui/glueup/PanelNames.h"

namespace stavewright::ui {

namespace {

void paintWood(QPainter& painter, const StavePicture& stave, const QTransform& toPixels,
               const PanelLook& look) {
    const QRectF area = toPixels.mapRect(stave.place);
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    painter.fillRect(area, look.colours.wood);
    const QTransform fromBoard = stave.fromBoard * toPixels;
    const FacePhoto* photo = nullptr;
    QTransform fromPhoto = fromBoard;
    if (look.photo && stave.laid) {
        photo = look.photo(stave.laid->picture, stave.laid->face);
        fromPhoto = stave.laid->fromPicture * toPixels;
    }
    if (look.photo && photo == nullptr) {
        photo = look.photo(stave.boardId, stave.face);
        fromPhoto = fromBoard;
    }
    if (photo != nullptr) {
        painter.save();
        painter.setTransform(fromPhoto, true);
        painter.translate(photo->place.left(), photo->place.bottom());
        painter.scale(1, -1); // pictures run downwards, boards upwards
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawImage(
            QRectF(0, 0, photo->place.width(), photo->place.height()),
            photo->fineEnough(std::abs(toPixels.m11()) * painter.device()->devicePixelRatioF()));
        painter.restore();
    } else {
        painter.setPen(QPen(look.colours.woodShade, 1));
        for (const QPolygonF& line : stave.grain) {
            painter.drawPolyline(fromBoard.map(line));
        }
    }
    for (const KnotPicture& knot : stave.knots) {
        const QPolygonF outline = fromBoard.map(knot.outline);
        const QRectF box = outline.boundingRect();
        if (!box.intersects(area)) {
            continue;
        }
        if (photo == nullptr) {
            QColor fill = look.colours.woodShade;
            painter.setBrush(fill);
        } else {
            painter.setBrush(Qt::NoBrush);
        }
        painter.setPen(QPen(look.colours.woodInk, 1.3));
        painter.drawPolygon(outline);
    }
    painter.restore();
}

/// Three arcs on the end of the stave, hollow towards the heart.
void paintRings(QPainter& painter, const StavePicture& stave, const QRectF& end,
                const PanelLook& look) {
    painter.setPen(QPen(look.colours.hairline, 1));
    painter.setBrush(look.colours.wood);
    painter.drawRect(end);
    painter.save();
    painter.setClipRect(end, Qt::IntersectClip);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(look.colours.woodInk, 1));
    // The end is drawn on its side: the stave's width stands upright, its show face at the left.
    const QPointF middle = end.center();
    if (stave.heart == 0) {
        for (double x = end.left() + end.width() / 4; x < end.right(); x += end.width() / 4) {
            if (stave.ringAngle > 60) {
                const double y = end.top() + (x - end.left()) / end.width() * end.height();
                painter.drawLine(QPointF(end.left(), y), QPointF(end.right(), y));
            } else {
                painter.setPen(QPen(look.colours.woodInk, 1, Qt::DotLine));
                painter.drawLine(QPointF(x, end.top()), QPointF(x, end.bottom()));
            }
        }
    } else {
        const double side = stave.heart > 0 ? -1 : 1; // the heart lies to the left when it is up
        const double away = std::max(end.height() * 0.8, 18.0);
        const double slant =
            away * std::tan(std::min(stave.ringAngle, 60.0) / 180 * std::numbers::pi);
        const QPointF heart = middle + QPointF(side * away, slant);
        const double reach = std::hypot(away, slant);
        for (const double step : {-1.0, 0.0, 1.0}) {
            const double radius = reach + step * end.width() / 3;
            painter.drawEllipse(heart, radius, radius);
        }
    }
    painter.restore();
}

/// One triangle across all staves, its point at the far edge: a stave that is turned, flipped or
/// swapped breaks it.
void paintTriangle(QPainter& painter, const PanelPicture& picture, const QTransform& toPixels,
                   const PanelLook& look) {
    if (picture.back || picture.staves.size() < 2) {
        return; // it is chalked on the show face
    }
    const QRectF area = toPixels.mapRect(picture.whole);
    const double half = std::min(area.width() * 0.14, area.height() * 0.5);
    const double middle = area.center().x();
    QPolygonF triangle;
    triangle << QPointF(middle - half, area.bottom() - 5)
             << QPointF(middle + half, area.bottom() - 5) << QPointF(middle, area.top() + 5);
    painter.setBrush(Qt::NoBrush);
    // Chalk is light in either theme, and dark along its edges.
    QColor chalk = look.colours.dark ? look.colours.woodInk : look.colours.panel;
    chalk.setAlpha(190);
    painter.setPen(QPen(chalk, 4.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolygon(triangle);
    QColor edge = look.colours.dark ? look.colours.panel : look.colours.woodInk;
    edge.setAlpha(150);
    painter.setPen(QPen(edge, 1.2));
    painter.drawPolygon(triangle);
}

} // namespace

QTransform fitted(const PanelPicture& picture, const QRectF& room) {
    const QRectF all = picture.wholeWithBeside();
    const double wide = std::max(1.0, all.width());
    const double high = std::max(1.0, all.height());
    const double scale =
        std::max(0.01, std::min((room.width() - endViewRoom) / wide, room.height() / high));
    const double left = room.left() + endViewRoom + (room.width() - endViewRoom - wide * scale) / 2;
    const double top = room.top() + (room.height() - high * scale) / 2;
    return {scale, 0, 0, -scale, left, top + (high + all.top()) * scale};
}

void paintPanel(QPainter& painter, const PanelPicture& picture, const QTransform& toPixels,
                const PanelLook& look) {
    painter.setRenderHint(QPainter::Antialiasing);
    for (const PanelPicture& other : picture.beside) {
        PanelLook quiet = look;
        quiet.selected.reset();
        quiet.target.reset();
        paintPanel(painter, other, QTransform::fromTranslate(0, picture.besideAt) * toPixels,
                   quiet);
    }
    for (const StavePicture& stave : picture.staves) {
        paintWood(painter, stave, toPixels, look);
    }
    paintTriangle(painter, picture, toPixels, look);
    painter.setPen(QPen(look.colours.woodInk, 1.4));
    for (const StavePicture& stave : picture.staves) {
        const QRectF area = toPixels.mapRect(stave.place);
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(area);
    }
    if (picture.finished.height() + 0.1 < picture.whole.height()) {
        // Dashes and the gaps between them, so that they are read on any photograph.
        for (const QPen& pen :
             {QPen(look.colours.wood, 1), QPen(look.colours.woodInk, 1, Qt::DashLine)}) {
            painter.setPen(pen);
            painter.drawRect(toPixels.mapRect(picture.finished));
        }
    }
    PanelNames(painter, picture, toPixels, look).write();
    std::size_t place = 0;
    for (const StavePicture& stave : picture.staves) {
        const QRectF area = toPixels.mapRect(stave.place);
        const double end = std::clamp(area.height() * 0.3, 8.0, 26.0);
        paintRings(painter, stave,
                   QRectF(area.left() - end - 16, area.top() + 1, end, area.height() - 2), look);
        if (stave.flagged) {
            drawSign(painter, QRectF(area.left() - 14, area.center().y() - 6, 12, 12), Sign::Cross,
                     look.colours);
        }
        if (look.target == place) {
            painter.setPen(QPen(look.colours.accent, 2, Qt::DashLine));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(area.adjusted(2, 2, -2, -2));
        }
        if (look.selected == place) {
            painter.setPen(QPen(look.colours.accent, look.focused ? 3 : 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(area.adjusted(1, 1, -1, -1));
        }
        ++place;
    }
}

} // namespace stavewright::ui
