// The window's menus, tool bar and what each command does.

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <QPushButton>
#include <QSettings>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QToolBar>
#include <QToolButton>

#include "ui/layout/LayoutView.h"
#include "ui/layout/RackView.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/papers/PapersView.h"
#include "ui/session/ChoicesController.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/session/SaveRun.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Icons.h"
#include "ui/widgets/Words.h"
#include "ui/window/KeyboardPage.h"
#include "ui/window/MainWindow.h"
#include "ui/window/RecentFiles.h"
#include "ui/window/Samples.h"

namespace stavewright::ui {

namespace {

const std::initializer_list<CommandId> placeCommands = {
    CommandId::PlaceLumber, CommandId::PlacePiece, CommandId::PlaceLayout,  CommandId::PlaceGlueUp,
    CommandId::PlacePapers, CommandId::PlaceShop,  CommandId::PlaceShopRack};

QString jobFilter() { return MainWindow::tr("Jobs (*.stavejob *.json)"); }

/// Where a job that has no file yet is looked for and goes: beside the last one.
QString jobFolder() {
    const QStringList recent = recentFiles();
    return recent.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)
                            : QFileInfo(recent.front()).path();
}

} // namespace

void MainWindow::makeActions() {
    for (const Command& command : allCommands()) {
        auto* action = new QAction(command.text, this);
        action->setObjectName(command.name);
        action->setStatusTip(command.tip);
        QList<QKeySequence> keys;
        for (const char* key : command.keys) {
            keys << QKeySequence(key);
        }
        action->setShortcuts(keys);
        action->setToolTip(
            keys.isEmpty()
                ? command.tip
                : tr("%1 (%2)").arg(command.tip, keys.front().toString(QKeySequence::NativeText)));
        connect(action, &QAction::triggered, this, [this, id = command.id] { run(id); });
        addAction(action);
        m_actions[command.id] = action;
    }
    const auto exclusive = [this](std::initializer_list<CommandId> ids) {
        auto* group = new QActionGroup(this);
        for (const CommandId id : ids) {
            action(id)->setCheckable(true);
            group->addAction(action(id));
        }
        return group;
    };
    exclusive({CommandId::AppearanceSystem, CommandId::AppearanceLight, CommandId::AppearanceDark});
    exclusive({CommandId::UnitsInches, CommandId::UnitsMillimetres});
    m_placeGroup = exclusive(placeCommands);
    action(CommandId::TurnFace)->setCheckable(true);
    action(CommandId::FullScreen)->setCheckable(true);
    const int appearance = QSettings().value("view/appearance", 0).toInt();
    action(appearance == 1   ? CommandId::AppearanceLight
           : appearance == 2 ? CommandId::AppearanceDark
                             : CommandId::AppearanceSystem)
        ->setChecked(true);
}

