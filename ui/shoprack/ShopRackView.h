#pragma once
// The place "Shop rack": the boards and offcuts of the shop with a search, the chosen one as a
// picture, and beside them the boards of this job with what of them can go to the rack.

#include <QWidget>

#include <vector>

#include "core/rack/Rack.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace stavewright::ui {

class Banner;
class DocumentSession;
class EntryModel;
class EntryView;
class FractionLabel;
class PieceSheet;
class RackDesk;

class ShopRackView : public QWidget {
    Q_OBJECT
  public:
    ShopRackView(DocumentSession& session, RackDesk& desk, QWidget* parent = nullptr);

    [[nodiscard]] const std::vector<rack::Piece>& shown() const { return m_pieces; }

  public slots:
    void takeChosen();
    void throwOutChosen();
    void callBackChosen();
    void putChosenOnRack();
    void returnAll();
    void chooseFile();

  protected:
    void showEvent(QShowEvent* event) override;
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    [[nodiscard]] QWidget* makeRackSide();
    [[nodiscard]] QWidget* makeSearch(QWidget* parent);
    [[nodiscard]] QWidget* makeJobSide();
    void addKey(const char* name, const QList<QKeySequence>& keys, void (ShopRackView::*action)());
    void enter();
    void remove();
    void nextPane();
    void search();
    void searchAgainUnless(bool isDone);
    void refresh();
    void refreshChoice();
    [[nodiscard]] std::vector<std::int64_t> chosen() const;

    DocumentSession& m_session;
    RackDesk& m_desk;
    Banner* m_banner;
    QLineEdit* m_text = nullptr;
    QComboBox* m_species = nullptr;
    QComboBox* m_quarter = nullptr;
    QLineEdit* m_length = nullptr;
    QLineEdit* m_width = nullptr;
    QCheckBox* m_away = nullptr;
    FractionLabel* m_sum = nullptr;
    EntryModel* m_model = nullptr;
    EntryView* m_table = nullptr;
    PieceSheet* m_sheet = nullptr;
    EntryModel* m_jobModel = nullptr;
    EntryView* m_jobTable = nullptr;
    QPushButton* m_take = nullptr;
    QPushButton* m_throwOut = nullptr;
    QPushButton* m_callBack = nullptr;
    QPushButton* m_put = nullptr;
    QPushButton* m_return = nullptr;
    QLabel* m_file = nullptr;
    std::vector<rack::Piece> m_pieces;
};

} // namespace stavewright::ui
