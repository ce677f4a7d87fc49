#include "core/units/Glyph.h"

#include <gtest/gtest.h>

namespace stavewright::reading {
namespace {

TEST(Glyph, DecodesWhatItEncodes) {
    for (const char32_t character : {U'7', U'½', U'″', U'\uFFFD', U'\U0001F332'}) {
        std::string text;
        appendUtf8(text, character);
        EXPECT_EQ(decodeUtf8(text), std::vector<char32_t>{character});
    }
}

TEST(Glyph, BrokenBytesBecomeReplacements) {
    // lone continuation, overlong slash, surrogate, beyond Unicode, cut short
    EXPECT_EQ(decodeUtf8("\x80"), std::vector<char32_t>{U'\uFFFD'});
    EXPECT_EQ(decodeUtf8("\xC0\xAF"), (std::vector<char32_t>{U'\uFFFD', U'\uFFFD'}));
    EXPECT_EQ(decodeUtf8("\xED\xA0\x80").front(), U'\uFFFD');
    EXPECT_EQ(decodeUtf8("\xF7\xBF\xBF\xBF").front(), U'\uFFFD');
    EXPECT_EQ(decodeUtf8("1\xE2\x80"), (std::vector<char32_t>{U'1', U'\uFFFD', U'\uFFFD'}));
}

TEST(Glyph, QuotesAreFitForAMessage) {
    EXPECT_EQ(inQuotes("27 1/2"), "“27 1/2”");
    EXPECT_EQ(inQuotes("a\nb\x01"), "“a b ”");
    EXPECT_EQ(inQuotes("\xFF"), "“\uFFFD”");
    const std::string longText(1000, 'x');
    EXPECT_EQ(inQuotes(longText), "“" + std::string(60, 'x') + "…”");
}

TEST(Glyph, KnowsTheBlanksOfKeyboardsAndSpreadsheets) {
    for (const char32_t blank : {U' ', U'\t', U'\u00A0', U'\u2009', U'\u202F'}) {
        EXPECT_TRUE(isBlank(blank));
    }
    EXPECT_FALSE(isBlank(U'0'));
    EXPECT_TRUE(isMinus(U'−') && isMinus(U'-') && isMinus(U'–'));
}

} // namespace
} // namespace stavewright::reading
