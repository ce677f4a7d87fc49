#include "core/job/JsonValue.h"

#include <gtest/gtest.h>

namespace stavewright::job {
namespace {

std::string errorOf(std::string_view text) {
    const Result<JsonValue> value = parseJson(text);
    return value ? "accepted" : describe(value.error());
}

TEST(JsonValueTest, ReadsEveryKindOfValue) {
    const Result<JsonValue> parsed =
        parseJson(R"({"b": [true, null, -3, 2.50, "text"], "a": {"deep": 18446744073709551615}})");
    ASSERT_TRUE(parsed);
    const JsonValue& root = parsed.value();
    ASSERT_EQ(root.kind, JsonValue::Kind::Object);
    const JsonValue* list = root.find("b");
    ASSERT_NE(list, nullptr);
    ASSERT_EQ(list->items.size(), 5U);
    EXPECT_TRUE(list->items[0].boolean);
    EXPECT_EQ(list->items[1].kind, JsonValue::Kind::Null);
    EXPECT_EQ(shown(list->items[2]), "-3");
    EXPECT_EQ(shown(list->items[3]), "2.50");
    EXPECT_EQ(shown(list->items[4]), "“text”");
    EXPECT_EQ(shown(*root.find("a")->find("deep")), "18446744073709551615");
    EXPECT_EQ(root.find("c"), nullptr);
    EXPECT_EQ(shown(*list), "a list of 5");
    EXPECT_EQ(shown(root), "an object");
}

TEST(JsonValueTest, MembersOfEqualDepthDoNotMixUp) {
    const Result<JsonValue> parsed = parseJson(R"([{"x": [1]}, {"x": [2, {"y": 3}]}, []])");
    ASSERT_TRUE(parsed);
    const JsonValue& second = parsed.value().items[1];
    EXPECT_EQ(shown(*second.find("x")->items[1].find("y")), "3");
    EXPECT_TRUE(parsed.value().items[2].items.empty());
}

TEST(JsonValueTest, SyntaxErrorsNameLineAndColumn) {
    EXPECT_EQ(errorOf("{\n  \"kerf\": NaN\n}"),
              "line 2, column 11: This is not JSON: “NaN” cannot stand here.");
    EXPECT_EQ(errorOf("{\"größe\": 1,\n}"),
              "line 2, column 1: This is not JSON: “}” cannot stand here.");
    EXPECT_EQ(errorOf("{\"a\": 1"), "line 1, column 8: This is not JSON: the text ends too early.");
    EXPECT_EQ(errorOf("{} {}"), "line 1, column 4: This is not JSON: “{” cannot stand here.");
    EXPECT_EQ(errorOf("[Infinity]"),
              "line 1, column 2: This is not JSON: “Infinity” cannot stand here.");
    EXPECT_NE(errorOf("{\"a\": \"cut"), "accepted");
    EXPECT_NE(errorOf("[01]"), "accepted");
    EXPECT_NE(errorOf("[1,]"), "accepted");
    EXPECT_NE(errorOf("['a']"), "accepted");
    EXPECT_NE(errorOf("[\"\\x\"]"), "accepted");
    EXPECT_NE(errorOf("{\"a\" 1}"), "accepted");
    EXPECT_NE(errorOf("// note\n{}"), "accepted");
}

TEST(JsonValueTest, NumbersBeyondAnyMachineAreRefused) {
    EXPECT_EQ(errorOf("{\"boards\": [1, 1e400]}"), "/boards: The number “1e400” is too large.");
}

TEST(JsonValueTest, IntegersBeyond64BitsStayAsTyped) {
    const Result<JsonValue> parsed = parseJson("[123456789012345678901234567890]");
    ASSERT_TRUE(parsed);
    EXPECT_EQ(parsed.value().items[0].kind, JsonValue::Kind::Decimal);
    EXPECT_EQ(shown(parsed.value().items[0]), "123456789012345678901234567890");
}

TEST(JsonValueTest, AKeyGivenTwiceIsRefusedWithItsPointer) {
    EXPECT_EQ(
        errorOf(R"({"boards": [{}, {"a/b": {"kerf": 1, "x": 2, "kerf": 3}}]})"),
        "/boards/1/a~1b/kerf: The key “kerf” is given twice in one object; each key may stand "
        "there once.");
    EXPECT_EQ(errorOf(R"([{"a": 1}, {"a": 1}])"), "accepted");
}

TEST(JsonValueTest, DepthIsLimited) {
    const auto nested = [](std::size_t depth) {
        return std::string(depth, '[') + std::string(depth, ']');
    };
    EXPECT_EQ(errorOf(nested(deepestJson)), "accepted");
    const std::string error = errorOf(nested(deepestJson + 1));
    EXPECT_NE(error.find("nested too deep; at most 64 levels"), std::string::npos) << error;
    EXPECT_NE(errorOf(std::string(1'000'000, '[')), "accepted");
    EXPECT_NE(errorOf(std::string(1'000'000, '{')), "accepted");
}

TEST(JsonValueTest, TextMustBeUtf8) {
    EXPECT_EQ(errorOf("{\n\"a\": \"\xC3\x28\"}"),
              "line 2, column 7: The text is not valid UTF-8 here.");
    for (const char* bad :
         {"\"\xFF\"", "\"\xC0\xAF\"" /* overlong */, "\"\xED\xA0\x80\"" /* surrogate */,
          "\"\xF5\x80\x80\x80\"", "\"\xE2\x82\"" /* cut short */, "\"\x80\""}) {
        EXPECT_NE(errorOf(bad).find("not valid UTF-8"), std::string::npos) << bad;
    }
    EXPECT_EQ(errorOf("\"\xC3\xA9 \xE2\x82\xAC \xF0\x9F\xAA\xB5\""), "accepted");
}

TEST(JsonValueTest, AnEmptyTextAndTooMuchTextAreRefused) {
    EXPECT_NE(errorOf("").find("is empty"), std::string::npos);
    EXPECT_NE(errorOf(" \n\t").find("is empty"), std::string::npos);
    EXPECT_NE(errorOf(std::string(mostJsonBytes + 1, ' ')).find("at most 224 MiB"),
              std::string::npos);
}

TEST(JsonValueTest, PointersEscapeSlashAndTilde) {
    EXPECT_EQ(pointerTo("/a", "b/c~d"), "/a/b~1c~0d");
}

} // namespace
} // namespace stavewright::job
