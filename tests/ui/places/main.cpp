// Runs the tests of the places in one process, with everything pinned that would differ between
// machines.

#include <QLocale>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>

#include "tests/ui/places/PlaceTests.h"
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
    using namespace stavewright::testing_places;
    for (auto* make : {makeEntryTest, makeLumberPlaceTest, makeQuickEntryTest, makeMarkingPlaceTest,
                       makePiecePlaceTest, makeShopPlaceTest, makeWholeJobTest, makePicturesTest}) {
        const std::unique_ptr<QObject> test = make();
        failures += QTest::qExec(test.get(), argc, argv);
    }
    return failures == 0 ? 0 : 1;
}