void MainWindow::makeMenus() {
    const auto fill = [this](QMenu* menu, std::initializer_list<CommandId> ids) {
        for (const CommandId id : ids) {
            menu->addAction(action(id));
        }
    };
    QMenu* file = menuBar()->addMenu(tr("&File"));
    fill(file, {CommandId::NewJob, CommandId::OpenJob});
    m_recentMenu = file->addMenu(tr("Open &Recent"));
    QMenu* samples = file->addMenu(tr("Sa&mples"));
    for (const Sample& sample : allSamples()) {
        samples->addAction(sample.title, this, [this, path = sample.path] {
            if (mayLeaveJob()) {
                openSample(path);
            }
        });
    }
    samples->setEnabled(!samples->isEmpty());
    file->addSeparator();
    fill(file, {CommandId::SaveJob, CommandId::SaveJobAs});
    file->addSeparator();
    fill(file, {CommandId::ExportPdf, CommandId::Print});
    file->addSeparator();
    fill(file, {CommandId::CloseWindow});

    fill(menuBar()->addMenu(tr("&Edit")), {CommandId::Undo, CommandId::Redo});

    QMenu* view = menuBar()->addMenu(tr("&View"));
    fill(view, placeCommands);
    view->addSeparator();
    fill(view, {CommandId::ZoomIn, CommandId::ZoomOut, CommandId::FitLength, CommandId::FitAll,
                CommandId::TurnFace});
    view->addSeparator();
    fill(view->addMenu(tr("&Units")), {CommandId::UnitsInches, CommandId::UnitsMillimetres});
    fill(view->addMenu(tr("App&earance")),
         {CommandId::AppearanceSystem, CommandId::AppearanceLight, CommandId::AppearanceDark});
    fill(view, {CommandId::FullScreen});

    QMenu* plan = menuBar()->addMenu(tr("&Plan"));
    fill(plan, {CommandId::Plan, CommandId::StopAndKeep, CommandId::DiscardPlanning});
    plan->addSeparator();
    fill(plan, {CommandId::ComparePlans, CommandId::DemandCosts, CommandId::WhyHere});
    plan->addSeparator();
    fill(plan, {CommandId::PlanRestKeeping, CommandId::PlanRestAgain});
    plan->addSeparator();
    fill(plan, {CommandId::ClearPlan});

    QMenu* bench = menuBar()->addMenu(tr("&Bench"));
    fill(bench,
         {CommandId::CutMade, CommandId::AllCutsMade, CommandId::FreshEnd, CommandId::NextState});
    bench->addSeparator();
    fill(bench, {CommandId::KnotFound, CommandId::BlankSpoiled, CommandId::BoardRejected,
                 CommandId::WarpAgain});
    bench->addSeparator();
    fill(bench, {CommandId::JobLog});

    fill(menuBar()->addMenu(tr("&Help")), {CommandId::Keyboard, CommandId::About});

    auto* bar = new QToolBar(tr("Places"), this);
    bar->setObjectName("placesBar");
    bar->setMovable(false);
    bar->setFloatable(false);
    bar->setContextMenuPolicy(Qt::PreventContextMenu);
    bar->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    bar->setIconSize(QSize(20, 20));
    for (const CommandId id : placeCommands) {
        bar->addAction(action(id));
    }
    auto* left = new QWidget(bar);
    left->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    bar->addWidget(left);
    m_jobTitle = new QLabel(bar);
    m_jobTitle->setFont(sized(font(), TextSize::Lead, QFont::DemiBold));
    bar->addWidget(m_jobTitle);
    auto* right = new QWidget(bar);
    right->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    bar->addWidget(right);
    for (const CommandId id :
         {CommandId::Undo, CommandId::Redo, CommandId::TurnFace, CommandId::FitAll}) {
        bar->addAction(action(id));
        if (auto* button = qobject_cast<QToolButton*>(bar->widgetForAction(action(id)))) {
            const bool named = id == CommandId::TurnFace || id == CommandId::FitAll;
            button->setToolButtonStyle(named ? Qt::ToolButtonTextBesideIcon
                                             : Qt::ToolButtonIconOnly);
        }
    }
    addToolBar(bar);
    refreshRecent();
}

void MainWindow::refreshIcons() {
    for (const Command& command : allCommands()) {
        if (command.icon != nullptr) {
            action(command.id)->setIcon(iconOf(command.icon, palette()));
        }
    }
    setWindowIcon(iconOf("stavewright", palette()));
}

void MainWindow::refreshRecent() {
    m_recentMenu->clear();
    for (const QString& path : recentFiles()) {
        const QFileInfo info(path);
        QAction* entry = m_recentMenu->addAction(tr("%1    %2").arg(info.fileName(), info.path()),
                                                 this, [this, path] {
                                                     if (mayLeaveJob()) {
                                                         openFile(path);
                                                     }
                                                 });
        entry->setEnabled(info.exists()); // missing ones stay to be seen, but cannot be opened
    }
    m_recentMenu->setEnabled(!m_recentMenu->isEmpty());
}

