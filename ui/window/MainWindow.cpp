#include "ui/window/MainWindow.h"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QCloseEvent>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMimeData>
#include <QSettings>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "core/job/JobFile.h"
#include "core/layout/GluePresets.h"
#include "core/shop/Presets.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/RackView.h"
#include "ui/layout/VerdictBar.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/papers/PapersView.h"
#include "ui/session/ChoicesController.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/session/Recovery.h"
#include "ui/session/SaveRun.h"
#include "ui/shoprack/RackDesk.h"
#include "ui/shoprack/ShopRackView.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Words.h"
#include "ui/window/GoesWithUndo.h"
#include "ui/window/Places.h"
#include "ui/window/RecentFiles.h"
#include "ui/window/Samples.h"

namespace stavewright::ui {

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow(parent)
    , m_session(std::make_unique<DocumentSession>())
    , m_controller(std::make_unique<PlanController>(*m_session))
    , m_choices(std::make_unique<ChoicesController>(*m_session, *m_controller))
    , m_rackDesk(std::make_unique<RackDesk>(*m_session))
    , m_recovery(std::make_unique<Recovery>(*m_session, Recovery::defaultFolder()))
    , m_saving(std::make_unique<SaveRun>(*m_session)) {
    setObjectName("mainWindow");
    applyAppearance(static_cast<Appearance>(QSettings().value("view/appearance", 0).toInt()));
    setAcceptDrops(true);
    setMinimumSize(900, 560);
    makeActions();
    makePlaces();
    makeMenus();
    connectSession();
    const QSettings settings;
    if (!restoreGeometry(settings.value("window/geometry").toByteArray())) {
        resize(1280, 800);
    }
    m_layout->restoreState(settings.value("window/layoutSplit").toByteArray());
    refreshIcons();
    refreshActions();
    refreshTitle();
}

MainWindow::~MainWindow() {
    // The places hold references to session and controller, so they go first.
    m_saving->disconnect(this);
    m_session->disconnect(this);
    m_session->undoStack().disconnect(this);
    m_controller->disconnect(this);
    m_choices->disconnect(this);
    delete takeCentralWidget();
}

void MainWindow::makePlaces() {
    auto* middle = new QWidget(this);
    auto* column = new QVBoxLayout(middle);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    m_banner = new Banner(middle);
    m_stack = new QStackedWidget(middle);
    m_layout = new LayoutView(*m_session, *m_controller, *m_choices, m_stack);
    m_verdict = new VerdictBar(*m_session, *m_controller, middle);
    column->addWidget(m_stack, 1);
    m_banner->floatOver(m_stack);
    connect(m_banner, &Banner::roomTaken, m_layout, &LayoutView::leaveFoot);
    connect(m_controller.get(), &PlanController::stateChanged, m_banner, [this] {
        if (m_controller->isRunning()) {
            m_banner->dismiss(); // what it says is past, and the answer is shown where it lies
        }
    });
    column->addWidget(m_verdict);
    setCentralWidget(middle);
    addPlace(CommandId::PlaceLayout, m_layout);
    addOtherPlaces(*m_session, m_stack,
                   [this](CommandId id, QWidget* place) { addPlace(id, place); });
    addPlace(CommandId::PlaceShopRack, new ShopRackView(*m_session, *m_rackDesk, m_stack));
    m_papers = findChild<PapersView*>();
    connect(m_papers, &PapersView::planWanted, action(CommandId::Plan), &QAction::trigger);
    auto* glueUp = findChild<GlueUpView*>();
    connect(glueUp, &GlueUpView::planWanted, action(CommandId::Plan), &QAction::trigger);
    connect(glueUp, &GlueUpView::layoutWanted, action(CommandId::PlaceLayout), &QAction::trigger);
    connect(m_verdict, &VerdictBar::pressed, this, [this] {
        m_session->select({}); // the plan's figures and all findings stand beside the rack then
        action(CommandId::PlaceLayout)->trigger();
    });
    connect(m_layout, &LayoutView::boardsWanted, action(CommandId::PlaceLumber), &QAction::trigger);
    action(CommandId::PlaceLayout)->setChecked(true);
    m_stack->setCurrentWidget(m_layout);
    connect(m_stack, &QStackedWidget::currentChanged, this, &MainWindow::refreshActions);
}

void MainWindow::addPlace(CommandId id, QWidget* place) {
    m_stack->addWidget(place);
    m_places[id] = place;
}

void MainWindow::connectSession() {
    if (auto* lumber = findChild<LumberView*>()) { // what is typed there stands in no job yet
        QuickEntry* tally = &lumber->quickEntry();
        connect(&tally->model(), &TallyModel::reread, this,
                [this, tally] { m_recovery->keepTally(tally->rowsAsText()); });
    }
    connect(m_session.get(), &DocumentSession::failed, this, &MainWindow::complain);
    connect(m_session.get(), &DocumentSession::changed, this, [this] {
        refreshActions();
        refreshTitle();
    });
    connect(m_session.get(), &DocumentSession::adopted, this, [this] {
        refreshActions();
        refreshTitle();
    });
    connect(m_session.get(), &DocumentSession::pathChanged, this, &MainWindow::refreshTitle);
    connect(m_rackDesk.get(), &RackDesk::settling, this, [this] { m_saving->wait(); });
    connect(m_saving.get(), &SaveRun::started, this, [this] {
        m_rackDesk->noteSaveBegun();
        refreshTitle();
    });
    connect(m_saving.get(), &SaveRun::finished, this,
            [this](const QString& written, const Status& saved) {
                m_rackDesk->noteSaveEnded(saved.ok());
                refreshTitle();
                if (!saved) {
                    complain(words(describe(saved.error())));
                    return;
                }
                rememberFile(written);
                refreshRecent();
            });
    connect(&m_session->undoStack(), &QUndoStack::cleanChanged, this, &MainWindow::refreshTitle);
    connect(&m_session->undoStack(), &QUndoStack::indexChanged, this, [this] { refreshActions(); });
    connect(m_controller.get(), &PlanController::stateChanged, this, &MainWindow::refreshActions);
    connect(m_controller.get(), &PlanController::refused, this,
            [this](const QString& sentence) { m_banner->showMessage(Sign::Triangle, sentence); });
    connect(m_controller.get(), &PlanController::offered, this, [this](const QString& sentence) {
        m_banner->showMessage(Sign::Triangle, sentence,
                              {{tr("Take it"), [this] { m_controller->takeOffer(); }},
                               {tr("Plan again"), [this] { m_controller->plan(); }}});
    });
    connect(m_controller.get(), &PlanController::restOutdated, this,
            [this](const QString& sentence, midjob::RestMode mode) {
                m_banner->showMessage(
                    Sign::None, sentence,
                    {{mode == midjob::RestMode::KeepPlaces ? tr("Plan the rest, keeping places")
                                                           : tr("Plan the rest again"),
                      [this, mode] { m_controller->planRest(mode); }}});
            });
    connect(&m_layout->shop(), &ShopEvents::refused, this, [this](const QString& sentence) {
        m_banner->showMessage(Sign::Triangle, sentence);
        // It was about what is selected, and goes with it.
        connect(
            m_session.get(), &DocumentSession::selectionChanged, m_banner,
            [this, sentence] {
                if (m_banner->sentence() == sentence) {
                    m_banner->dismiss();
                }
            },
            Qt::SingleShotConnection);
    });
    connect(&m_layout->shop(), &ShopEvents::told, this,
            [this](const QString& sentence, const QStringList& remedies, bool isWorthPlanning) {
                const QString way =
                    remedies.isEmpty() ? QString() : tr(" Way out: %1").arg(remedies.front());
                std::vector<Banner::Button> buttons;
                const std::optional<Plan>& plan = m_session->document().plan;
                if (isWorthPlanning && plan && !plan->unplaced.empty()) {
                    buttons.push_back({tr("Plan the rest, keeping places"), [this] {
                                           m_controller->planRest(midjob::RestMode::KeepPlaces);
                                       }});
                } else if (isWorthPlanning) { // all has a place; moving more may save something
                    buttons.push_back({tr("Plan the rest again"), [this] {
                                           m_controller->planRest(midjob::RestMode::FromScratch);
                                       }});
                }
                m_banner->showMessage(remedies.isEmpty() ? Sign::None : Sign::Triangle,
                                      sentence + way, std::move(buttons));
                goesWithUndo(*m_banner, m_session->undoStack());
            });
    connect(m_choices.get(), &ChoicesController::refused, this,
            [this](const QString& sentence) { m_banner->showMessage(Sign::Triangle, sentence); });
    connect(m_choices.get(), &ChoicesController::stateChanged, this, &MainWindow::refreshActions);
    connect(m_session.get(), &DocumentSession::selectionChanged, this, &MainWindow::refreshActions);
    connect(&m_layout->rack(), &RackView::faceChanged, this, &MainWindow::refreshActions);
}

// ---- files -------------------------------------------------------------------------------------

bool MainWindow::openFile(const QString& path) {
    Result<Document> read = readJob(path.toStdString());
    if (!read) {
        complain(words(describe(read.error())));
        return false;
    }
    m_opened = true;
    m_banner->dismiss();
    m_session->adopt(std::move(read).value(), path);
    rememberFile(path);
    refreshRecent();
    return true;
}

bool MainWindow::openSample(const QString& path) {
    Result<Document> read = readJob(path.toStdString());
    if (!read) {
        complain(words(describe(read.error())));
        return false;
    }
    m_opened = true;
    m_banner->dismiss();
    m_session->adopt(std::move(read).value(), {});
    return true;
}

void MainWindow::newJob() {
    if (!mayLeaveJob()) {
        return;
    }
    Document document;
    if (m_opened) { // a maker goes on in the unit and the money of the job before
        document.info = m_session->document().info;
        document.info.client.clear();
        document.info.notes.clear();
    } else {
        document.info.units = QLocale().measurementSystem() == QLocale::MetricSystem
                                  ? UnitSystem::Millimetres
                                  : UnitSystem::Inches;
    }
    const bool metric = document.info.units == UnitSystem::Millimetres;
    document.info.title = tr("Untitled job").toStdString();
    document.shop = metric ? metricShop() : inchShop();
    document.glueUp.settings = glueSettingsFor(document.info.units);
    document.nextId = presetRules::last + 1;
    m_opened = true;
    m_banner->dismiss();
    m_session->adopt(std::move(document), {});
}

void MainWindow::startSaving(const QString& path) {
    if (!path.isEmpty()) {
        m_saving->start(path);
    }
}

bool MainWindow::isSaving() const { return m_saving->isRunning(); }

bool MainWindow::saveTo(const QString& path) {
    m_saving->wait();
    if (const Status saved = m_session->save(path); !saved) {
        complain(words(describe(saved.error())));
        return false;
    }
    rememberFile(path);
    refreshRecent();
    return true;
}

bool MainWindow::save() {
    const QString path = m_session->path().isEmpty() ? askForTarget() : m_session->path();
    return !path.isEmpty() && saveTo(path);
}

void MainWindow::offerLostWork() {
    const std::vector<LostWork> lost = m_recovery->lostWork();
    if (lost.empty()) {
        return;
    }
    const LostWork work = lost.front();
    m_banner->showMessage(
        Sign::Triangle,
        tr("Unsaved work on \"%1\" of %2 was left when the program last ended.")
            .arg(work.title, QLocale().toString(work.when, QLocale::ShortFormat)),
        {{tr("Open it"),
          [this, work] {
              Result<Document> read = Recovery::read(work);
              if (!read) {
                  complain(words(describe(read.error())));
                  return;
              }
              if (!mayLeaveJob()) {
                  return;
              }
              m_opened = true;
              m_session->adopt(std::move(read).value(), work.originalPath, Saved::No);
              if (auto* lumber = findChild<LumberView*>();
                  lumber != nullptr && !work.tally.isEmpty()) {
                  lumber->quickEntry().takeRows(work.tally);
                  lumber->typeTally();
              }
              m_recovery->writeNow(); // safe under its new owner before the old copy goes
              Recovery::forget(work);
          }},
         {tr("Throw it away"), [work] { Recovery::forget(work); }}});
}

// ---- events ------------------------------------------------------------------------------------

void MainWindow::showEvent(QShowEvent* event) {
    QMainWindow::showEvent(event);
    if (!m_firstShow) {
        return;
    }
    m_firstShow = false;
    if (!m_opened) {
        const QString refused = m_banner->sentence(); // of a file that was asked for
        const QString sample = firstSample();
        if (sample.isEmpty() || !openSample(sample)) {
            newJob();
        }
        if (!refused.isEmpty()) {
            complain(refused);
        }
    }
    offerLostWork();
    m_layout->rack().setFocus();
}

void MainWindow::closeEvent(QCloseEvent* event) {
    m_controller->keepWhatThereIs();
    if (!mayLeaveTally() || !mayLeaveJob()) {
        event->ignore();
        return;
    }
    m_rackDesk->settle();
    QSettings settings;
    settings.setValue("window/geometry", saveGeometry());
    settings.setValue("window/layoutSplit", m_layout->saveState());
    m_recovery->clear();
    event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls() && event->mimeData()->urls().front().isLocalFile()) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    if (!urls.isEmpty() && mayLeaveJob()) {
        openFile(urls.front().toLocalFile());
    }
}

