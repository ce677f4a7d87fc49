#pragma once
// Boards for the rack, and a rack in a folder of its own.

#include <gtest/gtest.h>

#include "core/rack/Rack.h"
#include "tests/unit/core/document/SampleDocument.h"
#include "tests/unit/core/job/TemporaryFolder.h"

namespace stavewright::rack_wood {

inline constexpr std::int64_t aDay = 1'772'000'000; // 2026-02-25

inline Board board(const std::string& mark, Length length, Length width,
                   const std::string& species = "white_oak", int quarter = 4) {
    Board made;
    made.mark = mark;
    made.species = species;
    made.quarter = Quarter{quarter};
    made.thinnest = made.quarter.nominal();
    made.outline = sample::rectangle({}, {}, length, width);
    return made;
}

inline rack::Rack opened(const testing::TemporaryFolder& folder) {
    Result<rack::Rack> rack = rack::Rack::open(folder.file("shop.staverack"));
    EXPECT_TRUE(rack) << describe(rack.error());
    return std::move(rack).value();
}

/// Numbers of what is found, in its order.
inline std::vector<std::int64_t> numbers(rack::Rack& rack, const rack::Search& search = {}) {
    const Result<std::vector<rack::Piece>> found = rack.find(search);
    EXPECT_TRUE(found) << describe(found.error());
    std::vector<std::int64_t> result;
    for (const rack::Piece& piece : found.value()) {
        result.push_back(piece.number);
    }
    return result;
}

} // namespace stavewright::rack_wood
