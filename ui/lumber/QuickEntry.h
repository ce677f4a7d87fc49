#pragma once
// The page on which a tally is typed as it is called out, or pasted from a spreadsheet, before it
// goes on the rack in one step. Rows that cannot be read yet stay here.

#include <QWidget>

#include "ui/lumber/TallyModel.h"

class QLabel;
class QListWidget;
class QPushButton;

namespace stavewright::ui {

class Banner;
class ColumnBar;
class FractionLabel;
class TallyGrid;

class QuickEntry : public QWidget {
    Q_OBJECT
  public:
    explicit QuickEntry(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] TallyGrid& grid() { return *m_grid; }
    [[nodiscard]] TallyModel& model() { return *m_model; }
    /// Something is typed here that is not on the rack.
    [[nodiscard]] bool holdsRows() const { return !m_model->rows().empty(); }

    /// All rows as they stand, good or bad, parted by tabs; and such rows back, one step.
    [[nodiscard]] QString rowsAsText() const;
    void takeRows(const QString& text);

    /// A table as text: where it has several cells it goes in as rows, one step.
    void paste(const QString& text);
    void pasteFromClipboard();
    /// The sentence why the file cannot be read; empty when its rows are in.
    QString readTable(const QString& path);
    void putInJob();
    void moreLikeThis(int count);

  public slots:
    void chooseTable();
    void askHowMany();

  signals:
    void placed(int boards); ///< so many boards went on the rack; none is left here when closed
    void closeWanted();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    QWidget* makeButtons();
    QWidget* makeSide();
    void refresh();
    void takeTable(std::size_t at);

    DocumentSession& m_session;
    TallyModel* m_model;
    TallyGrid* m_grid;
    ColumnBar* m_columns;
    Banner* m_banner;
    QPushButton* m_put = nullptr;
    QWidget* m_howMany = nullptr;
    QLabel* m_sums = nullptr;
    QLabel* m_wrongTitle = nullptr;
    QListWidget* m_wrong = nullptr;
    std::vector<TallyRow> m_beforePaste;
    std::size_t m_pastedAt = 0;
    bool m_pasting = false;
};

} // namespace stavewright::ui
