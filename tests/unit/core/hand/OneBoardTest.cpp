#include "core/hand/OneBoard.h"

#include <gtest/gtest.h>

#include "tests/tools/samples/Samples.h"

namespace stavewright::hand {
namespace {

class OneBoard : public testing::Test {
  protected:
    OneBoard() {
        job.groups.clear();
        for (std::size_t i = 0; i < 3; ++i) {
            parts.push_back(job.parts[i].id);
            marks.push_back(job.parts[i].mark);
        }
    }

    /// Makes the change, and sees that undo gives back what was.
    void make(const Edit& edit) {
        const Document before = job;
        const Result<Edit> inverse = apply(job, edit);
        ASSERT_TRUE(inverse.ok());
        ASSERT_TRUE(validate(job).ok());
        Document back = job;
        ASSERT_TRUE(apply(back, inverse.value()).ok());
        EXPECT_EQ(back.groups, before.groups);
    }

    Document job = samples::kitchenTable();
    std::vector<PartId> parts;
    std::vector<std::string> marks;
};

TEST_F(OneBoard, AllPiecesOfAPartAreWantedFromOneBoard) {
    EXPECT_TRUE(wantedWith(job, parts[0]).empty());
    make(wantTogether(job, parts[0], parts[0]));
    ASSERT_EQ(job.groups.size(), 1U);
    EXPECT_EQ(job.groups[0].want, MatchGroup::Want::OneBoard);
    EXPECT_EQ(job.groups[0].name, marks[0]);
    EXPECT_EQ(wantedWith(job, parts[0]), std::vector{parts[0]});
    make(letApart(job, parts[0]));
    EXPECT_TRUE(job.groups.empty());
}

TEST_F(OneBoard, OthersComeAlongAndTheNameListsThem) {
    make(wantTogether(job, parts[0], parts[1]));
    make(wantTogether(job, parts[0], parts[2]));
    EXPECT_EQ(wantedWith(job, parts[1]), (std::vector{parts[0], parts[1], parts[2]}));
    EXPECT_EQ(job.groups[0].name, marks[0] + ", " + marks[1] + " and " + marks[2]);
    make(wantTogether(job, parts[0], parts[2])); // once more is no change
    EXPECT_EQ(job.groups[0].parts.size(), 3U);
    make(letApart(job, parts[0]));
    EXPECT_EQ(wantedWith(job, parts[1]), (std::vector{parts[1], parts[2]}));
    EXPECT_EQ(job.groups[0].name, marks[1] + " and " + marks[2]);
}

TEST_F(OneBoard, APartLeavesTheGroupItWasIn) {
    job.groups = {{job.takeId<GroupId>(), "front", MatchGroup::Want::Neighbours, {parts[1]}},
                  {job.takeId<GroupId>(), "sides", MatchGroup::Want::OneBoard, {parts[0]}}};
    make(wantTogether(job, parts[0], parts[1]));
    ASSERT_EQ(job.groups.size(), 1U);
    EXPECT_EQ(job.groups[0].name, "sides"); // somebody gave it
    EXPECT_EQ(job.groups[0].parts, (std::vector{parts[0], parts[1]}));
}

} // namespace
} // namespace stavewright::hand
