#include "ui/paint/PagePainter.h"

#include <QPainter>
#include <QPainterPath>
#include <QPen>
#include <QPolygonF>

#include "core/papers/FractionText.h"
#include "core/papers/PaperUnits.h"
#include "ui/paint/PageFont.h"

namespace stavewright::ui {

namespace {

QColor colourOf(papers::Ink ink) {
    switch (ink) {
    case papers::Ink::Black:
        return QColor(0, 0, 0);
    case papers::Ink::Grey:
        return QColor(0x5C, 0x57, 0x4D);
    case papers::Ink::LightGrey:
        return QColor(0xA8, 0xA4, 0x9C);
    case papers::Ink::Accent:
        return QColor(0x1F, 0x5F, 0x7A);
    case papers::Ink::White:
        return QColor(255, 255, 255);
    }
    return QColor(0, 0, 0);
}

QPointF inMillimetres(Point point) { return {point.x.toMillimetres(), point.y.toMillimetres()}; }

/// Dashes in millimetres, whatever the line's width, so that a thin line is as legible as a wide
/// one.
QPen penOf(Length width, papers::LineStyle style, papers::Ink ink) {
    if (width == Length()) {
        return QPen(Qt::NoPen);
    }
    const double millimetres = width.toMillimetres();
    QPen pen(colourOf(ink), millimetres, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    const auto dashes = [&](double dash, double gap) {
        pen.setDashPattern({dash / millimetres, gap / millimetres});
    };
    switch (style) {
    case papers::LineStyle::Solid:
        break;
    case papers::LineStyle::LongDash:
        dashes(3.0, 1.2);
        break;
    case papers::LineStyle::ShortDash:
        dashes(1.2, 0.8);
        break;
    case papers::LineStyle::Dotted:
        dashes(0.3, 0.7);
        break;
    }
    return pen;
}

/// Where one stretch of plain text goes: ems are of its own size, from the start of the line.
struct Glyphs {
    QString text;
    double points = 10;
    double x = 0;    ///< millimetres from the start of the line
    double rise = 0; ///< millimetres above the baseline
};
struct Bar {
    double from = 0, to = 0, rise = 0, thickness = 0; ///< millimetres
};
struct SetLine {
    std::vector<Glyphs> glyphs;
    std::vector<Bar> bars;
    double width = 0;
};

SetLine setLine(const papers::Text& text) {
    namespace set = papers::fractionSetting;
    SetLine line;
    const auto widthOf = [&](const std::string& plain, double size) {
        return plainWidthOf(plain, size, text.weight).toMillimetres();
    };
    const double em = papers::points(text.points).toMillimetres();
    for (const papers::TextRun& run : papers::runsOf(text.utf8, text.points)) {
        if (!run.isFraction()) {
            line.glyphs.push_back({QString::fromStdString(run.text), text.points, line.width, 0});
            line.width += widthOf(run.text, text.points);
            continue;
        }
        if (run.afterWhole) {
            line.width += set::gapAfterWhole * em;
        }
        const double small = text.points * set::scale;
        const double above = widthOf(run.numerator, small);
        const double below = widthOf(run.denominator, small);
        const double width = std::max(above, below) + 2 * set::overhang * em;
        line.glyphs.push_back({QString::fromStdString(run.numerator), small,
                               line.width + (width - above) / 2, set::numeratorRise * em});
        line.glyphs.push_back({QString::fromStdString(run.denominator), small,
                               line.width + (width - below) / 2, -set::denominatorDrop * em});
        line.bars.push_back(
            {line.width, line.width + width, set::barRise * em, set::barThickness * em});
        line.width += width;
    }
    return line;
}

void drawGlyphs(QPainter& painter, const Glyphs& glyphs, papers::Weight weight) {
    painter.save();
    painter.translate(glyphs.x, -glyphs.rise);
    const double scale = papers::points(glyphs.points).toMillimetres() / pageFontPixels;
    painter.scale(scale, scale);
    painter.setFont(pageFont(weight));
    painter.drawText(QPointF(0, 0), glyphs.text);
    painter.restore();
}

/// A white edge round the glyphs.
void drawHalo(QPainter& painter, const SetLine& line, papers::Weight weight) {
    QPainterPath path;
    for (const Glyphs& glyphs : line.glyphs) {
        QPainterPath one;
        one.addText(QPointF(0, 0), pageFont(weight), glyphs.text);
        const double scale = papers::points(glyphs.points).toMillimetres() / pageFontPixels;
        path.addPath(QTransform(scale, 0, 0, scale, glyphs.x, -glyphs.rise).map(one));
    }
    for (const Bar& bar : line.bars) {
        path.addRect(bar.from, -bar.rise - bar.thickness / 2, bar.to - bar.from, bar.thickness);
    }
    painter.strokePath(path, QPen(Qt::white, 1.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
}

struct MarkPainter {
    QPainter& painter;

    void operator()(const papers::Text& text) const {
        const SetLine line = setLine(text);
        painter.save();
        painter.translate(inMillimetres(text.at));
        if (text.turnDegrees != 0) {
            painter.rotate(-text.turnDegrees); // reading upwards
        }
        if (text.align != papers::Align::Left) {
            painter.translate(text.align == papers::Align::Centre ? -line.width / 2 : -line.width,
                              0);
        }
        if (text.halo) {
            drawHalo(painter, line, text.weight);
        }
        const QColor colour = colourOf(text.ink);
        painter.setPen(colour);
        for (const Glyphs& glyphs : line.glyphs) {
            drawGlyphs(painter, glyphs, text.weight);
        }
        for (const Bar& bar : line.bars) {
            painter.fillRect(
                QRectF(bar.from, -bar.rise - bar.thickness / 2, bar.to - bar.from, bar.thickness),
                colour);
        }
        painter.restore();
    }
    void operator()(const papers::Line& line) const {
        painter.setPen(penOf(line.width, line.style, line.ink));
        painter.drawLine(inMillimetres(line.from), inMillimetres(line.to));
    }
    void operator()(const papers::Shape& shape) const {
        QPolygonF polygon;
        for (const Point& corner : shape.corners) {
            polygon << inMillimetres(corner);
        }
        painter.setPen(penOf(shape.width, shape.style, shape.ink));
        painter.setBrush(shape.filled ? QBrush(colourOf(shape.fill)) : QBrush(Qt::NoBrush));
        painter.drawPolygon(polygon);
    }
};

void paintPhoto(QPainter& painter, const papers::Photo& photo, const PhotoOnPage& photos) {
    const QImage image = photos ? photos(photo) : QImage();
    if (image.isNull()) {
        for (const papers::Line& line : photo.figure) {
            MarkPainter{painter}(line);
        }
        return;
    }
    const QPointF corner = inMillimetres({photo.at.x0, photo.at.y0});
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(
        QRectF(corner, QSizeF(photo.at.length().toMillimetres(), photo.at.width().toMillimetres())),
        image);
}

} // namespace

void paintPage(QPainter& painter, const papers::Page& page, const PhotoOnPage& photos) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::TextAntialiasing);
    for (const papers::Photo& photo : page.photos) {
        paintPhoto(painter, photo, photos);
    }
    for (const papers::Mark& mark : page.marks) {
        std::visit(MarkPainter{painter}, mark);
    }
    painter.restore();
}

} // namespace stavewright::ui
