#include "ui/window/MainWindow.h"

namespace stavewright::ui {

MainWindow::MainWindow(QWidget* parent) : QMainWindow(parent) {}

bool MainWindow::openFile(const QString& /*path*/) { return false; }

} // namespace stavewright::ui
