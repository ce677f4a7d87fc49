#pragma once
// The window: the places of the job, menus and keys, files, and the verdict along the foot. It
// holds the session and hands it to the places; each place shows the document and changes it
// through the session.

#include <QMainWindow>

#include <map>
#include <memory>

#include "core/units/LengthText.h"
#include "ui/widgets/Theme.h"
#include "ui/window/Commands.h"

class QAction;
class QActionGroup;
class QLabel;
class QMenu;
class QStackedWidget;

namespace stavewright::ui {

class Banner;
class ChoicesController;
class DocumentSession;
class LayoutView;
class PapersView;
class PlanController;
class RackDesk;
class Recovery;
class SaveRun;
class VerdictBar;

class MainWindow : public QMainWindow {
    Q_OBJECT
  public:
    explicit MainWindow(QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens a job file; shows a sentence and keeps the present job when it cannot be read.
    bool openFile(const QString& path);
    /// Opens a sample as a new job: saving asks for a file, so the sample itself stays as it is.
    bool openSample(const QString& path);
    /// Writes the file before it returns.
    bool saveTo(const QString& path);
    /// While a job is being written in the background.
    [[nodiscard]] bool isSaving() const;

    [[nodiscard]] DocumentSession& session() { return *m_session; }
    [[nodiscard]] PlanController& controller() { return *m_controller; }
    [[nodiscard]] ChoicesController& choices() { return *m_choices; }
    [[nodiscard]] RackDesk& rackDesk() { return *m_rackDesk; }
    [[nodiscard]] LayoutView& layoutPlace() { return *m_layout; }
    [[nodiscard]] VerdictBar& verdict() { return *m_verdict; }
    [[nodiscard]] Banner& banner() { return *m_banner; }
    [[nodiscard]] QAction* action(CommandId id) const { return m_actions.at(id); }

  protected:
    void showEvent(QShowEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void makeActions();
    void makeMenus();
    void makePlaces();
    void addPlace(CommandId id, QWidget* place);
    void connectSession();
    void run(CommandId id);

    void newJob();
    void askForFile();
    void startSaving(const QString& path); ///< in the background
    bool save();                           ///< before it returns
    /// Asks for a name; empty when none was given.
    [[nodiscard]] QString askForTarget();
    /// True when the present job may go: saved, given up, or unchanged.
    bool mayLeaveJob();
    bool mayLeaveTally();
    void offerLostWork();
    void setUnits(UnitSystem units);
    void chooseAppearance(Appearance appearance);
    void clearPlan();
    void showAbout();
    void refreshTitle();
    void refreshActions();
    void refreshRecent();
    void refreshIcons();
    void complain(const QString& sentence);

    std::unique_ptr<DocumentSession> m_session;
    std::unique_ptr<PlanController> m_controller;
    std::unique_ptr<ChoicesController> m_choices;
    std::unique_ptr<RackDesk> m_rackDesk;
    std::unique_ptr<Recovery> m_recovery;
    std::unique_ptr<SaveRun> m_saving;
    std::map<CommandId, QAction*> m_actions;
    QActionGroup* m_placeGroup = nullptr;
    std::map<CommandId, QWidget*> m_places;
    QMenu* m_recentMenu = nullptr;
    Banner* m_banner = nullptr;
    QStackedWidget* m_stack = nullptr;
    LayoutView* m_layout = nullptr;
    PapersView* m_papers = nullptr;
    VerdictBar* m_verdict = nullptr;
    QLabel* m_jobTitle = nullptr;
    bool m_opened =
        false; ///< something has been opened or begun; the first show opens nothing over it
    bool m_firstShow = true;
};

} // namespace stavewright::ui
