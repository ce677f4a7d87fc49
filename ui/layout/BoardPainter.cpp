#include "ui/layout/BoardPainter.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/drawing/GrainFigure.h"
#include "ui/layout/BlankPainter.h"
#include "ui/layout/Hatch.h"
#include "ui/layout/LabelPlace.h"
#include "ui/layout/LetterPlaces.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("BoardPainter", text); }

constexpr double grainEveryPixels = 7;
constexpr double defectHatchPixels = 7;
constexpr double crosscutTick = 5; // px beyond both edges

/// A spacing on the wood for so many pixels, in steps of a factor 1.4 so that the cache holds for a
/// while.
Length spacingFor(double pixels, double pixelsPerMm) {
    const double mm = pixels / pixelsPerMm;
    const double step = std::pow(1.4, std::round(std::log(mm) / std::log(1.4)));
    return Length::micrometres(std::max<std::int64_t>(200, std::llround(step * 1000)));
}

QPainterPath pathOf(const QPolygonF& polygon) {
    QPainterPath path;
    path.addPolygon(polygon);
    path.closeSubpath();
    return path;
}

/// Where anything that is painted shows.
QRectF seenBy(const QPainter& painter) {
    const QRectF window(painter.window());
    return painter.hasClipping() ? painter.clipBoundingRect().intersected(window) : window;
}

/// With strokes, ticks and letters that reach over the box.
bool isSeen(const QRectF& seen, const QRectF& box) {
    constexpr double room = 16; // px
    return seen.intersects(box.adjusted(-room, -room, room, room));
}

constexpr double runRoom = 4; // px beyond what is seen, so that no end shows

/// The runs of a line that cross what is seen.
std::vector<QPolygonF> seenRuns(const QPolygonF& line, const QRectF& seen) {
    const QRectF near = seen.adjusted(-runRoom, -runRoom, runRoom, runRoom);
    std::vector<QPolygonF> runs;
    bool isOn = false;
    for (qsizetype i = 0; i + 1 < line.size(); ++i) {
        const auto [left, right] = std::minmax({line[i].x(), line[i + 1].x()});
        const auto [low, high] = std::minmax({line[i].y(), line[i + 1].y()});
        const bool isNear = left <= near.right() && right >= near.left() && low <= near.bottom() &&
                            high >= near.top();
        if (isNear && !isOn) {
            runs.push_back(QPolygonF({line[i]}));
        }
        if (isNear) {
            runs.back() << line[i + 1];
        }
        isOn = isNear;
    }
    return runs;
}

/// What of a polygon lies right of x, or left of it.
QPolygonF cutAt(const QPolygonF& polygon, double x, bool keepsRight) {
    const auto isKept = [&](QPointF point) { return keepsRight ? point.x() > x : point.x() < x; };
    QPolygonF kept;
    for (qsizetype i = 0; i < polygon.size(); ++i) {
        const QPointF a = polygon[i];
        const QPointF b = polygon[(i + 1) % polygon.size()];
        if (isKept(a)) {
            kept << a;
        }
        if (isKept(a) != isKept(b)) {
            kept << QPointF(x, a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x()));
        }
    }
    return kept;
}

/// As much of the board's outline as bounds what is seen of it.
QPainterPath seenWood(const QPolygonF& outline, const QRectF& seen) {
    QPolygonF wood = outline;
    const QRectF box = outline.boundingRect();
    if (box.left() < seen.left() - runRoom) {
        wood = cutAt(wood, seen.left() - runRoom, true);
    }
    if (box.right() > seen.right() + runRoom) {
        wood = cutAt(wood, seen.right() + runRoom, false);
    }
    return pathOf(wood);
}

/// All at once where all is seen; else its runs, which meet nowhere in sight.
void drawSeenEdge(QPainter& painter, const QPolygonF& outline, const QRectF& seen) {
    if (seen.contains(outline.boundingRect())) {
        painter.drawPolygon(outline);
        return;
    }
    for (const QPolygonF& run : seenRuns(outline + QPolygonF({outline.front()}), seen)) {
        painter.drawPolyline(run);
    }
}

double pixelsPerMillimetre(const QTransform& toPixels) { return std::abs(toPixels.m11()); }

