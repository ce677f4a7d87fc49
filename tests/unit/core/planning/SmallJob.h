#pragma once
// A job small enough to be worked out by hand: one kind of bar, boards without a flaw.

#include <gtest/gtest.h>

#include "core/document/Document.h"
#include "core/planning/Planner.h"
#include "core/shop/Presets.h"

namespace stavewright::small_job {

/// n/d inches.
[[nodiscard]] constexpr Length in(std::int64_t n, std::int64_t d = 1) {
    return Length::inches(n, d);
}

/// 96 x 8 in, flat, looked at on both faces.
[[nodiscard]] inline Board board(Document& job, std::string mark, Quarter quarter,
                                 Length thinnest) {
    Board made;
    made.id = job.takeId<BoardId>();
    made.mark = std::move(mark);
    made.species = "white_oak";
    made.quarter = quarter;
    made.thinnest = thinnest;
    made.outline = {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(8)}, {in(0), in(8)}};
    made.pricePerBoardFoot = Money::whole(9);
    made.lookedAt = {{BoardFace::A, {in(0), in(96)}}, {BoardFace::B, {in(0), in(96)}}};
    return made;
}

/// 26 in long, of which an inch at either end goes: as long as a blank of oneBar() needs.
[[nodiscard]] inline Board shortBoard(Document& job, std::string mark, Length width) {
    Board made = board(job, std::move(mark), Quarter{4}, in(1));
    made.outline = {{in(0), in(0)}, {in(26), in(0)}, {in(26), width}, {in(0), width}};
    made.lookedAt = {{BoardFace::A, {in(0), in(26)}}, {BoardFace::B, {in(0), in(26)}}};
    made.trimAtDatum = made.trimAtFar = in(1);
    return made;
}

/// One bar of 22 x 2 1/2 x 3/4 in: a blank of 24 x 2 3/4 in. No boards yet. Fractions to 1/32.
[[nodiscard]] inline Document oneBar() {
    Document job;
    job.shop = inchShop();
    job.info.inchDenominator = 32;
    job.nextId = presetRules::last + 1;
    Part bar;
    bar.id = job.takeId<PartId>();
    bar.mark = "X";
    bar.name = "Bar";
    bar.species = "white_oak";
    bar.length.base = in(22);
    bar.width.base = in(5, 2);
    bar.thickness.base = in(3, 4);
    job.parts = {bar};
    return job;
}

/// A round defect through the board.
[[nodiscard]] inline Defect defect(Document& job, DefectKind kind, Point centre, Length size) {
    Defect made;
    made.id = job.takeId<DefectId>();
    made.mark = "K" + std::to_string(made.id.value);
    made.kind = kind;
    made.through = true;
    made.onA = FaceMark{ellipsePolygon(centre, size, size), Ellipse{centre, size, size, 0}};
    return made;
}

[[nodiscard]] inline Plan planOf(const Document& job, std::uint64_t seed = 1,
                                 std::int64_t work = 20'000) {
    Result<PlanOutcome> outcome =
        planJob(job, {.seed = seed, .seconds = 0, .work = work, .threads = 2});
    EXPECT_TRUE(outcome.ok()) << (outcome.ok() ? "" : describe(outcome.error()));
    return outcome.ok() ? std::move(outcome.value().plan) : Plan{};
}

/// The reasons of all that found no place, one to a line.
[[nodiscard]] inline std::string reasons(const Plan& plan) {
    std::string text;
    for (const Unplaced& unplaced : plan.unplaced) {
        text += unplaced.nearestMiss + '\n';
    }
    return text;
}

} // namespace stavewright::small_job
