#pragma once
// The keyboard page of the Help menu.

#include <QDialog>

#include "ui/window/Commands.h"

namespace stavewright::ui {

/// All keys on one page, made from the command table and what the rack adds.
class KeyboardPage : public QDialog {
    Q_OBJECT
  public:
    explicit KeyboardPage(QWidget* parent = nullptr);
};

} // namespace stavewright::ui
