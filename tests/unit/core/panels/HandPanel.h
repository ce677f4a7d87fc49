#pragma once
// A panel whose plan was laid by hand: four staves from one board of 96 x 24 in, one above the
// other, so that every figure can be worked out on paper.

#include "core/document/Document.h"
#include "core/panels/Panels.h"
#include "core/planning/Planner.h"
#include "core/shop/Presets.h"

namespace stavewright::hand_panel {

inline Length in(std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); }

inline constexpr PartId topPart{30};

/// Top T, 40 x 12 x 3/4 in, of staves 2 to 6 in wide.
inline Document job() {
    Document job;
    job.shop = inchShop();
    Board board;
    board.id = BoardId{20};
    board.mark = "1";
    board.species = "red_oak";
    board.quarter = Quarter{4};
    board.thinnest = in(1);
    board.outline = {{in(0), in(0)}, {in(96), in(0)}, {in(96), in(24)}, {in(0), in(24)}};
    board.heart = HeartSide::FaceA;
    board.planing = PlaningDirection::TowardsFarEnd;
    board.moistureTenths = 80;
    board.lookedAt = {{BoardFace::A, {in(0), in(96)}}, {BoardFace::B, {in(0), in(96)}}};
    board.sawn = {{Sawn::Plain, {in(0), in(0), in(96), in(24)}}};
    job.boards = {board};
    Part top;
    top.id = topPart;
    top.mark = "T";
    top.name = "Top";
    top.species = "red_oak";
    top.length.base = in(40);
    top.width.base = in(12);
    top.thickness.base = in(3, 4);
    top.leastThickness = in(1, 2);
    top.makeUp.panel = PanelMakeUp{in(2), in(6), 1, 12};
    job.parts = {top};
    job.nextId = 100;
    Plan plan;
    Section section;
    section.id = SectionId{40};
    section.along = {in(2), in(44)};
    section.frame.origin = {in(2), in(0)};
    for (int i = 0; i < 4; ++i) {
        Strip strip;
        strip.id = StripId{50 + i};
        strip.across = {in(4 * i), in(4 * i) + in(7, 2)};
        Blank blank;
        blank.id = BlankId{60 + i};
        blank.purpose = {topPart, 1, 0, i + 1};
        blank.rect = {in(0), strip.across.from, in(42), strip.across.to};
        strip.blanks = {blank};
        section.strips.push_back(strip);
    }
    plan.boards = {{board.id, {section}, false}};
    job.plan = plan;
    job.plan->totals = totalsOf(job, plan).value();
    return job;
}

/// A loose knot of 1 in through the board; the middle of stave `number`'s blank is at y = 4
/// (number - 1) + 1 3/4.
inline void addKnot(Document& job, Length x, Length y) {
    Defect knot;
    knot.id = job.takeId<DefectId>();
    knot.mark = "K" + std::to_string(knot.id.value);
    knot.kind = DefectKind::LooseKnot;
    knot.through = true;
    knot.onA = FaceMark{ellipsePolygon({x, y}, in(1), in(1)), Ellipse{{x, y}, in(1), in(1), 0}};
    job.boards[0].defects.push_back(knot);
}

/// Two tops of two staves each, one from either of two boards; the staves of the second board are
/// 1/8 in wider.
inline Document twoTops() {
    Document job = hand_panel::job();
    job.parts[0].count = 2;
    job.parts[0].width.base = in(23, 4);
    Board other = job.boards[0];
    other.id = BoardId{21};
    other.mark = "2";
    job.boards.push_back(other);
    BoardLayout layout = job.plan->boards[0];
    layout.board = other.id;
    layout.sections[0].id = SectionId{41};
    job.plan->boards[0].sections[0].strips.resize(2);
    layout.sections[0].strips.resize(2);
    for (int i = 0; i < 2; ++i) {
        Strip& strip = layout.sections[0].strips[static_cast<std::size_t>(i)];
        strip.id = StripId{80 + i};
        strip.across.to += in(1, 8);
        strip.blanks[0].id = BlankId{90 + i};
        strip.blanks[0].rect.y1 += in(1, 8);
        strip.blanks[0].purpose = {topPart, 2, 0, i + 1};
    }
    // One stave of each panel from each board, so that an exchange brings the boards together.
    std::swap(layout.sections[0].strips[0].blanks[0].purpose,
              job.plan->boards[0].sections[0].strips[1].blanks[0].purpose);
    job.plan->boards.push_back(layout);
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

/// Two legs of two plies: from one board of four blanks, all hearts up; with `mixed` each leg has
/// one ply of a second board.
inline Document legs(bool mixed) {
    Document job = hand_panel::job();
    job.parts[0].makeUp.panel.reset();
    job.parts[0].makeUp.lamination = LaminationMakeUp{2};
    job.parts[0].count = 2;
    job.parts[0].width.base = in(3);
    Board other = job.boards[0];
    other.id = BoardId{21};
    other.mark = "2";
    job.boards.push_back(other);
    BoardLayout layout = job.plan->boards[0];
    layout.board = other.id;
    layout.sections[0].id = SectionId{41};
    job.plan->boards[0].sections[0].strips.resize(2);
    layout.sections[0].strips.resize(2);
    for (int i = 0; i < 2; ++i) {
        Strip& strip = layout.sections[0].strips[static_cast<std::size_t>(i)];
        strip.id = StripId{80 + i};
        strip.blanks[0].id = BlankId{90 + i};
        strip.blanks[0].purpose = {topPart, 2, i + 1, 0};
        job.plan->boards[0].sections[0].strips[static_cast<std::size_t>(i)].blanks[0].purpose = {
            topPart, 1, i + 1, 0};
    }
    if (mixed) {
        std::swap(layout.sections[0].strips[0].blanks[0].purpose,
                  job.plan->boards[0].sections[0].strips[0].blanks[0].purpose);
    }
    job.plan->boards.push_back(layout);
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

inline panels::Panel only(const Document& job) { return panels::panelsOf(job).value().at(0); }

} // namespace stavewright::hand_panel
