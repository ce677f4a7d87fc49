// A full rack must fit into the file: as many boards as a job may hold, each with 30 knots marked
// on both faces. The text grows in proportion to the boards, so a hundredth of it is measured.

#include <gtest/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "core/job/JobFile.h"
#include "core/job/JsonValue.h"
#include "core/job/Zip.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

constexpr std::size_t share = 100;
constexpr std::int64_t knotsOnEach = 30;

Defect knotAt(DefectId id, std::int64_t number, Length x) {
    const Point centre{x, Length::millimetres(90)};
    // An odd size, so that every figure has all its digits.
    const Length size = Length::nanometres(25'412'347);
    FaceMark mark;
    mark.outline = ellipsePolygon(centre, size, size);
    mark.form = Ellipse{centre, size, size, 0};
    Defect knot;
    knot.id = id;
    knot.mark = "K" + std::to_string(number);
    knot.kind = DefectKind::SoundKnot;
    knot.through = true;
    knot.onA = mark;
    knot.onB = mark;
    return knot;
}

/// A hundredth of a full rack.
Document shareOfAFullRack() {
    Document job = sample::sideTable();
    const Board first = job.boards.at(0);
    job.plan.reset();
    job.boards.clear();
    job.nextId = 1'000'000; // as many digits as in the full rack
    for (std::size_t b = 0; b < mostBoards / share; ++b) {
        Board board;
        board.id = job.takeId<BoardId>();
        board.mark = std::to_string(1'000 + b);
        board.species = first.species;
        board.quarter = first.quarter;
        board.thinnest = first.thinnest;
        const Length length = Length::millimetres(3'100);
        const Length width = Length::millimetres(180);
        board.outline = {
            {Length(), Length()}, {length, Length()}, {length, width}, {Length(), width}};
        board.lookedAt = {{BoardFace::A, {Length(), length}}, {BoardFace::B, {Length(), length}}};
        for (std::int64_t k = 1; k <= knotsOnEach; ++k) {
            board.defects.push_back(
                knotAt(job.takeId<DefectId>(), k, Length::millimetres(100) * k));
        }
        job.boards.push_back(std::move(board));
    }
    return job;
}

std::size_t valuesIn(const job::JsonValue& value) {
    std::size_t count = 1;
    for (const job::JsonValue& item : value.items) {
        count += valuesIn(item);
    }
    for (const job::JsonMember& member : value.members) {
        count += valuesIn(member.second);
    }
    return count;
}

TEST(JobSize, AFullRackOfKnottyBoardsFitsIntoTheFile) {
    const Document job = shareOfAFullRack();
    const std::string text = toJson(job);
    const Result<Document> again = fromJson(text);
    ASSERT_TRUE(again.ok()) << describe(again.error());
    EXPECT_EQ(again.value(), job);
    EXPECT_LE(text.size() * share, job::mostJsonBytes);
    const Result<job::JsonValue> value = job::parseJson(text);
    ASSERT_TRUE(value.ok());
    EXPECT_LE(valuesIn(value.value()) * share, job::mostJsonValues);
    // The measure is no idle one: it is more than half of what is allowed.
    EXPECT_GT(text.size() * share, job::mostJsonBytes / 2);
    EXPECT_GT(valuesIn(value.value()) * share, job::mostJsonValues / 2);
}

TEST(JobSize, AnyTextThatMayBeReadFitsIntoAZip) {
    EXPECT_LT(job::mostJsonBytes + job::mebibyte, job::mostZipBytes);
}

} // namespace
} // namespace stavewright
