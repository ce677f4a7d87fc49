#include "core/papers/CutSteps.h"

#include <algorithm>
#include <cassert>

#include "core/hand/Cuts.h"
#include "core/layout/PieceState.h"
#include "core/planning/Kept.h"

namespace stavewright::papers {

namespace {

std::string letterName(std::size_t index) {
    std::string name(1, static_cast<char>('a' + index % 26));
    return index < 26 ? name : letterName(index / 26 - 1) + name;
}

/// A strip whose section stands all but along the board is out of square by less than this: there
/// is nothing to take off its ends. Common practice, no source.
constexpr Length leastSlant = Length::inches(1, 32);

/// A stretch of a piece, and which of its ends are free already.
struct Freed {
    Stretch along;
    bool lowMade = false;
    bool highMade = false;
};

/// The cuts that free stretches from a piece: `whole` is the piece, `kerf` that of the saw. An end
/// that is flush with the piece's own end, or less than `least` from it, needs no cut.
std::vector<CrosscutMark> freeing(const std::vector<Freed>& stretches, Stretch whole, Length kerf,
                                  Length least = {}) {
    std::vector<CrosscutMark> marks;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const Stretch& now = stretches[i].along;
        const bool sharesCut = i > 0 && now.from == stretches[i - 1].along.to + kerf;
        if (sharesCut) {
            marks.back().starts = i;
            marks.back().startReading = now.from - whole.from;
            marks.back().isMade = marks.back().isMade || stretches[i].lowMade;
        } else if (now.from > whole.from && now.from - whole.from >= least) {
            CrosscutMark mark;
            mark.reading = mark.startReading = now.from - whole.from;
            mark.blade = Blade::TowardsDatum;
            mark.starts = i;
            mark.isMade = stretches[i].lowMade;
            marks.push_back(mark);
        }
        if (now.to < whole.to && whole.to - now.to >= least) {
            CrosscutMark mark;
            mark.reading = now.to - whole.from;
            mark.blade = Blade::AwayFromDatum;
            mark.ends = i;
            mark.isMade = stretches[i].highMade;
            marks.push_back(mark);
        }
    }
    return marks;
}

/// Where the piece begins that the first cut still to make lies in; nothing where that is the datum
/// end itself, or where no cut is left.
std::optional<Length> freshEndOf(const std::vector<CrosscutMark>& marks, Length kerf) {
    std::optional<Length> end;
    for (const CrosscutMark& mark : marks) {
        if (!mark.isMade) {
            return end;
        }
        end = mark.starts ? mark.startReading : mark.reading + kerf;
    }
    return std::nullopt;
}

/// The kept offcuts of a section that lie between these edges, by name. No cut runs through an
/// offcut, so its middle tells, whatever its edges are off by in a frame at an angle.
std::string keptBetween(const std::vector<KeptLine>& kept, Stretch across) {
    std::string names;
    for (const KeptLine& line : kept) {
        const Length middle = (line.offcut->rect.y0 + line.offcut->rect.y1) / 2;
        if (across.from < middle && middle < across.to) {
            names += (names.empty() ? "" : ", ") + line.name;
        }
    }
    return names;
}

/// Cut off, and never more than waste: it takes no letter, so that the sections beside it keep the
/// names that are chalked on them.
bool isCutWaste(const Section& section) {
    return section.state != CutState::Planned && section.strips.empty() && section.offcuts.empty();
}

std::vector<RipPass> ripsOf(const Section& section, const std::vector<KeptLine>& kept,
                            const Shop& shop) {
    using Kind = RipPass::Kind;
    const Length kerf = hand::ripKerfOf(shop, section);
    std::vector<RipPass> passes;
    Length edge; // where the piece that is still whole begins
    for (std::size_t i = 0; i < section.strips.size(); ++i) {
        const Strip& strip = section.strips[i];
        const Stretch across = strip.across;
        const Length gap = across.from - edge;
        const bool isRipped = hand::hasRippedBlank(strip);
        const bool isHighMade = isRipped || strip.highEdgeRipped;
        const auto add = [&](Kind kind, Length fence, Length width, bool isMade) -> RipPass& {
            passes.push_back({kind, width, i, {}, isMade, fence, {}});
            return passes.back();
        };
        switch (hand::nearEdgeOf(shop, section, i)) {
        case hand::NearEdge::OwnRip: {
            const std::string keeps = keptBetween(kept, {edge, across.from - kerf});
            add(keeps.empty() ? Kind::Waste : Kind::Kept, edge, gap - kerf,
                isRipped || strip.lowEdgeRipped)
                .keeps = keeps;
            [[fallthrough]];
        }
        case hand::NearEdge::Ripped:
            add(Kind::Strip, across.from, across.length(), isHighMade);
            break;
        case hand::NearEdge::StaysOn:
            add(Kind::Strip, edge, across.to - edge, isHighMade).over = gap;
            break;
        case hand::NearEdge::FallsFree:
            add(Kind::WithSliver, edge, across.to - edge, isHighMade);
            add(Kind::OffSliver, across.to, across.length(), false);
            break;
        }
        edge = across.to + kerf;
    }
    return passes;
}

EdgeLine edgeLineOf(const Board& board, const Section& section) {
    const auto inFromEdge = [&](Length x) {
        const std::optional<Stretch> across = acrossAt(board.outline, x);
        return across ? std::max(Length(), -toLocal(section.frame, {x, across->from}).y) : Length();
    };
    EdgeLine line;
    line.atDatumSide = inFromEdge(section.along.from);
    line.atFarSide = inFromEdge(section.along.to);
    line.deepest = std::max(line.atDatumSide, line.atFarSide);
    for (const Point& corner : board.outline) {
        if (section.along.from < corner.x && corner.x < section.along.to) {
            line.deepest = std::max(line.deepest, inFromEdge(corner.x));
        }
    }
    return line;
}

StripCuts stripCutsOf(const Document& document, const std::vector<BlankSpec>& specs,
                      const Section& section, const Strip& strip) {
    StripCuts cuts;
    cuts.strip = &strip;
    std::vector<Freed> along;
    for (const Blank& blank : strip.blanks) {
        const Rect& wood = woodOf(blank);
        const bool isParted = hand::isParted(blank);
        along.push_back(
            {{wood.x0, wood.x1}, isParted || blank.lowEndCut, isParted || blank.highEndCut});
        BlankLine line;
        line.blank = &blank;
        line.part = findPart(document, blank.purpose.part);
        line.label = labelOfAll(document, blank.purpose);
        line.length = wood.length();
        line.width = wood.width();
        if (const BlankSpec* spec = specOf(specs, blank.purpose)) {
            line.thickness = thicknessToPlane(document, *spec);
        }
        if (wood.y0 != strip.across.from || wood.y1 != strip.across.to) {
            cuts.trims.push_back({line.label, wood.width(), blank.state > CutState::Ripped});
        }
        cuts.blanks.push_back(std::move(line));
    }
    const Length kerf = document.shop.machines.stripCrosscut.kerf;
    const Stretch whole = hand::alongStrip(section, strip);
    cuts.crosscuts = freeing(along, whole, kerf, leastSlant);
    if (!cuts.crosscuts.empty()) {
        // Less than a kerf of the section's slant is not a length to measure.
        const Length slant = along.front().along.from - whole.from;
        cuts.hook = slant < kerf ? slant : Length();
        const CrosscutMark& first = cuts.crosscuts.front();
        cuts.isSquared = !first.ends && first.reading < kerf;
    }
    return cuts;
}

} // namespace

