#pragma once
// The view of a tally being typed. Typing begins a cell, Tab goes on, Enter ends the row and begins
// the next where this one began, Esc gives the cell up. A text that cannot be read is taken all the
// same and marked: the caller is not kept waiting.

#include <QTableView>

namespace stavewright::ui {

class TallyModel;

class TallyGrid : public QTableView {
    Q_OBJECT
  public:
    explicit TallyGrid(TallyModel* model, QWidget* parent = nullptr);

    /// Takes what is being typed.
    void finishEntry();
    /// The next cell that cannot be read; from the last to the first again.
    void goToNextWrong();
    void fitColumns();
    void keyboardSearch(const QString& /*search*/) override {}

  signals:
    void pasteWanted();

  public slots:
    void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;

  protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void beginNextRow();
    void clearCells();
    void removeRows();
    void copyCells();

    TallyModel* m_model;
    int m_rowOfStart = -1; ///< the row being typed, and the column in which it was begun
    int m_start = 0;
};

} // namespace stavewright::ui
