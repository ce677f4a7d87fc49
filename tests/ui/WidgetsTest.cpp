#include <QPainter>
#include <QTest>

#include <cmath>

#include "tests/ui/Tests.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Icons.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Theme.h"
#include "ui/window/Commands.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

/// Relative luminance and contrast as defined by WCAG 2.1 (w3.org/TR/WCAG21, "relative luminance").
double luminance(const QColor& colour) {
    const auto channel = [](double c) {
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(colour.redF()) + 0.7152 * channel(colour.greenF()) +
           0.0722 * channel(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double la = luminance(a);
    const double lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

class WidgetsTest : public QObject {
    Q_OBJECT
  private slots:
    void coloursAreReadable_data();
    void coloursAreReadable();
    void everyIconNamedByACommandExists();
    void noKeyIsGivenTwice();
    void fractionsAreSetAndQuartersAreNot();
    void wrappedTextIsAsHighAsItSays();
    void sizesAreReadOffTheTapeAndToldToTheLast();
};

void WidgetsTest::coloursAreReadable_data() {
    QTest::addColumn<bool>("dark");
    QTest::newRow("light") << false;
    QTest::newRow("dark") << true;
}

void WidgetsTest::coloursAreReadable() {
    QFETCH(bool, dark);
    const Colours& c = dark ? darkColours() : lightColours();
    for (const QColor& text : {c.ink, c.quietInk, c.accent, c.good, c.caution, c.wrong}) {
        QVERIFY2(contrast(text, c.panel) >= 4.5, qPrintable(text.name()));
        QVERIFY2(contrast(text, c.ground) >= 4.5, qPrintable(text.name()));
    }
    QVERIFY(contrast(c.woodInk, c.wood) >= 4.5);
    for (const QColor& tint : c.groupTints) {
        QVERIFY2(contrast(c.blankInk, tint) >= 4.5, qPrintable(tint.name()));
    }
    QVERIFY(contrast(c.wood, c.ground) > 1.2); // boards read as objects
}

void WidgetsTest::everyIconNamedByACommandExists() {
    for (const Command& command : allCommands()) {
        if (command.icon != nullptr) {
            QVERIFY2(!iconOf(command.icon, QPalette()).isNull(), command.icon);
        }
    }
    QVERIFY(iconOf("there is no such icon", QPalette()).isNull());
}

void WidgetsTest::noKeyIsGivenTwice() {
    QStringList seen;
    for (const Command& command : allCommands()) {
        for (const char* key : command.keys) {
            const QString text = QKeySequence(key).toString();
            QVERIFY2(!text.isEmpty(), key);
            QVERIFY2(!seen.contains(text), key);
            seen << text;
        }
    }
}

void WidgetsTest::fractionsAreSetAndQuartersAreNot() {
    const QFont font("Inter", 13);
    const QFontMetricsF metrics(font);
    // Set as a fraction the text is narrower than its characters in a row.
    QVERIFY(fractionTextWidth("27 1/2", font) < metrics.horizontalAdvance("27 1/2"));
    QCOMPARE(fractionTextWidth("8/4", font), metrics.horizontalAdvance("8/4"));
    QCOMPARE(fractionTextWidth("no figure", font), metrics.horizontalAdvance("no figure"));
}

void WidgetsTest::wrappedTextIsAsHighAsItSays() {
    const QString text = "Board 7 leaves 1 3/4 where 1 13/16 is asked; a shorter section would do.";
    const QFont font("Inter", 10);
    const double high = wrappedFractionTextHeight(text, font, 120);
    QVERIFY(high >= 2 * QFontMetricsF(font).lineSpacing());
    QImage image(160, static_cast<int>(high) + 60, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setFont(font);
    const double used = drawWrappedFractionText(painter, QRectF(0, 0, 120, high), text);
    QCOMPARE(used, high);
    painter.end();
    for (int y = static_cast<int>(high) + 6; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            QCOMPARE(image.pixel(x, y), QColor(Qt::white).rgb());
        }
    }
}

void WidgetsTest::sizesAreReadOffTheTapeAndToldToTheLast() {
    const LengthStyle inches{UnitSystem::Inches, 16, false};
    QCOMPARE(tapeText(Length::inches(7, 2), inches), QString("3 1/2"));
    QCOMPARE(exactTip(Length::inches(7, 2), inches), QString());
    const Length between = Length::inches(3 * 64 + 33, 64);
    QCOMPARE(tapeText(between, inches), QString("3 33/64")); // as the papers say it
    QCOMPARE(exactTip(between, inches), QString());
    QCOMPARE(readingText(between, inches), QString("3 1/2"));
    QCOMPARE(tapeText(Length::millimetres(100), inches), QString("3 15/16"));
    QCOMPARE(exactTip(Length::millimetres(100), inches), QString("exactly 3.9370\""));
    const LengthStyle metric{UnitSystem::Millimetres, 16, false};
    QCOMPARE(tapeText(Length::micrometres(88'930), metric), QString("88.9"));
    QCOMPARE(exactTip(Length::micrometres(88'930), metric), QString("exactly 88.9300 mm"));
}

} // namespace

std::unique_ptr<QObject> makeWidgetsTest() { return std::make_unique<WidgetsTest>(); }

} // namespace stavewright::testing_ui

#include "WidgetsTest.moc"
