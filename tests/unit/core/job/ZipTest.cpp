#include "core/job/Zip.h"

#include <gtest/gtest.h>

#include <vector>

#include <zip.h>

#include "core/job/JobFile.h"
#include "core/job/JsonValue.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright::job {
namespace {

using stavewright::testing::contentOf;
using stavewright::testing::TemporaryFolder;

struct TestEntry {
    std::string name;
    std::string content;
    zip_int32_t method = ZIP_CM_STORE;
    bool encrypted = false;
};

/// A zip with exactly these entries, made without the code under test.
std::string zipWith(const std::vector<TestEntry>& entries) {
    const TemporaryFolder folder;
    const std::string path = folder.file("made.zip");
    zip_t* archive = zip_open(path.c_str(), ZIP_CREATE, nullptr);
    for (const TestEntry& entry : entries) {
        zip_source_t* source =
            zip_source_buffer(archive, entry.content.data(), entry.content.size(), 0);
        const auto index = static_cast<zip_uint64_t>(
            zip_file_add(archive, entry.name.c_str(), source, ZIP_FL_ENC_UTF_8));
        zip_set_file_compression(archive, index, entry.method, 0);
        if (entry.encrypted) {
            zip_file_set_encryption(archive, index, ZIP_EM_AES_256, "invented");
        }
    }
    EXPECT_EQ(zip_close(archive), 0);
    return contentOf(path);
}

/// The same length of name, put in place of another one everywhere in the bytes.
std::string renamed(std::string zip, const std::string& from, const std::string& to) {
    EXPECT_EQ(from.size(), to.size());
    for (std::size_t at = zip.find(from); at != std::string::npos; at = zip.find(from, at)) {
        zip.replace(at, from.size(), to);
    }
    return zip;
}

std::string errorOf(const std::string& zip) {
    const Result<std::string> content = jobOfZip(zip);
    return content ? "accepted" : describe(content.error());
}

void expectRefused(const std::string& zip, const std::string& words) {
    const std::string error = errorOf(zip);
    EXPECT_NE(error.find(words), std::string::npos) << error;
    EXPECT_EQ(error.back(), '.') << error;
}

TEST(ZipTest, TextComesBackAndBytesAreCanonical) {
    const std::string text = toJson(sample::sideTable());
    const Result<std::string> zip = zipOfJob(text);
    ASSERT_TRUE(zip);
    EXPECT_TRUE(looksLikeZip(zip.value()));
    EXPECT_EQ(jobOfZip(zip.value()).value(), text);
    EXPECT_EQ(zipOfJob(text).value(), zip.value());
    // Stored: the text stands in the bytes as it is, after a header of 30 bytes and the name.
    EXPECT_EQ(zip.value().find(text), 30 + jobEntryName.size());
}

TEST(ZipTest, ADeflatedZipOfAnotherProgramIsRead) {
    EXPECT_EQ(jobOfZip(zipWith({{"job.json", std::string(5'000, 'a'), ZIP_CM_DEFLATE}})).value(),
              std::string(5'000, 'a'));
}

TEST(ZipTest, AnEmptyEntryIsReadAsEmptyText) {
    EXPECT_EQ(jobOfZip(zipWith({{"job.json", ""}})).value(), "");
}

TEST(ZipTest, EveryShortenedZipIsRefused) {
    const std::string zip = zipOfJob("{\"formatVersion\": 1}").value();
    for (std::size_t size = 0; size < zip.size(); ++size) {
        EXPECT_NE(errorOf(zip.substr(0, size)), "accepted") << size;
    }
}

// Whatever single byte goes bad: the content comes out right or the zip is refused.
TEST(ZipTest, EverySingleSpoiledByteIsHarmlessOrRefused) {
    const std::string text = "{\"formatVersion\": 1}";
    const std::string good = zipOfJob(text).value();
    int refusedInContent = 0;
    for (std::size_t at = 0; at < good.size(); ++at) {
        for (const unsigned flip : {0x01U, 0x55U, 0x80U, 0xFFU}) {
            std::string bad = good;
            bad[at] = static_cast<char>(static_cast<unsigned char>(bad[at]) ^ flip);
            const Result<std::string> content = jobOfZip(bad);
            if (content) {
                EXPECT_EQ(content.value(), text) << at;
            } else if (at >= 38 && at < 38 + text.size()) {
                ++refusedInContent;
            }
        }
    }
    EXPECT_EQ(refusedInContent, static_cast<int>(4 * text.size()));
}

TEST(ZipTest, NamesThatLeaveTheFolderAreRefused) {
    expectRefused(zipWith({{"job.json", "{}"}, {"../job.json", ""}}), "points out of its folder");
    expectRefused(zipWith({{"job.json", "{}"}, {"photos/../../x", ""}}),
                  "points out of its folder");
    expectRefused(zipWith({{"job.json", "{}"}, {"/etc/passwd", ""}}), "not a plain relative name");
    expectRefused(zipWith({{"job.json", "{}"}, {"a\\b", ""}}), "not a plain relative name");
    expectRefused(zipWith({{"job.json", "{}"}, {"c:x", ""}}), "not a plain relative name");
}

TEST(ZipTest, ANameThatStandsTwiceIsRefused) {
    expectRefused(
        renamed(zipWith({{"job.json", "{}"}, {"job.jsoN", "{}"}}), "job.jsoN", "job.json"),
        "two entries of one name");
}

TEST(ZipTest, AZipWithoutAJobIsRefused) {
    expectRefused(zipWith({{"readme.txt", "x"}}), "no “job.json” in the zip");
    expectRefused(zipWith({{"folder/job.json", "{}"}}), "no “job.json” in the zip");
}

TEST(ZipTest, WhatWouldBeLostIsNotReadSilently) {
    expectRefused(zipWith({{"job.json", "{}"}, {"notes.txt", "x"}}),
                  "“notes.txt” in the zip is no part of a job");
}

TEST(ZipTest, AnEncryptedJobIsRefused) {
    expectRefused(zipWith({{"job.json", "{}", ZIP_CM_STORE, true}}), "is encrypted");
}

TEST(ZipTest, ABombIsRefusedBeforeItUnpacks) {
    expectRefused(zipWith({{"job.json", std::string(mostJsonBytes + 1, ' '), ZIP_CM_DEFLATE}}),
                  "at most 224 MiB");
    std::vector<TestEntry> many = {{"job.json", "{}"}};
    for (std::size_t i = 0; i < mostZipEntries; ++i) {
        many.push_back({"photos/" + std::to_string(i), ""});
    }
    expectRefused(zipWith(many), "at most 5000");
}

// The size in the headers says little, the packed data hold much more.
TEST(ZipTest, ASizeThatLiesIsRefused) {
    std::string zip = zipWith({{"job.json", std::string(100'000, 'a'), ZIP_CM_DEFLATE}});
    const std::string real("\xA0\x86\x01\x00", 4); // 100000
    const std::string lie("\x10\x00\x00\x00", 4);
    EXPECT_NE(zip.find(real), std::string::npos);
    EXPECT_NE(errorOf(renamed(zip, real, lie)), "accepted");
}

} // namespace
} // namespace stavewright::job
