#include "core/papers/Cautions.h"

#include <algorithm>
#include <cmath>

#include "core/papers/PaperUnits.h"
#include "core/papers/Words.h"
#include "core/wood/Species.h"

namespace stavewright::papers {

namespace {

// Thresholds without a mark of their own in the shop are common practice, no source.
constexpr Length warpWorthACaution = Length::inches(1, 16);
constexpr Length bowWorthACaution = Length::inches(1, 4);
constexpr Length shortAtTheCrosscut =
    Length::inches(6); ///< as table-saw manuals ask for a mitre gauge
constexpr double heavyKilograms = 25;

std::string joined(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
    }
    return text;
}

std::string lowered(std::string sentence) {
    sentence.front() = static_cast<char>(sentence.front() - 'A' + 'a');
    return sentence;
}

double kilogramsOf(const Board& board) {
    const Species* species = findSpecies(board.species);
    const double density = species != nullptr ? species->densityKgPerM3 : 700;
    const double squareMetres = areaOf(board.outline).toSquareInches() * 0.0254 * 0.0254;
    return squareMetres * board.quarter.nominal().toMillimetres() / 1000 * density;
}

/// Middle of a defect, as it is marked on the face that shows it.
Point middleOf(const Defect& defect) {
    const FaceMark& mark = defect.onA ? *defect.onA : *defect.onB;
    const Rect box = boundingBox(mark.outline);
    return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

/// Whether this spot goes over jointer and planer: with its section, or with its strip where the
/// section is ripped first. What is only kept or wasted does not.
bool isMilled(const SectionCuts& section, Point at) {
    const Stretch along = section.section->along;
    if (!section.hasBlanks() || at.x <= along.from || along.to <= at.x) {
        return false;
    }
    const Length across = toLocal(section.section->frame, at).y;
    return section.section->facing == FirstFacing::Whole ||
           std::any_of(section.strips.begin(), section.strips.end(), [&](const StripCuts& strip) {
               return !strip.blanks.empty() && strip.strip->across.from < across &&
                      across < strip.strip->across.to;
           });
}

/// To the whole half inch or 5 mm: it only says where to look.
Length rounded(Length length, const JobInfo& info) {
    const Length step = info.units == UnitSystem::Inches ? Length::inches(1, 2) : 5_mm;
    return (length + step / 2) / step * step;
}

/// Open or loose wood in what goes over jointer and planer.
std::vector<std::string> looseKnotsIn(const Document& document, const BoardCuts& cuts) {
    std::vector<Length> found;
    for (const Defect& defect : cuts.board->defects) {
        if (defect.kind != DefectKind::LooseKnot) {
            continue;
        }
        const Point at = middleOf(defect);
        if (std::any_of(cuts.sections.begin(), cuts.sections.end(),
                        [&](const SectionCuts& section) { return isMilled(section, at); })) {
            found.push_back(rounded(at.x, document.info));
        }
    }
    std::sort(found.begin(), found.end());
    std::vector<std::string> places;
    places.reserve(found.size());
    for (const Length at : found) {
        places.push_back(lengthText(document.info, at));
    }
    return places;
}

void addWarp(std::vector<Caution>& cautions, const Board& board) {
    const Warp& warp = board.warp;
    const bool twisted = warp.twist >= warpWorthACaution;
    const bool cupped = warp.cup >= warpWorthACaution;
    if (twisted || cupped) {
        const std::string how = twisted && cupped ? "twisted and cupped"
                                : twisted         ? "twisted"
                                                  : "cupped";
        cautions.push_back(
            {Step::Crosscut, "This board is " + how +
                                 ": it can rock, pinch and kick back. Crosscut it only where it "
                                 "sits firmly on table and fence; no table saw until one face is "
                                 "flat and one edge straight."});
    }
    if (warp.bow >= bowWorthACaution) {
        cautions.push_back({Step::Crosscut,
                            "Bowed: crosscut it hollow side down, supported under the cut, so "
                            "that the kerf cannot close on the blade."});
    }
}

/// Strips of this way of facing that are narrower than hands should go near.
std::vector<std::string> narrowStrips(const Document& document, const BoardCuts& cuts,
                                      FirstFacing facing) {
    std::vector<std::string> narrow;
    for (const SectionCuts& section : cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            if (section.section->facing == facing && section.hasBlanks() &&
                strip.strip->across.length() < document.shop.machines.cautionRip) {
                narrow.push_back(strip.name);
            }
        }
    }
    return narrow;
}

void addShortAndNarrow(std::vector<Caution>& cautions, const Document& document,
                       const BoardCuts& cuts) {
    for (const FirstFacing facing : {FirstFacing::RoughRippedFirst, FirstFacing::Whole}) {
        const std::vector<std::string> narrow = narrowStrips(document, cuts, facing);
        if (narrow.empty()) {
            continue;
        }
        const Length under = document.shop.machines.cautionRip;
        cautions.push_back({facing == FirstFacing::Whole ? Step::Rip : Step::RoughRip,
                            "Narrow (" + joined(narrow) + "), under " +
                                lengthText(document.info, under) +
                                ": push block, hands clear of the blade, the wide piece against "
                                "the fence."});
    }
    std::vector<std::string> shortPieces;
    for (const SectionCuts& section : cuts.sections) {
        for (const StripCuts& strip : section.strips) {
            for (const BlankLine& line : strip.blanks) {
                if (isShortAtTheCrosscut(line.length)) {
                    shortPieces.push_back(line.label);
                }
            }
        }
    }
    if (!shortPieces.empty()) {
        cautions.push_back({Step::StripCrosscut, "Short pieces (" + joined(shortPieces) +
                                                     "): " + howToHoldShortPieces() + "."});
    }
}

void addSaws(std::vector<Caution>& cautions, const Document& document, const BoardCuts& cuts) {
    const Machines& machines = document.shop.machines;
    const Board& board = *cuts.board;
    const std::string crosscut =
        machines.crosscut.name.empty() ? "crosscut saw" : machines.crosscut.name;
    if (machines.crosscut.widest > Length() && widthOf(board) > machines.crosscut.widest) {
        cautions.push_back(
            {Step::Crosscut, "The board is wider than the " + crosscut + " takes (" +
                                 lengthText(document.info, machines.crosscut.widest) +
                                 "): cut it to sections with a jigsaw or a hand-held saw."});
    }
    const Length thick = board.quarter.nominal();
    const bool ripped =
        std::any_of(cuts.sections.begin(), cuts.sections.end(), [](const SectionCuts& section) {
            return section.hasBlanks() && section.section->facing == FirstFacing::Whole;
        });
    if (ripped && machines.rip.deepest > Length() && thick > machines.rip.deepest) {
        cautions.push_back({Step::Rip,
                            "Thicker than the saw cuts in one pass: turn the piece and cut from "
                            "both sides, or use the band saw."});
    }
    if (machines.crosscut.deepest > Length() && thick > machines.crosscut.deepest) {
        cautions.push_back(
            {Step::Crosscut, "Thicker than this saw cuts in one pass: use another saw."});
    }
    if (machines.longestBoard > Length() && lengthOf(board) > machines.longestBoard) {
        cautions.push_back({Step::Crosscut,
                            "Too long to handle whole: make the first crosscut where the board "
                            "lies, with both sides supported."});
    }
    if (kilogramsOf(board) > heavyKilograms) {
        cautions.push_back({Step::Crosscut, "Heavy, about " +
                                                std::to_string(std::lround(kilogramsOf(board))) +
                                                " kg: support both ends, or have a helper."});
    }
}

std::string faceName(BoardFace face) { return face == BoardFace::A ? "Face A" : "Face B"; }

} // namespace

