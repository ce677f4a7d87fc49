#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>
#include <QTest>
#include <QToolButton>
#include <QVBoxLayout>

#include <cmath>

#include "tests/ui/Tests.h"
#include "ui/layout/BlankPainter.h"
#include "ui/layout/BoardPainter.h"
#include "ui/layout/FactSheet.h"
#include "ui/layout/LabelPlace.h"
#include "ui/layout/LetterPlaces.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/FractionText.h"
#include "ui/widgets/Icons.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/WrapLayout.h"
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
    void buttonsWrapBeforeTheirWordsAreCutOff();
    void lettersOfMarksStandOnTheWoodAndApart();
    void aNameGoesToTheEdgeWhereTheMiddleIsTaken();
    void whatIsSelectedHasADarkRimOnPaleBlanks();
    void namesOfFactsGiveWayInANarrowPanel();
    void theToolInUseIsUnderlined();
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

void WidgetsTest::buttonsWrapBeforeTheirWordsAreCutOff() {
    QWidget bar;
    auto* column = new QVBoxLayout(&bar);
    column->setContentsMargins(0, 0, 0, 0);
    auto* row = new WrapLayout;
    std::vector<QPushButton*> buttons;
    for (const char* text : {"Tally...", "Add board", "Duplicate", "Remove", "Save table..."}) {
        buttons.push_back(new QPushButton(text, &bar));
        row->addWidget(buttons.back());
    }
    column->addLayout(row);
    column->addStretch(1);
    for (const int width : {120, 200, 330, 900}) {
        bar.resize(width, 300);
        bar.show();
        QApplication::processEvents();
        for (std::size_t i = 0; i < buttons.size(); ++i) {
            QVERIFY(buttons[i]->width() >= buttons[i]->sizeHint().width());
            QVERIFY(buttons[i]->geometry().right() < width);
            for (std::size_t k = 0; k < i; ++k) {
                QVERIFY(!buttons[i]->geometry().intersects(buttons[k]->geometry()));
            }
        }
    }
    QCOMPARE(buttons.front()->y(), buttons.back()->y()); // wide enough: one line
    buttons[1]->hide();
    QApplication::processEvents();
    QCOMPARE(buttons[2]->x(), buttons[0]->geometry().right() + 1 + row->spacing());
    QVERIFY(row->minimumSize().width() <= 120);
}

/// A picture in which a pixel is a millimetre.
ui::BoardPicture withKnots(const std::vector<QRectF>& knots) {
    BoardPicture picture;
    picture.outline = QPolygonF(QRectF(0, 0, 300, 40));
    for (const QRectF& knot : knots) {
        DefectPicture defect;
        defect.kind = DefectKind::SoundKnot;
        for (const QPointF& corner :
             {knot.topLeft(), knot.topRight(), knot.bottomRight(), knot.bottomLeft()}) {
            defect.onA.push_back({Length::micrometres(std::llround(corner.x() * 1000)),
                                  Length::micrometres(std::llround(corner.y() * 1000))});
        }
        picture.defects.push_back(defect);
    }
    return picture;
}

void WidgetsTest::lettersOfMarksStandOnTheWoodAndApart() {
    // At the far end, two side by side, and one that holds its letter.
    const BoardPicture picture =
        withKnots({{294, 10, 5, 5}, {100, 18, 6, 6}, {108, 18, 6, 6}, {200, 5, 30, 30}});
    const QFont font("Inter", 8);
    const std::vector<LetterPlace> places = letterPlaces(picture, BoardFace::A, {}, font);
    QCOMPARE(places.size(), std::size_t{4});
    QVERIFY(!places[3].isBeside && places[3].letter.isEmpty());
    for (std::size_t i = 0; i < 3; ++i) {
        QVERIFY(places[i].isBeside);
        QVERIFY(QRectF(0, 0, 300, 40).contains(places[i].letter));
        for (std::size_t k = 0; k < places.size(); ++k) {
            QVERIFY(!places[i].letter.intersects(places[k].mark));
            QVERIFY(k == i || !places[i].letter.intersects(places[k].letter));
        }
    }
    QCOMPARE(takenBy(places).size(), std::size_t{7});
    // From far off small marks have no letters.
    QVERIFY(letterPlaces(picture, BoardFace::A, QTransform::fromScale(0.05, 0.05), font)
                .front()
                .letter.isEmpty());
}

void WidgetsTest::aNameGoesToTheEdgeWhereTheMiddleIsTaken() {
    const QRectF room(0, 0, 100, 40);
    const QRectF along(0, 16, 100, 8); // a check from end to end
    const LabelPlace place = placeLabel(room, {40, 14}, {along});
    QVERIFY(place.free);
    QVERIFY(room.contains(place.rect));
    QVERIFY(!place.rect.intersects(along));
    QVERIFY(!placeLabel(room, {40, 14}, {room}).free);
}

void WidgetsTest::whatIsSelectedHasADarkRimOnPaleBlanks() {
    BlankPicture blank;
    blank.id = BlankId{1};
    blank.outline = QPolygonF(QRectF(40, 30, 120, 40));
    for (const bool dark : {false, true}) {
        QImage image(200, 100, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        BoardLook look;
        look.colours = dark ? darkColours() : lightColours();
        look.selectedBlank = blank.id;
        paintBlankMarks(painter, blank, {}, {}, look);
        painter.end();
        QCOMPARE(image.pixelColor(100, 30), look.colours.accent);
        QCOMPARE(image.pixelColor(100, 27), dark ? look.colours.blankInk : QColor(Qt::white));
    }
}

void WidgetsTest::namesOfFactsGiveWayInANarrowPanel() {
    FactSheet sheet;
    sheet.fact("Along", "52 to 88 from the datum end");
    const auto* name = sheet.findChild<FractionLabel*>();
    for (const auto& [panel, wide] : {std::pair(228, 92), std::pair(320, 112)}) {
        sheet.resize(panel, 300);
        sheet.show();
        QApplication::processEvents();
        QCOMPARE(name->text(), QString("Along"));
        QCOMPARE(name->width(), wide);
    }
}

void WidgetsTest::theToolInUseIsUnderlined() {
    QToolButton tool;
    tool.setAutoRaise(true);
    tool.setCheckable(true);
    tool.resize(60, 26);
    const QColor line = tool.palette().color(QPalette::Highlight);
    QVERIFY(tool.grab().toImage().pixelColor(30, 24) != line);
    tool.setChecked(true);
    QCOMPARE(tool.grab().toImage().pixelColor(30, 24), line);
}

} // namespace

std::unique_ptr<QObject> makeWidgetsTest() { return std::make_unique<WidgetsTest>(); }

} // namespace stavewright::testing_ui

#include "WidgetsTest.moc"
