#pragma once
// The view of an EntryModel: typing begins an entry, Enter takes it, Tab takes it and goes to the
// next cell that can be typed into, Esc gives it up. A text that cannot be taken keeps its cell
// open.

#include <QTableView>

namespace stavewright::ui {

class EntryModel;

class EntryView : public QTableView {
    Q_OBJECT
  public:
    EntryView(const QString& objectName, const QString& accessibleName, EntryModel* model,
              QWidget* parent = nullptr);

    /// A table of facts: no title row, names narrow, values wide, as high as its rows.
    void showAsFacts();
    /// Columns as wide as what they hold; where that is more than the view, words are elided. Kept
    /// up when the view changes its size, until a column is drawn wider or narrower by hand.
    void fitColumns();
    /// Words that are wider than their column stand on several lines, and the row grows with them.
    void wrapWords();
    /// Only the first columns, so many, must be in view at once; the others may be scrolled to.
    void setMustSee(int columns) { m_mustSee = columns; }
    /// What the column would have to be, so that nothing in it is elided.
    [[nodiscard]] int widthFor(int column) const;
    /// Makes the row current without opening it; -1 for none.
    void showRow(int row);
    /// Opens the first cell of the row that can be typed into, from `column` on.
    void openRow(int row, int column = 0);

    /// Takes what is being typed; false when it cannot be taken and stays open.
    bool finishEntry();

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    /// Typing is for entries; it never jumps to a row that begins alike.
    void keyboardSearch(const QString& /*search*/) override {}

  public slots:
    void commitData(QWidget* editor) override;
    void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;

  signals:
    void rowChosen(int row); ///< by mouse or keyboard
    void entered();          ///< a cell was taken by Enter

  protected:
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    QModelIndex moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    void setWidths();
    [[nodiscard]] int headWidth(int column) const;
    [[nodiscard]] bool canOpen(const QModelIndex& index) const;

    EntryModel* m_model;
    bool m_facts = false;
    bool m_showing = false;
    int m_mustSee = 1000;
    bool m_fitsColumns = false;
    bool m_settingWidths = false;
    bool m_awaitsWidths = false; ///< once it is shown
};

} // namespace stavewright::ui
