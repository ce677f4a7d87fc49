#include "core/photo/Location.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "core/photo/PictureFacts.h"
#include "core/photo/PictureParts.h"
#include "tests/unit/core/photo/PictureFiles.h"

namespace stavewright::photo {

namespace {

using testing::contains;
using testing::FileWish;
using ::testing::HasSubstr;
using testing::pixelBytes;
using testing::secret;

std::vector<ByteBuffer> everyKind(const FileWish& wish = {}) {
    return {testing::jpegFile(wish), testing::pngFile(wish), testing::webpFile(wish),
            testing::tiffFile(wish), testing::tiffFile(wish, ByteOrder::BigEndian)};
}

TEST(Location, NoPlaceIsLeftAndEveryPixelIs) {
    for (const int orientation : {1, 6, 8}) {
        for (const ByteBuffer& file : everyKind({orientation, false, false, 40, 30})) {
            ASSERT_TRUE(contains(file, secret));
            const Result<ByteBuffer> clean = withoutLocation(file);
            ASSERT_TRUE(clean.ok()) << clean.error().message;
            EXPECT_FALSE(contains(clean.value(), secret));
            EXPECT_FALSE(contains(clean.value(), "GPS"));
            EXPECT_FALSE(contains(clean.value(), "xap"));
            EXPECT_TRUE(contains(clean.value(), pixelBytes()));
            const Result<PictureFacts> before = factsOf(file);
            const Result<PictureFacts> after = factsOf(clean.value());
            ASSERT_TRUE(before.ok());
            ASSERT_TRUE(after.ok()) << after.error().message;
            EXPECT_EQ(after.value().orientation, orientation);
            EXPECT_EQ(after.value().format, before.value().format);
            EXPECT_EQ(after.value().width, 40U);
            EXPECT_EQ(after.value().height, 30U);
            // Once more changes nothing.
            EXPECT_EQ(withoutLocation(clean.value()).value(), clean.value());
        }
    }
}

TEST(Location, EveryByteOfTheScansOfAJpegStays) {
    const ByteBuffer file = testing::jpegFile();
    const Result<ByteBuffer> clean = withoutLocation(file);
    ASSERT_TRUE(clean.ok());
    const JpegParts before = jpegParts(file).value();
    const JpegParts after = jpegParts(clean.value()).value();
    const Bytes scans = slice(file, before.scansFrom, before.end - before.scansFrom);
    const Bytes kept = slice(clean.value(), after.scansFrom, after.end - after.scansFrom);
    EXPECT_TRUE(std::equal(scans.begin(), scans.end(), kept.begin(), kept.end()));
    EXPECT_EQ(after.end, clean.value().size()); // nothing hangs on behind
    EXPECT_TRUE(contains(clean.value(), "ICC_PROFILE"));
}

TEST(Location, NoDirectoryOfATiffPointsToAPlace) {
    const Result<ByteBuffer> clean = withoutLocation(testing::tiffFile());
    ASSERT_TRUE(clean.ok());
    const auto reader = TiffReader::open(clean.value());
    ASSERT_TRUE(reader);
    const auto page = reader->directoryAt(reader->firstDirectory());
    ASSERT_TRUE(page);
    for (const std::uint32_t tag : {271U, 700U, 34665U, 34853U}) {
        EXPECT_EQ(TiffReader::find(*page, tag), nullptr) << tag;
    }
    EXPECT_NE(TiffReader::find(*page, 273), nullptr);
}

TEST(Location, ATiffWhosePlacePointsIntoItsPixelsKeepsThem) {
    ByteBuffer file = testing::tiffFile();
    // The XMP entry (the ninth) now claims the pixels as its text.
    const std::size_t entry = 8 + 2 + 12 * 8;
    ASSERT_EQ(number(file, entry, 2, ByteOrder::LittleEndian), 700U);
    const std::uint32_t pixels = 8 + 2 + 12 * 11 + 4;
    file[entry + 8] = static_cast<std::uint8_t>(pixels & 0xFFU);
    file[entry + 9] = static_cast<std::uint8_t>(pixels >> 8);
    const Result<ByteBuffer> clean = withoutLocation(file);
    ASSERT_TRUE(clean.ok());
    EXPECT_TRUE(contains(clean.value(), pixelBytes()));
}

TEST(Location, AHeicIsDeclinedWithAdvice) {
    ByteBuffer heic = {0, 0, 0, 24};
    for (const char c : std::string("ftypheic")) {
        heic.push_back(static_cast<std::uint8_t>(c));
    }
    heic.resize(64);
    ASSERT_TRUE(factsOf(heic).ok());
    EXPECT_THAT(withoutLocation(heic).error().message, HasSubstr("save the photograph as a JPEG"));
}

// Whatever happens to a file on its way: a sentence or a clean picture, never a crash.
TEST(Location, DamagedFilesGetASentenceOrAreCleaned) {
    std::mt19937_64 chance(2024);
    int sentences = 0;
    int cleaned = 0;
    for (int round = 0; round < 4000; ++round) {
        const std::vector<ByteBuffer> files = everyKind();
        ByteBuffer file = files[chance() % files.size()];
        if (chance() % 2 == 0) {
            file.resize(chance() % file.size());
        }
        for (std::uint64_t flips = chance() % 6; flips > 0 && !file.empty(); --flips) {
            // Headers are where damage hurts.
            const std::size_t reach =
                chance() % 2 == 0 ? file.size() : std::min<std::size_t>(file.size(), 220);
            file[chance() % reach] ^= static_cast<std::uint8_t>(1U << (chance() % 8));
        }
        const Result<PictureFacts> facts = factsOf(file);
        const Result<ByteBuffer> clean = withoutLocation(file);
        if (!clean) {
            ++sentences;
            EXPECT_FALSE(clean.error().message.empty());
            EXPECT_EQ(clean.error().message.back(), '.');
            continue;
        }
        ++cleaned;
        EXPECT_TRUE(facts.ok());
        EXPECT_TRUE(factsOf(clean.value()).ok());
    }
    EXPECT_GT(sentences, 1000);
    EXPECT_GT(cleaned, 300);
}

TEST(PictureFacts, EveryPrefixOfAFileIsHandled) {
    for (const ByteBuffer& file : everyKind()) {
        for (std::size_t size = 0; size < file.size(); ++size) {
            const Result<PictureFacts> facts = factsOf(slice(file, 0, size));
            if (!facts) {
                EXPECT_FALSE(facts.error().message.empty());
            }
        }
    }
}

std::string complaint(const ByteBuffer& file) {
    const Result<PictureFacts> facts = factsOf(file);
    if (!facts) {
        return facts.error().message;
    }
    const Status status = usable(facts.value());
    return status.ok() ? "usable" : status.error().message;
}

TEST(PictureFacts, SaysWhyAPictureCannotBeUsed) {
    for (const ByteBuffer& file : everyKind()) {
        EXPECT_EQ(complaint(file), "usable");
    }
    const FileWish printing{1, true, false, 40, 30};
    EXPECT_THAT(complaint(testing::jpegFile(printing)), HasSubstr("CMYK"));
    EXPECT_THAT(complaint(testing::tiffFile(printing)), HasSubstr("CMYK"));
    const FileWish moving{1, false, true, 40, 30};
    EXPECT_THAT(complaint(testing::pngFile(moving)), HasSubstr("animated"));
    EXPECT_THAT(complaint(testing::webpFile(moving)), HasSubstr("animated"));
    EXPECT_THAT(complaint(testing::jpegFile({1, false, false, 60000, 60000})),
                HasSubstr("60000 x 60000 pixels; at most 110 million"));
    EXPECT_THAT(complaint(testing::jpegFile({1, false, false, 0, 30})), HasSubstr("no pixels"));
    EXPECT_EQ(complaint({}), "The file is empty.");
    EXPECT_THAT(complaint({'h', 'e', 'l', 'l', 'o'}),
                HasSubstr("must be a JPEG, PNG, TIFF or WebP"));
    EXPECT_THAT(complaint({'G', 'I', 'F', '8', '9', 'a'}), HasSubstr("GIF"));
    ByteBuffer cut = testing::jpegFile();
    cut.resize(cut.size() / 2);
    EXPECT_THAT(complaint(cut), HasSubstr("cut off"));
}

} // namespace

} // namespace stavewright::photo
