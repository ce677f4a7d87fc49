#include "ui/layout/VerdictBar.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QStringList>

#include "core/units/QuantityText.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

VerdictBar::VerdictBar(DocumentSession& session, PlanController& controller, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_controller(controller) {
    setObjectName("verdict");
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    connect(&session, &DocumentSession::changed, this, &VerdictBar::refresh);
    connect(&session, &DocumentSession::adopted, this, &VerdictBar::refresh);
    connect(&controller, &PlanController::previewChanged, this, &VerdictBar::refresh);
    connect(&controller, &PlanController::stateChanged, this, &VerdictBar::refresh);
    refresh();
}

void VerdictBar::refresh() {
    m_items.clear();
    const bool preview = m_controller.preview().has_value();
    const std::optional<Plan>& plan = preview ? m_controller.preview() : m_session.document().plan;
    if (!plan) {
        m_items.push_back({Sign::None, tr("No plan yet."),
                           m_session.document().boards.empty()  ? tr("The rack is empty.")
                           : m_session.document().parts.empty() ? tr("There are no parts.")
                                                                : tr("Press F9 to plan.")});
    } else {
        const AuditReport& report = m_session.auditReport();
        if (preview) {
            m_items.push_back({Sign::None, tr("Planning"), tr("not audited yet")});
        } else if (report.passed()) {
            m_items.push_back({Sign::Tick, {}, tr("Audit clean")});
        } else {
            m_items.push_back(
                {Sign::Cross,
                 {},
                 counted(static_cast<qint64>(report.failures()), tr("finding"), tr("findings"))});
        }
        // The audit's own sums where there are some: what prints and what shows is one number.
        const PlanTotals& t = preview ? plan->totals : report.totals;
        m_items.push_back({t.placed == t.demanded ? Sign::Tick : Sign::Triangle, tr("Placed"),
                           tr("%1 of %2").arg(t.placed).arg(t.demanded)});
        const UnitSystem units = m_session.document().info.units;
        m_items.push_back(
            {Sign::None, tr("Lumber used"),
             tr("%1, %2").arg(words(lumberText(t.lumberUsed, units, LumberDetail::Glance)),
                              counted(t.boardsUsed, tr("board"), tr("boards")))});
        m_items.push_back(
            {Sign::None, tr("Yield: rough blanks"), words(formatShare(t.blanks, t.lumberUsed))});
        m_items.push_back(
            {Sign::None, tr("finished parts"), words(formatShare(t.parts, t.lumberUsed))});
        m_items.push_back({Sign::None, tr("Offcuts kept"),
                           words(lumberText(t.offcutsKept, units, LumberDetail::Glance))});
        m_items.push_back({Sign::None, tr("Cost"),
                           words(formatMoney(t.cost, m_session.document().info.currency))});
    }
    setAccessibleName(text());
    update();
}

QString VerdictBar::text() const {
    QStringList parts;
    for (const Item& item : m_items) {
        parts << (item.label.isEmpty() ? item.figure : item.label + " " + item.figure);
    }
    return parts.join("; ");
}

QSize VerdictBar::sizeHint() const {
    return {400, static_cast<int>(QFontMetricsF(font()).height()) + 16};
}

void VerdictBar::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.panel);
    painter.setPen(c.hairline);
    painter.drawLine(0, 0, width(), 0);
    const QFont strong = sized(font(), TextSize::Body, QFont::DemiBold);
    const QFont plain = sized(font(), TextSize::Body, QFont::Normal);
    const QFontMetricsF metrics(plain);
    double needed = 24;
    for (const Item& item : m_items) {
        needed += (item.sign != Sign::None ? metrics.ascent() + 6 : 0) +
                  fractionTextWidth(item.label, plain) + 5 + fractionTextWidth(item.figure, strong);
    }
    const auto gaps = static_cast<double>(std::max<std::size_t>(1, m_items.size() - 1));
    const double gap = std::clamp((width() - needed) / gaps, 10.0, 28.0);
    double x = 12;
    for (const Item& item : m_items) {
        if (item.sign != Sign::None) {
            const double side = metrics.ascent();
            drawSign(painter, QRectF(x, (height() - side) / 2, side, side), item.sign, c);
            x += side + 6;
        }
        const auto put = [&](const QString& text, const QFont& textFont, const QColor& colour) {
            if (text.isEmpty() || x > width() - 20) {
                return;
            }
            painter.setFont(textFont);
            painter.setPen(colour);
            const double wide = std::min(fractionTextWidth(text, textFont) + 1, width() - x - 6);
            drawFractionText(painter, QRectF(x, 0, wide, height()),
                             Qt::AlignLeft | Qt::AlignVCenter, text);
            x += wide;
        };
        put(item.label, plain, c.quietInk);
        x += item.label.isEmpty() ? 0 : 5;
        put(item.figure, strong, c.ink);
        x += gap;
    }
}

} // namespace stavewright::ui
