#pragma once
// A small hand-made job with a hand-made plan, small enough to be checked with a pencil: an
// invented washstand from two oak boards. Everything the papers read is here, so that tests of the
// papers stand on their own. The second board is tapered, rough-ripped and half looked at.
//
// Board 1, 96 x 8 1/2, 8/4, crosscut kerf 1/8:
//   cut 1 1/2 (blade left) | 1a 30 | cut 31 1/2 shared | 1b 31 5/8 to 61 5/8 | waste round K2 | 1c
//   66 to 90

#include "core/audit/Audit.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::papers::sample {

inline constexpr BoardId straightBoard{1};
inline constexpr BoardId taperedBoard{2};
inline constexpr PartId leg{10};
inline constexpr PartId cleat{11};
inline constexpr PartId shelf{12};
inline constexpr PartId rail{13};

constexpr Length in(std::int64_t whole, std::int64_t numerator = 0, std::int64_t denominator = 1) {
    return Length::inches(whole) + Length::inches(numerator, denominator);
}

inline Polygon box(Length x0, Length y0, Length x1, Length y1) {
    return polygonOf(Rect{x0, y0, x1, y1});
}

inline Defect knot(std::int64_t id, std::string mark, DefectKind kind, Point centre, Length along,
                   Length across) {
    Defect defect;
    defect.id = DefectId{id};
    defect.mark = std::move(mark);
    defect.kind = kind;
    defect.onA = FaceMark{ellipsePolygon(centre, along, across), std::nullopt};
    return defect;
}

inline Board makeStraightBoard() {
    Board board;
    board.id = straightBoard;
    board.mark = "1";
    board.species = "white_oak";
    board.quarter = Quarter{8};
    board.thinnest = in(1, 15, 16);
    board.outline = {{in(0), in(0)},        {in(40), in(0, 1, 8)}, {in(96), in(0)},
                     {in(96), in(8, 1, 2)}, {in(50), in(8, 3, 8)}, {in(0), in(8, 1, 2)}};
    board.planing = PlaningDirection::TowardsFarEnd;
    board.warp.twist = in(0, 1, 4);
    board.pricePerBoardFoot = Money::cents(1150);
    board.lookedAt = {{BoardFace::A, {in(0), in(96)}}, {BoardFace::B, {in(0), in(96)}}};
    Defect through =
        knot(22, "K2", DefectKind::KnotHole, {in(63, 3, 4), in(4)}, in(2), in(1, 1, 2));
    through.onB = FaceMark{ellipsePolygon({in(64, 1, 4), in(4, 1, 2)}, in(1, 1, 2), in(1)), {}};
    through.through = true;
    Defect below = knot(23, "K3", DefectKind::SoundKnot, {in(20), in(5)}, in(1), in(0, 3, 4));
    below.onB = std::exchange(below.onA, std::nullopt);
    Defect check;
    check.id = DefectId{24};
    check.mark = "C1";
    check.kind = DefectKind::Check;
    check.onA = FaceMark{box(in(0), in(4), in(1), in(4, 1, 8)), std::nullopt};
    check.through = true;
    board.defects = {knot(21, "K1", DefectKind::LooseKnot, {in(40), in(5)}, in(1, 1, 4), in(1)),
                     through, below, check};
    return board;
}

/// 8 3/4 wide at the datum end, 6 3/4 at the far end: the near edge climbs 1 in 48.
inline Board makeTaperedBoard() {
    Board board;
    board.id = taperedBoard;
    board.mark = "2";
    board.species = "white_oak";
    board.quarter = Quarter{4};
    board.thinnest = in(1);
    board.outline = {
        {in(0), in(0)}, {in(72), in(1, 1, 2)}, {in(72), in(8, 1, 4)}, {in(0), in(8, 3, 4)}};
    board.warp.cup = in(0, 1, 8);
    board.pricePerBoardFoot = Money::cents(850);
    board.lookedAt = {{BoardFace::A, {in(0), in(72)}}, {BoardFace::B, {in(0), in(40)}}};
    board.defects = {knot(25, "K1", DefectKind::SoundKnot, {in(30), in(4)}, in(1), in(0, 7, 8)),
                     knot(26, "P1", DefectKind::BarkPocket, {in(60), in(6)}, in(3), in(0, 1, 2))};
    return board;
}

inline Part makePart(PartId id, std::string mark, std::string name, int count, Length length,
                     Length width, Length thickness) {
    Part part;
    part.id = id;
    part.mark = std::move(mark);
    part.name = std::move(name);
    part.species = "white_oak";
    part.count = count;
    part.length.base = length;
    part.width.base = width;
    part.thickness.base = thickness;
    return part;
}

