#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>

#include "tests/ui/Tests.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class LengthEditTest : public QObject {
    Q_OBJECT
  private slots:
    void init();
    void cleanup() { m_edit.reset(); }
    void readsWhatIsTyped_data();
    void readsWhatIsTyped();
    void keepsBadTextAndTheLastGoodValue();
    void escapeTakesTheTypingBack();
    void arrowsStepByTheShownUnit();
    void leavingWithoutTypingChangesNothing();
    void namesTheLimitThatWasPassed();

  private:
    QString reading() const { return m_edit->findChild<FractionLabel*>()->text(); }
    void type(const QString& text);

    std::unique_ptr<LengthEdit> m_edit;
};

void LengthEditTest::init() {
    m_edit = std::make_unique<LengthEdit>();
    m_edit->setStyleOfLength({UnitSystem::Inches, 16, false});
    m_edit->setValue(Length::inches(10));
    m_edit->show();
    m_edit->field()->setFocus();
}

void LengthEditTest::type(const QString& text) {
    m_edit->field()->selectAll();
    QTest::keyClicks(m_edit->field(), text);
}

void LengthEditTest::readsWhatIsTyped_data() {
    QTest::addColumn<QString>("typed");
    QTest::addColumn<qlonglong>("nanometres");
    QTest::newRow("mixed") << "27 1/2" << qlonglong{698'500'000};
    QTest::newRow("hyphen") << "27-1/2" << qlonglong{698'500'000};
    QTest::newRow("feet") << "2' 3 1/2\"" << qlonglong{698'500'000};
    QTest::newRow("millimetres") << "880 mm" << qlonglong{880'000'000};
    QTest::newRow("sum") << "=(27 1/2 + 1/8)*2" << qlonglong{1'403'350'000};
}

void LengthEditTest::readsWhatIsTyped() {
    QFETCH(QString, typed);
    QFETCH(qlonglong, nanometres);
    QSignalSpy committed(m_edit.get(), &LengthEdit::committed);
    type(typed);
    QCOMPARE(m_edit->value().inNanometres(), nanometres);
    QVERIFY(reading().contains("mm"));
    QTest::keyClick(m_edit->field(), Qt::Key_Return);
    QCOMPARE(committed.count(), 1);
}

void LengthEditTest::keepsBadTextAndTheLastGoodValue() {
    type("12 bananas");
    QVERIFY(!m_edit->isAcceptable());
    QTest::keyClick(m_edit->field(), Qt::Key_Return);
    QCOMPARE(m_edit->field()->text(), QString("12 bananas"));
    QCOMPARE(m_edit->value(), Length::inches(12)); // "12 " was good while it was typed
    QVERIFY(reading().size() > 10);                // says what is wrong
}

void LengthEditTest::escapeTakesTheTypingBack() {
    type("27 1/2");
    QTest::keyClick(m_edit->field(), Qt::Key_Escape);
    QCOMPARE(m_edit->value(), Length::inches(10));
    QCOMPARE(m_edit->field()->text(), QString("10"));
}

void LengthEditTest::arrowsStepByTheShownUnit() {
    QTest::keyClick(m_edit->field(), Qt::Key_Up);
    QCOMPARE(m_edit->value(), Length::inches(161, 16));
    QTest::keyClick(m_edit->field(), Qt::Key_Down, Qt::ShiftModifier);
    QCOMPARE(m_edit->value(), Length::inches(151, 16));
    m_edit->setStyleOfLength({UnitSystem::Millimetres, 16, false});
    m_edit->setValue(Length::millimetres(100));
    QTest::keyClick(m_edit->field(), Qt::Key_Up);
    QCOMPARE(m_edit->value(), Length::millimetres(101));
}

void LengthEditTest::leavingWithoutTypingChangesNothing() {
    const Length odd = Length::nanometres(123'456'789); // shown rounded
    m_edit->setValue(odd);
    QSignalSpy committed(m_edit.get(), &LengthEdit::committed);
    QSignalSpy edited(m_edit.get(), &LengthEdit::edited);
    m_edit->field()->setFocus();
    QTest::keyClick(m_edit->field(), Qt::Key_Return);
    m_edit->field()->clearFocus();
    QCOMPARE(m_edit->value(), odd);
    QCOMPARE(committed.count(), 0);
    QCOMPARE(edited.count(), 0);
}

void LengthEditTest::namesTheLimitThatWasPassed() {
    m_edit->setRange(Length::inches(1), Length::inches(20));
    type("21");
    QVERIFY(!m_edit->isAcceptable());
    QVERIFY2(reading().contains("20"), qPrintable(reading()));
}

} // namespace

std::unique_ptr<QObject> makeLengthEditTest() { return std::make_unique<LengthEditTest>(); }

} // namespace stavewright::testing_ui

#include "LengthEditTest.moc"