void MainWindow::run(CommandId id) {
    RackView& rack = m_layout->rack();
    switch (id) {
    case CommandId::NewJob:
        return newJob();
    case CommandId::OpenJob:
        return askForFile();
    case CommandId::SaveJob:
        return startSaving(m_session->path().isEmpty() ? askForTarget() : m_session->path());
    case CommandId::SaveJobAs:
        return startSaving(askForTarget());
    case CommandId::ExportPdf:
        action(CommandId::PlacePapers)->trigger(); // what is written or printed is seen
        return m_papers->choosePdf();
    case CommandId::Print:
        action(CommandId::PlacePapers)->trigger();
        return m_papers->print();
    case CommandId::CloseWindow:
        close();
        return;
    case CommandId::Undo:
        // Who has something in the hand means that, not what was done before it.
        if (!rack.putBack()) {
            m_session->undoStack().undo();
        }
        return;
    case CommandId::Redo:
        return m_session->undoStack().redo();
    case CommandId::ZoomIn:
        return rack.zoomBy(1.25);
    case CommandId::ZoomOut:
        return rack.zoomBy(0.8);
    case CommandId::FitLength:
        return rack.fitLength();
    case CommandId::FitAll:
        return rack.fitAll();
    case CommandId::TurnFace:
        return m_layout->turnFace();
    case CommandId::AppearanceSystem:
        return chooseAppearance(Appearance::System);
    case CommandId::AppearanceLight:
        return chooseAppearance(Appearance::Light);
    case CommandId::AppearanceDark:
        return chooseAppearance(Appearance::Dark);
    case CommandId::UnitsInches:
        return setUnits(UnitSystem::Inches);
    case CommandId::UnitsMillimetres:
        return setUnits(UnitSystem::Millimetres);
    case CommandId::FullScreen:
        setWindowState(windowState() ^ Qt::WindowFullScreen);
        return;
    case CommandId::PlaceLumber:
    case CommandId::PlacePiece:
    case CommandId::PlaceLayout:
    case CommandId::PlaceGlueUp:
    case CommandId::PlacePapers:
    case CommandId::PlaceShop:
    case CommandId::PlaceShopRack:
        if (const auto place = m_places.find(id); place != m_places.end()) {
            m_stack->setCurrentWidget(place->second);
            place->second->setFocus();
        }
        return;
    case CommandId::Plan:
        action(CommandId::PlaceLayout)->trigger(); // where the plan is seen to grow
        return m_controller->plan();
    case CommandId::StopAndKeep:
        return m_controller->stopAndKeep();
    case CommandId::DiscardPlanning:
        return m_controller->discard();
    case CommandId::ComparePlans:
        action(CommandId::PlaceLayout)->trigger();
        return m_choices->comparePlans();
    case CommandId::DemandCosts:
        action(CommandId::PlaceLayout)->trigger();
        return m_choices->askDemands();
    case CommandId::WhyHere:
        action(CommandId::PlaceLayout)->trigger();
        if (const std::optional<BlankId> blank = m_session->selection().blank) {
            return m_choices->askWhy(*blank);
        }
        return complain(tr("Select a placed blank first, on its board or in the list of parts."));
    case CommandId::PlanRestKeeping:
        action(CommandId::PlaceLayout)->trigger();
        return m_controller->planRest(midjob::RestMode::KeepPlaces);
    case CommandId::PlanRestAgain:
        action(CommandId::PlaceLayout)->trigger();
        return m_controller->planRest(midjob::RestMode::FromScratch);
    case CommandId::CutMade:
        return m_layout->shop().nextCutMade();
    case CommandId::AllCutsMade:
        return m_layout->shop().allCutsMade();
    case CommandId::FreshEnd:
        return m_layout->shop().freshEnd();
    case CommandId::NextState:
        return m_layout->shop().nextState();
    case CommandId::KnotFound:
        return m_layout->shop().knotFound();
    case CommandId::BlankSpoiled:
        return m_layout->shop().spoiled();
    case CommandId::BoardRejected:
        return m_layout->shop().boardRejected();
    case CommandId::WarpAgain:
        return m_layout->shop().warpMeasured();
    case CommandId::JobLog:
        return m_layout->shop().showLog();
    case CommandId::ClearPlan:
        return clearPlan();
    case CommandId::Keyboard: {
        KeyboardPage page(this);
        page.exec();
        return;
    }
    case CommandId::About:
        return showAbout();
    }
}

