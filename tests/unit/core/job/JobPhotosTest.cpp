// Photographs in the job file: once each, found without being read, told when they are damaged, and
// never lost without a word.

#include <gtest/gtest.h>

#include <filesystem>

#include "core/job/JobFile.h"
#include "core/job/Zip.h"
#include "core/lumber/Sha256.h"
#include "tests/SourceFolder.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright {
namespace {

using testing::contentOf;
using testing::TemporaryFolder;
using testing::writeTo;

BoardPhoto photoOf(Document& document, const PhotoFile& file, BoardFace face) {
    BoardPhoto photo;
    photo.id = document.takeId<PhotoId>();
    photo.face = face;
    photo.name = "face.jpg";
    photo.file = file;
    photo.size = {Length::inches(96), Length::inches(8), Length::inches(7)};
    photo.controls.width = 4'000;
    photo.controls.height = 3'000;
    photo.controls.corners = {{photo::Corner::DatumNear, {10'500, 2'000'000}},
                              {photo::Corner::EndFar, {3'900'250, 900'001}}};
    photo.controls.tape = {{{500, 600}, Length::inches(31)}};
    photo.controls.edges = {{photo::LongEdge::Far, {700, 800}}};
    photo.controls.spots = {{7, {900, 1'000}}};
    return photo;
}

std::string noise(std::size_t size, char seed) {
    std::string bytes(size, seed);
    for (std::size_t i = 0; i < size; ++i) {
        bytes[i] = static_cast<char>(static_cast<std::size_t>(seed) + i * i / 7);
    }
    return bytes;
}

/// Two photographs, one of them on two faces.
Document withPhotos() {
    Document document = sample::sideTable();
    const PhotoFile one = PhotoFile::of(noise(20'000, 'a'));
    const PhotoFile two = PhotoFile::of(noise(30'000, 'b'));
    document.boards[0].photos = {photoOf(document, one, BoardFace::A),
                                 photoOf(document, two, BoardFace::B)};
    document.boards[1].photos = {photoOf(document, two, BoardFace::A)};
    return document;
}

const PhotoFile& first(const Document& document) { return document.boards[0].photos[0].file; }
const PhotoFile& second(const Document& document) { return document.boards[0].photos[1].file; }

TEST(JobPhotosTest, Sha256AgreesWithThePublishedExamples) {
    // FIPS 180-2, appendix B.1 to B.3.
    EXPECT_EQ(sha256Of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256Of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(sha256Of(std::string(1'000'000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    EXPECT_TRUE(isSha256(sha256Of("")));
    EXPECT_FALSE(isSha256("abc"));
}

TEST(JobPhotosTest, ComeBackByteForByteAndStandOnceInTheFile) {
    const TemporaryFolder folder;
    const Document document = withPhotos();
    ASSERT_TRUE(writeJob(document, folder.file("a.stavejob")));
    const Result<Document> back = readJob(folder.file("a.stavejob"));
    ASSERT_TRUE(back) << describe(back.error());
    EXPECT_EQ(back.value(), document);
    EXPECT_EQ(*first(back.value()).read().value(), noise(20'000, 'a'));
    EXPECT_EQ(*second(back.value()).read().value(), noise(30'000, 'b'));
    const std::string bytes = contentOf(folder.file("a.stavejob"));
    const std::string in = noise(30'000, 'b');
    EXPECT_NE(bytes.find(in), std::string::npos);
    EXPECT_EQ(bytes.find(in, bytes.find(in) + 1), std::string::npos);
}

TEST(JobPhotosTest, ReadAndWrittenAgainGivesTheSameBytesAlsoOverItself) {
    const TemporaryFolder folder;
    const std::string path = folder.file("a.stavejob");
    ASSERT_TRUE(writeJob(withPhotos(), path));
    const std::string before = contentOf(path);
    const Result<Document> back = readJob(path);
    ASSERT_TRUE(back);
    ASSERT_TRUE(writeJob(back.value(), path)); // the photographs are read from what is replaced
    EXPECT_EQ(contentOf(path), before);
    restPhotosOn(back.value(), path);
    EXPECT_TRUE(first(back.value()).standsIn(path));
    ASSERT_TRUE(writeJob(back.value(), folder.file("b.stavejob")));
    EXPECT_EQ(contentOf(folder.file("b.stavejob")), before);
}

TEST(JobPhotosTest, CopiesShareTheBytesAndWhereTheyStand) {
    const TemporaryFolder folder;
    const Document document = withPhotos();
    const Document copy = document;
    EXPECT_EQ(first(document).read().value(), first(copy).read().value()); // the same pointer
    ASSERT_TRUE(writeJob(document, folder.file("a.stavejob")));
    restPhotosOn(document, folder.file("a.stavejob"));
    EXPECT_TRUE(first(copy).standsIn(folder.file("a.stavejob")));
}

TEST(JobPhotosTest, AFileThatWasReplacedStillGivesItsPhotographs) {
    const TemporaryFolder folder;
    const std::string path = folder.file("a.stavejob");
    ASSERT_TRUE(writeJob(withPhotos(), path));
    const Result<Document> opened = readJob(path);
    ASSERT_TRUE(opened);
    ASSERT_TRUE(writeJob(sample::sideTable(), path));
    EXPECT_EQ(*first(opened.value()).read().value(), noise(20'000, 'a'));
    EXPECT_FALSE(first(opened.value()).standsIn(path));
}

TEST(JobPhotosTest, DamagedPhotographsLeaveTheJobReadable) {
    const TemporaryFolder folder;
    const std::string path = folder.file("a.stavejob");
    ASSERT_TRUE(writeJob(withPhotos(), path));
    std::string bytes = contentOf(path);
    const std::size_t at = bytes.find(noise(30'000, 'b'));
    bytes[at + 1'000] = static_cast<char>(bytes[at + 1'000] ^ 1);
    writeTo(path, bytes);
    const Result<Document> back = readJob(path);
    ASSERT_TRUE(back);
    EXPECT_TRUE(first(back.value()).read());
    const auto damaged = second(back.value()).read();
    ASSERT_FALSE(damaged);
    EXPECT_NE(damaged.error().message.find("damaged"), std::string::npos);
    // It is not written away half: the old file stays, and the sentence says what to do.
    const Status saved = writeJob(back.value(), path);
    ASSERT_FALSE(saved);
    EXPECT_NE(saved.error().message.find("“face.jpg” of board"), std::string::npos);
    EXPECT_NE(saved.error().message.find("Take it off the board"), std::string::npos);
    EXPECT_EQ(contentOf(path), bytes);
}

TEST(JobPhotosTest, WrongBytesUnderARightNameAreFound) {
    const TemporaryFolder folder;
    const Document document = withPhotos();
    std::filesystem::create_directory(folder.file("photos"));
    writeTo(folder.file("photos/" + first(document).sha256()), "something else");
    writeTo(folder.file("photos/" + second(document).sha256()), noise(30'000, 'b'));
    writeTo(folder.file("bare.json"), toJson(document));
    const Result<Document> back = readJob(folder.file("bare.json"));
    ASSERT_TRUE(back) << describe(back.error());
    EXPECT_TRUE(second(back.value()).read());
    ASSERT_FALSE(first(back.value()).read());
    EXPECT_NE(first(back.value()).read().error().message.find("damaged"), std::string::npos);
}

TEST(JobPhotosTest, AMissingPhotographIsToldWhenItIsWanted) {
    const TemporaryFolder folder;
    writeTo(folder.file("bare.json"), toJson(withPhotos()));
    const Result<Document> back = readJob(folder.file("bare.json"));
    ASSERT_TRUE(back);
    EXPECT_FALSE(first(back.value()).hasSource());
    EXPECT_NE(first(back.value()).read().error().message.find("missing"), std::string::npos);
    EXPECT_FALSE(writeJob(back.value(), folder.file("a.stavejob")));
    EXPECT_FALSE(std::filesystem::exists(folder.file("a.stavejob")));
}

TEST(JobPhotosTest, BareJsonDoesNotDropPhotographs) {
    const TemporaryFolder folder;
    const Status written = writeJob(withPhotos(), folder.file("a.json"));
    ASSERT_FALSE(written);
    EXPECT_NE(written.error().message.find("must end in .stavejob"), std::string::npos);
}

TEST(JobPhotosTest, AnEntryThatNoBoardNamesIsRefused) {
    const TemporaryFolder folder;
    std::string zip;
    ASSERT_TRUE(job::writeZip(toJson(sample::sideTable()), {PhotoFile::of("stray")},
                              [&](std::string_view more) {
                                  zip += more;
                                  return true;
                              }));
    writeTo(folder.file("a.stavejob"), zip);
    const Result<Document> back = readJob(folder.file("a.stavejob"));
    ASSERT_FALSE(back);
    EXPECT_NE(back.error().message.find("belongs to no board"), std::string::npos);
}

TEST(JobPhotosTest, MarksOutsideThePictureAreRefusedWithTheirPlace) {
    Document document = withPhotos();
    document.boards[0].photos[1].controls.corners[1].at = {4'000'001, 0};
    const Status valid = validate(document);
    ASSERT_FALSE(valid);
    EXPECT_EQ(valid.error().place, "/boards/0/photos/1/corners/1/at");
    document = withPhotos();
    document.boards[0].photos[0].controls.corners[1].corner = photo::Corner::DatumNear;
    EXPECT_FALSE(validate(document));
}

// The copy for the case of a crash: a photograph is written once, and not at all while the job file
// still holds it.
TEST(JobPhotosTest, TheCopyApartWritesOnlyNewPhotographsAndEachOnce) {
    const TemporaryFolder folder;
    const std::string path = folder.file("a.stavejob");
    ASSERT_TRUE(writeJob(withPhotos(), path));
    Result<Document> opened = readJob(path);
    ASSERT_TRUE(opened);
    Document document = std::move(opened).value();
    document.boards[1].photos.push_back(
        photoOf(document, PhotoFile::of(noise(5'000, 'c')), BoardFace::B));
    const PhotoPlaces places{folder.file("copy.photos"), path};
    const std::string copy = folder.file("copy.stavejob");
    ASSERT_TRUE(writeJobApart(document, copy, places));
    const std::string fresh = places.folder + '/' + document.boards[1].photos[1].file.sha256();
    EXPECT_EQ(contentOf(fresh), noise(5'000, 'c'));
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(places.folder), {}), 1);
    EXPECT_LT(std::filesystem::file_size(copy), std::filesystem::file_size(path) - 50'000 + 5'000);
    const auto when = std::filesystem::last_write_time(fresh);
    ASSERT_TRUE(writeJobApart(document, copy, places));
    EXPECT_EQ(std::filesystem::last_write_time(fresh), when);

    const Result<Document> back = readJob(copy, places);
    ASSERT_TRUE(back) << describe(back.error());
    EXPECT_EQ(back.value(), document);
    holdPhotosInMemory(back.value(), places.folder);
    std::filesystem::remove_all(places.folder);
    EXPECT_EQ(*back.value().boards[1].photos[1].file.read().value(), noise(5'000, 'c'));
    EXPECT_EQ(*first(back.value()).read().value(), noise(20'000, 'a'));
}

TEST(JobPhotosTest, AJobWithoutPhotographsIsWrittenAsEver) {
    const std::string samples = sourceFolder() + "/samples";
    int seen = 0;
    for (const auto& entry : std::filesystem::directory_iterator(samples)) {
        if (entry.path().extension() != ".stavejob") {
            continue;
        }
        const std::string bytes = contentOf(entry.path().string());
        const Result<std::string> text = job::jobOfZip(bytes);
        ASSERT_TRUE(text);
        if (bytes.find("photos/") == std::string::npos) {
            EXPECT_EQ(job::zipOfJob(text.value()).value(), bytes) << entry.path();
            ++seen;
        }
    }
    EXPECT_GT(seen, 0);
}

} // namespace
} // namespace stavewright