void paintWood(QPainter& painter, const BoardPicture& picture, StrokeCache& cache,
               const QTransform& toPixels, const BoardLook& look, const QPainterPath& outline) {
    const Colours& c = look.colours;
    const QRectF seen = seenBy(painter);
    QColor wood = c.wood;
    QColor shade = c.woodShade;
    if (!picture.touched) {
        wood.setAlpha(c.dark ? 130 : 140); // boards that stay whole step back
        shade.setAlpha(140);
    }
    painter.setPen(Qt::NoPen);
    painter.fillPath(outline, wood);
    painter.save();
    painter.setClipPath(outline, Qt::IntersectClip);
    if (look.photo != nullptr) {
        const QRectF& place = look.photo->place;
        painter.save();
        painter.setTransform(toPixels, true);
        painter.translate(place.left(), place.bottom());
        painter.scale(1, -1); // pictures run downwards, boards upwards
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawImage(QRectF(0, 0, place.width(), place.height()),
                          look.photo->fineEnough(pixelsPerMillimetre(toPixels) *
                                                 painter.device()->devicePixelRatioF()));
        painter.restore();
    } else {
        painter.setPen(QPen(shade, 1));
        for (const QPolygonF& line :
             cache.grain(picture.board, look.face, pixelsPerMillimetre(toPixels))) {
            for (const QPolygonF& run : seenRuns(toPixels.map(line), seen)) {
                painter.drawPolyline(run);
            }
        }
    }
    const Stretch whole{Length(), lengthOf(picture.board)};
    for (const Stretch& unseen : notLookedAt(picture.board, look.face, whole)) {
        const QRectF area(QPointF(unseen.from.toMillimetres(), picture.lowest),
                          QPointF(unseen.to.toMillimetres(), picture.highest));
        QColor dots = c.woodInk;
        dots.setAlpha(90);
        paintDots(painter, toPixels.mapRect(area), dots, 6);
    }
    if (picture.touched) {
        QColor waste = c.dark && look.photo != nullptr ? c.blankInk : c.woodInk;
        waste.setAlpha(c.dark ? 70 : 62);
        paintHatch(painter, toPixels.map(picture.outline).boundingRect(), waste, 8,
                   HatchLean::Rising);
    }
    QColor trim = c.woodInk;
    trim.setAlpha(110);
    for (const QPolygonF& polygon : picture.trims) {
        const QRectF area = toPixels.map(polygon).boundingRect();
        paintHatch(painter, area, trim, 5, HatchLean::Falling);
        painter.setPen(QPen(trim, 1, Qt::DashLine));
        painter.drawRect(area);
    }
    painter.restore();
}

void paintOffcuts(QPainter& painter, const BoardPicture& picture,
                  const std::vector<QRectF>& obstacles, const QTransform& toPixels,
                  const BoardLook& look) {
    const Colours& c = look.colours;
    const QRectF seen = seenBy(painter);
    for (const OffcutPicture& offcut : picture.offcuts) {
        const QPolygonF polygon = toPixels.map(offcut.outline);
        if (!isSeen(seen, polygon.boundingRect())) {
            continue;
        }
        painter.setBrush(c.wood);
        painter.setPen(QPen(c.woodInk, 1, Qt::DotLine));
        painter.drawPolygon(polygon);
        painter.setFont(sized(look.font, TextSize::Caption));
        painter.setPen(c.woodInk);
        const QRectF room = polygon.boundingRect().adjusted(3, 0, -3, 0);
        const double high = QFontMetricsF(painter.font()).height();
        for (const QString& text : {tr("keep %1").arg(offcut.size), tr("keep")}) {
            const QSizeF label(fractionTextWidth(text, painter.font()) + 1, high);
            const LabelPlace place = placeLabel(room, label, obstacles);
            if (place.free && label.width() <= room.width() && high <= room.height()) {
                drawFractionText(painter, place.rect, Qt::AlignLeft | Qt::AlignVCenter, text);
                break;
            }
        }
    }
}

