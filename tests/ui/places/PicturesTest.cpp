// Every place can be painted, light and dark, at both window sizes; with STAVEWRIGHT_PICTURES set
// to a folder the pictures are left there to be looked at.

#include <QDir>

#include <functional>

#include "core/job/JobFile.h"
#include "tests/ui/places/PlaceTests.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/QuickEntry.h"
#include "ui/piece/PieceView.h"
#include "ui/shop/ShopView.h"
#include "ui/widgets/Theme.h"

namespace stavewright::testing_places {

namespace {

using namespace ui;

class PicturesTest : public QObject {
    Q_OBJECT
  private slots:
    void everyPlaceIsPainted();
};

template <class Place>
void paint(DocumentSession& session, const QString& name,
           const std::function<void(Place&)>& prepare = {}) {
    for (const QSize size : {QSize(1280, 720), QSize(1920, 1000)}) {
        for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
            applyAppearance(appearance);
            Place place(session);
            place.resize(size);
            place.show();
            QCoreApplication::processEvents();
            if (prepare) {
                prepare(place);
            }
            QCoreApplication::processEvents();
            const QImage image = place.grab().toImage();
            QCOMPARE(image.size(), size);
            const QString folder = qEnvironmentVariable("STAVEWRIGHT_PICTURES");
            if (!folder.isEmpty()) {
                image.save(QDir(folder).filePath(
                    QString("%1-%2-%3.png")
                        .arg(name)
                        .arg(size.width())
                        .arg(appearance == Appearance::Light ? "light" : "dark")));
            }
        }
    }
    applyAppearance(Appearance::Light);
}

void PicturesTest::everyPlaceIsPainted() {
    DocumentSession session;
    session.adopt(emptyJob(), {});
    paint<LumberView>(session, "lumber-empty");
    paint<PieceView>(session, "piece-empty");
    Result<Document> read = readJob(STAVEWRIGHT_SAMPLES_DIR "/kitchen-table.stavejob");
    QVERIFY(read.ok());
    session.adopt(std::move(read).value(), {});
    Selection selection;
    selection.board = session.document().boards[2].id;
    selection.defect = session.document().boards[2].defects.front().id;
    session.select(selection);
    paint<LumberView>(session, "lumber");
    paint<LumberView>(session, "lumber-tally", [](LumberView& view) {
        view.typeTally();
        view.quickEntry().paste("Board;Rough;Length (in);Width;Width;Thin spot;Shed\n"
                                "21;8/4;96,5;8 1/4;7 3/4;1 15/16;B\n22;8/4;120;about 7;7;;B\n"
                                "23;7/4;101 1/2;9;9;;C\n24;4/4;88;6;;;C\n;;91;\";;;\n");
    });
    paint<LumberView>(session, "lumber-large", [&](LumberView& view) {
        view.sheet().largeWanted();
        for (int i = 0; i < 4; ++i) {
            QTest::keyClick(&view.sheet(), Qt::Key_Plus);
        }
        Board board = session.document().boards[2];
        board.lookedAt = {
            {BoardFace::A, {Length(), Length::inches(60)}},
            {BoardFace::A, {Length::inches(60), Length::inches(110)}, Length::inches(1)}};
        board.sawn = {{Sawn::Quartered,
                       {Length::inches(66), Length(), Length::inches(104), Length::inches(3)}}};
        board.warp.bow = Length::inches(3, 4);
        session.edit("Note", Edit{ReplaceBoard{board}});
    });
    while (session.undoStack().canUndo()) {
        session.undoStack().undo();
    }
    paint<ShopView>(session, "shop");
    for (const Part& part : session.document().parts) {
        Selection one;
        one.part = part.id;
        session.select(one);
        paint<PieceView>(session, "piece-" + QString::fromStdString(part.mark));
    }
}

} // namespace

std::unique_ptr<QObject> makePicturesTest() { return std::make_unique<PicturesTest>(); }

} // namespace stavewright::testing_places

#include "PicturesTest.moc"