inline std::vector<Part> makeParts() {
    Part legs = makePart(leg, "L", "Leg", 2, in(28), in(2, 3, 4), in(2, 3, 4));
    legs.makeUp.lamination = LaminationMakeUp{2};
    const Part cleats =
        makePart(cleat, "C", "Drawer cleat with a long name", 2, in(12), in(1), in(1));
    Part shelves = makePart(shelf, "S", "Shelf", 1, in(22), in(7), in(1, 1, 2));
    shelves.leastThickness = in(1, 3, 8);
    shelves.makeUp.panel = PanelMakeUp{in(2), in(6), 2, 6};
    const Part rails = makePart(rail, "R", "Rail", 3, in(26), in(3), in(0, 3, 4));
    return {legs, cleats, shelves, rails};
}

inline Blank blank(std::int64_t id, BlankPurpose purpose, const Rect& rect, Pose pose = {}) {
    Blank made;
    made.id = BlankId{id};
    made.purpose = purpose;
    made.rect = rect;
    made.pose = pose;
    return made;
}

inline BoardLayout layOutStraightBoard() {
    BoardLayout layout;
    layout.board = straightBoard;
    Section a;
    a.id = SectionId{40};
    a.along = {in(1, 1, 2), in(31, 1, 2)};
    a.frame.origin = {in(1, 1, 2), in(0, 1, 8)};
    a.strips = {
        {StripId{41},
         {in(0), in(3, 1, 4)},
         {blank(50, {leg, 1, 1, 0}, {in(0), in(0), in(30), in(3, 1, 4)})},
         {}},
        {StripId{42},
         {in(3, 3, 8), in(6, 5, 8)},
         {blank(51, {leg, 1, 2, 0}, {in(0), in(3, 3, 8), in(30), in(6, 5, 8)}, {true, true})},
         {}}};
    Section b;
    b.id = SectionId{43};
    b.along = {in(31, 5, 8), in(61, 5, 8)};
    b.frame.origin = {in(31, 5, 8), in(0, 1, 8)};
    b.strips = {{StripId{44},
                 {in(0), in(3, 1, 4)},
                 {blank(52, {leg, 2, 1, 0}, {in(0), in(0), in(30), in(3, 1, 4)})},
                 {}},
                {StripId{45},
                 {in(4), in(7, 1, 4)},
                 {blank(53, {leg, 2, 2, 0}, {in(0), in(4), in(30), in(7, 1, 4)}, {false, true})},
                 {}}};
    Section c;
    c.id = SectionId{46};
    c.along = {in(66), in(90)};
    c.frame.origin = {in(66), in(0, 1, 8)};
    c.strips = {{StripId{47},
                 {in(0), in(3, 7, 8)},
                 {blank(54, {shelf, 1, 0, 1}, {in(0), in(0), in(24), in(3, 7, 8)})},
                 {}},
                {StripId{48},
                 {in(4), in(7, 1, 2)},
                 {blank(55, {shelf, 1, 0, 2}, {in(0), in(4), in(24), in(7, 1, 2)}, {true, false})},
                 {}}};
    layout.sections = {a, b, c};
    return layout;
}

inline BoardLayout layOutTaperedBoard() {
    BoardLayout layout;
    layout.board = taperedBoard;
    Section a;
    a.id = SectionId{60};
    a.along = {in(1), in(58)};
    a.frame = {{in(1), in(0, 1, 4)}, Length::nanometres(48), Length::nanometres(1)};
    a.facing = FirstFacing::RoughRippedFirst;
    a.strips = {
        {StripId{61},
         {in(0), in(3, 1, 2)},
         {blank(70, {rail, 1, 0, 0}, {in(0, 1, 4), in(0), in(28, 1, 4), in(3, 1, 4)}),
          blank(71, {rail, 2, 0, 0}, {in(28, 3, 8), in(0), in(56, 3, 8), in(3, 1, 4)},
                {true, false})},
         {}},
        {StripId{62},
         {in(3, 9, 16), in(5, 1, 16)},
         {blank(72, {cleat, 1, 0, 0}, {in(0, 1, 2), in(3, 9, 16), in(14, 1, 2), in(5, 1, 16)}),
          blank(73, {cleat, 2, 0, 0}, {in(14, 5, 8), in(3, 9, 16), in(28, 5, 8), in(5, 1, 16)})},
         {Offcut{OffcutId{74}, {in(34), in(3, 9, 16), in(56), in(5, 1, 16)}, CutState::Planned}}}};
    layout.sections = {a};
    return layout;
}