/// What the blades take, to scale, where that is wider than a line.
void paintKerfs(QPainter& painter, const BoardPicture& picture, const QTransform& toPixels,
                const BoardLook& look, const QPainterPath& outline) {
    constexpr double leastWide = 1.2; // px
    const QRectF seen = seenBy(painter);
    std::vector<QPolygonF> bands;
    for (const QPolygonF& kerf : picture.kerfs) {
        const QPolygonF band = toPixels.map(kerf);
        const QRectF box = band.boundingRect();
        if (std::min(box.width(), box.height()) >= leastWide && isSeen(seen, box)) {
            bands.push_back(band);
        }
    }
    if (bands.empty()) {
        return;
    }
    painter.save();
    painter.setClipPath(outline, Qt::IntersectClip);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.colours.ground);
    for (const QPolygonF& band : bands) {
        painter.drawPolygon(band);
    }
    painter.restore();
}

/// A line as bark leaves it: the same wriggle at every painting.
QPolygonF uneven(const QPolygonF& closed) {
    constexpr double every = 5; // px
    constexpr std::array<double, 7> off = {0.4, -1.5, 1.1, -0.5, 1.7, -1.2, 0.7};
    QPolygonF result;
    std::size_t at = 0;
    for (qsizetype i = 0; i < closed.size(); ++i) {
        const QLineF side(closed[i], closed[(i + 1) % closed.size()]);
        const int steps = std::max(1, static_cast<int>(side.length() / every));
        const QLineF normal = side.length() > 0 ? side.normalVector().unitVector() : side;
        for (int k = 0; k < steps; ++k) {
            result << side.pointAt(static_cast<double>(k) / steps) +
                          QPointF(normal.dx(), normal.dy()) * off[at++ % off.size()];
        }
    }
    return result;
}

void paintCuts(QPainter& painter, const BoardPicture& picture, const QTransform& toPixels,
               const BoardLook& look) {
    // Photographed wood is pale in the dark appearance too; the ground beside it is not, so the
    // line has a pale edge there.
    const bool isPale = look.colours.dark && look.photo != nullptr;
    const QColor ink = isPale              ? look.colours.blankInk
                       : look.colours.dark ? look.colours.woodInk
                                           : look.colours.ink;
    const QRectF seen = seenBy(painter);
    for (const CutPicture& cut : picture.cuts) {
        QLineF line = toPixels.map(cut.line);
        if (!isSeen(seen, QRectF(line.p1(), line.p2()).normalized())) {
            continue;
        }
        QPen pen(ink, 1.5, Qt::CustomDashLine, Qt::FlatCap);
        switch (cut.kind) {
        case CutKind::Crosscut: {
            pen = QPen(ink, look.readings ? 2 : 1.5);
            const double tick = look.readings ? crosscutTick : 1;
            const double over = line.p1().y() < line.p2().y() ? tick : -tick;
            line = {line.p1() - QPointF(0, over), line.p2() + QPointF(0, over)};
            break;
        }
        case CutKind::Rip:
            pen.setDashPattern({7, 3});
            break;
        case CutKind::Trim:
            pen.setWidthF(1);
            pen.setDashPattern({3, 3});
            break;
        }
        if (isPale && cut.kind == CutKind::Crosscut) {
            painter.setPen(QPen(look.colours.woodInk, pen.widthF() + 2));
            painter.drawLine(line);
        }
        painter.setPen(pen);
        painter.drawLine(line);
    }
}

void paintReadings(QPainter& painter, const BoardPicture& picture, const QTransform& toPixels,
                   const BoardLook& look) {
    painter.setFont(sized(look.font, TextSize::Caption));
    painter.setPen(look.colours.ink);
    const double top = std::min(toPixels.map(QPointF(0, picture.lowest)).y(),
                                toPixels.map(QPointF(0, picture.highest)).y());
    const double high = QFontMetricsF(painter.font()).height();
    const QRectF seen = seenBy(painter);
    double free = -1e9; // right end of the last reading drawn
    for (const ReadingPicture& reading : picture.readings) {
        const double width = fractionTextWidth(reading.text, painter.font());
        const double x = toPixels.map(QPointF(reading.x, 0)).x();
        const double left = x - width / 2;
        if (left < free + 6) {
            continue;
        }
        const QRectF room(left, top - high - 4, width + 1, high);
        if (isSeen(seen, room)) {
            drawFractionText(painter, room, Qt::AlignLeft | Qt::AlignVCenter, reading.text);
        }
        free = left + width;
    }
}

