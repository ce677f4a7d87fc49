// Runs all tests of the window in one process, with everything pinned that would differ between
// machines.

#include <QApplication>
#include <QDir>
#include <QLocale>
#include <QSettings>
#include <QStandardPaths>
#include <QStyleFactory>
#include <QTemporaryDir>
#include <QTest>

#include "tests/ui/Tests.h"
#include "ui/paint/PagePainter.h"
#include "ui/widgets/Theme.h"

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QTemporaryDir home;
    qputenv("HOME", home.path().toUtf8());
    qputenv("XDG_CONFIG_HOME", (home.path() + "/config").toUtf8());
    qputenv("XDG_DATA_HOME", (home.path() + "/data").toUtf8());
    QApplication application(argc, argv);
    QApplication::setOrganizationName("Stavewright");
    QApplication::setApplicationName("Stavewright tests");
    QStandardPaths::setTestModeEnabled(true);
    QSettings().clear();
    QLocale::setDefault(QLocale::c());
    stavewright::ui::loadBundledFont();
    stavewright::ui::applyAppearance(stavewright::ui::Appearance::Light);
    int failures = 0;
    for (auto* make :
         {stavewright::testing_ui::makeWidgetsTest, stavewright::testing_ui::makeLengthEditTest,
          stavewright::testing_ui::makeSessionTest, stavewright::testing_ui::makePictureChangeTest,
          stavewright::testing_ui::makeRackArrangementTest, stavewright::testing_ui::makeWindowTest,
          stavewright::testing_ui::makeChoicesTest, stavewright::testing_ui::makeGlueUpTest,
          stavewright::testing_ui::makeCutDragTest, stavewright::testing_ui::makeHandTest,
          stavewright::testing_ui::makeRackPaintTest, stavewright::testing_ui::makeLaidOutTest,
          stavewright::testing_ui::makeMakerDaysTest, stavewright::testing_ui::makeShopRackTest,
          stavewright::testing_ui::makeShopTest}) {
        const std::unique_ptr<QObject> test = make();
        failures += QTest::qExec(test.get(), argc, argv);
    }
    return failures == 0 ? 0 : 1;
}
