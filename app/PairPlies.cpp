#include "app/PairPlies.h"

#include <algorithm>
#include <iostream>

namespace stavewright::app {

namespace {

using panels::Block;
using panels::BlockPly;
using panels::PairingFigures;
using panels::PlyMeeting;

const char* nameOf(PlyMeeting meeting) {
    switch (meeting) {
    case PlyMeeting::BarksMeet:
        return "bark sides meet";
    case PlyMeeting::HeartsMeet:
        return "hearts meet";
    case PlyMeeting::SameWay:
        return "hearts the same way";
    case PlyMeeting::Unknown:
        break;
    }
    return "not noted";
}

const char* faceText(Pose pose) {
    return pose.endForEnd ? (pose.faceOver ? "face B up, end for end" : "end for end")
                          : (pose.faceOver ? "face B up" : "as it lay");
}

std::string counted(const PairingFigures& figures) {
    return "seams: bark to bark " + std::to_string(figures.barksMeet) + ", heart to heart " +
           std::to_string(figures.heartsMeet) + ", hearts the same way " +
           std::to_string(figures.sameWay) +
           "; blocks of several boards: " + std::to_string(figures.ofTwoBoards);
}

nlohmann::json counts(const PairingFigures& figures) {
    return {{"barks_meet", figures.barksMeet},
            {"hearts_meet", figures.heartsMeet},
            {"same_way", figures.sameWay},
            {"blocks_of_several_boards", figures.ofTwoBoards}};
}

std::vector<Block> blocksOfPart(const Document& document, PartId part) {
    std::vector<Block> blocks = panels::blocksOf(document);
    std::erase_if(blocks, [part](const Block& block) { return block.part != part; });
    return blocks;
}

} // namespace

Result<std::vector<PairedPart>> pairAllPlies(Document& document) {
    std::vector<PairedPart> all;
    for (const Block& block : panels::blocksOf(document)) {
        const bool isDone = std::any_of(all.begin(), all.end(), [&](const PairedPart& paired) {
            return paired.part == block.part;
        });
        if (isDone) {
            continue;
        }
        Result<panels::PairingProposal> found = panels::pairedPlies(document, block.part);
        if (!found) {
            return found.error();
        }
        if (found.value().edit) {
            if (const Result<Edit> back = apply(document, *found.value().edit); !back) {
                return back.error();
            }
        }
        all.push_back({block.part, std::move(found).value()});
    }
    return all;
}

void printPaired(const Document& document, const PairedPart& paired) {
    const Part* part = findPart(document, paired.part);
    std::cout << "Plies of " << part->mark << " " << part->name << ": best found"
              << (paired.proposal.edit ? "" : " (left as they were)") << '\n'
              << "  before: " << counted(paired.proposal.before) << '\n'
              << "  after:  " << counted(paired.proposal.after) << '\n';
    for (const Block& block : blocksOfPart(document, paired.part)) {
        std::cout << "  " << block.label << (block.isGlued ? ", glued already" : "")
                  << ", from face A:\n";
        for (std::size_t i = 0; i < block.plies.size(); ++i) {
            const BlockPly& ply = block.plies[i];
            std::cout << "    " << ply.label << "  board " << ply.boardMark << ", "
                      << faceText(ply.pose) << '\n';
            if (i < block.seams.size()) {
                std::cout << "      seam: " << nameOf(block.seams[i]) << '\n';
            }
        }
        for (const std::string& sentence : block.advice) {
            std::cout << "    " << sentence << '\n';
        }
    }
}

nlohmann::json reportOf(const Document& document, const PairedPart& paired) {
    nlohmann::json list = nlohmann::json::array();
    for (const Block& block : blocksOfPart(document, paired.part)) {
        nlohmann::json plies = nlohmann::json::array();
        for (const BlockPly& ply : block.plies) {
            plies.push_back({{"ply", ply.label},
                             {"board", ply.boardMark},
                             {"end_for_end", ply.pose.endForEnd},
                             {"face_over", ply.pose.faceOver}});
        }
        nlohmann::json seams = nlohmann::json::array();
        for (const PlyMeeting seam : block.seams) {
            seams.push_back(nameOf(seam));
        }
        list.push_back({{"block", block.label},
                        {"plies", plies},
                        {"seams", seams},
                        {"glued", block.isGlued},
                        {"book_match", block.canBookMatch}});
    }
    return {{"part", findPart(document, paired.part)->mark},
            {"better", paired.proposal.edit.has_value()},
            {"before", counts(paired.proposal.before)},
            {"after", counts(paired.proposal.after)},
            {"blocks", list}};
}

} // namespace stavewright::app