void paintSymbol(QPainter& painter, const drawing::DefectSymbol& symbol, const QTransform& toPixels,
                 const QColor& ink, bool far) {
    for (const drawing::Stroke& stroke : symbol.strokes) {
        if (far && stroke.role == drawing::StrokeRole::Hatch) {
            continue; // the other face's marks are dashed outlines only
        }
        QPolygonF polygon = toPixels.map(inMillimetres(stroke.points));
        QPen pen(ink, 1);
        switch (stroke.role) {
        case drawing::StrokeRole::Outline:
            pen.setWidthF(1.3);
            break;
        case drawing::StrokeRole::HeavyOutline:
            pen.setWidthF(2.4);
            break;
        case drawing::StrokeRole::BrokenOutline:
            pen.setWidthF(1.3);
            pen.setDashPattern({4, 2});
            break;
        case drawing::StrokeRole::Axis:
            pen.setStyle(Qt::DashDotLine);
            break;
        case drawing::StrokeRole::Hatch:
            pen.setWidthF(0.9);
            break;
        }
        if (far) {
            pen.setDashPattern({2, 3});
            pen.setWidthF(1);
        }
        painter.setPen(pen);
        painter.setBrush(stroke.filled && !far ? QBrush(ink) : QBrush(Qt::NoBrush));
        if (stroke.closed && symbol.letter == letterOf(DefectKind::Wane)) {
            painter.drawPolygon(uneven(polygon));
        } else if (stroke.closed) {
            painter.drawPolygon(polygon);
        } else {
            painter.drawPolyline(polygon);
        }
    }
}

QFont letterFont(const BoardLook& look) {
    return sized(look.font, TextSize::Caption, QFont::DemiBold);
}

void paintDefects(QPainter& painter, const BoardPicture& picture,
                  const std::vector<LetterPlace>& letters, StrokeCache& cache,
                  const QTransform& toPixels, const BoardLook& look) {
    const double scale = pixelsPerMillimetre(toPixels);
    const QFont font = letterFont(look);
    const QRectF seen = seenBy(painter);
    for (std::size_t i = 0; i < picture.defects.size(); ++i) {
        const DefectPicture& defect = picture.defects[i];
        const Polygon& here = look.face == BoardFace::A ? defect.onA : defect.onB;
        const bool far = here.empty();
        const BoardFace face = far ? other(look.face) : look.face;
        const Polygon& shownOutline = face == BoardFace::A ? defect.onA : defect.onB;
        if (shownOutline.empty()) {
            continue;
        }
        if (!isSeen(seen, toPixels.mapRect(inMillimetres(shownOutline).boundingRect()))) {
            continue;
        }
        const drawing::DefectSymbol& symbol = cache.symbol(defect, face, scale);
        // On a blank the wood is pale in both appearances, off it the wood's own ink reads.
        const QPointF middle = inMillimetres(shownOutline).boundingRect().center();
        const bool onBlank =
            std::any_of(picture.blanks.begin(), picture.blanks.end(), [&](const BlankPicture& b) {
                return b.outline.containsPoint(middle, Qt::OddEvenFill);
            });
        const bool onOffcut =
            std::any_of(picture.offcuts.begin(), picture.offcuts.end(), [&](const auto& offcut) {
                return offcut.outline.containsPoint(middle, Qt::OddEvenFill);
            });
        // Photographed wood is pale in the dark appearance too; an offcut is drawn over it.
        const bool onPhoto = look.colours.dark && look.photo != nullptr && !onOffcut;
        const bool isPale = onBlank || onPhoto;
        const QColor ink = isPale ? look.colours.blankInk : look.colours.woodInk;
        const bool selected = look.selectedDefect == defect.id;
        const QPolygonF outline = toPixels.map(inMillimetres(shownOutline));
        painter.save();
        if (!far) {
            QColor fill = isPale ? look.colours.blank : look.colours.wood;
            fill.setAlpha(210);
            painter.setPen(Qt::NoPen);
            painter.setBrush(fill);
            painter.drawPolygon(outline);
        }
        paintSymbol(painter, symbol, toPixels, ink, far);
        painter.restore();
        if (selected) {
            painter.setBrush(Qt::NoBrush);
            const QRectF frame = outline.boundingRect().adjusted(-4, -4, 4, 4);
            if (look.colours.dark) { // the pale accent alone hardly shows on pale blanks
                painter.setPen(QPen(look.colours.blankInk, 5));
                painter.drawRect(frame);
            }
            painter.setPen(QPen(look.colours.accent, 3));
            painter.drawRect(frame);
        }
        // The letter stands in the middle, or beside the mark when it is too small to hold it.
        const LetterPlace& place = letters[i];
        if (place.isBeside && place.letter.isEmpty()) {
            continue; // too small to tell apart; zooming shows it
        }
        const QString letter(QChar::fromLatin1(symbol.letter));
        const QPointF at = place.isBeside
                               ? place.letter.center()
                               : toPixels.map(QPointF(symbol.letterAt.x.toMillimetres(),
                                                      symbol.letterAt.y.toMillimetres()));
        paintHaloText(painter, at, letter, font, ink,
                      isPale ? look.colours.groupTints[0] : look.colours.wood);
    }
}

