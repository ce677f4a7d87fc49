#include "core/panels/PlyPairs.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/panels/Fills.h"

namespace stavewright::panels {

namespace {

int heartUp(const Board& board, Pose pose) {
    if (board.heart == HeartSide::Unknown) {
        return 0;
    }
    return (board.heart == HeartSide::FaceA) != pose.faceOver ? 1 : -1;
}

PlyMeeting meetingOf(const BlockPly& upper, const BlockPly& lower) {
    if (upper.heartUp == 0 || lower.heartUp == 0) {
        return PlyMeeting::Unknown;
    }
    if (upper.heartUp == lower.heartUp) {
        return PlyMeeting::SameWay;
    }
    return upper.heartUp > 0 ? PlyMeeting::BarksMeet : PlyMeeting::HeartsMeet;
}

/// A glue face has to be level when it is glued; the outside is filled when it has been milled.
void adviseFills(Block& block) {
    MarkedPieces inside;
    MarkedPieces outside;
    for (const BlockPly& ply : block.plies) {
        for (const bool up : {true, false}) {
            const std::vector<std::string>& open = up ? ply.openUp : ply.openDown;
            const BlockPly& last = up ? block.plies.front() : block.plies.back();
            if (!open.empty()) {
                (&ply == &last ? outside : inside).emplace_back(ply.label, open);
            }
        }
    }
    if (!inside.empty()) {
        block.advice.push_back("Fill before gluing, on the glue faces: " + listOf(inside) + ".");
    }
    if (!outside.empty()) {
        block.advice.push_back("Fill after the second milling, on the outside: " + listOf(outside) +
                               ".");
    }
    if (inside.empty() && outside.empty()) {
        block.advice.push_back("No open knot lies on its faces. One that the planer opens is "
                               "filled before gluing on a glue face, after the second milling on "
                               "the outside.");
    }
}

void advise(const Document& document, Block& block, bool areFillsKnown) {
    for (std::size_t i = 0; i < block.seams.size(); ++i) {
        const std::string pair = block.plies[i].label + " and " + block.plies[i + 1].label;
        switch (block.seams[i]) {
        case PlyMeeting::BarksMeet:
            block.advice.push_back(pair +
                                   ": bark sides meet; as they dry their edges press towards "
                                   "the glue line.");
            break;
        case PlyMeeting::HeartsMeet:
            block.advice.push_back(pair + ": heart sides meet; the cups oppose, but the edges pull "
                                          "away from the glue line as they dry. Glue them bark to "
                                          "bark if the faces allow it.");
            break;
        case PlyMeeting::SameWay:
            block.advice.push_back(pair + ": both hearts point the same way; turn one face over so "
                                          "that the cups oppose.");
            break;
        case PlyMeeting::Unknown:
            block.advice.push_back(pair +
                                   ": the heart side of a board is not noted; look at the end "
                                   "grain and let the cups oppose.");
            break;
        }
    }
    block.advice.push_back(
        block.canBookMatch
            ? "Plies of one board: open them like a book at the seam and it all but disappears."
            : "Plies of different boards: look for edges that are alike before the glue is open.");
    const Part* part = findPart(document, block.part);
    block.advice.push_back(part && part->count > 1
                               ? "The seam shows on the two sides and on the ends; turn all " +
                                     std::to_string(part->count) + " alike."
                               : "The seam shows on the two sides and on the ends.");
    if (areFillsKnown) {
        adviseFills(block);
    }
}

std::vector<Block> blocksWith(const Document& document, const std::vector<Fill>* fills) {
    std::vector<Block> blocks;
    if (!document.plan) {
        return blocks;
    }
    std::map<std::pair<PartId, int>, std::map<int, BlockPly>> found;
    for (const BoardLayout& layout : document.plan->boards) {
        const Board* board = findBoard(document, layout.board);
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (board && blank.purpose.ply > 0 && blank.purpose.stave == 0) {
                        OpenSpots open = fills ? openSpots(*board, blank.id, *fills) : OpenSpots{};
                        if (blank.pose.faceOver) {
                            std::swap(open.onA, open.onB);
                        }
                        found[{blank.purpose.part, blank.purpose.instance}][blank.purpose.ply] = {
                            labelOf(document, blank.purpose),
                            board->mark,
                            board->id,
                            blank.id,
                            heartUp(*board, blank.pose),
                            blank.purpose,
                            blank.pose,
                            blank.state,
                            std::move(open.onA),
                            std::move(open.onB)};
                    }
                }
            }
        }
    }
    for (const Part& part : document.parts) {
        const int plies = part.makeUp.lamination ? part.makeUp.lamination->plies : 0;
        for (auto& [key, each] : found) {
            if (key.first != part.id || static_cast<int>(each.size()) != plies || plies < 2) {
                continue;
            }
            Block block;
            block.part = part.id;
            block.instance = key.second;
            block.label = labelOf(document, {part.id, key.second, 0, 0});
            for (auto& [ply, facts] : each) {
                block.isGlued = block.isGlued || facts.state >= CutState::Glued;
                block.plies.push_back(facts);
            }
            block.canBookMatch =
                std::all_of(block.plies.begin(), block.plies.end(), [&](const BlockPly& ply) {
                    return ply.board == block.plies.front().board;
                });
            for (std::size_t i = 0; i + 1 < block.plies.size(); ++i) {
                block.seams.push_back(meetingOf(block.plies[i], block.plies[i + 1]));
            }
            advise(document, block, fills != nullptr);
            blocks.push_back(std::move(block));
        }
    }
    return blocks;
}

} // namespace

std::vector<Block> blocksOf(const Document& document, const std::vector<Fill>& fills) {
    return blocksWith(document, &fills);
}

std::vector<Block> blocksOf(const Document& document) { return blocksWith(document, nullptr); }

} // namespace stavewright::panels
