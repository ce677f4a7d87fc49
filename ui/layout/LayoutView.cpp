#include "ui/layout/LayoutView.h"

#include <QListView>
#include <QScopedValueRollback>
#include <QSplitter>
#include <QStackedWidget>
#include <QTreeView>
#include <QVBoxLayout>

#include <algorithm>

#include "ui/layout/ChoicesPanel.h"
#include "ui/layout/LegendStrip.h"
#include "ui/layout/PartsPanel.h"
#include "ui/layout/PlanStrip.h"
#include "ui/layout/RackView.h"
#include "ui/layout/RestPanel.h"
#include "ui/layout/SelectionPanel.h"
#include "ui/layout/ShopMenu.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/widgets/EmptyState.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int sidePanel = 320;
constexpr int partsWide = 260;

} // namespace

LayoutView::LayoutView(DocumentSession& session, PlanController& controller,
                       ChoicesController& choices, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_controller(controller)
    , m_choices(choices)
    , m_strip(new PlanStrip(session, controller, this))
    , m_split(new QSplitter(Qt::Horizontal, this))
    , m_parts(new PartsPanel(session, this))
    , m_rack(new RackView(session, this))
    , m_legend(new LegendStrip(this))
    , m_sideBySide(new ChoicesPanel(session, choices, this))
    , m_rest(new RestPanel(session, controller, this))
    , m_shop(new ShopEvents(session, this))
    , m_panel(new SelectionPanel(session, *m_shop, this))
    , m_middle(new QStackedWidget(this)) {
    auto* rackBox = new QWidget(m_middle);
    auto* rackLayout = new QVBoxLayout(rackBox);
    rackLayout->setContentsMargins(0, 0, 0, 0);
    rackLayout->setSpacing(0);
    rackLayout->addWidget(m_rack, 1);
    rackLayout->addWidget(m_legend);
    rackLayout->addWidget(m_sideBySide);
    rackLayout->addWidget(m_rest);
    m_middle->addWidget(rackBox);
    auto* empty = new EmptyState(
        "layoutEmpty",
        tr("There are no boards yet. Put in those you have, then the parts of the piece; the plan "
           "is drawn here."),
        tr("Go to Lumber"), tr("Ctrl+1"), m_middle);
    m_middle->addWidget(empty);
    connect(empty, &EmptyState::begun, this, &LayoutView::boardsWanted);

    m_split->setObjectName("layoutSplit");
    m_split->setChildrenCollapsible(false);
    m_split->addWidget(m_parts);
    m_split->addWidget(m_middle);
    m_split->addWidget(m_panel);
    m_split->setStretchFactor(0, 0);
    m_split->setStretchFactor(1, 1);
    m_split->setStretchFactor(2, 0);
    m_parts->setMinimumWidth(180);
    m_panel->setMinimumWidth(240);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_strip);
    layout->addWidget(m_split, 1);

    m_beside.setSingleShot(true);
    connect(&m_beside, &QTimer::timeout, this, &LayoutView::refreshBeside);
    connect(m_split, &QSplitter::splitterMoved, this, [this] { m_widthsAreChosen = true; });
    m_rack->setTray(m_parts->tray());
    connect(&m_rack->hand(), &HandTool::overTray, m_parts, &PartsPanel::awaitInTray);
    connect(m_parts, &PartsPanel::laidOut, m_rack, &RackView::pickUpFromTray);
    connect(m_rack, &RackView::hint, m_strip, &PlanStrip::showHint);
    connect(m_rack, &RackView::answered, m_strip, &PlanStrip::showAnswer);
    connect(m_rack, &RackView::menuFilling, this,
            [this](QMenu& menu) { fillShopMenu(menu, m_session, *m_shop); });
    connect(m_rack, &RackView::ownPlanWanted, &m_controller, &PlanController::putAway);
    connect(m_panel, &SelectionPanel::ownPlanWanted, &m_controller, &PlanController::putAway);
    connect(m_rack, &RackView::faceChanged, this, &LayoutView::refreshAll);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        refreshAll();
        m_parts->tree()->scrollToTop();
        m_rack->fitBest();
    });
    connect(&m_session, &DocumentSession::changed, this, &LayoutView::refreshAll);
    connect(&m_session, &DocumentSession::selectionChanged, this, &LayoutView::refreshPanel);
    connect(&m_controller, &PlanController::previewChanged, this, &LayoutView::refreshAll);
    connect(m_strip, &PlanStrip::compareWanted, &m_choices, &ChoicesController::comparePlans);
    connect(&m_choices, &ChoicesController::stateChanged, this, &LayoutView::refreshPanel);
    connect(m_panel, &SelectionPanel::whyAsked, &m_choices, &ChoicesController::askWhy);
    connect(m_panel, &SelectionPanel::whyStopped, &m_choices, &ChoicesController::close);
    connect(m_panel, &SelectionPanel::keyWanted, m_rack, [this](int key) {
        m_rack->setFocus();
        m_rack->press(key);
    });
    refreshAll();
}

