#include "core/job/JobFile.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <rapidcheck/gtest.h>

#include "core/geometry/PolygonOps.h"
#include "core/layout/GluePresets.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright {
namespace {

using testing::contentOf;
using testing::TemporaryFolder;
using testing::writeTo;

std::string errorOf(std::string_view text) {
    const Result<Document> read = fromJson(text);
    return read ? "accepted" : describe(read.error());
}

/// The least that a job may be written with.
const char* const shortJob = R"({
  "formatVersion": 1,
  "boards": [{"mark": "1", "species": "white_oak", "quarter": "8/4",
              "size": {"length": 2438400000, "widthAtDatum": 203200000}}],
  "parts": [{"id": 100, "mark": "R", "species": "white_oak", "length": 600000000,
             "width": 60000000, "thickness": 40000000}]
})";

TEST(JobFileTest, WhatIsWrittenIsReadBackAndWrittenAlike) {
    Document withParent = sample::withSmallPlan();
    withParent.boards[1].parent = BoardParent{sample::thinBoard, {Length::inches(3), {}}, true};
    withParent.boards[0].ringRadius = Length::inches(9, 2);
    withParent.boards[1].rackLink = RackLink{"0123456789abcdef0123456789abcdef", 12, 40};
    withParent.info.units = UnitSystem::Millimetres;
    withParent.info.title = "Tisch für „Ö“ \\ / \" €";
    for (const Document& document : {sample::sideTable(), sample::withSmallPlan(), withParent}) {
        const std::string text = toJson(document);
        const Result<Document> read = fromJson(text);
        ASSERT_TRUE(read) << describe(read.error());
        EXPECT_EQ(read.value(), document);
        EXPECT_EQ(toJson(read.value()), text);
    }
}

// Every word of every enumeration that a job can hold makes the way there and back.
TEST(JobFileTest, EveryEnumerationGoesThereAndBack) {
    Document document = sample::withSmallPlan();
    Board& board = document.boards[1];
    const Defect pattern = board.defects[0];
    board.defects.clear();
    for (const DefectKind kind : allDefectKinds) {
        Defect defect = pattern;
        defect.id = document.takeId<DefectId>();
        defect.mark = std::to_string(static_cast<int>(kind));
        defect.kind = kind;
        board.defects.push_back(defect);
    }
    for (int turn = 0; turn < 17; ++turn) {
        board.heart = static_cast<HeartSide>(turn % 3);
        board.planing = static_cast<PlaningDirection>(turn % 3);
        board.warp.where = static_cast<Warp::Where>(turn % 3);
        document.joints[0].kind = static_cast<JointKind>(turn % 6);
        document.groups[0].want = static_cast<MatchGroup::Want>(turn % 2);
        document.parts[0].zones[0].role = static_cast<ZoneRole>(turn % 5);
        document.parts[0].zones[0].area.faces = static_cast<ZoneFaces>(turn % 3);
        document.shop.flatten = static_cast<FlattenMethod>(turn % 3);
        document.shop.chains.ply = {{static_cast<Stage>(turn), {}, {}, {}, ""}};
        document.shop.ruleSets[0].rules[0].verdict = static_cast<Verdict>(turn % 3);
        Section& section = document.plan->boards[0].sections[0];
        section.state = static_cast<CutState>(turn % 7);
        section.facing = static_cast<FirstFacing>(turn % 2);
        document.plan->origin.source = static_cast<Origin::Source>(turn % 2);
        document.plan->origin.proof.reset();
        if (turn % 3 == 0) {
            document.plan->origin.proof =
                Proof{Money::whole(120), Money::whole(100 + turn),
                      turn % 2 == 0 ? std::optional<BoardFeet>() : BoardFeet::whole(1)};
        }
        const Result<Document> read = fromJson(toJson(document));
        ASSERT_TRUE(read) << describe(read.error());
        ASSERT_EQ(read.value(), document) << turn;
    }
}

TEST(JobFileTest, ArrangementsOfPanelsComeBack) {
    Document document = sample::withSmallPlan();
    EXPECT_EQ(toJson(document).find("glueUp"), std::string::npos); // as before there were any
    document.glueUp = sample::someGlueUp();
    const std::string text = toJson(document);
    const Result<Document> back = fromJson(text);
    ASSERT_TRUE(back) << describe(back.error());
    EXPECT_EQ(back.value(), document);
    EXPECT_EQ(toJson(back.value()), text);
    document.glueUp.panels[0].staves[1].stave = 2;
    EXPECT_FALSE(validate(document));
}

TEST(JobFileTest, TheTextIsCanonical) {
    const std::string text = toJson(sample::withSmallPlan());
    EXPECT_EQ(text.substr(0, 14), "{\n  \"boards\": ");
    EXPECT_EQ(text.substr(text.size() - 2), "}\n");
    EXPECT_EQ(text.find('\t'), std::string::npos);
    EXPECT_NE(text.find("\"formatVersion\": 1,\n"), std::string::npos);
    EXPECT_NE(text.find("        [2438400000, 6350000],\n"), std::string::npos);
    // Sorted keys: what a library that keeps them sorted writes reads back to the same text.
    const nlohmann::json loose = nlohmann::json::parse(text);
    const Result<Document> read = fromJson(loose.dump());
    ASSERT_TRUE(read);
    EXPECT_EQ(toJson(read.value()), text);
}

