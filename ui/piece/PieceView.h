#pragma once
// The place "Piece": the parts at the left, the selected part with its zones in the middle, and at
// the right how it is made up, its zones, joints and groups, and the way from its finished size
// back to the rough blanks. Insert or Ctrl+Return adds a row to the table in use, Ctrl+D doubles a
// part, Del takes a row away.

#include "ui/entry/PlaceView.h"

namespace stavewright::ui {

class EntryModel;
class EntryView;
class FactModel;
class FractionLabel;
class PartSheet;
class SideColumn;
struct ChainRow;

class PieceView : public PlaceView {
    Q_OBJECT
  public:
    explicit PieceView(DocumentSession& session, QWidget* parent = nullptr);
    ~PieceView() override;

    [[nodiscard]] EntryView& parts() { return *m_parts; }
    [[nodiscard]] EntryView& zones() { return *m_zones; }
    [[nodiscard]] EntryView& makeUp() { return *m_makeUp; }
    [[nodiscard]] EntryView& chain() { return *m_chain; }
    [[nodiscard]] PartSheet& sheet() { return *m_sheet; }

  public slots:
    void addPart();

  protected:
    void addRow() override;
    void duplicateRow() override { duplicatePart(); }
    void removeRow() override;
    void fitColumns() override;
    [[nodiscard]] std::vector<QWidget*> panes() const override;

  private:
    QWidget* makePartsSide();
    QWidget* makeMiddle();
    QWidget* makeFactSide();
    EntryView* addTable(SideColumn* side, const QString& title, const char* name, EntryModel* model,
                        const QString& button, const char* buttonName);
    void addRowTo(EntryView* table);
    void duplicatePart();
    void removePart();
    void addZone(const ZoneArea& area);

    [[nodiscard]] const Part* part() const;
    void selectPart(int row);
    void refresh();
    void refreshSelection();
    void refreshChain();
    EntryModel* m_partModel = nullptr;
    EntryModel* m_zoneModel = nullptr;
    EntryModel* m_jointModel = nullptr;
    EntryModel* m_groupModel = nullptr;
    EntryModel* m_chainModel = nullptr;
    FactModel* m_makeUpModel = nullptr;
    EntryView* m_parts = nullptr;
    EntryView* m_zones = nullptr;
    EntryView* m_joints = nullptr;
    EntryView* m_groups = nullptr;
    EntryView* m_chain = nullptr;
    EntryView* m_makeUp = nullptr;
    PartSheet* m_sheet = nullptr;
    FractionLabel* m_chainWords = nullptr;
    FractionLabel* m_zoneWords = nullptr;
    std::vector<ChainRow> m_chainRows;
};

} // namespace stavewright::ui
