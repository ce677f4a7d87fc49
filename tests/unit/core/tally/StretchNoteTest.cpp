#include "core/tally/StretchNote.h"

#include <gtest/gtest.h>

#include "core/lumber/BoardShape.h"

namespace stavewright {
namespace {

constexpr Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }
using What = StretchNote::What;

StretchNote note(const char* text) {
    const Result<StretchNote> read = readStretchNote(text, UnitSystem::Inches, in(96));
    EXPECT_TRUE(read.ok()) << text << ": " << (read.ok() ? "" : read.error().message);
    return read.ok() ? read.value() : StretchNote();
}

TEST(StretchNote, IsSaidInAFewWords) {
    EXPECT_EQ(note("bad from 31 to 36"), (StretchNote{What::Bad, Stretch{in(31), in(36)}, {}, {}}));
    EXPECT_EQ(note("Bad 31 1/2 to 36, on A"),
              (StretchNote{What::Bad, Stretch{in(63, 2), in(36)}, {}, {BoardFace::A}}));
    EXPECT_EQ(note("the rest sound, under 1 in"), (StretchNote{What::Sound, {}, in(1), {}}));
    EXPECT_EQ(note("rest is sound, knots under 3/4, both faces"),
              (StretchNote{What::Sound, {}, in(3, 4), {BoardFace::A, BoardFace::B}}));
    EXPECT_EQ(note("looked at 0 to 40 on B"),
              (StretchNote{What::Sound, Stretch{in(0), in(40)}, {}, {BoardFace::B}}));
    EXPECT_EQ(note("sound 40 to the end"),
              (StretchNote{What::Sound, Stretch{in(40), in(96)}, {}, {}}));
    EXPECT_EQ(note("all sound"), (StretchNote{What::Sound, Stretch{in(0), in(96)}, {}, {}}));
    EXPECT_EQ(note("bad 88 to 36.5"), (StretchNote{What::Bad, Stretch{in(73, 2), in(88)}, {}, {}}));
}

TEST(StretchNote, SaysWhyItCannotBeRead) {
    for (const char* text : {"", "31 to 36", "bad", "bad from 31", "bad the rest 3 to 4",
                             "bad 31 to 120", "bad 31 to 31", "sound under -1", "sound under",
                             "bad 3 to 4 under 1", "sound and bad 3 to 4", "bad x to y"}) {
        const Result<StretchNote> read = readStretchNote(text, UnitSystem::Inches, in(96));
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_FALSE(read.error().message.empty());
    }
}

TEST(StretchNote, BecomesADefectOrALook) {
    Board board;
    board.outline = outlineOf(PlainOutline{in(96), in(8), in(8), {}});
    const Board bad =
        withNote(board, note("bad from 31 to 36"), BoardFace::A, DefectId{7}, "K1").value();
    ASSERT_EQ(bad.defects.size(), 1U);
    EXPECT_TRUE(bad.defects[0].through && bad.defects[0].onA && bad.defects[0].onB);
    EXPECT_EQ(bad.lookedAt.size(), 2U);
    const Board rest =
        withNote(bad, note("the rest sound, under 1"), BoardFace::B, DefectId{8}, "K2").value();
    EXPECT_EQ(rest.defects, bad.defects);
    EXPECT_TRUE(notLookedAt(rest, BoardFace::B, {in(0), in(96)}).empty());
    EXPECT_EQ(quicklyLookedAt(rest, BoardFace::B, {in(0), in(96)}),
              (std::vector<QuickLook>{{{in(0), in(31)}, in(1)}, {{in(36), in(96)}, in(1)}}));
    EXPECT_EQ(notLookedAt(rest, BoardFace::A, {in(0), in(96)}).size(), 2U);
}

} // namespace
} // namespace stavewright
