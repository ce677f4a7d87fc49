#include "ui/layout/CutTool.h"

#include <QApplication>
#include <QPainter>
#include <QScopedValueRollback>

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Ground.h"
#include "core/hand/PlanTree.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/RackScene.h"
#include "ui/session/CutLimits.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr double nearPixels = 4;
constexpr double snapPixels = 8;
/// Pieces smaller than this on the screen are hard enough to take by themselves.
constexpr double leastPixels = 24;

Length fromMillimetres(double millimetres) {
    return Length::nanometres(std::llround(millimetres * 1e6));
}

QPointF inMillimetres(Point point) { return {point.x.toMillimetres(), point.y.toMillimetres()}; }

double awayFrom(const QLineF& line, QPointF point) {
    const QPointF along = line.p2() - line.p1();
    const double length2 = QPointF::dotProduct(along, along);
    const double t =
        length2 > 0 ? std::clamp(QPointF::dotProduct(point - line.p1(), along) / length2, 0.0, 1.0)
                    : 0.0;
    return QLineF(point, line.p1() + along * t).length();
}

const Section* sectionOf(const BoardLayout& layout, SectionId id) {
    for (const Section& section : layout.sections) {
        if (section.id == id) {
            return &section;
        }
    }
    return nullptr;
}

} // namespace

