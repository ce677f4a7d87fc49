#pragma once
// After a paste: which column of the pasted table is what, one choice for each. A change reads the
// same text again.

#include <QWidget>

#include "core/tally/ColumnGuess.h"

class QComboBox;
class QGridLayout;
class QLabel;

namespace stavewright::ui {

class ColumnBar : public QWidget {
    Q_OBJECT
  public:
    explicit ColumnBar(QWidget* parent = nullptr);

    void showTable(const TextTable& table, const ColumnMap& map);
    void dismiss();
    [[nodiscard]] const TextTable& table() const { return m_table; }
    [[nodiscard]] const ColumnMap& map() const { return m_map; }

  signals:
    void mapChanged();

  private:
    void choose(std::size_t column, TallyField field);

    TextTable m_table;
    ColumnMap m_map;
    QLabel* m_words;
    QWidget* m_choices = nullptr;
};

} // namespace stavewright::ui
