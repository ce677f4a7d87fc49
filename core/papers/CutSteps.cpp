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

/// A stretch of a piece, and which of its ends are free already.
struct Freed {
    Stretch along;
    bool lowMade = false;
    bool highMade = false;
};

/// The cuts that free stretches from a piece: `whole` is the piece, `kerf` that of the saw. An end
/// that is flush with the piece's own end needs no cut.
std::vector<CrosscutMark> freeing(const std::vector<Freed>& stretches, Stretch whole, Length kerf) {
    std::vector<CrosscutMark> marks;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const Stretch& now = stretches[i].along;
        const bool sharesCut = i > 0 && now.from == stretches[i - 1].along.to + kerf;
        if (sharesCut) {
            marks.back().starts = i;
            marks.back().startReading = now.from - whole.from;
            marks.back().isMade = marks.back().isMade || stretches[i].lowMade;
        } else if (now.from > whole.from) {
            CrosscutMark mark;
            mark.reading = mark.startReading = now.from - whole.from;
            mark.blade = Blade::TowardsDatum;
            mark.starts = i;
            mark.isMade = stretches[i].lowMade;
            marks.push_back(mark);
        }
        if (now.to < whole.to) {
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

/// Less than this between strips stays on: the fence sets the next strip's width all the same.
/// Common practice, no source.
constexpr Length leastEdgeTrim = Length::inches(1, 8);

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

/// Some blank of it is ripped, so both its edges are.
bool hasRippedBlank(const Strip& strip) {
    return std::any_of(strip.blanks.begin(), strip.blanks.end(),
                       [](const Blank& blank) { return blank.state >= CutState::Ripped; });
}

std::vector<RipPass> ripsOf(const Section& section, const std::vector<KeptLine>& kept,
                            const Machines& machines) {
    const Length kerf = section.facing == FirstFacing::RoughRippedFirst ? machines.roughRip.kerf
                                                                        : machines.rip.kerf;
    std::vector<RipPass> passes;
    Length edge; // where the piece that is still whole begins
    for (std::size_t i = 0; i < section.strips.size(); ++i) {
        const Strip& strip = section.strips[i];
        const Stretch across = strip.across;
        const Length gap = across.from - edge;
        const bool isRipped = hasRippedBlank(strip);
        const bool isLowMade = isRipped || strip.lowEdgeRipped;
        if (gap > kerf && gap - kerf >= machines.narrowestRip) {
            const std::string keeps = keptBetween(kept, {edge, across.from - kerf});
            passes.push_back({keeps.empty() ? RipPass::Kind::Waste : RipPass::Kind::Kept,
                              gap - kerf, 0, keeps, isLowMade});
        } else if (gap > std::max(kerf, leastEdgeTrim)) {
            passes.push_back({RipPass::Kind::EdgeTrim, gap, 0, {}, isLowMade});
        }
        passes.push_back(
            {RipPass::Kind::Strip, across.length(), i, {}, isRipped || strip.highEdgeRipped});
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
    cuts.crosscuts =
        freeing(along, hand::alongStrip(section, strip), document.shop.machines.stripCrosscut.kerf);
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

    int keeps = 0;
    const auto keptOf = [&](const std::vector<Offcut>& offcuts) {
        std::vector<KeptLine> kept;
        kept.reserve(offcuts.size());
        for (const Offcut& offcut : offcuts) {
            kept.push_back({&offcut, "Keep " + std::to_string(++keeps)});
        }
        return kept;
    };
    for (const Section& section : layout.sections) {
        SectionCuts one;
        one.section = &section;
        one.name = cuts.board->mark + letterName(cuts.sections.size());
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
        one.rips = ripsOf(section, one.kept, document.shop.machines);
        cuts.sections.push_back(std::move(one));
    }
    return cuts;
}

} // namespace stavewright::papers
