#pragma once
// Pieces of which every place is built: headings, small buttons, and the column of facts at the
// side.

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stavewright::ui {

/// A heading of a side column.
[[nodiscard]] QLabel* heading(const QString& text, QWidget* parent);

/// A row of small buttons; each has an object name, a text and a tip that names its key.
[[nodiscard]] QPushButton* smallButton(const QString& objectName, const QString& text,
                                       const QString& tip, QWidget* parent);

/// A scrolling column for facts and small tables.
class SideColumn : public QScrollArea {
    Q_OBJECT
  public:
    SideColumn(const QString& objectName, const QString& accessibleName, QWidget* parent = nullptr);
    [[nodiscard]] QVBoxLayout* column() { return m_column; }
    [[nodiscard]] QWidget* sheet() { return m_sheet; }

  private:
    QWidget* m_sheet;
    QVBoxLayout* m_column;
};

} // namespace stavewright::ui