/// As many whole names as there is room for, at the least how many there are.
QString namesThatFit(const QStringList& names, const QFontMetricsF& metrics, double room) {
    const QString gap = QStringLiteral("  ");
    for (qsizetype count = names.size(); count > 0; --count) {
        const bool all = count == names.size();
        const QString text =
            tr("+ %1").arg(names.first(count).join(gap)) + (all ? QString() : gap + QChar(0x2026));
        if (metrics.horizontalAdvance(text) <= room) {
            return text;
        }
    }
    const QString number = tr("+%1").arg(names.size());
    return metrics.horizontalAdvance(number) <= room ? number : QString();
}

} // namespace

const std::vector<QPolygonF>& StrokeCache::grain(const Board& board, BoardFace face,
                                                 double pixelsPerMm) {
    const Length spacing = spacingFor(grainEveryPixels, pixelsPerMm);
    if (!m_grain || spacing != m_grainSpacing || face != m_grainFace) {
        std::vector<QPolygonF> lines;
        for (const std::vector<Point>& line : drawing::grainLines(board, face, spacing)) {
            lines.push_back(inMillimetres(line));
        }
        m_grain = std::move(lines);
        m_grainSpacing = spacing;
        m_grainFace = face;
    }
    return *m_grain;
}

const drawing::DefectSymbol& StrokeCache::symbol(const DefectPicture& defect, BoardFace face,
                                                 double pixelsPerMm) {
    const Length spacing = spacingFor(defectHatchPixels, pixelsPerMm);
    if (spacing != m_symbolSpacing) {
        m_symbols.clear();
        m_symbolSpacing = spacing;
    }
    const auto key = std::make_pair(defect.id.value, face);
    auto found = m_symbols.find(key);
    if (found == m_symbols.end()) {
        found = m_symbols
                    .emplace(key, drawing::symbolOf(defect.kind,
                                                    face == BoardFace::A ? defect.onA : defect.onB,
                                                    spacing))
                    .first;
    }
    return found->second;
}

void StrokeCache::clear() {
    m_grain.reset();
    m_symbols.clear();
}

QStringList paintBoard(QPainter& painter, const BoardPicture& picture, StrokeCache& cache,
                       const QTransform& toPixels, const BoardLook& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF seen = seenBy(painter);
    const QPolygonF outline = toPixels.map(picture.outline);
    const std::vector<LetterPlace> letters =
        letterPlaces(picture, look.face, toPixels, letterFont(look));
    const std::vector<QRectF> obstacles = takenBy(letters);
    const bool isWoodSeen = seen.intersects(outline.boundingRect().adjusted(-2, -2, 2, 2));
    const auto blankIsSeen = [&](const BlankPicture& blank) {
        return isSeen(seen, toPixels.mapRect(blank.outline.boundingRect()));
    };
    if (isWoodSeen) {
        const QPainterPath path = seenWood(outline, seen);
        paintWood(painter, picture, cache, toPixels, look, path);
        paintOffcuts(painter, picture, obstacles, toPixels, look);
        for (const BlankPicture& blank : picture.blanks) {
            if (blankIsSeen(blank)) {
                paintBlankBody(painter, blank, toPixels, look);
            }
        }
        paintKerfs(painter, picture, toPixels, look, path);
    }
    paintCuts(painter, picture, toPixels, look);
    paintDefects(painter, picture, letters, cache, toPixels, look);
    QStringList unnamed;
    for (const BlankPicture& blank : picture.blanks) {
        // Beside the board stands what found no room, wherever on it that is.
        const bool isWanted = !look.readings || (isWoodSeen && blankIsSeen(blank));
        if (isWanted && !paintBlankMarks(painter, blank, obstacles, toPixels, look)) {
            unnamed << blank.names;
        }
    }
    if (isWoodSeen) {
        painter.setBrush(Qt::NoBrush);
        const QColor edge = picture.touched ? look.colours.ink : look.colours.quietInk;
        painter.setPen(look.boardSelected ? QPen(look.colours.accent, 3) : QPen(edge, 1.5));
        drawSeenEdge(painter, outline, seen);
    }
    if (look.readings) {
        paintReadings(painter, picture, toPixels, look);
    }
    painter.restore();
    return unnamed;
}