Length thicknessToPlane(const Document& document, const BlankSpec& spec) {
    const Part* part = findPart(document, spec.part);
    if (part == nullptr || !document.plan) {
        return spec.thicknessWanted;
    }
    const Result<Length> wanted = resolvedSize(document, *part, Dimension::Thickness);
    for (const ThicknessChoice& choice : document.plan->thicknesses) {
        if (choice.part == spec.part && wanted) {
            const int layers = part->makeUp.lamination ? part->makeUp.lamination->plies : 1;
            const Length thinner = (wanted.value() - choice.finished) / layers;
            return std::max(spec.thicknessLeast, spec.thicknessWanted - thinner);
        }
    }
    return spec.thicknessWanted;
}

BoardCuts cutsOf(const Document& document, const std::vector<BlankSpec>& specs,
                 const BoardLayout& layout) {
    BoardCuts cuts;
    cuts.board = findBoard(document, layout.board);
    assert(cuts.board != nullptr && "a plan that passed the audit names known boards only");
    cuts.layout = &layout;

    const Rect box = boundingBox(cuts.board->outline);
    std::vector<Freed> along;
    for (const Section& section : layout.sections) {
        const bool isCut = section.state != CutState::Planned;
        along.push_back(
            {section.along, isCut && !section.lowEndUncut, isCut && !section.highEndUncut});
    }
    cuts.crosscuts = freeing(along, {box.x0, box.x1}, document.shop.machines.crosscut.kerf);
    cuts.freshEnd = freshEndOf(cuts.crosscuts, document.shop.machines.crosscut.kerf);

    int keeps = 0;
    const auto keptOf = [&](const std::vector<Offcut>& offcuts) {
        std::vector<KeptLine> kept;
        kept.reserve(offcuts.size());
        for (const Offcut& offcut : offcuts) {
            kept.push_back({&offcut, "Keep " + std::to_string(++keeps)});
        }
        return kept;
    };
    std::size_t letters = 0;
    for (const Section& section : layout.sections) {
        SectionCuts one;
        one.section = &section;
        one.isWaste = isCutWaste(section);
        one.name = one.isWaste ? "waste" : cuts.board->mark + letterName(letters++);
        one.edge = edgeLineOf(*cuts.board, section);
        for (const Strip& strip : section.strips) {
            StripCuts stripCuts = stripCutsOf(document, specs, section, strip);
            stripCuts.name = one.name + "-" + std::to_string(one.strips.size() + 1);
            for (const BlankLine& line : stripCuts.blanks) {
                one.planeTo = std::max(one.planeTo, line.thickness);
            }
            if (!strip.blanks.empty()) { // milled for what is lost since, it is thicker still
                one.planeTo = std::max(one.planeTo, planedTo(section, strip).value_or(Length()));
            }
            stripCuts.kept = keptOf(strip.offcuts);
            one.strips.push_back(std::move(stripCuts));
        }
        one.kept = keptOf(section.offcuts);
        one.rips = ripsOf(section, one.kept, document.shop);
        cuts.sections.push_back(std::move(one));
    }
    return cuts;
}

} // namespace stavewright::papers
