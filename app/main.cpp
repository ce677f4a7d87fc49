#include <QApplication>

#include "ui/window/MainWindow.h"

int main(int argc, char** argv) {
    QApplication application(argc, argv);
    stavewright::ui::MainWindow window;
    window.show();
    return QApplication::exec();
}
