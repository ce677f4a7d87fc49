// Runs the tests of photographs in one process, with everything pinned that would differ between
// machines.

#include <QApplication>
#include <QLocale>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include "tests/ui/photos/MadeFiles.h"
#include "ui/paint/PagePainter.h"
#include "ui/widgets/Theme.h"

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QTemporaryDir home;
    qputenv("HOME", home.path().toUtf8());
    qputenv("XDG_CONFIG_HOME", (home.path() + "/config").toUtf8());
    QApplication application(argc, argv);
    QApplication::setOrganizationName("Stavewright");
    QApplication::setApplicationName("Stavewright tests");
    QStandardPaths::setTestModeEnabled(true);
    QLocale::setDefault(QLocale::c());
    stavewright::ui::loadBundledFont();
    stavewright::ui::applyAppearance(stavewright::ui::Appearance::Light);
    int failures = 0;
    using namespace stavewright::testing_photos;
    for (auto* make :
         {makePhotoDeskTest, makePhotoFilesTest, makeSaveRunTest, makeSuggestionTest}) {
        const std::unique_ptr<QObject> test = make();
        failures += QTest::qExec(test.get(), argc, argv);
    }
    return failures == 0 ? 0 : 1;
}
