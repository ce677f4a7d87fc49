#include "ui/layout/LegendStrip.h"

#include <QFontMetricsF>
#include <QPainter>

#include <set>

#include "core/layout/StateNames.h"
#include "core/midjob/MadeCuts.h"
#include "ui/layout/BlankPainter.h"
#include "ui/layout/Hatch.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr double swatch = 24;
constexpr double swatchHigh = 13;
constexpr double afterSwatch = 5;
constexpr double between = 14; // items
constexpr double edge = 12;
} // namespace

LegendStrip::LegendStrip(QWidget* parent)
    : QWidget(parent) {
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    setAccessibleName(tr("Legend of the boards"));
}

void LegendStrip::setPictures(const std::vector<BoardPicture>& pictures, BoardFace face) {
    m_face = face;
    m_blanks = m_locks = m_offcuts = m_unseen = m_otherFace = m_trims = m_planing = false;
    m_states.clear();
    std::set<DefectKind> kinds;
    for (const BoardPicture& picture : pictures) {
        m_blanks = m_blanks || !picture.blanks.empty();
        for (const BlankPicture& blank : picture.blanks) {
            m_states.insert(blank.state);
            m_locks = m_locks || blank.locked;
            m_planing = m_planing || blank.planing != 0;
        }
        m_offcuts = m_offcuts || !picture.offcuts.empty();
        m_trims = m_trims || !picture.trims.empty();
        m_unseen = m_unseen ||
                   !notLookedAt(picture.board, face, {Length(), lengthOf(picture.board)}).empty();
        for (const DefectPicture& defect : picture.defects) {
            kinds.insert(defect.kind);
            m_otherFace = m_otherFace || (face == BoardFace::A ? defect.onA : defect.onB).empty();
        }
    }
    m_defects.clear();
    for (const DefectKind kind : kinds) {
        m_defects.push_back(
            {kind, QString("%1 %2").arg(QChar::fromLatin1(letterOf(kind)), words(nameOf(kind)))});
    }
    fitHeight();
    update();
}

std::vector<LegendStrip::Entry> LegendStrip::entries() const {
    std::vector<Entry> all;
    const auto add = [&](Swatch swatch, const QString& text, const QString& brief = {}) {
        all.push_back({swatch, text, brief.isEmpty() ? text : brief, CutState::Planned});
    };
    if (m_blanks) {
        add(Swatch::Blank, tr("blank"));
        add(Swatch::Corner, tr("its datum corner (hollow: face A under)"), tr("its datum corner"));
        add(Swatch::Waste, tr("waste"));
    }
    if (m_planing) {
        add(Swatch::Grain, tr("this end into the planer first"), tr("into the planer"));
    }
    if (m_locks) {
        add(Swatch::Locked, tr("locked: planning leaves it there"), tr("locked"));
    }
    if (m_offcuts) {
        add(Swatch::Offcut, tr("offcut to keep"), tr("to keep"));
    }
    if (m_trims) {
        add(Swatch::Trim, tr("raw end, cut off"), tr("raw end"));
    }
    if (m_unseen) {
        add(Swatch::Unseen, tr("not looked at"));
    }
    for (const CutState state : m_states) {
        if (state != CutState::Planned) {
            const QString text = words(briefOf(state));
            all.push_back({Swatch::Stroke, text, text, state});
        }
    }
    if (m_otherFace) {
        add(Swatch::OtherFace, m_face == BoardFace::A ? tr("on face B") : tr("on face A"));
    }
    return all;
}

/// Places one after another, on as many rows as the width asks for.
class LegendStrip::Flow {
  public:
    Flow(const LegendStrip& strip, const QFontMetricsF& metrics)
        : m_metrics(metrics)
        , m_width(strip.width()) {}

    [[nodiscard]] double wide(const QString& text, bool hasSwatch) const {
        return (hasSwatch ? swatch + afterSwatch : 0) + m_metrics.horizontalAdvance(text);
    }
    /// Middle of the left end of the next place.
    QPointF place(double width) {
        if (m_x > edge && m_x + width > m_width - edge / 2) {
            newRow();
        }
        const QPointF at(m_x, (m_row + 0.5) * rowHeight(m_metrics) + 2);
        m_x += width + between;
        return at;
    }
    void newRow() {
        m_x = edge;
        ++m_row;
    }
    [[nodiscard]] int rows() const { return m_row + 1; }
    [[nodiscard]] static double rowHeight(const QFontMetricsF& metrics) {
        return metrics.height() + 6;
    }

  private:
    const QFontMetricsF& m_metrics;
    double m_width;
    double m_x = edge;
    int m_row = 0;
};

