#pragma once
// A window with a planned sample open in Layout, and what the tests of work by hand do in it.

#include <QObject>
#include <QPointer>
#include <QTemporaryDir>

#include <memory>

#include "core/planning/Planner.h"
#include "ui/layout/LayoutView.h"
#include "ui/layout/RackView.h"
#include "ui/midjob/ShopDialog.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"
#include "ui/window/MainWindow.h"

namespace stavewright::testing_ui {

class PlannedWindow : public QObject {
  protected:
    /// Milliseconds; far more than the counted work takes.
    static constexpr int planTimeout = 60'000;

    struct Sample {
        Document (*make)();
        std::uint64_t seed;
        std::int64_t work;
    };
    /// Opens the sample with a plan; each is planned once in a run.
    void open(const Sample& sample);
    void close();
    /// The job as it was opened.
    [[nodiscard]] const Document& opened() const { return m_opened; }

    [[nodiscard]] ui::MainWindow& window() const { return *m_window; }
    [[nodiscard]] ui::DocumentSession& session() const { return m_window->session(); }
    [[nodiscard]] ui::PlanController& controller() const { return m_window->controller(); }
    [[nodiscard]] const Document& document() const { return session().document(); }
    [[nodiscard]] ui::RackView& rack() const { return m_window->layoutPlace().rack(); }
    [[nodiscard]] ui::ShopEvents& shop() const { return m_window->layoutPlace().shop(); }

    [[nodiscard]] std::vector<BlankId> blanks() const;
    [[nodiscard]] std::vector<BlankId> blanksOn(BoardId board) const;
    [[nodiscard]] BoardId boardAt(std::size_t place) const;
    [[nodiscard]] const Blank& blankOf(BlankId id) const;

    void selectBoard(BoardId id);
    void selectBlank(BlankId id);
    void key(int key, Qt::KeyboardModifiers with = Qt::NoModifier);
    void command(ui::CommandId id);
    /// Clicks what the side panel offers in these words.
    void clickLink(const QString& text);

    /// The dialog about the shop that was opened last; nothing when there is none.
    [[nodiscard]] ui::ShopDialog* dialog() const;
    static void type(ui::ShopDialog* dialog, const QString& field, const QString& text);
    static void type(ui::ShopDialog* dialog, const QString& field, Length length);
    static void take(ui::ShopDialog* dialog, const QString& why = {});

    /// The plan passes the audit; else the test fails with its first finding.
    void expectAudited();
    /// One step more than `stepsBefore`, which undo takes back to the identical document and redo
    /// brings again; the plan passes the audit.
    void expectOneStep(const Document& before, int stepsBefore);

  private:
    Document m_opened;
    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<ui::MainWindow> m_window;
};

} // namespace stavewright::testing_ui
