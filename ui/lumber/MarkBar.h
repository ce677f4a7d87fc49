#pragma once
// Above the board: the tools with their keys, the kind that is drawn, the face that keys work on.

#include <QWidget>

#include "ui/lumber/BoardSheet.h"

class QComboBox;
class QToolButton;

namespace stavewright::ui {

class MarkBar : public QWidget {
    Q_OBJECT
  public:
    explicit MarkBar(BoardSheet& sheet, QWidget* parent = nullptr);

  private:
    void refresh();

    BoardSheet& m_sheet;
    std::array<QToolButton*, allTools.size()> m_tools = {};
    QComboBox* m_kinds;
    QToolButton* m_face;
};

} // namespace stavewright::ui