void MainWindow::changeEvent(QEvent* event) {
    QMainWindow::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && !m_actions.empty()) {
        refreshIcons();
    }
}

// ---- what is shown of the state
// ------------------------------------------------------------------

void MainWindow::complain(const QString& sentence) { m_banner->showMessage(Sign::Cross, sentence); }

void MainWindow::refreshTitle() {
    const QString path = m_session->path();
    const QString title = words(m_session->document().info.title);
    const QString file = path.isEmpty() ? tr("not saved yet") : QFileInfo(path).fileName();
    setWindowTitle(
        (isSaving() ? tr("%1 (%2, saving...)[*] - Stavewright") : tr("%1 (%2)[*] - Stavewright"))
            .arg(title, file));
    setWindowModified(m_session->isModified());
    m_jobTitle->setText(title);
    m_jobTitle->setToolTip(tr("%1. The name of the job is typed in the place Shop (Ctrl+6).")
                               .arg(path.isEmpty() ? tr("Not saved yet") : path));
}

void MainWindow::refreshActions() {
    const Document& document = m_session->document();
    const bool running = m_controller->isRunning();
    QUndoStack& stack = m_session->undoStack();
    const auto named = [](const QString& verb, const QString& step) {
        return step.isEmpty() ? verb : verb + " " + step;
    };
    action(CommandId::Undo)->setEnabled(stack.canUndo());
    action(CommandId::Undo)->setText(named(tr("&Undo"), stack.undoText()));
    action(CommandId::Redo)->setEnabled(stack.canRedo());
    action(CommandId::Redo)->setText(named(tr("&Redo"), stack.redoText()));
    const bool canPlan = !running && !document.boards.empty() && !document.parts.empty();
    action(CommandId::Plan)->setEnabled(canPlan);
    action(CommandId::Plan)->setText(document.plan ? tr("&Plan Again") : tr("&Plan"));
    action(CommandId::ComparePlans)->setEnabled(canPlan);
    action(CommandId::DemandCosts)->setEnabled(canPlan);
    action(CommandId::WhyHere)
        ->setEnabled(canPlan && document.plan && m_session->selection().blank);
    action(CommandId::PlanRestKeeping)->setEnabled(canPlan && document.plan);
    action(CommandId::PlanRestAgain)->setEnabled(canPlan && document.plan);
    for (const CommandId id : {CommandId::CutMade, CommandId::AllCutsMade, CommandId::FreshEnd,
                               CommandId::NextState, CommandId::KnotFound, CommandId::BlankSpoiled,
                               CommandId::BoardRejected, CommandId::WarpAgain}) {
        action(id)->setEnabled(document.plan.has_value());
    }
    action(CommandId::StopAndKeep)->setEnabled(running && !m_controller->isStopping());
    action(CommandId::DiscardPlanning)->setEnabled(running);
    action(CommandId::ClearPlan)->setEnabled(!running && document.plan.has_value());
    action(CommandId::ExportPdf)->setEnabled(document.plan.has_value());
    action(CommandId::Print)->setEnabled(document.plan.has_value());
    const bool inches = document.info.units == UnitSystem::Inches;
    action(CommandId::UnitsInches)->setChecked(inches);
    action(CommandId::UnitsMillimetres)->setChecked(!inches);
    action(CommandId::TurnFace)->setChecked(m_layout->rack().face() == BoardFace::B);
    const bool onRack = m_stack->currentWidget() == m_layout;
    for (const CommandId id : {CommandId::ZoomIn, CommandId::ZoomOut, CommandId::FitLength,
                               CommandId::FitAll, CommandId::TurnFace}) {
        action(id)->setEnabled(onRack);
    }
}

} // namespace stavewright::ui