TEST(JobFileTest, TheFormatVersionComesFirst) {
    EXPECT_EQ(errorOf(R"({"formatVersion": 2, "new": [], "boards": "elsewhere"})"),
              "/formatVersion: This job was written by a newer Stavewright, in format 2; this one "
              "reads format 1, so please open it with a newer version of the program.");
    EXPECT_EQ(fromJson(R"({"formatVersion": 99})").error().code, ErrorCode::TooNew);
    EXPECT_NE(errorOf(R"({"boards": []})").find("formatVersion"), std::string::npos);
    EXPECT_EQ(fromJson(R"({"formatVersion": 0})").error().code, ErrorCode::BadInput);
    EXPECT_EQ(fromJson(R"({"formatVersion": 1.5})").error().place, "/formatVersion");
    EXPECT_EQ(fromJson(R"({"formatVersion": "1"})").error().place, "/formatVersion");
    EXPECT_NE(errorOf("[]").find("The value is a list of 0; it must be a job"), std::string::npos);
}

TEST(JobFileTest, AShortJobGetsSensibleDefaults) {
    const Result<Document> read = fromJson(shortJob);
    ASSERT_TRUE(read) << describe(read.error());
    const Document& document = read.value();
    EXPECT_EQ(document.shop, inchShop());
    ASSERT_EQ(document.boards.size(), 1U);
    const Board& board = document.boards[0];
    EXPECT_EQ(board.outline,
              sample::rectangle({}, {}, Length::millimetres(2438) + Length::micrometres(400),
                                Length::inches(8)));
    EXPECT_EQ(board.thinnest, Length::inches(2));
    EXPECT_EQ(board.id, BoardId{101}); // above every id that was given
    EXPECT_TRUE(board.lookedAt.empty());
    EXPECT_EQ(document.parts[0].count, 1);
    EXPECT_EQ(document.nextId, 102);
    EXPECT_FALSE(document.plan);
}

