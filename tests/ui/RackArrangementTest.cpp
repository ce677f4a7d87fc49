// All boards of a rack at once: whatever their number and the window, each is in the room, none
// lies over another, and with more boards than the room holds they stay large enough to be seen.

#include <QTest>

#include "tests/ui/Tests.h"
#include "ui/layout/RackArrangement.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

constexpr double longest = 3600; // mm, a board of twelve feet

class RackArrangementTest : public QObject {
    Q_OBJECT
  private slots:
    void boardsFillTheRoom_data();
    void boardsFillTheRoom();
    void moreColumnsAreUsedWhereTheyShowMore();
    void tooManyBoardsStayVisibleAndHangLower();
    void noBoardsAreNoTrouble();
};

std::vector<double> rack(int boards) {
    std::vector<double> heights;
    for (int i = 0; i < boards; ++i) {
        heights.push_back(120 + (i * 37) % 110);
    }
    return heights;
}

void RackArrangementTest::boardsFillTheRoom_data() {
    QTest::addColumn<int>("boards");
    QTest::addColumn<QSizeF>("room");
    for (const int boards : {1, 4, 16, 60, 100}) {
        for (const QSizeF room : {QSizeF(740, 600), QSizeF(1300, 880), QSizeF(420, 330)}) {
            QTest::addRow("%d in %.0f x %.0f", boards, room.width(), room.height())
                << boards << room;
        }
    }
}

void RackArrangementTest::boardsFillTheRoom() {
    QFETCH(int, boards);
    QFETCH(QSizeF, room);
    const std::vector<double> heights = rack(boards);
    RackRoom asked;
    asked.pixels = room;
    const RackArrangement all = arrangeAll(heights, longest, asked);
    QCOMPARE(all.datumAndTop.size(), heights.size());
    const bool crowded = all.scale * longest < 57; // the least that a board is drawn
    if (!crowded) {
        QVERIFY(all.rowsEnd <= room.height());
        QVERIFY(all.scale * longest <= all.columnWidth - asked.left - asked.right + 0.01);
    }
    for (std::size_t i = 0; i < heights.size(); ++i) {
        const QPointF at = all.datumAndTop[i];
        QVERIFY(at.x() >= asked.left && at.x() + all.scale * longest <= room.width());
        if (i > 0 && all.datumAndTop[i - 1].x() == at.x()) {
            QVERIFY(at.y() >= all.datumAndTop[i - 1].y() + heights[i - 1] * all.scale);
        } else if (i > 0) {
            QVERIFY(at.x() > all.datumAndTop[i - 1].x()); // columns follow one another
            QCOMPARE(at.y(), asked.margin);
        }
    }
}

void RackArrangementTest::moreColumnsAreUsedWhereTheyShowMore() {
    RackRoom room;
    room.pixels = {740, 600};
    QCOMPARE(arrangeAll(rack(10), longest, room).columns, 1);
    QVERIFY(arrangeAll(rack(60), longest, room).columns >= 2);
}

void RackArrangementTest::tooManyBoardsStayVisibleAndHangLower() {
    RackRoom room;
    room.pixels = {740, 600};
    const RackArrangement all = arrangeAll(rack(2000), longest, room);
    QVERIFY(all.scale * longest >= 55);
    QVERIFY(all.rowsEnd > room.pixels.height());
}

void RackArrangementTest::noBoardsAreNoTrouble() {
    RackRoom room;
    room.pixels = {740, 600};
    QVERIFY(arrangeAll({}, 0, room).datumAndTop.empty());
    QVERIFY(arrangeAll({}, 0, room).scale > 0);
}

} // namespace

std::unique_ptr<QObject> makeRackArrangementTest() {
    return std::make_unique<RackArrangementTest>();
}

} // namespace stavewright::testing_ui

#include "RackArrangementTest.moc"
