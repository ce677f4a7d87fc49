// What of a board is painted anew when its picture changes: no more than what looks different, and
// all of that.

#include <QTest>

#include "tests/ui/Tests.h"
#include "ui/layout/PictureChange.h"

namespace stavewright::testing_ui {

namespace {

using namespace ui;

class PictureChangeTest : public QObject {
    Q_OBJECT
  private slots:
    void nothingDifferentIsNoChange();
    void aBlankThatMovesIsPaintedWhereItWasAndWhereItLies();
    void placesThatMeetArePaintedTogether();
    void whatIsSaidOfTheBoardConcernsItsWordsAlone();
    void anotherBoardOrItsFirstCutConcernsAllOfIt();
};

BlankPicture blankAt(std::int64_t id, double from, double to) {
    BlankPicture blank;
    blank.id = BlankId{id};
    blank.outline = QRectF(from, 20, to - from, 60);
    return blank;
}

BoardPicture boardWith(std::vector<BlankPicture> blanks) {
    BoardPicture picture;
    picture.touched = true;
    picture.blanks = std::move(blanks);
    return picture;
}

void PictureChangeTest::nothingDifferentIsNoChange() {
    const BoardPicture board = boardWith({blankAt(1, 0, 400)});
    const PictureChange change = changeOf(board, board);
    QVERIFY(!change.isWhole);
    QVERIFY(!change.words);
    QVERIFY(change.onWood.empty());
}

void PictureChangeTest::aBlankThatMovesIsPaintedWhereItWasAndWhereItLies() {
    const PictureChange change = changeOf(boardWith({blankAt(1, 0, 400), blankAt(2, 500, 900)}),
                                          boardWith({blankAt(1, 0, 400), blankAt(2, 1000, 1400)}));
    QVERIFY(!change.isWhole);
    QVERIFY(change.words); // names that found no room on a blank stand there
    QCOMPARE(change.onWood, (std::vector<Reach>{{500, 900}, {1000, 1400}}));
}

void PictureChangeTest::placesThatMeetArePaintedTogether() {
    QCOMPARE(together({{30, 40}, {0, 10}, {5, 20}, {20, 25}, {6, 8}}),
             (std::vector<Reach>{{0, 25}, {30, 40}}));
    BoardPicture before = boardWith({blankAt(1, 100, 400)});
    BoardPicture after = before;
    before.cuts.push_back({QLineF(400, 90, 400, 0), CutKind::Crosscut}); // drawn downwards
    after.kerfs.push_back(QRectF(397, 0, 3, 90));
    after.offcuts.push_back({QRectF(700, 0, 100, 80), "4"});
    QCOMPARE(changeOf(before, after).onWood, (std::vector<Reach>{{397, 400}, {700, 800}}));
}

void PictureChangeTest::whatIsSaidOfTheBoardConcernsItsWordsAlone() {
    const BoardPicture before = boardWith({blankAt(1, 0, 400)});
    for (QString BoardPicture::*words :
         {&BoardPicture::title, &BoardPicture::facts, &BoardPicture::yield, &BoardPicture::share,
          &BoardPicture::contents, &BoardPicture::rules}) {
        BoardPicture after = before;
        after.*words = "other";
        const PictureChange change = changeOf(before, after);
        QVERIFY(change.words);
        QVERIFY(!change.isWhole);
        QVERIFY(change.onWood.empty());
    }
    BoardPicture read = before;
    read.readings.push_back({400, "15 3/4"});
    QVERIFY(changeOf(before, read).words);
}

void PictureChangeTest::anotherBoardOrItsFirstCutConcernsAllOfIt() {
    const BoardPicture before = boardWith({});
    BoardPicture after = before;
    after.touched = false;
    QVERIFY(changeOf(before, after).isWhole);
    after = before;
    after.wrong = true;
    QVERIFY(changeOf(before, after).isWhole);
    after = before;
    after.board.outline = {{Length(), Length()}};
    QVERIFY(changeOf(before, after).isWhole);
    after = before;
    after.defects.emplace_back();
    QVERIFY(changeOf(before, after).isWhole);
    after = before;
    after.trims.emplace_back();
    QVERIFY(changeOf(before, after).isWhole);
}

} // namespace

std::unique_ptr<QObject> makePictureChangeTest() { return std::make_unique<PictureChangeTest>(); }

} // namespace stavewright::testing_ui

#include "PictureChangeTest.moc"
