#pragma once
// A small but complete and valid job for tests: an invented side table with two boards that carry
// defects, an edge-glued top, laminated legs, rails milled one by one, a joint, a match group and a
// log. It has no plan; withSmallPlan() adds a hand-made one that names real boards and parts (its
// geometry is roughly right, its totals are not computed).

#include "core/document/Document.h"
#include "core/shop/Presets.h"

namespace stavewright::sample {

// Ids start above those of the preset's rule sets.
inline constexpr BoardId thinBoard{20};
inline constexpr BoardId thickBoard{21};
inline constexpr PartId top{30};
inline constexpr PartId leg{31};
inline constexpr PartId rail{32};

inline Polygon rectangle(Length x0, Length y0, Length x1, Length y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline Defect defect(std::int64_t id, std::string mark, DefectKind kind, const Polygon& outline) {
    Defect made;
    made.id = DefectId{id};
    made.mark = std::move(mark);
    made.kind = kind;
    made.onA = FaceMark{outline, std::nullopt};
    return made;
}

/// "1": 8 ft of tapered 4/4 with a sound knot through it, an elliptic loose knot and an end check.
inline Board makeThinBoard() {
    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Board board;
    board.id = thinBoard;
    board.mark = "1";
    board.species = "white_oak";
    board.quarter = Quarter{4};
    board.thinnest = in(31, 32);
    board.outline = {{in(0), in(0)}, {in(96), in(1, 4)}, {in(96), in(8)}, {in(0), in(17, 2)}};
    board.warp = {in(1, 4), in(1, 8), in(1, 8), Warp::Where::Even};
    board.heart = HeartSide::FaceB;
    board.planing = PlaningDirection::TowardsFarEnd;
    board.pricePerBoardFoot = Money::cents(850);
    board.billed = BoardFeet::millionths(5'500'000);
    board.moistureTenths = 75;
    board.trimAtDatum = in(2);
    board.trimAtFar = in(1);
    board.lookedAt = {{BoardFace::A, {in(0), in(96)}},
                      {BoardFace::B, {in(0), in(60)}},
                      {BoardFace::B, {in(60), in(80)}, in(1, 2)}};
    board.sawn = {{Sawn::Quartered, {in(0), in(0), in(40), in(3)}},
                  {Sawn::Rift, {in(40), in(0), in(96), in(17, 2)}}};

    Defect knot = defect(22, "K1", DefectKind::SoundKnot, rectangle(in(30), in(3), in(31), in(4)));
    knot.onB = FaceMark{rectangle(in(30), in(7, 2), in(31), in(9, 2)), std::nullopt};
    knot.through = true;
    Defect loose =
        defect(23, "K2", DefectKind::LooseKnot,
               {{in(59), in(5)}, {in(60), in(9, 2)}, {in(61), in(5)}, {in(60), in(11, 2)}});
    loose.onA->form = Ellipse{{in(60), in(5)}, in(2), in(1), 0};
    loose.depth = in(1, 2);
    Defect check =
        defect(24, "C1", DefectKind::Check, rectangle(in(0), in(4), in(3, 2), in(33, 8)));
    check.through = true;
    check.note = "opens towards the end";
    board.defects = {knot, loose, check};
    return board;
}

/// "2": 7 ft of straight 8/4 with wane along an edge and a stain on face B.
inline Board makeThickBoard() {
    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Board board;
    board.id = thickBoard;
    board.mark = "2";
    board.species = "white_oak";
    board.quarter = Quarter{8};
    board.thinnest = in(63, 32);
    board.outline = rectangle(in(0), in(0), in(84), in(10));
    board.pricePerBoardFoot = Money::cents(1125);
    board.lookedAt = {{BoardFace::A, {in(0), in(84)}}, {BoardFace::B, {in(0), in(84)}}};
    board.notes = "from the invented yard on the hill";
    Defect wane =
        defect(25, "W1", DefectKind::Wane,
               {{in(50), in(19, 2)}, {in(70), in(9)}, {in(84), in(10)}, {in(50), in(10)}});
    Defect stain = defect(26, "S1", DefectKind::Stain, rectangle(in(10), in(2), in(14), in(5)));
    stain.onB = std::exchange(stain.onA, std::nullopt);
    board.defects = {wane, stain};
    return board;
}

inline Zone wholeFace(std::int64_t id, std::string name, ZoneRole role, ZoneFaces faces,
                      RuleSetId rules) {
    Zone zone;
    zone.id = ZoneId{id};
    zone.name = std::move(name);
    zone.role = role;
    zone.area.faces = faces;
    zone.rules = rules;
    return zone;
}

inline std::vector<Part> makeParts() {
    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Part panel;
    panel.id = top;
    panel.mark = "T";
    panel.name = "Top";
    panel.group = "Top";
    panel.species = "white_oak";
    panel.length = {in(24), {}};
    panel.width = {in(12), {}};
    panel.thickness = {in(3, 4), {}};
    panel.leastThickness = in(11, 16);
    panel.makeUp.panel = PanelMakeUp{in(2), in(6), 2, 6};
    panel.zones = {
        wholeFace(33, "top face", ZoneRole::ShowFace, ZoneFaces::A, presetRules::showFaceFilled),
        wholeFace(34, "underside", ZoneRole::HiddenFace, ZoneFaces::B, presetRules::hiddenFace)};

    Part post;
    post.id = leg;
    post.mark = "L";
    post.name = "Leg";
    post.group = "Base";
    post.species = "white_oak";
    post.count = 2;
    // as high as the table, less its top
    post.length = {in(18), {{-1, top, Dimension::Thickness}}};
    post.width = {in(2), {}};
    post.thickness = {in(11, 4), {}};
    post.makeUp.lamination = LaminationMakeUp{2};
    post.zones = {
        wholeFace(35, "all round", ZoneRole::ShowFace, ZoneFaces::Both, presetRules::showFace)};

    Part bar;
    bar.id = rail;
    bar.mark = "R";
    bar.name = "Rail";
    bar.group = "Base";
    bar.species = "white_oak";
    bar.count = 4;
    bar.length = {in(10), {}};
    bar.width = {in(5, 2), {}};
    bar.thickness = {in(3, 4), {}};
    bar.perBlank = 2;
    bar.notes = "outside face to the front";
    return {panel, post, bar};
}

inline ZoneArea endOf(Anchored::From end, Length reach) {
    ZoneArea area;
    if (end == Anchored::From::Low) {
        area.along.to = {Anchored::From::Low, reach};
    } else {
        area.along.from = {Anchored::From::High, -reach};
    }
    return area;
}

inline Document sideTable() {
    Document document;
    document.info.title = "Side table";
    document.info.client = "Invented client";
    document.info.notes = "An invented job for tests.";
    document.shop = inchShop();
    document.boards = {makeThinBoard(), makeThickBoard()};
    document.parts = makeParts();
    Joint joint;
    joint.id = JointId{40};
    joint.name = "rail to leg";
    joint.kind = JointKind::MortiseAndTenon;
    joint.sides = {{rail, endOf(Anchored::From::High, Length::inches(3, 2))},
                   {leg, endOf(Anchored::From::High, Length::inches(4))}};
    joint.rules = presetRules::joint;
    document.joints = {joint};
    document.groups = {
        {GroupId{41}, "Base in one look", MatchGroup::Want::Neighbours, {leg, rail}}};
    document.log = {{1'750'000'000, "Measured the boards", "new delivery"}};
    document.nextId = 60;
    return document;
}

/// The same with a plan: one rail and a stave from board 1, one offcut, the rest unplaced.
inline Document withSmallPlan() {
    const auto in = [](std::int64_t n, std::int64_t d = 1) { return Length::inches(n, d); };
    Document document = sideTable();
    Blank railBlank;
    railBlank.id = BlankId{53};
    railBlank.purpose = {rail, 1, 0, 0};
    railBlank.rect = {in(0), in(0), in(22), in(3)};
    railBlank.pose = {true, false};
    railBlank.locked = true;
    Blank stave;
    stave.id = BlankId{54};
    stave.purpose = {top, 1, 0, 1};
    stave.rect = {in(0), in(25, 8), in(26), in(57, 8)};
    stave.state = CutState::Cut;
    stave.actual = Rect{in(0), in(25, 8), in(207, 8), in(57, 8)};
    stave.note = "came out a little short";
    Section section;
    section.id = SectionId{50};
    section.along = {in(2), in(29)};
    section.frame = {{in(2), in(1, 4)}, in(27), in(1, 16)};
    section.strips = {Strip{StripId{51}, {in(0), in(3)}, {railBlank}, {}},
                      Strip{StripId{52}, {in(25, 8), in(57, 8)}, {stave}, {}}};
    section.planedTo = in(7, 8);
    section.strips[1].milled = true;
    section.strips[1].planedTo = in(3, 4);
    section.offcuts = {{OffcutId{55}, {in(23), in(0), in(27), in(3)}, CutState::Planned}};
    Plan plan;
    plan.boards = {BoardLayout{thinBoard, {section}, false}};
    plan.thicknesses = {{top, in(11, 16)}};
    plan.unplaced = {{BlankPurpose{leg, 2, 1, 0}, "board 2 is taken"}};
    plan.totals.boardsUsed = 1;
    plan.totals.placed = 2;
    plan.totals.demanded = 12;
    plan.totals.fills = 1;
    plan.totals.lumberUsed = BoardFeet::millionths(5'500'000);
    plan.totals.cost = Money::cents(4675);
    plan.origin = {Origin::Source::Hand, 18'446'744'073'709'551'615U, 1234, "0.1.0", {}};
    document.plan = plan;
    return document;
}

/// The side table's top arranged by hand, with weights and settings other than those it begins
/// with.
inline GlueUp someGlueUp() {
    GlueUp glueUp;
    glueUp.settings.weights.hundredths[0] = 1250;
    glueUp.settings.moistureInUseTenths = 110;
    glueUp.settings.mostCup = Length::inches(1, 8);
    PanelArrangement panel;
    panel.panel = {top, 1, 0};
    panel.rings = RingWish::HeartUp;
    panel.noCentreSeam = true;
    panel.matches = PanelName{top, 2, 0};
    panel.staves = {{2, true, thinBoard, Length::inches(30), Length::inches(4), {true, false}},
                    {1, false, thinBoard, Length::inches(2), Length::inches(3), {false, true}}};
    glueUp.panels = {panel};
    return glueUp;
}

} // namespace stavewright::sample