void paintBoardHeader(QPainter& painter, const BoardPicture& picture, const QRectF& room,
                      const BoardLook& look) {
    const Colours& c = look.colours;
    QRectF rest = room;
    if (picture.wrong) {
        drawSign(painter, QRectF(rest.left(), rest.center().y() - 6, 12, 12), Sign::Cross, c);
        rest.setLeft(rest.left() + 18);
    }
    const auto put = [&](const QString& text, const QFont& font, const QColor& colour) {
        if (text.isEmpty() || rest.width() < 24) {
            return;
        }
        painter.setFont(font);
        painter.setPen(colour);
        const double width = std::min(fractionTextWidth(text, font) + 1, rest.width());
        drawFractionText(painter, QRectF(rest.left(), rest.top(), width, rest.height()),
                         Qt::AlignLeft | Qt::AlignVCenter, text);
        rest.setLeft(rest.left() + width + 12);
    };
    const QFont strong = sized(look.font, TextSize::Body, QFont::DemiBold);
    const QFont plain = sized(look.font, TextSize::Body, QFont::Normal);
    put(picture.title, strong, look.boardSelected ? c.accent : c.ink);
    put(picture.yield, strong, c.ink);
    put(picture.facts, plain, c.quietInk);
    put(picture.contents, plain, c.ink);
    if (!picture.touched) {
        put(tr("not used"), plain, c.quietInk);
    }
}

void paintBoardRow(QPainter& painter, const BoardPicture& picture, const QStringList& unnamed,
                   const QRectF& wood, double left, double right, const BoardLook& look) {
    const Colours& c = look.colours;
    const QFont strong = sized(look.font, TextSize::Caption, QFont::DemiBold);
    const double high = QFontMetricsF(strong).height();
    const double top = wood.center().y() - high / 2;
    painter.setFont(strong);
    painter.setPen(look.boardSelected ? c.accent : picture.touched ? c.ink : c.quietInk);
    constexpr double gap = 6;
    const QRectF before(wood.left() - left + 2, top, left - gap - 2, high);
    drawFractionText(painter, before, Qt::AlignRight | Qt::AlignVCenter, words(picture.board.mark));
    if (picture.wrong) {
        drawSign(painter, QRectF(before.left(), top + 1, 10, 10), Sign::Cross, c);
    }
    const QRectF after(wood.right() + gap, top, right - wood.right() - gap - 4, high);
    painter.setPen(picture.touched ? c.ink : c.quietInk);
    painter.setFont(picture.touched ? strong : sized(look.font, TextSize::Caption));
    const QString said = !picture.touched && !picture.rules.isEmpty() ? picture.rules
                         : !picture.touched                           ? tr("whole")
                         : picture.rules.isEmpty()                    ? picture.share
                                                   : picture.share + "  " + picture.rules;
    drawFractionText(painter, after, Qt::AlignLeft | Qt::AlignVCenter, said);
    if (unnamed.isEmpty()) {
        return;
    }
    // What found no room on its blank stands behind the yield, as far as there is room.
    painter.setFont(sized(look.font, TextSize::Caption));
    painter.setPen(c.quietInk);
    QRectF rest = after;
    rest.setLeft(after.left() + fractionTextWidth(said, strong) + gap);
    painter.drawText(rest, Qt::AlignLeft | Qt::AlignVCenter,
                     namesThatFit(unnamed, QFontMetricsF(painter.font()), rest.width()));
}

} // namespace stavewright::ui
