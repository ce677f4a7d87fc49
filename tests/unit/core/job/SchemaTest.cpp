// The schema that other programs write against agrees with what this program writes and refuses.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/job/JobFile.h"
#include "core/job/Words.h"
#include "tests/SourceFolder.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright {
namespace {

using nlohmann::json;

const std::string source = sourceFolder();
const std::string schemaPath = source + "/resources/schema/stavejob-1.schema.json";

/// Runs the checker on the files; 0 when all are as expected, 77 when python's jsonschema is
/// missing.
int check(const std::string& expectation, const std::string& files) {
    const std::string command = "python3 '" + source + "/tests/unit/core/job/check_schema.py' '" +
                                schemaPath + "' " + expectation + ' ' + files;
    return WEXITSTATUS(std::system(command.c_str()));
}

TEST(SchemaTest, AcceptsWhatIsWritten) {
    const testing::TemporaryFolder folder;
    Document full = sample::withSmallPlan();
    full.boards[1].parent = BoardParent{sample::thinBoard, {}, false};
    full.shop = metricShop();
    full.glueUp = sample::someGlueUp();
    ASSERT_TRUE(writeJob(sample::sideTable(), folder.file("a.json")));
    ASSERT_TRUE(writeJob(full, folder.file("b.json")));
    testing::writeTo(folder.file("short.json"), R"({
        "formatVersion": 1,
        "boards": [{"mark": "1", "species": "white_oak", "quarter": "8/4", "lookedAt": "both faces",
                    "size": {"length": 2438400000, "widthAtDatum": 203200000},
                    "defects": [{"mark": "K1", "kind": "pith", "onB": {"ellipse":
                        {"centre": [1000000, 1000000], "along": 5000000, "across": 4000000}}}]}],
        "parts": [{"id": 100, "mark": "R", "species": "white_oak", "length": 600000000,
                   "width": {"base": 60000000}, "thickness": 40000000}]})");
    ASSERT_TRUE(readJob(folder.file("short.json")));
    const int result = check("accepts", folder.file("a.json") + ' ' + folder.file("b.json") + ' ' +
                                            folder.file("short.json"));
    if (result == 77) {
        GTEST_SKIP() << "python3-jsonschema is not installed.";
    }
    EXPECT_EQ(result, 0);
}

TEST(SchemaTest, RefusesTheBadJobsThatASchemaCanSee) {
    // One name a line: bad jobs whose fault lies in syntax or between several places are not
    // listed.
    const std::string folder = source + "/tests/unit/core/job/bad/";
    std::istringstream names(testing::contentOf(folder + "seen-by-schema.list"));
    std::string files;
    for (std::string name; std::getline(names, name);) {
        files.append(" '").append(folder).append(name).append(".json'");
    }
    ASSERT_FALSE(files.empty());
    const int result = check("refuses", files);
    if (result == 77) {
        GTEST_SKIP() << "python3-jsonschema is not installed.";
    }
    EXPECT_EQ(result, 0);
}

/// All lists of words in the schema.
void collectWords(const json& node, std::vector<std::vector<std::string>>& lists) {
    if (node.is_object() && node.contains("enum") && node["enum"].is_array() &&
        node["enum"][0].is_string()) {
        lists.push_back(node["enum"].get<std::vector<std::string>>());
    }
    if (node.is_structured()) {
        for (const json& child : node) {
            collectWords(child, lists);
        }
    }
}

template <class Enum>
void expectWordsIn(const std::vector<std::vector<std::string>>& lists) {
    std::vector<std::string> words;
    for (const auto& pair : job::Words<Enum>::all) {
        words.emplace_back(pair.first);
    }
    EXPECT_NE(std::find(lists.begin(), lists.end(), words), lists.end())
        << "the schema does not list " << job::Words<Enum>::what << " from “" << words.front()
        << "”";
}