void MainWindow::askForFile() {
    if (!mayLeaveJob()) {
        return;
    }
    const QString& present = m_session->path();
    const QString folder = present.isEmpty() ? jobFolder() : QFileInfo(present).path();
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a job"), folder, jobFilter());
    if (!path.isEmpty()) {
        openFile(path);
    }
}

QString MainWindow::askForTarget() {
    QString suggested = m_session->path();
    if (suggested.isEmpty()) {
        suggested = jobFolder() + "/" + m_session->nameForFiles() + ".stavejob";
    }
    QString path = QFileDialog::getSaveFileName(this, tr("Save the job"), suggested, jobFilter());
    if (!path.isEmpty() && QFileInfo(path).suffix().isEmpty()) {
        path += ".stavejob";
    }
    return path;
}

/// Rows of a tally that are not in the job stand in no file.
bool MainWindow::mayLeaveTally() {
    auto* lumber = findChild<LumberView*>();
    if (lumber == nullptr || !lumber->quickEntry().holdsRows()) {
        return true;
    }
    QMessageBox question(QMessageBox::NoIcon, tr("Tally not in the job"),
                         tr("The tally holds rows that are not in the job. Closing loses them."),
                         QMessageBox::NoButton, this);
    question.setObjectName("tallyQuestion");
    QPushButton* back = question.addButton(tr("Back to the tally"), QMessageBox::RejectRole);
    QPushButton* leave = question.addButton(tr("Throw them away"), QMessageBox::DestructiveRole);
    question.setDefaultButton(back);
    question.exec();
    if (question.clickedButton() == leave) {
        return true;
    }
    run(CommandId::PlaceLumber);
    lumber->typeTally();
    return false;
}

bool MainWindow::mayLeaveJob() {
    m_saving->wait(); // what is being written may be all there is to save
    if (!m_session->isModified()) {
        return true;
    }
    QMessageBox question(
        QMessageBox::NoIcon, tr("Unsaved changes"),
        tr("\"%1\" has unsaved changes.").arg(words(m_session->document().info.title)),
        QMessageBox::NoButton, this);
    question.setObjectName("unsavedQuestion");
    QPushButton* saveButton = question.addButton(tr("Save"), QMessageBox::AcceptRole);
    QPushButton* discardButton = question.addButton(tr("Discard"), QMessageBox::DestructiveRole);
    question.addButton(tr("Cancel"), QMessageBox::RejectRole);
    question.setDefaultButton(saveButton);
    question.exec();
    if (question.clickedButton() == saveButton) {
        return save();
    }
    return question.clickedButton() == discardButton;
}

void MainWindow::setUnits(UnitSystem units) {
    JobInfo info = m_session->document().info;
    info.units = units;
    m_session->edit(units == UnitSystem::Inches ? tr("Show inches") : tr("Show millimetres"),
                    Edit{ReplaceInfo{info}});
}

void MainWindow::chooseAppearance(Appearance appearance) {
    QSettings().setValue("view/appearance", static_cast<int>(appearance));
    applyAppearance(appearance);
    refreshIcons();
}

void MainWindow::clearPlan() {
    m_session->edit(tr("Clear the plan"), Edit{ReplacePlan{std::nullopt}});
}

void MainWindow::showAbout() {
    m_banner->showMessage(
        Sign::None,
        tr("Stavewright %1 plans solid-wood pieces from rough, knotty boards. Free software under "
           "the "
           "MIT licence; the bundled typeface Inter is under the SIL Open Font Licence.")
            .arg(QApplication::applicationVersion()));
}

} // namespace stavewright::ui