std::vector<std::string> lookFirst(const Document& document, const BoardCuts& cuts) {
    std::vector<std::string> orders;
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        std::vector<std::string> places;
        std::vector<std::string> quick;
        for (const SectionCuts& section : cuts.sections) {
            for (const Stretch& unseen : notLookedAt(*cuts.board, face, section.section->along)) {
                places.push_back(lengthText(document.info, unseen.from) + " to " +
                                 lengthText(document.info, unseen.to));
            }
            for (const QuickLook& look :
                 quicklyLookedAt(*cuts.board, face, section.section->along)) {
                quick.push_back(lengthText(document.info, look.stretch.from) + " to " +
                                lengthText(document.info, look.stretch.to) + " (knots under " +
                                lengthText(document.info, look.knotsUnder) + ")");
            }
        }
        if (!places.empty()) {
            orders.push_back(
                faceName(face) + " not looked at: " + joined(places) + ". " +
                (face == BoardFace::B ? "Turn over, look, then cut." : "Look, then cut."));
        }
        if (!quick.empty()) {
            orders.push_back(faceName(face) + " only looked at quickly: " + joined(quick) +
                             ". Such knots are not drawn: look before cutting parts that may "
                             "hold none.");
        }
    }
    return orders;
}

std::vector<Caution> boardCautions(const Document& document, const BoardCuts& cuts) {
    std::vector<Caution> cautions;
    addWarp(cautions, *cuts.board);
    addSaws(cautions, document, cuts);
    if (const std::vector<std::string> loose = looseKnotsIn(document, cuts); !loose.empty()) {
        cautions.push_back(
            {Step::Facing,
             std::string(loose.size() == 1 ? "Loose knot" : "Loose knots") + " near " +
                 joined(loose) +
                 (loose.size() == 1
                      ? ": jointer and planer can throw it. Lock it with epoxy or "
                        "knock it out first, "
                      : ": jointer and planer can throw them. Lock them with epoxy or "
                        "knock them out first, ") +
                 "stand out of line, take light passes."});
    }
    addShortAndNarrow(cautions, document, cuts);
    return cautions;
}

bool isShortAtTheCrosscut(Length length) { return length < shortAtTheCrosscut; }

std::string howToHoldShortPieces() {
    return "hold them with a clamp, never by hand near the blade";
}

std::string fillCaution() {
    return "Pour no deeper than the resin's label allows, in layers where it must be deeper; a "
           "large mixed pot grows hot and smokes. Gloves; no sanding before it has cured.";
}

std::vector<std::string> jobCautions(const Document& document) {
    std::vector<std::string> cautions = {
        "These sheets propose; the person at the machine decides. The machine's manual and the "
        "local "
        "codes come before them, and where the law asks for licensed practice, so does that.",
        "Guards in place, eyes and ears covered, dust taken away at the machine and a mask at the "
        "sander: wood dust is a recognised carcinogen.",
        "Rough boards on a mitre saw: cut only where the board sits firmly on table and fence; "
        "otherwise take another saw."};
    if (document.plan && document.plan->totals.fills > 0) {
        cautions.push_back("Fills: " + lowered(fillCaution()));
    }
    cautions.emplace_back(
        "If you finish with oil: rags can set themselves on fire within hours. "
        "Spread them flat outdoors, or keep them under water or in a closed metal "
        "tin.");
    return cautions;
}

} // namespace stavewright::papers