inline Machines makeMachines() {
    Machines machines;
    machines.crosscut = {"mitre saw", in(0, 1, 8), in(3, 1, 2), in(12)};
    machines.rip = {"table saw", in(0, 1, 8), in(3, 1, 8), {}};
    machines.stripCrosscut = {"mitre saw", in(0, 1, 8), in(3, 1, 2), in(12)};
    machines.roughRip = {"band saw", in(0, 1, 16), in(6), {}};
    machines.jointerWidth = in(8);
    machines.jointerLeastLength = in(12);
    machines.planerWidth = in(13);
    machines.planerLeastLength = in(12);
    machines.longestBoard = in(120);
    machines.narrowestRip = in(0, 3, 4);
    machines.cautionRip = in(2);
    return machines;
}

inline Document makeJob() {
    Document document;
    document.info.title = "Washstand in white oak";
    document.info.client = "the Fernlea house";
    document.shop.machines = makeMachines();
    document.boards = {makeStraightBoard(), makeTaperedBoard()};
    document.parts = makeParts();
    Plan plan;
    plan.boards = {layOutStraightBoard(), layOutTaperedBoard()};
    plan.thicknesses = {{shelf, in(1, 3, 8)}};
    plan.unplaced = {
        {{rail, 3, 0, 0},
         "nearest miss on board 2 from 60 1/4: bark pocket P1 lies in its show face; it would "
         "fit if the rail were 24 1/2 long."}};
    plan.totals.boardsUsed = 2;
    plan.totals.placed = 10;
    plan.totals.demanded = 11;
    plan.totals.fills = 1;
    plan.totals.lumberUsed = BoardFeet::millionths(15'200'000);
    plan.totals.blanks = BoardFeet::millionths(9'170'000);
    plan.totals.parts = BoardFeet::millionths(5'830'000);
    plan.totals.offcutsKept = BoardFeet::millionths(230'000);
    plan.totals.cost = Money::cents(16'412);
    document.plan = plan;
    document.nextId = 100;
    return document;
}

/// One dimension's sum from the finished size up.
inline void addSum(std::vector<SumLine>& sums, Dimension dimension, Length finished, Length extra,
                   const std::string& why) {
    sums.push_back({dimension, finished, finished, "finished"});
    sums.push_back({dimension, extra, finished + extra, why});
}

inline BlankSpec fixedSpec(PartId part, int ply, int count, Length length, Length width,
                           Length thickness, Length extraWidth = in(0, 1, 2)) {
    BlankSpec spec;
    spec.part = part;
    spec.ply = ply;
    spec.count = count;
    spec.length = length;
    spec.width = width;
    spec.thicknessWanted = spec.thicknessLeast = thickness;
    addSum(spec.sums, Dimension::Length, length - in(2), in(2), "snipe, 1 in an end");
    addSum(spec.sums, Dimension::Width, width - extraWidth, extraWidth, "joint and rip to width");
    addSum(spec.sums, Dimension::Thickness, thickness - in(0, 1, 16), in(0, 1, 16), "sand");
    return spec;
}

inline std::vector<BlankSpec> makeSpecs() {
    BlankSpec pool = fixedSpec(shelf, 0, 1, in(24), in(2, 1, 8), in(1, 9, 16));
    pool.thicknessLeast = in(1, 7, 16);
    pool.staves =
        StavePool{in(2, 1, 8), in(6, 1, 8), in(0, 1, 16), in(0, 1, 8), in(7), in(7, 1, 4), 2, 6};
    return {fixedSpec(leg, 1, 2, in(30), in(3, 1, 4), in(1, 1, 2)),
            fixedSpec(leg, 2, 2, in(30), in(3, 1, 4), in(1, 1, 2)),
            fixedSpec(cleat, 0, 2, in(14), in(1, 1, 2), in(1, 1, 16)), pool,
            fixedSpec(rail, 0, 3, in(28), in(3, 1, 4), in(0, 13, 16), in(0, 1, 4))};
}

inline AuditReport makeReport(const Document& document) {
    AuditReport report;
    report.totals = document.plan->totals;
    Finding remark;
    remark.kind = FindingKind::NotLookedAt;
    remark.severity = Severity::Remark;
    remark.sentence =
        "Board 2, face B: R2 lies where nobody has looked; the plan is clean as far as seen.";
    remark.board = taperedBoard;
    report.findings = {remark};
    Fill fill;
    fill.board = straightBoard;
    fill.blank = BlankId{51};
    fill.defect = DefectId{23};
    fill.onFaceB = true;
    fill.at = {in(20), in(5)};
    fill.fromNearEdge = in(4, 15, 16); // the near edge stands 1/16 in there
    fill.size = in(1);
    report.fills = {fill};
    return report;
}

} // namespace stavewright::papers::sample