CutTool::CutTool(DocumentSession& session, RackScene& scene, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_scene(scene) {
    connect(&m_session, &DocumentSession::changed, this, [this] { end(); });
    connect(&m_session, &DocumentSession::adopted, this, [this] { end(); });
}

QLineF CutTool::lineOf(BoardId board, const hand::CutRef& cut, Length where) const {
    const BoardItem* item = m_scene.itemOf(board);
    const std::optional<Plan>& plan = m_session.document().plan;
    const BoardLayout* layout = plan ? hand::layoutOf(*plan, board) : nullptr;
    const Section* section = layout != nullptr ? sectionOf(*layout, cut.section) : nullptr;
    if (item == nullptr || section == nullptr) {
        return {};
    }
    const auto onScene = [&](Point point) {
        return item->mapToScene(item->boardToItem().map(inMillimetres(point)));
    };
    if (!cut.strip) {
        const Rect box = boundingBox(item->picture().board.outline);
        return {onScene({where, box.y0}), onScene({where, box.y1})};
    }
    for (const Strip& strip : section->strips) {
        if (strip.id == *cut.strip) {
            const Stretch along = hand::alongStrip(*section, strip);
            return {onScene(toOuter(section->frame, Point{along.from, where})),
                    onScene(toOuter(section->frame, Point{along.to, where}))};
        }
    }
    return {};
}

std::optional<CutTool::Found> CutTool::cutAt(QPointF scenePoint) const {
    const BoardItem* item = m_scene.itemNear(scenePoint);
    const std::optional<Plan>& plan = m_session.document().plan;
    if (item == nullptr || !plan) {
        return std::nullopt;
    }
    const BoardId board = item->picture().board.id;
    const double near = nearPixels / m_scene.scale();
    const RackHit hit = m_scene.hitAt(scenePoint);
    const QRectF piece = hit.blank ? m_scene.boxOf(*hit.blank) : QRectF();
    std::optional<Found> best;
    double nearest = near;
    for (const hand::CutRef& cut : hand::cutsOn(m_session.document(), board)) {
        const std::optional<Length> mark = hand::markOf(m_session.document(), board, cut);
        if (cut.kind() == hand::CutKind::Second || !mark) {
            continue;
        }
        const bool isRip = cut.kind() == hand::CutKind::Rip;
        const double room = (isRip ? piece.height() : piece.width()) * m_scene.scale();
        const double away = awayFrom(lineOf(board, cut, *mark), scenePoint);
        if (away <= nearest && (!hit.blank || room >= leastPixels)) {
            nearest = away;
            best = Found{board, cut, isRip};
        }
    }
    return best;
}

QString CutTool::about(const Found& found) const {
    const Document& document = m_session.document();
    const std::optional<Length> mark = hand::markOf(document, found.board, found.cut);
    if (!mark) {
        return {};
    }
    CutLimits& limits = CutLimits::of(m_session);
    limits.want({found.board});
    QString text = tr("%1 at %2")
                       .arg(ui::words(hand::nameOf(found.cut.kind())),
                            readingText(*mark, m_session.lengthStyle()));
    if (const hand::BoardLimits* known = limits.find(found.board)) {
        for (const hand::CutWindow& window : known->cuts) {
            if (window.cut == found.cut) {
                text += ": " + ui::words(hand::sentenceOf(document, window));
            }
        }
    }
    return text + tr(". Drag it, or press C, to move it.");
}

bool CutTool::take(const Found& found) {
    Result<hand::CutDrag> drag = hand::CutDrag::take(m_session.document(), found.board, found.cut);
    if (!drag) {
        emit words(ui::words(drag.error().message));
        return false;
    }
    m_drag.emplace(std::move(drag).value());
    judge(m_drag->mark(), Length());
    return true;
}

void CutTool::holdAt(QPointF scenePoint, bool snapping) {
    if (!isHolding()) {
        return;
    }
    const BoardItem* item = m_scene.itemOf(m_drag->board());
    const BoardLayout* layout = hand::layoutOf(*m_session.document().plan, m_drag->board());
    const Section* section =
        layout != nullptr ? sectionOf(*layout, m_drag->cut().section) : nullptr;
    if (item == nullptr || section == nullptr) {
        return;
    }
    const QPointF at = item->boardToItem().inverted().map(item->mapFromScene(scenePoint));
    const Point on{fromMillimetres(at.x()), fromMillimetres(at.y())};
    const Length where = m_drag->cut().strip ? toLocal(section->frame, on).y : on.x;
    judge(where, snapping ? fromMillimetres(snapPixels / m_scene.scale()) : Length());
}

void CutTool::nudge(int marks) {
    if (isHolding()) {
        judge(m_held->where + hand::tapeMarksOf(m_session.document(), {}).step * marks, Length());
    }
}

void CutTool::holdAtReading(Length where) {
    if (isHolding()) {
        judge(where, Length());
    }
}

void CutTool::takeNext(BoardId board, std::optional<BlankId> blank, int by) {
    if (isHolding() && m_held->where != m_drag->mark()) {
        emit words(tr("This cut was moved. Enter lays it there, Esc puts it back."));
        return;
    }
    const Document& document = m_session.document();
    std::vector<hand::CutRef> cuts = hand::cutsOn(document, board);
    std::erase_if(cuts,
                  [](const hand::CutRef& cut) { return cut.kind() == hand::CutKind::Second; });
    const int count = static_cast<int>(cuts.size());
    if (count == 0) {
        emit words(tr("No crosscut or rip is left to move on this board."));
        return;
    }
    const std::optional<hand::TreePlace> place =
        blank ? hand::placeOf(*document.plan, *blank) : std::nullopt;
    const auto isFirst = [&](const hand::CutRef& cut) {
        return isHolding() ? cut == m_drag->cut()
                           : place && cut.section == hand::sectionAt(*document.plan, *place).id;
    };
    const auto found = std::find_if(cuts.begin(), cuts.end(), isFirst);
    int at = found == cuts.end() ? 0 : static_cast<int>(found - cuts.begin());
    at += isHolding() ? by : 0;
    for (int tried = 0; tried < count; ++tried, at += by) {
        const hand::CutRef& cut = cuts[static_cast<std::size_t>((at % count + count) % count)];
        if (take({board, cut, cut.kind() == hand::CutKind::Rip})) {
            return;
        }
    }
}

void CutTool::takeNearest() {
    if (isHolding() && m_held->nearest) {
        judge(*m_held->nearest, Length());
    }
}

void CutTool::judge(Length where, Length snapWithin) {
    m_held = m_drag->at(where, snapWithin);
    QString text = ui::words(m_held->words);
    if (snapWithin == Length()) { // by keys
        text += where == m_drag->mark() ? tr(" Arrows move it, C takes the next cut, Esc puts it "
                                             "back.")
                : m_held->isLegal       ? tr(" Enter moves it there, Esc puts it back.")
                : m_held->nearest       ? tr(" N takes that place, Esc puts it back.")
                                        : tr(" Esc puts it back.");
    }
    emit words(text);
    emit changed();
}

bool CutTool::lay() {
    if (!isHolding()) {
        return false;
    }
    if (!m_held->isLegal) {
        emit words(ui::words(m_held->words) + (m_held->nearest ? tr(" N takes it.") : QString()));
        return false;
    }
    const Length where = m_held->where;
    if (where == m_drag->mark()) {
        putBack();
        return true;
    }
    const Result<Edit> edit = m_drag->drop(where);
    const QString step = m_drag->cut().strip ? tr("Move a rip") : tr("Move a crosscut");
    const QString moved = (m_drag->cut().strip ? tr("The rip is moved to %1. Ctrl+Z takes it back.")
                                               : tr("The crosscut is moved to %1. Ctrl+Z takes it "
                                                    "back."))
                              .arg(readingText(where, m_session.lengthStyle()));
    end();
    if (!edit) {
        emit words(ui::words(edit.error().message));
        return false;
    }
    const QScopedValueRollback laying(m_isLaying, true);
    if (!m_session.edit(step, edit.value())) {
        return false;
    }
    emit words(moved);
    return true;
}

void CutTool::putBack() {
    if (isHolding()) {
        const QString text = tr("The cut is back on its mark at %1.")
                                 .arg(readingText(m_drag->mark(), m_session.lengthStyle()));
        end();
        emit words(text);
    }
}

void CutTool::end() {
    m_drag.reset();
    m_held.reset();
    emit changed();
}

void CutTool::paint(QPainter& painter, const Colours& colours) const {
    if (!m_held) {
        return;
    }
    const QTransform toPixels = painter.worldTransform();
    const auto inPixels = [&](Length where) {
        return toPixels.map(lineOf(m_drag->board(), m_drag->cut(), where));
    };
    painter.save();
    painter.resetTransform();
    painter.setRenderHint(QPainter::Antialiasing);
    if (m_held->nearest) {
        painter.setPen(QPen(colours.good, 2, Qt::DotLine));
        painter.drawLine(inPixels(*m_held->nearest));
    }
    const QLineF line = inPixels(m_held->where);
    painter.setPen(QPen(m_held->isLegal ? colours.accent : colours.wrong, 3,
                        m_held->isLegal ? Qt::SolidLine : Qt::DashLine));
    painter.drawLine(line);
    const QPointF top = line.p1().y() < line.p2().y() ? line.p1() : line.p2();
    const double side = 14;
    const QString reading = readingText(m_held->where, m_session.lengthStyle());
    const QString text =
        m_held->snappedTo.empty() ? reading : reading + "  " + ui::words(m_held->snappedTo);
    const QFont small = sized(QApplication::font(), TextSize::Caption, QFont::DemiBold);
    const double wide = fractionTextWidth(text, small);
    const QRectF plate(top.x() + 6, top.y() - side - 8, wide + side + 16, side + 6);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.panel);
    painter.drawRect(plate);
    drawSign(painter, QRectF(plate.left() + 4, plate.top() + 3, side, side),
             m_held->isLegal ? Sign::Tick : Sign::Cross, colours);
    painter.setPen(colours.ink);
    painter.setFont(small);
    drawFractionText(painter, plate.adjusted(side + 8, 0, -4, 0), Qt::AlignVCenter | Qt::AlignLeft,
                     text);
    painter.restore();
}

} // namespace stavewright::ui
