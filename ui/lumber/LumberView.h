#pragma once
// The place "Lumber": the tally at the left, the selected board with both its faces in the middle,
// everything known of it at the right. All of it is typed by keyboard alone: Insert or Ctrl+Return
// adds a row to the table in use, Ctrl+D doubles one, Del takes one away.

#include <functional>
#include <optional>
#include <vector>

#include "core/lumber/WarpReach.h"
#include "ui/entry/PlaceView.h"

class QLabel;
class QLineEdit;
class QStackedWidget;

namespace stavewright::ui {

class BoardSheet;
class EntryModel;
class EntryView;
class FactModel;
class FractionLabel;
class QuickEntry;
class PhotoDesk;
class SideColumn;
class SuggestionBar;

class LumberView : public PlaceView {
    Q_OBJECT
  public:
    explicit LumberView(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] EntryView& tally() { return *m_tally; }
    [[nodiscard]] EntryView& defects() { return *m_defects; }
    [[nodiscard]] EntryView& facts() { return *m_facts; }
    [[nodiscard]] BoardSheet& sheet() { return *m_sheet; }
    [[nodiscard]] QuickEntry& quickEntry() { return *m_quick; }
    [[nodiscard]] PhotoDesk& photos() { return *m_photos; }
    [[nodiscard]] SuggestionBar& suggestions() { return *m_suggestions; }
    [[nodiscard]] bool showsPhotos() const;

  public slots:
    void typeTally();
    void writeTable(); ///< the rack as a table for spreadsheets
    void addBoard();
    void addDefect();
    void addPhotos();            ///< of the face in view
    void showPhotos(bool shown); ///< in place of the board's drawing
    /// Typed in figures, on the face in view or through; Enter leads back to the drawing.
    void addDefectOfKind(stavewright::DefectKind kind, bool through);
    void pairDefect(); ///< the picked one with the other end of its knot, or apart again
    void sayNote();    ///< what stands in the line below the board, "bad from 31 to 36"

  protected:
    void addRow() override;
    void duplicateRow() override;
    void removeRow() override;
    void fitColumns() override;
    [[nodiscard]] std::vector<QWidget*> panes() const override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    QWidget* makeTallySide();
    QWidget* makeMiddle();
    QWidget* makeFactSide();
    void addReach(SideColumn* side);
    void addLookedAt(SideColumn* side);
    void addSawn(SideColumn* side);
    void addOutline(SideColumn* side);
    void duplicateBoard();
    void removeBoard();
    void copyDefectToOtherFace();
    void changeKind(DefectId defect, DefectKind kind);
    void takeDrawn(const QString& step, const Board& board, std::optional<DefectId> select);
    void connectSheet();
    void connectPhotos();
    void refreshPhotos();
    void prepareNeighbours();
    bool pastePhotos(); ///< false when there are none on the clipboard
    void pickNothing();
    void changeBoard(const QString& step,
                     const std::function<stavewright::Board(const stavewright::Board&)>& change);

    [[nodiscard]] const Board* board() const;
    [[nodiscard]] int boardRow() const;
    void selectBoard(int row);
    void selectDefect(int row);
    void refresh();
    void refreshSelection();
    void refreshReach();
    EntryModel* m_tallyModel = nullptr;
    EntryModel* m_defectModel = nullptr;
    FactModel* m_factModel = nullptr;
    EntryModel* m_stationModel = nullptr;
    EntryModel* m_lookedModel = nullptr;
    std::vector<ReachRow> m_reachRows; ///< of the board that is shown
    EntryModel* m_reachModel = nullptr;
    EntryModel* m_sawnModel = nullptr;
    EntryView* m_tally = nullptr;
    EntryView* m_defects = nullptr;
    EntryView* m_facts = nullptr;
    EntryView* m_stations = nullptr;
    EntryView* m_looked = nullptr;
    EntryView* m_reach = nullptr;
    EntryView* m_sawn = nullptr;
    BoardSheet* m_sheet = nullptr;
    QStackedWidget* m_drawingOrPhotos = nullptr;
    PhotoDesk* m_photos = nullptr;
    SuggestionBar* m_suggestions = nullptr;
    QLineEdit* m_note = nullptr;
    bool m_backToSheet = false; ///< when the row being typed is done
    QuickEntry* m_quick = nullptr;
    QLabel* m_rackLine = nullptr;
    QLabel* m_boardTitle = nullptr;
    QLabel* m_noDefects = nullptr;
    FractionLabel* m_reachWords = nullptr;
};

} // namespace stavewright::ui
