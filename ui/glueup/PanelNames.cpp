#include "ui/glueup/PanelNames.h"

#include <QCoreApplication>
#include <QFontMetricsF>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "ui/widgets/FractionText.h"

namespace stavewright::ui {

namespace {

constexpr double arrowLength = 34; // px
constexpr double step = 4;
constexpr double air = 7; ///< between a name and a knot beside it
/// Larger marks (a stain, a band of sapwood) have room for a name in them.
constexpr double largestKept = 90;
constexpr double thinnestKept = 20; ///< a band that is no higher would strike a name out

/// Whether names go out of its way.
bool isKeptFree(const QRectF& mark) {
    return mark.width() <= largestKept || mark.height() <= thinnestKept;
}

/// Lines that are read on any wood: an edge of the other kind lies under them.
void paintLines(QPainter& painter, const std::vector<QLineF>& lines, double wide,
                const Colours& colours) {
    for (const QPen& pen : {QPen(colours.wood, wide + 2.4), QPen(colours.woodInk, wide)}) {
        painter.setPen(pen);
        painter.drawLines(lines.data(), static_cast<int>(lines.size()));
    }
}

/// An arrow with one barb: the way the planer wants it.
void paintPlaning(QPainter& painter, QPointF at, int direction, const Colours& colours) {
    const double reach = arrowLength / 2 * direction;
    const QPointF tip = at + QPointF(reach, 0);
    paintLines(painter, {{at - QPointF(reach, 0), tip}, {tip, tip - QPointF(8.0 * direction, 6)}},
               1.6, colours);
}

void paintNail(QPainter& painter, QPointF at, const Colours& colours) {
    paintLines(painter, {{at - QPointF(5, 0), at + QPointF(5, 0)}, {at, at + QPointF(0, 11)}}, 1.8,
               colours);
}

} // namespace

PanelNames::PanelNames(QPainter& painter, const PanelPicture& picture, const QTransform& toPixels,
                       const PanelLook& look)
    : m_painter(painter)
    , m_picture(picture)
    , m_toPixels(toPixels)
    , m_look(look) {
    for (const StavePicture& stave : picture.staves) {
        const QRectF area = toPixels.mapRect(stave.place);
        for (const KnotPicture& knot : stave.knots) {
            const QRectF box =
                (stave.fromBoard * toPixels).map(knot.outline).boundingRect().intersected(area);
            if (!box.isEmpty()) {
                m_knots.push_back({box, area, knot.letter});
            }
        }
    }
}

void PanelNames::write() {
    for (const Knot& knot : m_knots) {
        writeKnot(knot);
    }
    std::size_t number = 0;
    for (const StavePicture& stave : m_picture.staves) { // names have more room to make way
        writeStave(stave, ++number);
    }
}

bool PanelNames::isFree(const QRectF& box, const QRectF& butFor) const {
    const auto meets = [&box](const QRectF& other) { return box.intersects(other); };
    return std::none_of(m_texts.begin(), m_texts.end(), meets) &&
           std::none_of(m_knots.begin(), m_knots.end(), [&](const Knot& knot) {
               return knot.box != butFor && isKeptFree(knot.box) && meets(knot.box);
           });
}

double PanelNames::hidden(const QRectF& box) const {
    double sum = 0;
    const auto add = [&](const QRectF& other) {
        const QRectF both = box.intersected(other);
        sum += both.width() * both.height();
    };
    std::for_each(m_texts.begin(), m_texts.end(), add);
    for (const Knot& knot : m_knots) {
        if (isKeptFree(knot.box)) {
            add(knot.box);
        }
    }
    return sum;
}

QRectF PanelNames::freePlace(const QRectF& box, double end, double aside) const {
    const double by = end > box.left() ? step : -step;
    const auto steps = static_cast<int>(std::abs(end - box.left()) / step);
    const auto rows = static_cast<int>(std::max(0.0, aside) / step);
    QRectF best = box;
    double leastHidden = hidden(box);
    int leastMoved = 0;
    for (int along = 0; along <= steps && (leastHidden > 0 || along < leastMoved); ++along) {
        for (int row = -rows; row <= rows; ++row) {
            const int moved = along + 2 * std::abs(row); // a name is looked for in the middle
            const QRectF at = box.translated(along * by, row * step);
            const double covers = hidden(at);
            if (covers < leastHidden || (covers == leastHidden && moved < leastMoved)) {
                best = at;
                leastHidden = covers;
                leastMoved = moved;
            }
        }
    }
    return best;
}

QRectF PanelNames::text(QPointF leftMiddle, const QString& text) {
    const QFontMetricsF metrics(m_painter.font());
    const double wide = fractionTextWidth(text, m_painter.font()) + 1;
    const QRectF box(leftMiddle.x(), leftMiddle.y() - metrics.height() / 2, wide, metrics.height());
    QColor veil = m_look.colours.wood;
    veil.setAlpha(205);
    m_painter.fillRect(box.adjusted(-3, -1, 3, 1), veil);
    m_painter.setPen(m_look.colours.woodInk);
    drawFractionText(m_painter, box, Qt::AlignLeft | Qt::AlignVCenter, text);
    m_texts.push_back(box.adjusted(-3, -1, 3, 1));
    return box;
}

void PanelNames::writeStave(const StavePicture& stave, std::size_t number) {
    const QRectF area = m_toPixels.mapRect(stave.place);
    const double y = area.center().y();
    if (area.height() < 9) {
        return;
    }
    /// The left middle of a text in its free place.
    const auto placed = [&](double left, double end, const QString& text) {
        const double high = QFontMetricsF(m_painter.font()).height();
        const double wide = fractionTextWidth(text, m_painter.font()) + 1;
        const QRectF box = QRectF(left, y - high / 2, wide, high).adjusted(-air, -1, air, 1);
        const QRectF at = freePlace(box, end - air, (area.height() - box.height()) / 2 - 1);
        return QPointF(at.left() + air, at.center().y());
    };
    const double third = area.left() + area.width() / 3;
    m_painter.setFont(sized(m_look.font, area.height() < 18 ? TextSize::Caption : TextSize::Body,
                            QFont::DemiBold));
    const QString name = QString::number(number) + QStringLiteral("   ") + stave.label;
    const QRectF named = text(placed(area.left() + 10, third, name), name);
    double x = named.right();
    if (stave.locked) {
        const double middle = named.center().y();
        paintNail(m_painter, QPointF(x + 16, middle - 5), m_look.colours);
        m_texts.emplace_back(x + 10, middle - 7, 12, 14);
        x += 24;
    }
    m_painter.setFont(sized(m_look.font, TextSize::Caption));
    const QString facts = QStringLiteral("%1 · %2").arg(
        QCoreApplication::translate("PanelPainter", "board %1, face %2%3")
            .arg(stave.board, stave.face == BoardFace::A ? "A" : "B",
                 stave.turned ? QCoreApplication::translate("PanelPainter", ", turned")
                              : QString()),
        stave.width);
    const double left = area.right() - 12 - fractionTextWidth(facts, m_painter.font());
    if (left <= x + 60) {
        return;
    }
    const double room = std::max(x + 60, area.center().x());
    const double at = text(placed(left, std::min(left, room), facts), facts).left();
    if (stave.planing != 0 && at - x > 2 * arrowLength) {
        const double beside = named.center().y();
        const QRectF arrow =
            freePlace(QRectF(x + 12, beside - 7, arrowLength, 9).adjusted(-air, -3, air, 3),
                      at - arrowLength - 12, 0);
        paintPlaning(m_painter, QPointF(arrow.center().x(), beside), stave.planing, m_look.colours);
        m_texts.push_back(arrow.adjusted(air, 3, -air, -3));
    }
}

/// At its right, left, above or below, on its own stave where there is room: in it a letter would
/// not be read on a photograph.
void PanelNames::writeKnot(const Knot& knot) {
    m_painter.setFont(sized(m_look.font, TextSize::Caption, QFont::DemiBold));
    const QFontMetricsF metrics(m_painter.font());
    const double wide = metrics.horizontalAdvance(knot.text) + 1;
    const double high = metrics.height();
    const QRectF& box = knot.box;
    const QPointF middle = box.center();
    for (const QRectF& within : {knot.stave, m_toPixels.mapRect(m_picture.whole)}) {
        // Of a knot at the end of a stave the letter stands off its middle.
        const double over = std::clamp(middle.x() - wide / 2, within.left(),
                                       std::max(within.left(), within.right() - wide));
        const std::array<QPointF, 4> places = {
            QPointF(box.right() + 3, middle.y()), QPointF(box.left() - 3 - wide, middle.y()),
            QPointF(over, box.top() - high / 2), QPointF(over, box.bottom() + high / 2)};
        for (const QPointF& place : places) {
            const QRectF room(place.x(), place.y() - high / 2, wide, high);
            if (within.contains(room) && isFree(room, box)) {
                return letter(room, knot.text);
            }
        }
    }
}

void PanelNames::letter(const QRectF& room, const QString& text) {
    QColor ground = m_look.colours.wood;
    ground.setAlpha(200);
    m_painter.fillRect(room, ground);
    m_painter.setPen(m_look.colours.woodInk);
    m_painter.drawText(room, Qt::AlignCenter, text);
    m_texts.push_back(room);
}

} // namespace stavewright::ui
