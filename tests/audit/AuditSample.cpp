#include "AuditSample.h"

#include <algorithm>
#include <utility>

#include "core/shop/Presets.h"

namespace stavewright::audit_sample {

namespace {

constexpr DefectRule allowed{Verdict::Allowed, std::nullopt};
constexpr DefectRule allowedTo(Length largest) { return {Verdict::Allowed, largest}; }
constexpr DefectRule filled{Verdict::AllowedIfFilled, std::nullopt};
constexpr DefectRule filledTo(Length largest) { return {Verdict::AllowedIfFilled, largest}; }

RuleSet rules(RuleSetId id, std::string name, std::vector<std::pair<DefectKind, DefectRule>> allows,
              Halo halo = {}) {
    RuleSet set;
    set.id = id;
    set.name = std::move(name);
    for (const auto& [kind, rule] : allows) {
        set.rules[static_cast<std::size_t>(kind)] = rule;
    }
    set.halo = halo;
    return set;
}

Shop shop() {
    Shop s;
    s.name = "test shop";
    s.machines.crosscut = {"mitre saw", in(1, 8), in(4), in(12)};
    s.machines.rip = {"table saw", in(1, 8), in(3), Length()};
    s.machines.stripCrosscut = {"mitre saw", in(1, 8), in(4), in(12)};
    s.machines.roughRip = {"band saw", in(1, 16), in(6), Length()};
    s.machines.jointerWidth = in(8);
    s.machines.jointerLeastLength = in(12);
    s.machines.planerWidth = in(13);
    s.machines.planerLeastLength = in(12);
    s.machines.planerLeastThickness = in(1, 4);
    s.machines.longestBoard = in(120);
    s.machines.narrowestRip = in(3, 4);
    s.machines.cautionRip = in(2);
    s.chains.oneBoard = {{Stage::Sand, Length(), Length(), in(1, 32), "sanding"},
                         {Stage::TrimToLength, in(2), Length(), Length(), "snipe"},
                         {Stage::RipToWidth, Length(), in(1, 4), Length(), "rough edges"},
                         {Stage::PartMultiple, in(1, 8), Length(), Length(), "clean-up"}};
    s.chains.panel = {{Stage::TrimPanelSquare, in(1), in(1), Length(), "square ends and edges"},
                      {Stage::FlattenPanel, Length(), Length(), in(1, 16), "levelling"}};
    s.chains.stave = {{Stage::JointStaveEdges, Length(), in(1, 8), Length(), "two edges"},
                      {Stage::RoughCrosscut, in(1), Length(), Length(), "snipe"}};
    s.chains.block = {{Stage::PlaneSawnFaces, Length(), in(1, 8), in(1, 8), "clean-up"},
                      {Stage::TrimToLength, in(1), Length(), Length(), "square ends"}};
    s.chains.ply = {{Stage::JointFaceAndEdge, Length(), in(1, 4), Length(), "slip"},
                    {Stage::PlaneGlueFaces, Length(), Length(), in(1, 16), "flat glue face"},
                    {Stage::RoughCrosscut, in(1), Length(), Length(), "snipe"}};
    s.cleaning = in(1, 8);
    s.mostPlanedAway = in(1, 2);
    s.rawEnd = in(1);
    s.widthStep = in(1, 16);
    s.panelSlack = in(1, 4);
    s.offcuts = {in(16), in(2), in(3, 4), 30};
    s.prices = {Money::cents(200), Money::cents(50), Money::cents(75), Money::cents(100),
                Money::cents(1000)};
    const Halo halo{100, 50, in(1, 2), in(1, 4)};
    s.ruleSets = {rules(presetRules::showFace, "Show face",
                        {{DefectKind::SoundKnot, allowedTo(in(1, 2))},
                         {DefectKind::LooseKnot, filledTo(in(3, 4))},
                         {DefectKind::Stain, allowed}}),
                  rules(presetRules::hiddenFace, "Hidden face",
                        {{DefectKind::SoundKnot, allowed},
                         {DefectKind::LooseKnot, filledTo(in(3, 2))},
                         {DefectKind::Stain, allowed},
                         {DefectKind::Check, allowed}}),
                  rules(presetRules::joint, "Joint", {{DefectKind::Stain, allowed}}, halo),
                  rules(presetRules::gluedEdge, "Glued edge", {{DefectKind::Stain, allowed}}, halo),
                  rules(presetRules::glueFace, "Glue face",
                        {{DefectKind::SoundKnot, allowed}, {DefectKind::LooseKnot, filled}})};
    return s;
}

Board board(BoardId id, std::string mark, Quarter quarter, Length thinnest, Polygon outline,
            Money price) {
    Board b;
    b.id = id;
    b.mark = std::move(mark);
    b.species = "walnut";
    b.quarter = quarter;
    b.thinnest = thinnest;
    b.outline = std::move(outline);
    b.pricePerBoardFoot = price;
    Length far;
    for (const Point& corner : b.outline) {
        far = std::max(far, corner.x);
    }
    b.lookedAt = {{BoardFace::A, {Length(), far}}, {BoardFace::B, {Length(), far}}};
    return b;
}

std::vector<Board> boards() {
    Board seven = board(id::board7, "7", Quarter{4}, in(19, 16),
                        {{in(0), in(0)},
                         {in(96), in(0)},
                         {in(96), in(13, 2)},
                         {in(64), in(15, 2)},
                         {in(0), in(15, 2)}},
                        Money::whole(9));
    seven.warp.bow = in(1, 4);
    seven.defects = {
        roundDefect(DefectId{301}, "K1", DefectKind::SoundKnot, {in(10), in(2)}, in(3, 8)),
        roundDefect(DefectId{302}, "K2", DefectKind::LooseKnot, {in(50), in(2)}, in(5, 8)),
        roundDefect(DefectId{303}, "K3", DefectKind::KnotHole, {in(93), in(3)}, in(1))};
    Board eight = board(id::board8, "8", Quarter{4}, in(9, 8),
                        {{in(0), in(0)}, {in(60), in(3, 4)}, {in(60), in(23, 4)}, {in(0), in(5)}},
                        Money::whole(9));
    eight.warp.twist = in(1, 4);
    Board nine =
        board(id::board9, "9", Quarter{5}, in(11, 8),
              {{in(0), in(0)}, {in(50), in(0)}, {in(50), in(6)}, {in(0), in(6)}}, Money::whole(10));
    Board ten =
        board(id::board10, "10", Quarter{4}, in(1),
              {{in(0), in(0)}, {in(40), in(0)}, {in(40), in(6)}, {in(0), in(6)}}, Money::whole(9));
    ten.setAside = true;
    return {seven, eight, nine, ten};
}

Part part(PartId id, std::string mark, std::string name, int count, Length length, Length width,
          Length thickness) {
    Part p;
    p.id = id;
    p.mark = std::move(mark);
    p.name = std::move(name);
    p.species = "walnut";
    p.count = count;
    p.length.base = length;
    p.width.base = width;
    p.thickness.base = thickness;
    return p;
}

std::vector<Part> parts() {
    Part rail = part(id::rail, "R", "Long rail", 2, in(24), in(3), in(7, 8));
    rail.leastThickness = in(3, 4);
    Zone show{ZoneId{401}, "show side", ZoneRole::ShowFace, {}, presetRules::showFace};
    show.area.faces = ZoneFaces::A;
    Zone end{ZoneId{402}, "pocket end", ZoneRole::JoineryEnd, {}, presetRules::joint};
    end.area.along.to = {Anchored::From::Low, in(3)};
    rail.zones = {show, end};

    Part cleat = part(id::cleat, "C", "Cleat", 4, in(6), in(3, 2), in(7, 8));
    cleat.perBlank = 2;
    cleat.zones = {{ZoneId{403}, "body", ZoneRole::HiddenFace, {}, presetRules::hiddenFace}};

    Part top = part(id::top, "T", "Top", 1, in(30), in(12), in(7, 8));
    top.makeUp.panel = PanelMakeUp{in(2), in(6), 3, 5};

    Part leg = part(id::leg, "L", "Leg", 1, in(20), in(2), in(2));
    leg.makeUp.lamination = LaminationMakeUp{2};
    return {rail, cleat, top, leg};
}

Blank piece(std::int64_t blankId, BlankPurpose purpose, Rect rect) {
    Blank b;
    b.id = BlankId{blankId};
    b.purpose = purpose;
    b.rect = rect;
    return b;
}

Strip stripOf(std::int64_t stripId, Stretch across, Blank content) {
    Strip s;
    s.id = StripId{stripId};
    s.across = across;
    s.blanks = {std::move(content)};
    return s;
}

Section sectionOf(std::int64_t sectionId, Stretch along, Point origin, std::vector<Strip> strips) {
    Section s;
    s.id = SectionId{sectionId};
    s.along = along;
    s.frame.origin = origin;
    s.strips = std::move(strips);
    return s;
}

/// Two staves side by side, 32 in long and 3 3/8 in wide.
Section twoStaves(std::int64_t firstId, Length x0, int firstStave) {
    const Stretch near{in(1, 4), in(29, 8)};
    const Stretch far{in(15, 4), in(57, 8)};
    return sectionOf(firstId, {x0, x0 + in(32)}, {x0, in(0)},
                     {stripOf(firstId + 1, near,
                              piece(firstId + 2, {id::top, 1, 0, firstStave},
                                    {in(0), near.from, in(32), near.to})),
                      stripOf(firstId + 3, far,
                              piece(firstId + 4, {id::top, 1, 0, firstStave + 1},
                                    {in(0), far.from, in(32), far.to}))});
}

BoardLayout layoutOf7() {
    // The strip of C1 is 2 in wide and the blank 1 3/4 in: one trimming rip.
    Section rails = sectionOf(
        521, {in(261, 4), in(365, 4)}, {in(261, 4), in(0)},
        {stripOf(522, {in(1, 8), in(27, 8)},
                 piece(523, {id::rail, 1, 0, 0}, {in(0), in(1, 8), in(26), in(27, 8)})),
         stripOf(524, {in(7, 2), in(11, 2)},
                 piece(525, {id::cleat, 1, 0, 0}, {in(0), in(7, 2), in(57, 4), in(21, 4)}))});
    return {id::board7, {twoStaves(501, in(1), 1), twoStaves(511, in(265, 8), 3), rails}, false};
}

BoardLayout layoutOf8() {
    // Straightened from the near edge, which rises 1 in 80.
    Section turned = sectionOf(
        531, {in(1), in(28)}, {in(1), in(1, 8)},
        {stripOf(532, {in(0), in(13, 4)},
                 piece(533, {id::rail, 2, 0, 0}, {in(1, 2), in(0), in(53, 2), in(13, 4)}))});
    turned.frame.run = in(80);
    turned.frame.rise = in(1);
    Section cleats =
        sectionOf(541, {in(225, 8), in(58)}, {in(225, 8), in(3, 4)},
                  {stripOf(542, {in(0), in(7, 4)},
                           piece(543, {id::cleat, 3, 0, 0}, {in(0), in(0), in(57, 4), in(7, 4)}))});
    cleats.offcuts = {{OffcutId{544}, {in(0), in(15, 8), in(239, 8), in(4)}, CutState::Planned}};
    return {id::board8, {turned, cleats}, false};
}

BoardLayout layoutOf9() {
    Section plies = sectionOf(
        551, {in(1), in(23)}, {in(1), in(0)},
        {stripOf(552, {in(1, 4), in(21, 8)},
                 piece(553, {id::leg, 1, 1, 0}, {in(0), in(1, 4), in(22), in(21, 8)})),
         stripOf(554, {in(43, 16), in(81, 16)},
                 piece(555, {id::leg, 1, 2, 0}, {in(0), in(43, 16), in(22), in(81, 16)}))});
    plies.facing = FirstFacing::RoughRippedFirst;
    return {id::board9, {plies}, false};
}

/// Worked out by hand from the sizes above; in^3 over 144 gives board feet.
PlanTotals totals() {
    PlanTotals t;
    t.boardsUsed = 3;
    t.placed = 10;
    t.demanded = 10;
    t.fills = 1; // K2 in T1-3
    // 704 in2 x 1 in, 300 in2 x 1 in, 300 in2 x 1 1/4 in
    t.lumberUsed = BoardFeet::millionths(4'888'889 + 2'083'333 + 2'604'167);
    // staves 432, rails 169, cleats 49 7/8, plies 130 5/8 in3
    t.blanks = BoardFeet::millionths(5'427'083);
    // rails 126, cleats 31 1/2, top 315, leg 80 in3
    t.parts = BoardFeet::millionths(3'836'806);
    // 29 7/8 x 2 1/8 in, worth 30 % of its share of 18.75
    t.offcutsKept = BoardFeet::millionths(440'864);
    // 44.00 + 18.75 + 26.0417 - 1.1903, 1 fill, 13 crosscuts, 17 rips
    t.cost = Money::tenThousandths(440'000 + 187'500 + 260'417 - 11'903 + 20'000 + 13 * 5'000 +
                                   17 * 7'500);
    return t;
}

} // namespace

Document goodJob() {
    Document job;
    job.info.title = "Hall bench";
    job.shop = shop();
    job.boards = boards();
    job.parts = parts();
    job.nextId = 1000;
    Plan plan;
    plan.boards = {layoutOf7(), layoutOf8(), layoutOf9()};
    plan.origin.source = Origin::Source::Hand;
    plan.totals = totals();
    job.plan = plan;
    return job;
}

Section& section(Document& job, std::size_t board, std::size_t index) {
    return job.plan->boards.at(board).sections.at(index);
}

Strip& strip(Document& job, std::size_t board, std::size_t sectionIndex, std::size_t index) {
    return section(job, board, sectionIndex).strips.at(index);
}

Blank& blank(Document& job, std::size_t board, std::size_t sectionIndex, std::size_t stripIndex) {
    return strip(job, board, sectionIndex, stripIndex).blanks.at(0);
}

Board& boardOf(Document& job, BoardId id) {
    return *std::find_if(job.boards.begin(), job.boards.end(),
                         [&](const Board& b) { return b.id == id; });
}

Part& partOf(Document& job, PartId id) {
    return *std::find_if(job.parts.begin(), job.parts.end(),
                         [&](const Part& p) { return p.id == id; });
}

Defect roundDefect(DefectId id, std::string mark, DefectKind kind, Point centre, Length size) {
    FaceMark face;
    face.outline = ellipsePolygon(centre, size, size);
    face.form = Ellipse{centre, size, size, 0};
    Defect defect;
    defect.id = id;
    defect.mark = std::move(mark);
    defect.kind = kind;
    defect.onA = face;
    defect.through = true;
    return defect;
}

} // namespace stavewright::audit_sample