int LegendStrip::lay(const std::function<void(QPointF, const Entry&, const QString&)>& put,
                     const std::function<void(QPointF, const QString&)>& putDefect) const {
    const QFontMetricsF metrics(sized(font(), TextSize::Caption));
    Flow flow(*this, metrics);
    const std::vector<Entry> all = entries();
    double full = 2 * edge;
    for (const Entry& entry : all) {
        full += flow.wide(entry.text, true) + between;
    }
    for (const Entry& entry : all) {
        const QString& text = full <= width() ? entry.text : entry.brief;
        put(flow.place(flow.wide(text, true)), entry, text);
    }
    if (!all.empty() && !m_defects.empty()) {
        flow.newRow(); // the letters of the marks have rows of their own
    }
    for (const DefectEntry& entry : m_defects) {
        putDefect(flow.place(flow.wide(entry.text, false)), entry.text);
    }
    return flow.rows();
}

void LegendStrip::fitHeight() {
    const int rows =
        lay([](QPointF, const Entry&, const QString&) {}, [](QPointF, const QString&) {});
    const QFontMetricsF metrics(sized(font(), TextSize::Caption));
    const int high = static_cast<int>(rows * Flow::rowHeight(metrics)) + 4;
    if (high != m_high) {
        m_high = high;
        updateGeometry();
    }
}

QSize LegendStrip::sizeHint() const { return {200, m_high}; }

void LegendStrip::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitHeight();
}

void LegendStrip::paintSwatch(QPainter& painter, const QRectF& box, const Entry& entry,
                              const Colours& c) const {
    QColor faint = c.woodInk;
    faint.setAlpha(110);
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.wood);
    switch (entry.swatch) {
    case Swatch::Blank:
        painter.setPen(QPen(c.dark ? c.blankInk : c.ink, 1.5));
        painter.setBrush(c.groupTints[0]);
        painter.drawRect(box);
        break;
    case Swatch::Corner:
        painter.setPen(QPen(c.blankInk, 1));
        painter.setBrush(c.groupTints[0]);
        painter.drawRect(box);
        painter.setBrush(c.blankInk);
        painter.drawPolygon(QPolygonF({box.bottomLeft(), box.bottomLeft() + QPointF(8, 0),
                                       box.bottomLeft() + QPointF(0, -8)}));
        break;
    case Swatch::Locked:
        painter.setPen(QPen(c.dark ? c.blankInk : c.ink, 1));
        painter.setBrush(c.groupTints[0]);
        painter.drawRect(box);
        paintLockNail(painter, box.center() + QPointF(0, -4), c.blankInk);
        break;
    case Swatch::Grain: {
        painter.setBrush(c.groupTints[0]);
        painter.drawRect(box);
        painter.setPen(QPen(c.blankInk, 1));
        const QPointF tip(box.right() - 3, box.center().y());
        painter.drawLine(QPointF(box.left() + 3, tip.y()), tip);
        painter.drawLine(tip, tip + QPointF(-5, -3));
        break;
    }
    case Swatch::Waste:
        painter.drawRect(box);
        paintHatch(painter, box, faint, 5, HatchLean::Rising);
        break;
    case Swatch::Offcut:
        painter.setPen(QPen(c.woodInk, 1, Qt::DotLine));
        painter.drawRect(box);
        break;
    case Swatch::Trim:
        painter.drawRect(box);
        paintHatch(painter, box, faint, 5, HatchLean::Falling);
        break;
    case Swatch::Unseen:
        painter.drawRect(box);
        paintDots(painter, box.adjusted(2, 2, -2, -2), c.woodInk, 4);
        break;
    case Swatch::Stroke:
        painter.setPen(QPen(c.dark ? c.blankInk : c.ink, 1));
        painter.setBrush(c.groupTints[0]);
        painter.drawRect(box.adjusted(-4, 0, 2, 0));
        paintStateStrokes(painter, box.bottomRight() + QPointF(-1, -2), entry.state, c.blankInk);
        break;
    case Swatch::OtherFace:
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(c.ink, 1, Qt::DotLine));
        painter.drawEllipse(box.adjusted(3, 0, -3, 0));
        break;
    }
}

void LegendStrip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.ground);
    painter.setFont(sized(font(), TextSize::Caption));
    const double capHeight = QFontMetricsF(painter.font()).capHeight();
    const auto label = [&](QPointF middleLeft, const QString& text) {
        painter.setPen(c.quietInk);
        painter.drawText(middleLeft + QPointF(0, capHeight / 2), text);
    };
    lay(
        [&](QPointF at, const Entry& entry, const QString& text) {
            const QRectF box(at.x(), at.y() - swatchHigh / 2, swatch, swatchHigh);
            paintSwatch(painter, box, entry, c);
            label(at + QPointF(swatch + afterSwatch, 0), text);
        },
        label);
}

} // namespace stavewright::ui