TEST(JobFileTest, TheUnitsChooseThePresetShopAndAGivenShopChangesIt) {
    auto job = nlohmann::json::parse(shortJob);
    job["job"] = {{"units", "millimetres"}};
    job["shop"] = {{"name", "Invented shop"}, {"machines", {{"rip", {{"kerf", 2'500'000}}}}}};
    const Result<Document> read = fromJson(job.dump());
    ASSERT_TRUE(read) << describe(read.error());
    Shop expected = metricShop();
    expected.name = "Invented shop";
    expected.machines.rip.kerf = Length::micrometres(2'500);
    EXPECT_EQ(read.value().shop, expected);
}

TEST(JobFileTest, TheUnitsChooseWhatGlueUpBeginsWith) {
    auto job = nlohmann::json::parse(shortJob);
    job["job"] = {{"units", "millimetres"}};
    Document read = fromJson(job.dump()).value();
    EXPECT_EQ(read.glueUp.settings, glueSettingsFor(UnitSystem::Millimetres));
    EXPECT_EQ(toJson(read).find("glueUp"), std::string::npos); // it stands as it began
    job["glueUp"] = {{"settings", {{"leastPsi", 150}}}};
    read = fromJson(job.dump()).value();
    GlueSettings expected = glueSettingsFor(UnitSystem::Millimetres);
    expected.leastPsi = 150;
    EXPECT_EQ(read.glueUp.settings, expected);
    // One that was measured in inches keeps its figures in whatever unit they are shown.
    read.glueUp.settings = glueSettingsFor(UnitSystem::Inches);
    EXPECT_EQ(fromJson(toJson(read)).value(), read);
}

TEST(JobFileTest, ShorthandsForTaperLookedAtAndEllipse) {
    auto job = nlohmann::json::parse(shortJob);
    auto& board = job["boards"][0];
    board["size"]["widthAtFar"] = 190'500'000;
    board["lookedAt"] = "both faces";
    board["defects"] = {{{"mark", "K1"},
                         {"kind", "sound knot"},
                         {"onA",
                          {{"ellipse",
                            {{"centre", {1'000'000'000, 100'000'000}},
                             {"along", 30'000'000},
                             {"across", 20'000'000}}}}}}};
    const Result<Document> read = fromJson(job.dump());
    ASSERT_TRUE(read) << describe(read.error());
    const Board& got = read.value().boards[0];
    EXPECT_EQ(got.outline[2].y, Length::inches(15, 2));
    ASSERT_EQ(got.lookedAt.size(), 2U);
    EXPECT_EQ(got.lookedAt[1], (LookedAt{BoardFace::B, {Length(), Length::inches(96)}}));
    const FaceMark& mark = *got.defects[0].onA;
    ASSERT_TRUE(mark.form);
    EXPECT_EQ(mark.outline, ellipsePolygon(mark.form->centre, mark.form->along, mark.form->across));
}

TEST(JobFileTest, TextOfADocumentThatIsNotUtf8IsWrittenAllTheSame) {
    Document document = sample::sideTable();
    document.info.title = "a\xFF"
                          "b";
    EXPECT_NE(toJson(document).find("a\xEF\xBF\xBD"
                                    "b"),
              std::string::npos);
}

TEST(JobFileTest, ByContentAndNotByNameTheFileIsZipOrJson) {
    const TemporaryFolder folder;
    const Document document = sample::withSmallPlan();
    const std::string zip = folder.file("table.stavejob");
    const std::string json = folder.file("table.JSON");
    ASSERT_TRUE(writeJob(document, zip));
    ASSERT_TRUE(writeJob(document, json));
    EXPECT_EQ(contentOf(json), toJson(document));
    EXPECT_EQ(contentOf(zip).substr(0, 2), "PK");
    std::filesystem::rename(zip, folder.file("a.json"));
    std::filesystem::rename(json, folder.file("b.stavejob"));
    for (const char* name : {"a.json", "b.stavejob"}) {
        const Result<Document> read = readJob(folder.file(name));
        ASSERT_TRUE(read) << describe(read.error());
        EXPECT_EQ(read.value(), document);
    }
}

TEST(JobFileTest, AZipWrittenTwiceHasTheSameBytes) {
    const TemporaryFolder folder;
    ASSERT_TRUE(writeJob(sample::withSmallPlan(), folder.file("a.stavejob")));
    const Result<Document> read = readJob(folder.file("a.stavejob"));
    ASSERT_TRUE(read);
    ASSERT_TRUE(writeJob(read.value(), folder.file("b.stavejob")));
    EXPECT_EQ(contentOf(folder.file("a.stavejob")), contentOf(folder.file("b.stavejob")));
}

TEST(JobFileTest, FilesThatAreNoJobsAreRefusedByName) {
    const TemporaryFolder folder;
    writeTo(folder.file("empty.json"), "");
    writeTo(folder.file("letter.json"), "Dear maker");
    writeTo(folder.file("bad.json"), R"({"formatVersion": 1, "boards": {}, "parts": []})");
    const auto sentence = [&](const std::string& name) {
        const Result<Document> read = readJob(folder.file(name));
        return read ? "accepted" : describe(read.error());
    };
    EXPECT_EQ(sentence("empty.json"),
              folder.file("empty.json") + ": The file is empty; a job is wanted.");
    EXPECT_EQ(sentence("letter.json"),
              folder.file("letter.json") +
                  ": This is neither a zip nor a JSON object, so it is not a job.");
    EXPECT_EQ(sentence("bad.json"),
              folder.file("bad.json") + ": /boards: The value is an object; it must be a list.");
    EXPECT_EQ(readJob(folder.file("missing.json")).error().code, ErrorCode::CannotRead);
    EXPECT_NE(sentence("missing.json").find("No such file"), std::string::npos);
    EXPECT_EQ(readJob(folder.file("")).error().code, ErrorCode::CannotRead);
    EXPECT_NE(sentence("").find("it is a folder"), std::string::npos);
}

TEST(JobFileTest, OtherExtensionsAreNotWritten) {
    const TemporaryFolder folder;
    const Status status = writeJob(sample::sideTable(), folder.file("table.txt"));
    ASSERT_FALSE(status);
    EXPECT_EQ(status.error().code, ErrorCode::CannotWrite);
    EXPECT_TRUE(folder.content().empty());
}

// A file that a hand or another program spoiled is read or refused, and never brings the program
// down.
RC_GTEST_PROP(JobFileTest, ASpoiledTextIsReadOrRefusedInOneSentence, ()) {
    static const std::string good = toJson(sample::withSmallPlan());
    std::string text = good;
    const int changes = *rc::gen::inRange(1, 4);
    for (int i = 0; i < changes; ++i) {
        const std::size_t at = *rc::gen::inRange<std::size_t>(0, text.size());
        switch (*rc::gen::inRange(0, 4)) {
        case 0:
            text[at] = *rc::gen::arbitrary<char>();
            break;
        case 1:
            text.erase(at, *rc::gen::inRange<std::size_t>(1, 40));
            break;
        case 2:
            text.insert(at, *rc::gen::element<std::string>("-", "9", "0", "\"", "{", "]", ",",
                                                           "null", "1e9", "99999999999999"));
            break;
        default:
            text.resize(at + 1);
        }
    }
    const Result<Document> read = fromJson(text);
    if (read) {
        const Result<Document> again = fromJson(toJson(read.value()));
        RC_ASSERT(again.ok());
        RC_ASSERT(again.value() == read.value());
    } else {
        RC_ASSERT(!read.error().message.empty());
        RC_ASSERT(read.error().message.find('\n') == std::string::npos);
    }
}

} // namespace
} // namespace stavewright
