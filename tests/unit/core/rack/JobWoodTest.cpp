#include "core/rack/JobWood.h"

#include <gmock/gmock.h>

#include "core/audit/Audit.h"
#include "core/job/JobFile.h"
#include "core/planning/Planner.h"
#include "tests/tools/samples/Samples.h"
#include "tests/unit/core/rack/RackWood.h"

namespace stavewright::rack {
namespace {

using namespace rack_wood;
using stavewright::testing::TemporaryFolder;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Visit hallTable{"Hall table", aDay};

Length in(std::int64_t n) { return Length::inches(n); }

Document emptyJob() {
    Document job;
    job.info.title = "Hall table";
    job.shop = inchShop();
    job.nextId = presetRules::last + 1;
    return job;
}

/// Makes the edit and checks that its inverse gives the identical document.
void applied(Document& job, const Edit& edit) {
    const Document before = job;
    Result<Edit> inverse = apply(job, edit);
    ASSERT_TRUE(inverse) << describe(inverse.error());
    ASSERT_TRUE(validate(job)) << describe(validate(job).error());
    const Document after = job;
    Result<Edit> again = apply(job, inverse.value());
    ASSERT_TRUE(again);
    EXPECT_EQ(job, before);
    ASSERT_TRUE(apply(job, again.value()));
    EXPECT_EQ(job, after);
}

TEST(JobWood, TheJobGetsACopyOfItsOwn) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    ASSERT_TRUE(rack.change({PutNew{sample::makeThinBoard()}, PutNew{board("1", in(40), in(6))}},
                            {"Stock", aDay}));
    Document job = emptyJob();
    const Result<Brought> taken = takeIntoJob(job, rack, {1, 2}, hallTable);
    ASSERT_TRUE(taken) << describe(taken.error());
    applied(job, taken.value().edit);
    ASSERT_EQ(job.boards.size(), 2U);
    EXPECT_EQ(job.boards[0].rackLink, (RackLink{rack.name(), 1, taken.value().change}));
    EXPECT_EQ(job.boards[0].outline, sample::makeThinBoard().outline);
    EXPECT_EQ(job.boards[0].defects.size(), 3U);
    // Both were marked 1.
    EXPECT_EQ(job.boards[1].mark, "R2");
    ASSERT_EQ(taken.value().remarks.size(), 1U);
    EXPECT_THAT(taken.value().remarks[0], HasSubstr("no. 2 is board R2 here"));
    // The job opens without any rack.
    const Result<Document> elsewhere = fromJson(toJson(job));
    ASSERT_TRUE(elsewhere) << describe(elsewhere.error());
    EXPECT_EQ(elsewhere.value(), job);
    // Another job is refused; nothing of it changes.
    Document other = emptyJob();
    const Result<Brought> refused = takeIntoJob(other, rack, {2}, {"Linen chest", aDay});
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, HasSubstr("in the job “Hall table”"));
}

TEST(JobWood, ABoardThatIsNotCutGoesBackAsItWasNotedLast) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    ASSERT_TRUE(rack.change({PutNew{board("7", in(60), in(6))}}, {"Stock", aDay}));
    Document job = emptyJob();
    const Result<Brought> taken = takeIntoJob(job, rack, {1}, hallTable);
    ASSERT_TRUE(taken);
    applied(job, taken.value().edit);
    Board noted = job.boards[0];
    noted.moistureTenths = 71;
    ASSERT_TRUE(apply(job, {ReplaceBoard{noted}}));
    EXPECT_THAT(boardsToReturn(job), ElementsAre(noted.id));
    const Result<Brought> back = putOnRack(job, rack, {noted.id}, {"Hall table", aDay + 1});
    ASSERT_TRUE(back) << describe(back.error());
    applied(job, back.value().edit);
    EXPECT_TRUE(job.boards.empty());
    EXPECT_EQ(job.log.back().what, "Put on the shop rack: board 7.");
    const Piece piece = rack.piece(1).value();
    EXPECT_EQ(piece.state, PieceState::OnRack);
    EXPECT_EQ(piece.board.moistureTenths, 71);
    EXPECT_FALSE(piece.board.rackLink);
    EXPECT_EQ(piece.putIn, aDay); // its age goes on
}

TEST(JobWood, ABoardOfTheJobGoesOntoTheRackAndIsThereOnce) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Document job = sample::sideTable();
    const Result<Brought> put = putOnRack(job, rack, {sample::thinBoard}, hallTable);
    ASSERT_TRUE(put) << describe(put.error());
    applied(job, put.value().edit);
    EXPECT_EQ(job.boards.size(), 1U);
    EXPECT_THAT(numbers(rack), ElementsAre(1));
    EXPECT_EQ(rack.piece(1).value().board.defects.size(), 3U);
    EXPECT_FALSE(putOnRack(job, rack, {sample::thinBoard}, hallTable)); // it is gone
}

TEST(JobWood, OffcutsOfADoneJobGoToTheRackOnce) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Document job = samples::hallShelf();
    const Result<PlanOutcome> planned =
        planJob(job, {.seed = 1, .seconds = 0, .work = 1'000'000, .threads = 2});
    ASSERT_TRUE(planned);
    ASSERT_TRUE(apply(job, {ReplacePlan{planned.value().plan}}));
    const std::vector<BoardId> boards = boardsToReturn(job);
    ASSERT_EQ(boards.size(), static_cast<std::size_t>(job.plan->totals.boardsUsed));
    const Result<Brought> back = putOnRack(job, rack, boards, hallTable);
    ASSERT_TRUE(back) << describe(back.error());
    applied(job, back.value().edit);
    EXPECT_TRUE(audit(job).passed());
    // What the plan said is kept, to the last offcut, each from its board.
    const std::vector<Piece> there = rack.find(Search{}).value();
    EXPECT_EQ(there.size(), back.value().pieces.size());
    BoardFeet kept;
    for (const Piece& piece : there) {
        EXPECT_EQ(piece.kind, PieceKind::Offcut);
        EXPECT_EQ(piece.sourceJob, "Hall table");
        const Piece parent = rack.piece(piece.parent.value_or(0)).value();
        EXPECT_EQ(parent.state, PieceState::UsedUp);
        EXPECT_EQ(parent.board.mark, piece.sourceBoard);
        kept += exactBoardFeet(piece.board);
    }
    EXPECT_GE(kept, job.plan->totals.offcutsKept); // the true shapes hold at least the rectangles
    // Done is done.
    EXPECT_TRUE(boardsToReturn(job).empty());
    const Result<Brought> again = putOnRack(job, rack, {boards.front()}, hallTable);
    ASSERT_FALSE(again);
    EXPECT_THAT(again.error().message, HasSubstr("is used up"));
    // All of it is taken back as one change.
    ASSERT_TRUE(rack.takeBack(back.value().change));
    EXPECT_THAT(numbers(rack, {.alsoAway = true}), ElementsAre());
}

TEST(JobWood, WoodOfAnotherRackIsNotTaken) {
    const TemporaryFolder folder;
    Rack rack = opened(folder);
    Document job = sample::sideTable();
    job.boards[0].rackLink = RackLink{std::string(32, 'a'), 1, 1};
    const Result<Brought> refused = putOnRack(job, rack, {sample::thinBoard}, hallTable);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().message, HasSubstr("another shop rack"));
}

} // namespace
} // namespace stavewright::rack
