#pragma once
// The place "Lumber": the tally at the left, the selected board with both its faces in the middle,
// everything known of it at the right. All of it is typed by keyboard alone: Insert or Ctrl+Return
// adds a row to the table in use, Ctrl+D doubles one, Del takes one away.

#include <QWidget>

#include <functional>
#include <optional>

#include "core/document/Edit.h"

class QLabel;
class QSplitter;
class QStackedWidget;

namespace stavewright::ui {

class Banner;
class BoardSheet;
class DocumentSession;
class EntryModel;
class EntryView;
class FactModel;
class FractionLabel;

class LumberView : public QWidget {
    Q_OBJECT
  public:
    explicit LumberView(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] EntryView& tally() { return *m_tally; }
    [[nodiscard]] EntryView& defects() { return *m_defects; }
    [[nodiscard]] EntryView& facts() { return *m_facts; }
    [[nodiscard]] BoardSheet& sheet() { return *m_sheet; }

  public slots:
    void addBoard();
    void addDefect();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    QWidget* makeTallySide();
    QWidget* makeMiddle();
    QWidget* makeFactSide();
    void makeKeys();
    void addRow();
    void duplicateRow();
    void removeRow();
    void duplicateBoard();
    void removeBoard();
    void copyDefectToOtherFace();
    void changeBoard(const QString& step,
                     const std::function<stavewright::Board(const stavewright::Board&)>& change);

    [[nodiscard]] const Board* board() const;
    [[nodiscard]] int boardRow() const;
    void selectBoard(int row);
    void selectDefect(int row);
    void refresh();
    void refreshSelection();
    void refreshReach();
    void fitColumns();
    /// The keys of the place work as soon as it is shown.
    void focusFirst();

    DocumentSession& m_session;
    QSplitter* m_split = nullptr;
    QStackedWidget* m_stack = nullptr; ///< the place, or the words of an empty rack
    Banner* m_banner = nullptr;
    EntryModel* m_tallyModel = nullptr;
    EntryModel* m_defectModel = nullptr;
    FactModel* m_factModel = nullptr;
    EntryModel* m_stationModel = nullptr;
    EntryModel* m_lookedModel = nullptr;
    EntryModel* m_reachModel = nullptr;
    EntryView* m_tally = nullptr;
    EntryView* m_defects = nullptr;
    EntryView* m_facts = nullptr;
    EntryView* m_stations = nullptr;
    EntryView* m_looked = nullptr;
    EntryView* m_reach = nullptr;
    BoardSheet* m_sheet = nullptr;
    QLabel* m_rackLine = nullptr;
    QLabel* m_boardTitle = nullptr;
    QLabel* m_noDefects = nullptr;
    FractionLabel* m_reachWords = nullptr;
    bool m_columnsFitted = false;
};

} // namespace stavewright::ui
