#include "core/hand/Lifted.h"

#include <algorithm>

#include "core/hand/PlanTree.h"

namespace stavewright::hand {

bool isOfTheWholeBoard(const Finding& finding) {
    return finding.kind == FindingKind::WrongSpecies ||
           finding.kind == FindingKind::TooMuchPlanedAway ||
           finding.kind == FindingKind::TooLongToHandle;
}

void Lifted::makeReady() {
    const BlankPurpose& purpose = blank.purpose;
    label = labelOf(lifted, purpose);
    style = {lifted.info.units, lifted.info.inchDenominator, true};
    judge = std::make_unique<BoardJudge>(lifted);
}

const Ground* Lifted::groundOf(BoardId id) const {
    const auto known = grounds.find(id);
    if (known != grounds.end()) {
        return &known->second;
    }
    const Board* board = findBoard(lifted, id);
    if (!board) {
        return nullptr;
    }
    const BoardLayout* found = layoutOf(*lifted.plan, id);
    BoardLayout layout = found ? *found : BoardLayout{id, {}, false};
    dropPlannedOffcuts(layout);
    const BoardLayout& kept = layouts.emplace(id, std::move(layout)).first->second;
    std::set<std::string>& sentences = stood[id];
    for (const Finding& finding : judge->failures(kept)) {
        sentences.insert(finding.sentence);
    }
    Ground& ground = grounds.try_emplace(id, lifted, *board, kept).first->second;
    if (origin && origin->board == id && origin->bed.section) {
        ground.reachedWithIt(*origin->bed.section, homeAlong);
    }
    return &ground;
}

Load Lifted::loadIn(Pose pose) const { return {spec, pose, width, {}, {}}; }

std::vector<Finding> Lifted::against(const Ground& ground, Laying& laying) const {
    std::vector<Finding> findings = asLaid(ground, laying);
    const bool isFacing = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.kind == FindingKind::ThicknessNotReached ||
               finding.kind == FindingKind::TooWideForMachine;
    });
    if (!isFacing || laying.bed.section || laying.bed.facing != FirstFacing::Whole) {
        return findings;
    }
    Laying ripped = laying;
    ripped.bed.facing = FirstFacing::RoughRippedFirst;
    std::vector<Finding> left = asLaid(ground, ripped);
    if (left.size() < findings.size()) {
        laying = ripped;
        return left;
    }
    return findings;
}

std::vector<Finding> Lifted::asLaid(const Ground& ground, const Laying& laying) const {
    std::int64_t nextId = lifted.nextId;
    const BoardLayout layout = laid(ground.layout(), laying, spec->length, blank, nextId);
    std::vector<Finding> findings = judge->failures(layout);
    std::erase_if(findings,
                  [&](const Finding& finding) { return !countsAgainstIt(finding, laying.board); });
    return findings;
}

bool Lifted::countsAgainstIt(const Finding& finding, BoardId board) const {
    return finding.blank == blank.id || !stood.at(board).contains(finding.sentence);
}

std::optional<Laying> Lifted::wayBack(const Ground& ground, Pose pose) const {
    if (!origin || origin->board != ground.board().id || origin->pose != pose) {
        return std::nullopt;
    }
    if (!wasLegal) {
        const std::vector<Finding> findings =
            judge->failures(*layoutOf(*original.plan, origin->board));
        wasLegal = std::none_of(findings.begin(), findings.end(), [&](const Finding& finding) {
            return countsAgainstIt(finding, origin->board);
        });
    }
    return *wasLegal ? origin : std::nullopt;
}

bool Lifted::isBack(BoardId board, Point corner, Pose pose) const {
    return origin && origin->board == board && origin->pose == pose && corner == cornerOf(*origin);
}

} // namespace stavewright::hand
