#pragma once
// The window: rack in the middle, parts and tray beside it, everything about the selection at the side,
// the verdict along the foot.

#include <QMainWindow>

namespace stavewright::ui {

class MainWindow : public QMainWindow {
    Q_OBJECT
  public:
    explicit MainWindow(QWidget* parent = nullptr);

    /// Opens a job file; shows a sentence and keeps the present job when it cannot be read.
    bool openFile(const QString& path);
};

} // namespace stavewright::ui