const Plan* LayoutView::shownPlan() const {
    if (m_controller.preview()) {
        return &*m_controller.preview();
    }
    const std::optional<Plan>& plan = m_session.document().plan;
    return plan ? &*plan : nullptr;
}

QString LayoutView::shownAgain() const {
    if (m_controller.isRunning()) {
        return m_session.document().plan
                   ? tr("Show the Best, above, shows it again.")
                   : tr("Stop and Keep (Shift+F9) takes the one that is shown.");
    }
    return m_controller.rest() ? tr("Show After, below, shows it again.")
                               : tr("A click on its line below shows it again.");
}

void LayoutView::refreshAll() {
    const Document& document = m_session.document();
    const bool preview = m_controller.preview().has_value();
    const LengthStyle style = m_session.lengthStyle();
    static const AuditReport noFindings;
    std::vector<BoardPicture> pictures =
        picturesOf(document, shownPlan(), preview ? noFindings : m_session.auditReport(), style);
    m_legend->setPictures(pictures, m_rack->face());
    m_rack->setUnits(style);
    m_rack->setPlanIsOwn(!preview, shownAgain());
    m_rack->setPictures(std::move(pictures));
    m_middle->setCurrentIndex(document.boards.empty() ? 1 : 0);
    isLaying() ? m_beside.start() : refreshBeside();
}

bool LayoutView::isLaying() const { return m_rack->hand().isLaying() || m_rack->cuts().isLaying(); }

void LayoutView::refreshBeside() {
    m_beside.stop();
    m_parts->refresh(shownPlan());
    refreshPanel();
}

void LayoutView::refreshPanel() {
    if (isLaying() || m_beside.isActive()) {
        return; // it comes with the lists
    }
    SelectionPanel::Shown shown;
    shown.plan = shownPlan();
    shown.isPreview = m_controller.preview().has_value();
    shown.title = m_controller.previewTitle();
    shown.bestKnown = m_controller.bestKnown();
    if (m_choices.question() == ChoicesController::Question::Why) {
        shown.asked = m_choices.blank();
        shown.isAsking = m_choices.isRunning();
        shown.why = m_choices.why() ? words(m_choices.why()->sentence) : QString();
    }
    m_panel->refresh(shown);
}

void LayoutView::leaveFoot(int pixels) {
    m_rack->setFoot(pixels);
    layout()->setContentsMargins(0, 0, 0, pixels);
}

void LayoutView::turnFace() { m_rack->setFace(other(m_rack->face())); }

QByteArray LayoutView::saveState() const {
    return m_widthsAreChosen ? m_split->saveState() : QByteArray();
}

void LayoutView::restoreState(const QByteArray& state) {
    m_widthsAreChosen = !state.isEmpty() && m_split->restoreState(state);
}

void LayoutView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (!m_widthsAreChosen) {
        // The drawing keeps at least three fifths of the window.
        const int sides = std::min(sidePanel + partsWide, width() * 2 / 5);
        const int panel = sides * sidePanel / (sidePanel + partsWide);
        m_split->setSizes({sides - panel, width() - sides, panel});
    }
}

} // namespace stavewright::ui
