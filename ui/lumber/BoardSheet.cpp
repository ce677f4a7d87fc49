#include "ui/lumber/BoardSheet.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/SheetRooms.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

using namespace sheet;

namespace {
constexpr double mostZoom = 40;
} // namespace

BoardSheet::BoardSheet(QWidget* parent)
    : QWidget(parent) {
    setObjectName("boardSheet");
    setAccessibleName(tr("The selected board, face A above and face B below"));
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(260, 200);
    setMouseTracking(true);
    m_tool = makeTool(m_toolId, *this);
}

void BoardSheet::setBoard(std::optional<BoardPicture> picture, const LengthStyle& style,
                          DefectId freeId) {
    m_freeId = freeId;
    const bool same = m_picture && picture && m_picture->board.id == picture->board.id;
    const bool alike = same && m_picture->board == picture->board;
    m_picture = std::move(picture);
    m_style = style;
    if (!alike) {
        m_cacheA.clear();
        m_cacheB.clear();
    }
    if (!same) {
        m_tool->cancel();
        m_cross.reset();
        m_suggestions.clear();
        m_pickedSuggestion.reset();
        m_suggestedOutline.reset();
        m_photos.clear();
        fit();
    }
    update();
}

void BoardSheet::setSelectedDefect(std::optional<DefectId> defect) {
    const bool another = defect != m_defect;
    m_defect = defect;
    if (another && m_zoom > 1) {
        bringIntoSight();
    }
    update();
    emit lookChanged();
}

void BoardSheet::setTool(ToolId tool) {
    m_tool->cancel();
    m_toolId = tool;
    m_tool = makeTool(tool, *this);
    m_toolPressed = false;
    setCursor(tool == ToolId::Select ? Qt::ArrowCursor : Qt::CrossCursor);
    update();
    emit lookChanged();
}

void BoardSheet::setKind(DefectKind kind) {
    m_kind = kind;
    update();
    emit lookChanged();
}

void BoardSheet::setFace(BoardFace face) {
    m_face = face;
    update();
    emit lookChanged();
}

void BoardSheet::setPhoto(BoardFace face, std::optional<FacePhoto> photo) {
    if (photo) {
        m_photos[face] = std::move(*photo);
    } else {
        m_photos.erase(face);
    }
    update();
}

void BoardSheet::setSuggestions(std::vector<SuggestedMark> suggestions) {
    m_suggestions = std::move(suggestions);
    if (m_pickedSuggestion && *m_pickedSuggestion >= static_cast<int>(m_suggestions.size())) {
        m_pickedSuggestion.reset();
    }
    update();
}

void BoardSheet::setSuggestedOutline(std::optional<Polygon> outline) {
    m_suggestedOutline = std::move(outline);
    update();
}

void BoardSheet::pickSuggestion(std::optional<int> index) {
    m_pickedSuggestion = index;
    if (index && m_zoom > 1) {
        const SuggestedMark& mark = m_suggestions[static_cast<std::size_t>(*index)];
        const QPointF spot =
            toPixels(mark.face).map(inMillimetres(mark.outline).boundingRect().center());
        bringIntoSight(spot);
    }
    update();
    emit lookChanged();
}

QString BoardSheet::hint() const { return m_picture ? m_tool->hint() : QString(); }

void BoardSheet::fit() {
    m_zoom = 1;
    m_offset = {};
    m_scaleBefore = fittingScale();
    update();
}

QRectF BoardSheet::roomOf(BoardFace face) const {
    const double each = (height() - tape - footer) / 2.0;
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

QPointF BoardSheet::pixelOf(BoardFace face, Point at) const {
    return toPixels(face).map(QPointF(at.x.toMillimetres(), at.y.toMillimetres()));
}

std::optional<BoardFace> BoardSheet::faceAt(QPointF at) const {
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        if (m_picture && roomOf(face).contains(at)) {
            return face;
        }
    }
    return std::nullopt;
}

SheetPoint BoardSheet::pointAt(BoardFace face, QPointF at) const {
    const QPointF mm = toPixels(face).inverted().map(at);
    return {face,
            {Length::micrometres(std::llround(mm.x() * 1000)),
             Length::micrometres(std::llround(mm.y() * 1000))}};
}

// ---- what tools ask for ------------------------------------------------------------------------

void BoardSheet::select(std::optional<DefectId> defect) {
    if (defect) {
        emit defectClicked(*defect);
    } else {
        emit nothingPicked();
    }
}

std::optional<DefectId> BoardSheet::markAt(const SheetPoint& point) const {
    return defectAt(pixelOf(point.face, point.at));
}

std::string BoardSheet::freeMark() const { return freeDefectMark(m_picture->board); }

Length BoardSheet::handTolerance() const {
    constexpr double pixels = 3;
    return Length::micrometres(
        std::max<std::int64_t>(100, std::llround(pixels * 1000 / toPixels(BoardFace::A).m11())));
}

Length BoardSheet::tapeStep() const {
    return m_style.units == UnitSystem::Inches
               ? Length::inches(1, std::min(m_style.denominator, 16))
               : Length::millimetres(1);
}

void BoardSheet::commit(const QString& step, const Board& changed,
                        std::optional<DefectId> selectThen) {
    emit edited(step, changed, selectThen);
    update();
}

// ---- view --------------------------------------------------------------------------------------

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

void BoardSheet::bringIntoSight() {
    if (!m_defect) {
        return;
    }
    bringIntoSight(spotOf(*m_defect));
}

void BoardSheet::bringIntoSight(QPointF spot) {
    const auto face = faceAt(spot);
    if (face && QRectF(rect()).adjusted(margin, 0, -margin, 0).contains(spot)) {
        return;
    }
    const BoardFace shown =
        spot.y() < roomOf(BoardFace::B).top() - caption ? BoardFace::A : BoardFace::B;
    const double up = shown == BoardFace::A ? -1 : 1;
    m_offset.rx() += width() / 2.0 - spot.x();
    m_offset.ry() -= up * (roomOf(shown).center().y() - spot.y());
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
    const double now = fittingScale();
    if (m_zoom > 1 && m_scaleBefore > 0) { // the same stretch of the board stays in view
        m_offset *= now / m_scaleBefore;
    }
    m_scaleBefore = now;
    keepInSight();
    if (m_zoom > 1) {
        bringIntoSight();
    }
}

void BoardSheet::wheelEvent(QWheelEvent* event) {
    zoom(std::pow(1.0015, event->angleDelta().y()), event->position());
    event->accept();
}

} // namespace stavewright::ui
