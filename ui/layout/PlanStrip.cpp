#include "ui/layout/PlanStrip.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QSpinBox>
#include <QUndoStack>

#include "core/units/QuantityText.h"
#include "ui/layout/HintLine.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/Icons.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

PlanStrip::PlanStrip(DocumentSession& session, PlanController& controller, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_controller(controller)
    , m_plan(new QPushButton(tr("Plan"), this))
    , m_seconds(new QSpinBox(this))
    , m_secondsLabel(new QLabel(tr("for up to"), this))
    , m_compare(new QPushButton(tr("Side by side"), this))
    , m_stop(new QPushButton(tr("Stop and keep"), this))
    , m_discard(new QPushButton(tr("Discard"), this))
    , m_look(new QPushButton(this))
    , m_words(new HintLine(this)) {
    m_words->setObjectName("planWords");
    m_plan->setObjectName("planButton");
    m_compare->setObjectName("compareButton");
    m_compare->setToolTip(tr("Plans of least lumber, fewest knots on show and fewest set-ups, as "
                             "long for each (F8)"));
    m_stop->setObjectName("stopAndKeepButton");
    m_discard->setObjectName("discardButton");
    m_look->setObjectName("lookAtBestButton");
    m_look->setToolTip(tr("Which plan stands on the boards. The job's own can be worked on while "
                          "planning goes on"));
    m_plan->setToolTip(tr("Find a place for every part (F9)"));
    m_stop->setToolTip(tr("End now and take the best plan so far (Shift+F9)"));
    m_discard->setToolTip(tr("End now and leave the job as it was"));
    m_seconds->setObjectName("planSeconds");
    m_seconds->setRange(1, 3600);
    m_seconds->setSuffix(tr(" s"));
    m_seconds->setToolTip(tr("Planning ends after this time at the latest"));
    m_seconds->setAccessibleName(tr("Seconds for planning"));
    m_seconds->setValue(QSettings().value("layout/planSeconds", 10).toInt());
    m_controller.setSecondsAllowed(m_seconds->value());
    m_secondsLabel->setBuddy(m_seconds);

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(12, 6, 12, 6);
    row->setSpacing(8);
    row->addWidget(m_plan);
    row->addWidget(m_secondsLabel);
    row->addWidget(m_seconds);
    row->addWidget(m_compare);
    row->addWidget(m_stop);
    row->addWidget(m_discard);
    row->addWidget(m_look);
    row->addSpacing(8);
    row->addWidget(m_words, 1);

    connect(m_plan, &QPushButton::clicked, &m_controller, &PlanController::plan);
    connect(m_compare, &QPushButton::clicked, this, &PlanStrip::compareWanted);
    connect(m_stop, &QPushButton::clicked, &m_controller, &PlanController::stopAndKeep);
    connect(m_discard, &QPushButton::clicked, &m_controller, &PlanController::discard);
    connect(m_look, &QPushButton::clicked, this,
            [this] { m_controller.isAway() ? m_controller.showBest() : m_controller.putAway(); });
    connect(m_seconds, &QSpinBox::valueChanged, this, [this](int value) {
        m_controller.setSecondsAllowed(value);
        QSettings().setValue("layout/planSeconds", value);
    });
    connect(&m_controller, &PlanController::stateChanged, this, &PlanStrip::refresh);
    connect(&m_controller, &PlanController::progressed, this, &PlanStrip::refresh);
    connect(&m_controller, &PlanController::previewChanged, this, &PlanStrip::refresh);
    connect(&m_session, &DocumentSession::changed, this, &PlanStrip::refresh);
    connect(&m_session, &DocumentSession::adopted, this, &PlanStrip::refresh);
    connect(&m_session.undoStack(), &QUndoStack::indexChanged, this, &PlanStrip::stepsAre);
    refresh();
}

void PlanStrip::stepsAre(int index) {
    const QUndoStack& stack = m_session.undoStack();
    if (index < m_steps && index < stack.count()) {
        showHint(tr("Taken back: %1. Ctrl+Shift+Z does it again.").arg(stack.text(index)));
        m_isTakenBack = true;
    } else if (m_isTakenBack) {
        showHint({});
    }
    m_steps = index;
}

void PlanStrip::showHint(const QString& text) {
    m_hint = text;
    m_isTakenBack = false;
    if (!m_controller.isRunning()) {
        refresh();
    }
}

void PlanStrip::showAnswer(const QString& text) {
    m_answer = text;
    refresh();
}

void PlanStrip::refresh() {
    const bool running = m_controller.isRunning();
    if (!running) {
        m_answer.clear();
    }
    m_plan->setVisible(!running);
    m_compare->setVisible(!running && m_session.document().plan.has_value());
    m_seconds->setVisible(!running);
    m_secondsLabel->setVisible(!running);
    m_stop->setVisible(running);
    m_discard->setVisible(running);
    m_stop->setEnabled(!m_controller.isStopping());
    const Document& document = m_session.document();
    m_look->setVisible(running && (m_controller.isAway() || document.plan.has_value()));
    m_look->setText(m_controller.isAway() ? tr("Show the best") : tr("Show the job's"));
    m_plan->setEnabled(!document.boards.empty() && !document.parts.empty());
    m_plan->setText(document.plan ? tr("Plan again") : tr("Plan"));
    m_words->setQuiet(!running);
    m_words->setToolTip(running ? QString() : m_hint);
    if (!running) {
        const bool isWrong = document.plan && !m_session.auditReport().passed();
        m_words->setText(!m_hint.isEmpty() || !isWrong
                             ? m_hint
                             : tr("The plan does not fit the job as it is now; Plan again does."));
        return;
    }
    if (m_isTakenBack) { // of no use once something else was done
        m_hint.clear();
        m_isTakenBack = false;
    }
    if (m_controller.isStopping()) {
        m_words->setText(tr("Stopping; the best plan so far is kept."));
        return;
    }
    const ProgressReport& progress = m_controller.progress();
    QString text = tr("Planning, %1 of %2 s")
                       .arg(static_cast<int>(progress.seconds))
                       .arg(static_cast<int>(m_controller.secondsAllowed()));
    if (const std::optional<Plan>& best = m_controller.bestSoFar()) {
        text += tr("; best so far: %1 of %2 placed, %3 of lumber")
                    .arg(best->totals.placed)
                    .arg(best->totals.demanded)
                    .arg(words(lumberText(best->totals.lumberUsed, m_session.document().info.units,
                                          LumberDetail::Glance)));
    } else if (progress.demanded > 0) {
        text += tr("; %1 of %2 placed").arg(progress.placed).arg(progress.demanded);
    }
    m_words->setText(m_answer.isEmpty() ? text : text + ". " + m_answer);
}

} // namespace stavewright::ui
