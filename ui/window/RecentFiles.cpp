#include "ui/window/RecentFiles.h"

#include <QFileInfo>
#include <QSettings>

namespace stavewright::ui {

namespace {
const char* const key = "files/recent";
}

QStringList recentFiles() { return QSettings().value(key).toStringList().mid(0, mostRecentFiles); }

void rememberFile(const QString& path) {
    const QString absolute = QFileInfo(path).absoluteFilePath();
    QStringList files = recentFiles();
    files.removeAll(absolute);
    files.prepend(absolute);
    QSettings().setValue(key, files.mid(0, mostRecentFiles));
}

} // namespace stavewright::ui
