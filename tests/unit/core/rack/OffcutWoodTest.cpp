#include "core/rack/OffcutWood.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/job/BoardText.h"
#include "core/planning/Planner.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright::rack {
namespace {

Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

/// Board 2 (84 x 10 x 8/4, wane on its far edge from 50 on, a stain on face B at 10 to 14) cut at
/// 40: what stands before is a section with one strip, what stands behind is kept.
Document halved() {
    Document document = sample::sideTable();
    Section section;
    section.id = SectionId{50};
    section.along = {in(0), in(40)};
    Blank blank;
    blank.id = BlankId{53};
    blank.purpose = {sample::rail, 1, 0, 0};
    blank.rect = {in(0), in(0), in(30), in(4)};
    section.strips = {Strip{StripId{51}, {in(0), in(4)}, {blank}, {}}};
    section.strips[0].offcuts = {{OffcutId{56}, {in(31), in(0), in(40), in(4)}, {}}};
    const Length rip = document.shop.machines.rip.kerf;
    section.offcuts = {{OffcutId{57}, {in(0), in(4) + rip, in(40), in(10)}, {}}};
    Section rest;
    rest.id = SectionId{60};
    rest.along = {in(41), in(84)};
    rest.frame.origin = {in(41), in(0)};
    rest.offcuts = {{OffcutId{61}, {in(0), in(0), in(43), in(9)}, {}}};
    Plan plan;
    plan.boards = {BoardLayout{sample::thickBoard, {section, rest}, false}};
    document.plan = plan;
    return document;
}

TEST(OffcutWood, HasTheShapeThatTheCutsLeave) {
    const Document document = halved();
    const std::vector<OffcutBoard> offcuts = offcutBoards(document, sample::thickBoard);
    ASSERT_EQ(offcuts.size(), 3U);
    const Length kerf = document.shop.machines.stripCrosscut.kerf;
    // In the strip: from the kerf behind the blank, not only the rectangle that was marked.
    EXPECT_EQ(offcuts[0].offcut, OffcutId{56});
    EXPECT_EQ(offcuts[0].board.mark, "2-1");
    EXPECT_EQ(lengthOf(offcuts[0].board), in(10) - kerf);
    EXPECT_EQ(widthOf(offcuts[0].board), in(4));
    EXPECT_EQ(offcuts[0].origin, (Point{in(30) + kerf, in(0)}));
    // Beside the strip: up to the board's own edge.
    EXPECT_EQ(lengthOf(offcuts[1].board), in(40));
    EXPECT_EQ(widthOf(offcuts[1].board), in(6) - document.shop.machines.rip.kerf);
    // Behind the section: the whole width, though the rectangle that is sure of it is narrower.
    EXPECT_EQ(lengthOf(offcuts[2].board), in(43));
    EXPECT_EQ(widthOf(offcuts[2].board), in(10));
    EXPECT_EQ(offcuts[2].board.species, "white_oak");
    EXPECT_EQ(offcuts[2].board.quarter, Quarter{8});
    EXPECT_EQ(offcuts[2].board.outline.front().x, in(0));
    for (const OffcutBoard& offcut : offcuts) {
        EXPECT_TRUE(validateBoard(offcut.board)) << offcut.board.mark;
    }
}

TEST(OffcutWood, WoodThatIsPlanedGoesAsThickAsItIs) {
    Document document = halved();
    Board& board = *std::find_if(document.boards.begin(), document.boards.end(),
                                 [](const Board& each) { return each.id == sample::thickBoard; });
    board.warp.bow = in(1, 4);
    const Length rough = board.thinnest;
    Section& section = document.plan->boards[0].sections[0];
    const auto made = [&] { return offcutBoards(document, sample::thickBoard); };
    const auto isRough = [&](const Board& offcut) {
        return offcut.thinnest == rough && offcut.warp.bow > Length() && offcut.notes.empty();
    };
    const auto isPlaned = [](const Board& offcut) {
        return offcut.thinnest == in(7, 4) && offcut.warp == Warp{} &&
               offcut.notes == "Planed already, to 1 3/4\".";
    };
    section.planedTo = in(7, 4); // noted, but nothing of it is milled
    EXPECT_TRUE(isRough(made()[0].board));
    // Faced whole, what stands beside the strip is planed with it; what stands behind is not.
    section.state = CutState::Cut;
    section.strips[0].blanks[0].state = CutState::Milled;
    EXPECT_TRUE(isPlaned(made()[0].board));
    EXPECT_TRUE(isPlaned(made()[1].board));
    EXPECT_TRUE(isRough(made()[2].board));
    EXPECT_EQ(made()[0].board.quarter, Quarter{8}); // and costs as what it was bought as
    for (const OffcutBoard& offcut : made()) {
        EXPECT_TRUE(validateBoard(offcut.board)) << offcut.board.mark;
    }
    // Ripped before it is faced, the strip alone is.
    section.facing = FirstFacing::RoughRippedFirst;
    section.strips[0].planedTo = in(7, 4);
    EXPECT_TRUE(isPlaned(made()[0].board));
    EXPECT_TRUE(isRough(made()[1].board));
    // Milled, but nobody noted how thick: as it was.
    section.strips[0].planedTo.reset();
    EXPECT_TRUE(isRough(made()[0].board));
}

TEST(OffcutWood, CarriesWhatLiesOnIt) {
    const std::vector<OffcutBoard> offcuts = offcutBoards(halved(), sample::thickBoard);
    ASSERT_EQ(offcuts.size(), 3U);
    // The stain at 10 to 14 x 2 to 5 on face B is parted by the rip at 4: an inch (less the kerf)
    // of it lies on the wood beside the strip, none on that behind the blank.
    EXPECT_TRUE(offcuts[0].board.defects.empty());
    ASSERT_EQ(offcuts[1].board.defects.size(), 1U);
    const Defect& stain = offcuts[1].board.defects[0];
    EXPECT_EQ(stain.kind, DefectKind::Stain);
    EXPECT_FALSE(stain.onA);
    const Rect box = boundingBox(stain.onB->outline);
    EXPECT_EQ(box.x0, in(10));
    EXPECT_EQ(box.x1, in(14));
    EXPECT_EQ(box.y0, in(0));
    EXPECT_EQ(box.y1, in(5) - in(4) - halved().shop.machines.rip.kerf);
    // The wane from 50 to 84 stands 41 nearer to the new end.
    ASSERT_EQ(offcuts[2].board.defects.size(), 1U);
    const Rect wane = boundingBox(offcuts[2].board.defects[0].onA->outline);
    EXPECT_EQ(wane.x0, in(9));
    EXPECT_EQ(wane.x1, in(43));
    // What was looked at is looked at.
    ASSERT_EQ(offcuts[2].board.lookedAt.size(), 2U);
    EXPECT_EQ(offcuts[2].board.lookedAt[0].stretch, (Stretch{in(0), in(43)}));
}

TEST(OffcutWood, ASkewedKnotIsNotLostInTheSawnFace) {
    // From 30 to 31 x 3 to 4 on face A to 30 to 31 x 3 1/2 to 4 1/2 on face B, a rip at y = 4 1/4:
    // above it the knot shows on face B alone, and comes out of the sawn face.
    const Board board = sample::makeThinBoard();
    const Board part = partOf(board, sample::rectangle(in(20), in(17, 4), in(50), in(7)));
    ASSERT_EQ(part.defects.size(), 1U);
    const Defect& knot = part.defects[0];
    EXPECT_TRUE(knot.through);
    ASSERT_TRUE(knot.onB);
    EXPECT_EQ(boundingBox(knot.onB->outline), (Rect{in(10), in(0), in(11), in(1, 4)}));
    ASSERT_TRUE(knot.onA); // its way through the wood stands for the mark that face A has not
    EXPECT_EQ(boundingBox(knot.onA->outline), (Rect{in(10), in(0), in(11), in(1, 4)}));
}

TEST(OffcutWood, WarpFollowsTheSquareLawAndEndsKeepTheirTrim) {
    Board board = sample::makeThickBoard();
    board.warp = {in(1, 2), in(1, 4), in(1, 8), Warp::Where::Even};
    board.trimAtFar = in(3);
    const Board half = partOf(board, sample::rectangle(in(42), in(0), in(84), in(5)));
    EXPECT_EQ(half.warp.bow, in(1, 8));    // (1/2)^2
    EXPECT_EQ(half.warp.cup, in(1, 16));   // (1/2)^2
    EXPECT_EQ(half.warp.twist, in(1, 32)); // 1/2 x 1/2
    EXPECT_EQ(half.trimAtDatum, in(0));
    EXPECT_EQ(half.trimAtFar, in(3));
    board.warp.where = Warp::Where::MostlyAtDatumEnd;
    EXPECT_EQ(partOf(board, sample::rectangle(in(42), in(0), in(84), in(5))).warp.bow, in(0));
    EXPECT_EQ(partOf(board, sample::rectangle(in(0), in(0), in(42), in(5))).warp.bow, in(1, 2));
}

TEST(OffcutWood, CostsTheNextJobWhatThisOneWasCredited) {
    const Document document = halved();
    const std::vector<OffcutBoard> offcuts = offcutBoards(document, sample::thickBoard);
    ASSERT_EQ(offcuts.size(), 3U);
    // 84 x 10 x 8/4 is 11.667 bd ft at $11.25, together $131.25; 43 x 9 of 84 x 10 is its share.
    const double credited =
        131.25 * (43.0 * 9) / (84.0 * 10) * document.shop.offcuts.worthPercent / 100;
    EXPECT_NEAR(costOf(offcuts[2].board).toDouble(), credited, 0.01);
}

/// Offcuts of a planned sample lie in their board, hold the rectangle that the plan marked, and
/// share no wood with one another or with a blank.
void expectTrueShapes(Document job) {
    const Result<PlanOutcome> planned =
        planJob(job, {.seed = 1, .seconds = 0, .work = 1'000'000, .threads = 2});
    ASSERT_TRUE(planned);
    job.plan = planned.value().plan;
    std::size_t count = 0;
    for (const BoardLayout& layout : job.plan->boards) {
        const Board& board = *findBoard(job, layout.board);
        std::vector<Polygon> others;
        std::map<std::int64_t, Polygon> marked;
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    others.push_back(toOuter(section.frame, blank.rect));
                }
                for (const Offcut& offcut : strip.offcuts) {
                    marked[offcut.id.value] = toOuter(section.frame, offcut.rect);
                }
            }
            for (const Offcut& offcut : section.offcuts) {
                marked[offcut.id.value] = toOuter(section.frame, offcut.rect);
            }
        }
        const std::vector<OffcutBoard> offcuts = offcutBoards(job, board.id);
        EXPECT_EQ(offcuts.size(), marked.size());
        for (const OffcutBoard& offcut : offcuts) {
            Polygon wood = offcut.board.outline;
            for (Point& corner : wood) {
                corner = {corner.x + offcut.origin.x, corner.y + offcut.origin.y};
            }
            EXPECT_TRUE(validateBoard(offcut.board)) << offcut.board.mark;
            EXPECT_TRUE(coveredWithinTolerance(wood, board.outline)) << offcut.board.mark;
            EXPECT_TRUE(coveredWithinTolerance(marked[offcut.offcut.value], wood))
                << offcut.board.mark;
            // Common wood thinner than the grid's rounding is none.
            for (const Polygon& other : others) {
                EXPECT_LE(intersection(wood, other).area, Length::micrometres(4) * lengthOf(board))
                    << offcut.board.mark;
            }
            others.push_back(std::move(wood));
            ++count;
        }
    }
    EXPECT_GT(count, 0U);
}

TEST(OffcutWood, OfTheKitchenTable) { expectTrueShapes(samples::kitchenTable()); }
TEST(OffcutWood, OfTheHallShelf) { expectTrueShapes(samples::hallShelf()); }
TEST(OffcutWood, OfTheLinenChest) { expectTrueShapes(samples::linenChest()); }

} // namespace
} // namespace stavewright::rack