TEST(SchemaTest, ListsTheSameWordsAsTheProgram) {
    std::vector<std::vector<std::string>> lists;
    collectWords(json::parse(testing::contentOf(schemaPath)), lists);
    expectWordsIn<UnitSystem>(lists);
    expectWordsIn<DefectKind>(lists);
    expectWordsIn<BoardFace>(lists);
    expectWordsIn<Warp::Where>(lists);
    expectWordsIn<HeartSide>(lists);
    expectWordsIn<PlaningDirection>(lists);
    expectWordsIn<Sawn>(lists);
    expectWordsIn<Dimension>(lists);
    expectWordsIn<Anchored::From>(lists);
    expectWordsIn<ZoneFaces>(lists);
    expectWordsIn<ZoneRole>(lists);
    expectWordsIn<Verdict>(lists);
    expectWordsIn<JointKind>(lists);
    expectWordsIn<MatchGroup::Want>(lists);
    expectWordsIn<FlattenMethod>(lists);
    expectWordsIn<Stage>(lists);
    expectWordsIn<CutState>(lists);
    expectWordsIn<FirstFacing>(lists);
    expectWordsIn<Origin::Source>(lists);
}

/// The schema node with its reference followed and, of alternatives, the one that fits the value's
/// kind.
const json& resolved(const json& schema, const json& node, const json& value) {
    if (node.contains("$ref")) {
        const std::string reference = node["$ref"];
        return resolved(schema, schema.at(json::json_pointer(reference.substr(1))), value);
    }
    if (node.contains("anyOf") && !node.contains("properties")) {
        for (const json& choice : node["anyOf"]) {
            const json& one = resolved(schema, choice, value);
            if (one.contains("type") && one["type"] == value.type_name()) {
                return one;
            }
        }
    }
    return node;
}

/// Asks the reader, object by object, which keys it knows, and compares with the schema's.
void compareKeys(const json& schema, const json& node, const json& whole,
                 const json::json_pointer& at, int& compared) {
    const json& value = whole.at(at);
    if (value.is_array()) {
        for (std::size_t i = 0; i < value.size(); ++i) {
            const json& items = node.at("items");
            compareKeys(schema, resolved(schema, items, value[i]), whole, at / i, compared);
        }
        return;
    }
    if (!value.is_object()) {
        return;
    }
    json spoiled = whole;
    spoiled[at]["no such key"] = 1;
    const Result<Document> read = fromJson(spoiled.dump());
    ASSERT_FALSE(read) << at;
    EXPECT_EQ(read.error().place, at.to_string());
    const std::string& message = read.error().message;
    const std::size_t start = message.find("allowed are ") + 12;
    std::istringstream list(message.substr(start, message.size() - start - 1));
    std::set<std::string> known;
    for (std::string key; std::getline(list >> std::ws, key, ',');) {
        known.insert(key);
    }
    std::set<std::string> described;
    for (const auto& [key, property] : node.at("properties").items()) {
        described.insert(key);
        EXPECT_TRUE(property.contains("description") || property.contains("$ref")) << at << key;
    }
    EXPECT_EQ(known, described) << at;
    ++compared;
    for (const auto& [key, child] : value.items()) {
        compareKeys(schema, resolved(schema, node.at("properties").at(key), child), whole, at / key,
                    compared);
    }
}

TEST(SchemaTest, DescribesEveryKeyThatTheReaderKnowsAndNoOther) {
    Document full = sample::withSmallPlan();
    full.boards[1].parent = BoardParent{sample::thinBoard, {}, false};
    full.glueUp = sample::someGlueUp();
    LaidOut laid; // no file is written, so it needs no picture
    laid.panel = full.glueUp.panels[0].panel;
    laid.photo.id = full.takeId<PhotoId>();
    laid.photo.file = PhotoFile::named(std::string(64, 'a'));
    laid.photo.controls.width = laid.photo.controls.height = 100;
    laid.photo.size = {Length::inches(40), Length::inches(12), Length::inches(12)};
    laid.staves.resize(2);
    for (LaidStave& stave : laid.staves) {
        stave.board = full.boards[0].id;
        stave.net = {Length(), Length(), Length::inches(40), Length::inches(6)};
    }
    laid.joints = {Length::inches(6)};
    full.glueUp.laidOut = {laid};
    // the reader is asked again for every object, so long lists are cut short
    full.shop.ruleSets.resize(7);
    for (MillingChain* chain : {&full.shop.chains.oneBoard, &full.shop.chains.panel,
                                &full.shop.chains.stave, &full.shop.chains.block}) {
        chain->resize(1);
    }
    const json schema = json::parse(testing::contentOf(schemaPath));
    int compared = 0;
    compareKeys(schema, schema, json::parse(toJson(full)), json::json_pointer(), compared);
    EXPECT_GT(compared, 100);
}

} // namespace
} // namespace stavewright
