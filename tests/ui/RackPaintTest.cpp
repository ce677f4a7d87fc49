// The rack is painted in parts, and looks as if it had been painted at once.

#include <QTest>

#include <algorithm>
#include <cstdlib>

#include "tests/ui/HandWindow.h"
#include "tests/ui/Tests.h"
#include "ui/layout/BoardItem.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class RackPaintTest : public HandWindow {
    Q_OBJECT
  private slots:
    void init();
    void cleanup();
    void everyChangeOfABoardIsPainted();
    void whatIsHeldIsPaintedOverTheBoardsAsTheyAre();
    void aSelectionIsPaintedAsIfAllWere();
    void aMovedBlankIsPaintedAsIfAllWere();

  private:
    void expectPaintedAnewAlike();
};

/// How often a widget is painted.
class PaintCount : public QObject {
  public:
    explicit PaintCount(QWidget& watched) { watched.installEventFilter(this); }
    [[nodiscard]] int count() const { return m_count; }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        m_count += event->type() == QEvent::Paint ? 1 : 0;
        return QObject::eventFilter(watched, event);
    }

  private:
    int m_count = 0;
};

void RackPaintTest::init() { openShelf(); }

void RackPaintTest::cleanup() { close(); }

void RackPaintTest::everyChangeOfABoardIsPainted() {
    // Nobody else asks for it: no pointer moves, nothing is selected.
    QApplication::processEvents();
    const PaintCount paints(*rack().viewport());
    for (int change = 1; change <= 3; ++change) {
        const int before = paints.count();
        rack().rack().itemOf(boardAt(0))->paintAnew();
        QTRY_VERIFY2(paints.count() > before, qPrintable(QString::number(change)));
    }
}

/// The largest difference of a colour in any pixel.
int farthestApart(const QImage& one, const QImage& other) {
    int farthest = one.size() == other.size() ? 0 : 255;
    for (int y = 0; farthest < 255 && y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            const QRgb a = one.pixel(x, y);
            const QRgb b = other.pixel(x, y);
            farthest = std::max({farthest, std::abs(qRed(a) - qRed(b)),
                                 std::abs(qGreen(a) - qGreen(b)), std::abs(qBlue(a) - qBlue(b))});
        }
    }
    return farthest;
}

/// Slanting lines come out a little lighter or darker where a painting ends; a mark that is wrong
/// is much farther off.
constexpr int ofLines = 60;

void RackPaintTest::whatIsHeldIsPaintedOverTheBoardsAsTheyAre() {
    const BlankId blank = blanks().front();
    selectBlank(blank);
    const QImage empty = rack().viewport()->grab().toImage();
    key(Qt::Key_M);
    QVERIFY(rack().hand().isHolding());
    key(Qt::Key_Right);
    const QImage held = rack().viewport()->grab().toImage();
    QVERIFY(held != empty);
    for (BoardItem* item : rack().rack().boards()) {
        item->paintAnew();
    }
    const auto expectAlike = [this](const QImage& wanted) {
        const int apart = farthestApart(rack().viewport()->grab().toImage(), wanted);
        QVERIFY2(apart <= ofLines, qPrintable(QString::number(apart)));
    };
    expectAlike(held);
    rack().hand().putBack();
    expectAlike(empty);
}

/// Looks as it would if nothing were kept from one painting to the next.
void RackPaintTest::expectPaintedAnewAlike() {
    const QImage patched = rack().viewport()->grab().toImage();
    QEvent forgets(QEvent::StyleChange);
    QApplication::sendEvent(&rack(), &forgets);
    const int apart = farthestApart(rack().viewport()->grab().toImage(), patched);
    QVERIFY2(apart <= ofLines, qPrintable(QString::number(apart)));
}

void RackPaintTest::aSelectionIsPaintedAsIfAllWere() {
    std::vector<ui::Selection> all(6);
    const std::vector<BlankId> there = blanks();
    all[1].blank = there.front();
    all[2].blank = there.back();
    for (ui::Selection* each : {&all[1], &all[2]}) {
        each->part = blankOf(*each->blank).purpose.part;
        each->board = rack().rack().itemOf(*each->blank)->picture().board.id;
    }
    all[3].part = all[1].part;
    all[4].board = all[1].board;
    const auto marked = std::find_if(document().boards.begin(), document().boards.end(),
                                     [](const Board& board) { return !board.defects.empty(); });
    QVERIFY(marked != document().boards.end());
    all[5].board = marked->id;
    all[5].defect = marked->defects.front().id;
    for (const bool compact : {false, true}) {
        compact ? rack().fitAll() : rack().fitLength();
        for (const std::size_t next : {1U, 2U, 3U, 4U, 5U, 1U, 4U, 0U, 3U, 0U}) {
            const QImage before = rack().viewport()->grab().toImage();
            session().select(all[next]);
            QVERIFY2(rack().viewport()->grab().toImage() != before,
                     qPrintable(QString::number(next)));
            expectPaintedAnewAlike();
        }
    }
}

void RackPaintTest::aMovedBlankIsPaintedAsIfAllWere() {
    for (const bool compact : {false, true}) {
        compact ? rack().fitAll() : rack().fitLength();
        selectBlank(blanks().front());
        const QImage before = rack().viewport()->grab().toImage();
        key(Qt::Key_M);
        QVERIFY(rack().hand().isHolding());
        QVERIFY(rack().hand().layInTray());
        expectPaintedAnewAlike();
        QVERIFY(rack().viewport()->grab().toImage() != before);
        session().undoStack().undo();
        expectPaintedAnewAlike();
    }
}

} // namespace

std::unique_ptr<QObject> makeRackPaintTest() { return std::make_unique<RackPaintTest>(); }

} // namespace stavewright::testing_ui

#include "RackPaintTest.moc"
