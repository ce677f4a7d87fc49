#include "ui/layout/VerdictBar.h"

#include <QFontMetricsF>
#include <QMouseEvent>
#include <QPainter>
#include <QStringList>

#include "core/units/QuantityText.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr double edge = 12;
constexpr double afterSign = 6;
constexpr double afterLabel = 5;
constexpr double leastGap = 10; // between items
constexpr double widestGap = 28;
} // namespace

VerdictBar::VerdictBar(DocumentSession& session, PlanController& controller, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_controller(controller) {
    setObjectName("verdict");
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    setCursor(Qt::PointingHandCursor);
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
        m_items.push_back({Sign::None,
                           tr("No plan yet."),
                           m_session.document().boards.empty()  ? tr("There are no boards.")
                           : m_session.document().parts.empty() ? tr("There are no parts.")
                                                                : tr("Press F9 to plan."),
                           {}});
    } else {
        const AuditReport& report = m_session.auditReport();
        if (preview && !m_controller.previewTitle().isEmpty()) {
            m_items.push_back({Sign::Tick, tr("Only shown:"), m_controller.previewTitle(), {}});
        } else if (preview) {
            m_items.push_back({Sign::None, tr("Planning"), tr("not audited yet"), {}});
        } else if (report.passed()) {
            m_items.push_back({Sign::Tick, {}, tr("Audit clean"), {}});
        } else {
            m_items.push_back(
                {Sign::Cross,
                 {},
                 counted(static_cast<qint64>(report.failures()), tr("finding"), tr("findings")),
                 {}});
        }
        // The audit's own sums where there are some: what prints and what shows is one number.
        const PlanTotals& t = preview ? plan->totals : report.totals;
        // What stands in the plan, but wrong, is no more ticked off than what is missing.
        const bool isRight = preview || report.passed();
        m_items.push_back({t.placed != t.demanded ? Sign::Triangle
                           : isRight              ? Sign::Tick
                                                  : Sign::None,
                           tr("Placed"),
                           tr("%1 of %2").arg(t.placed).arg(t.demanded),
                           {}});
        const UnitSystem units = m_session.document().info.units;
        m_items.push_back(
            {Sign::None, tr("Lumber used"),
             tr("%1, %2").arg(words(lumberText(t.lumberUsed, units, LumberDetail::Glance)),
                              counted(t.boardsUsed, tr("board"), tr("boards"))),
             tr("Lumber")});
        m_items.push_back({Sign::None, tr("Yield: rough blanks"),
                           words(formatShare(t.blanks, t.lumberUsed)), tr("Yield: rough")});
        m_items.push_back({Sign::None, tr("finished parts"),
                           words(formatShare(t.parts, t.lumberUsed)), tr("finished")});
        m_items.push_back({Sign::None, tr("Offcuts kept"),
                           words(lumberText(t.offcutsKept, units, LumberDetail::Glance)),
                           tr("Kept")});
        m_items.push_back({Sign::None,
                           tr("Cost"),
                           words(formatMoney(t.cost, m_session.document().info.currency)),
                           {}});
        if (plan->origin.proof) {
            if (plan->origin.proof->counted != t.cost) { // else two costs would seem to be one
                m_items.push_back({Sign::None, tr("Cost, knots on show counted"),
                                   words(formatMoney(plan->origin.proof->counted,
                                                     m_session.document().info.currency)),
                                   tr("Cost + knots")});
            }
            m_items.push_back(
                {Sign::None, tr("above the proved least: at most"),
                 words(formatExcess(plan->origin.proof->counted, plan->origin.proof->least)),
                 tr("above least: ≤")});
        }
    }
    setAccessibleName(text());
    setToolTip(plan && plan->origin.proof ? text() + "\n" + proved(*plan->origin.proof) : text());
    update();
}

QString VerdictBar::proved(const Proof& proof) const {
    const std::string& currency = m_session.document().info.currency;
    QString said =
        tr("Counted with what allowed knots on show count against a plan, this one comes to %1. "
           "No "
           "plan that the saws can cut from these boards can come to less than %2.")
            .arg(words(formatMoney(proof.counted, currency)),
                 words(formatMoney(proof.least, currency)));
    if (proof.leastLumber) {
        said +=
            "\n" + tr("None that places everything can take boards of less than %1.")
                       .arg(words(lumberText(*proof.leastLumber, m_session.document().info.units)));
    }
    return said;
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

QString VerdictBar::labelOf(const Item& item, Wording wording) {
    return wording == Wording::Brief && !item.brief.isEmpty() ? item.brief : item.label;
}

double VerdictBar::widthFor(Wording wording) const {
    const QFont strong = sized(font(), TextSize::Body, QFont::DemiBold);
    const QFont plain = sized(font(), TextSize::Body, QFont::Normal);
    double needed = 2 * edge;
    for (const Item& item : m_items) {
        const QString label = labelOf(item, wording);
        needed += leastGap + fractionTextWidth(item.figure, strong) + 1;
        needed += item.sign != Sign::None ? QFontMetricsF(plain).ascent() + afterSign : 0;
        needed += label.isEmpty() ? 0 : fractionTextWidth(label, plain) + 1 + afterLabel;
    }
    return needed - (m_items.empty() ? 0 : leastGap);
}

void VerdictBar::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton && rect().contains(event->position().toPoint())) {
        emit pressed();
    }
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
    const Wording wording = widthFor(Wording::Full) <= width() ? Wording::Full : Wording::Brief;
    const auto gaps = static_cast<double>(std::max<std::size_t>(1, m_items.size() - 1));
    const double gap =
        std::clamp(leastGap + (width() - widthFor(wording)) / gaps, leastGap, widestGap);
    double x = edge;
    for (const Item& item : m_items) {
        if (item.sign != Sign::None) {
            const double side = metrics.ascent();
            drawSign(painter, QRectF(x, (height() - side) / 2, side, side), item.sign, c);
            x += side + afterSign;
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
        const QString label = labelOf(item, wording);
        put(label, plain, c.quietInk);
        x += label.isEmpty() ? 0 : afterLabel;
        put(item.figure, strong, c.ink);
        x += gap;
    }
}

} // namespace stavewright::ui
