#include "core/panels/PlyEdits.h"

#include <algorithm>
#include <array>
#include <map>

#include "core/audit/Audit.h"
#include "core/milling/BlankSpec.h"
#include "core/panels/KeepLocks.h"
#include "core/panels/StaveFacts.h"
#include "core/planning/Statement.h"

namespace stavewright::panels {

namespace {

struct Lies {
    BlankPurpose purpose;
    Pose pose;
};
using Changes = std::map<BlankId, Lies>;

Error refused(const Block& block, std::string sentence) {
    return {ErrorCode::BadInput, std::move(sentence), "Block " + block.label};
}

/// The plan with these blanks as they are to lie; refused where the audit finds what it did not
/// find before.
Result<Edit> editFor(const Document& document, const Changes& changes, const Block& block) {
    Plan plan = *document.plan;
    for (BoardLayout& layout : plan.boards) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    if (const auto found = changes.find(blank.id); found != changes.end()) {
                        blank.purpose = found->second.purpose;
                        blank.pose = found->second.pose;
                    }
                }
            }
        }
    }
    Result<Plan> made = changedKeepingLocks(document, std::move(plan));
    if (!made) {
        return made.error();
    }
    const AuditReport before = audit(document);
    const AuditReport after = audit(document, made.value());
    if (after.failures() > before.failures()) {
        for (const Finding& finding : after.findings) {
            const bool isNew = std::find(before.findings.begin(), before.findings.end(), finding) ==
                               before.findings.end();
            if (finding.severity == Severity::Failure && isNew) {
                return refused(block, "The plies stay as they are: " + finding.sentence);
            }
        }
    }
    return Edit{ReplacePlan{std::move(made).value()}};
}

Pose turnedBy(Pose pose, Turn turn) {
    if (turn == Turn::EndForEnd) {
        pose.endForEnd = !pose.endForEnd;
    } else {
        pose.faceOver = !pose.faceOver;
    }
    return pose;
}

Status mayChange(const Block& block) {
    if (block.isGlued) {
        return refused(block, "The block is glued; its plies stay as they are.");
    }
    return Done{};
}

} // namespace

Result<Edit> plyTurned(const Document& document, const std::vector<Block>& blocks, PlySpot spot,
                       Turn turn) {
    const Block& block = blocks[spot.block];
    if (const Status may = mayChange(block); !may) {
        return may.error();
    }
    const BlockPly& ply = block.plies[spot.ply];
    return editFor(document, {{ply.blank, {ply.purpose, turnedBy(ply.pose, turn)}}}, block);
}

Result<Edit> pliesExchanged(const Document& document, const std::vector<Block>& blocks, PlySpot a,
                            PlySpot b) {
    const Block& first = blocks[a.block];
    const Block& second = blocks[b.block];
    for (const Block* block : {&first, &second}) {
        if (const Status may = mayChange(*block); !may) {
            return may.error();
        }
    }
    if (first.part != second.part) {
        return refused(first, "Plies change places within one part only; " + first.label + " and " +
                                  second.label + " are of two.");
    }
    const BlockPly& one = first.plies[a.ply];
    const BlockPly& other = second.plies[b.ply];
    return editFor(
        document,
        {{one.blank, {other.purpose, one.pose}}, {other.blank, {one.purpose, other.pose}}}, first);
}

PairingFigures pairingOf(const std::vector<Block>& blocks, PartId part) {
    PairingFigures figures;
    for (const Block& block : blocks) {
        if (block.part != part) {
            continue;
        }
        for (const PlyMeeting seam : block.seams) {
            figures.sameWay += seam == PlyMeeting::SameWay ? 1 : 0;
            figures.heartsMeet += seam == PlyMeeting::HeartsMeet ? 1 : 0;
            figures.barksMeet += seam == PlyMeeting::BarksMeet ? 1 : 0;
        }
        figures.ofTwoBoards += block.canBookMatch ? 0 : 1;
    }
    return figures;
}

namespace {

/// A ply as a piece of wood that may go anywhere among the blocks of its part.
struct Piece {
    BlankId blank;
    BoardId board;
    int heart = 0; ///< with its own face A up: +1 up, -1 down, 0 unknown
    std::map<int, std::array<bool, 4>> forbidden; ///< by ply and pose
    bool isHeld = false;                          ///< locked in the layout
};

/// The places of the plies, and which piece lies in which of them how.
class Pairing {
  public:
    Pairing(const Document& document, const std::vector<BlankSpec>& specs,
            const std::vector<Block>& blocks)
        : m_document(document)
        , m_specs(specs) {
        for (const Block& block : blocks) {
            std::vector<std::size_t> spots;
            for (const BlockPly& ply : block.plies) {
                spots.push_back(m_purposes.size());
                m_purposes.push_back(ply.purpose);
                m_blockOf.push_back(m_blocks.size());
                m_lies.push_back({m_pieces.size(), glueup::poseIndex(ply.pose)});
                m_pieces.push_back(pieceOf(ply));
            }
            m_blocks.push_back(std::move(spots));
        }
        m_began = m_lies;
        for (std::size_t spot = 0; spot < m_lies.size(); ++spot) { // as they lie is not for us
            m_pieces[m_lies[spot].piece].forbidden[m_purposes[spot].ply].at(
                static_cast<std::size_t>(m_lies[spot].pose)) = false;
        }
    }

    /// The first change that makes it better, over and over; each makes the cost less, so it ends.
    void improve() {
        while (turnOne() || exchangeTwo()) {
        }
    }

    [[nodiscard]] Changes changes() const {
        Changes changes;
        for (std::size_t spot = 0; spot < m_lies.size(); ++spot) {
            changes[m_pieces[m_lies[spot].piece].blank] = {m_purposes[spot],
                                                           glueup::poseOf(m_lies[spot].pose)};
        }
        return changes;
    }

  private:
    struct Lying {
        std::size_t piece = 0;
        int pose = 0;
    };

    [[nodiscard]] Piece pieceOf(const BlockPly& ply) const {
        Piece piece{ply.blank, ply.board, 0, {}, false};
        const Board* board = findBoard(m_document, ply.board);
        const Part* part = findPart(m_document, ply.purpose.part);
        if (board->heart != HeartSide::Unknown) {
            piece.heart = board->heart == HeartSide::FaceA ? 1 : -1;
        }
        planning::Thicknesses chosen;
        for (const ThicknessChoice& choice : m_document.plan->thicknesses) {
            chosen[choice.part] = choice.finished;
        }
        const Length apart =
            planning::surfacesApart(*part, planning::finishedThickness(m_document, *part, chosen));
        for (const BoardLayout& layout : m_document.plan->boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (blank.id == ply.blank) {
                            piece.isHeld = panels::isHeld(layout, section, blank);
                            addRules(*board, section, blank, apart, piece);
                        }
                    }
                }
            }
        }
        return piece;
    }

    void addRules(const Board& board, const Section& section, const Blank& blank, Length apart,
                  Piece& piece) const {
        const Part* part = findPart(m_document, blank.purpose.part);
        for (int ply = 1; part->makeUp.lamination && ply <= part->makeUp.lamination->plies; ++ply) {
            BlankPurpose purpose = blank.purpose;
            purpose.ply = ply;
            const BlankSpec* spec = specOf(m_specs, purpose);
            std::array<bool, 4>& forbidden = piece.forbidden[ply];
            for (int pose = 0; spec && pose < 4; ++pose) {
                forbidden[static_cast<std::size_t>(pose)] =
                    isForbidden({m_document, board, *spec, blank, section.frame, blank.rect, apart},
                                glueup::poseOf(pose));
            }
        }
    }

    [[nodiscard]] bool mayLie(std::size_t spot, Lying lies) const {
        const Lying& began = m_began[spot];
        if (m_pieces[lies.piece].isHeld && (began.piece != lies.piece || began.pose != lies.pose)) {
            return false;
        }
        return !m_pieces[lies.piece]
                    .forbidden.at(m_purposes[spot].ply)
                    .at(static_cast<std::size_t>(lies.pose));
    }

    [[nodiscard]] int heartUp(std::size_t spot) const {
        const Lying& lies = m_lies[spot];
        return m_pieces[lies.piece].heart * (glueup::poseOf(lies.pose).faceOver ? -1 : 1);
    }

    [[nodiscard]] int costOf(std::size_t block) const {
        constexpr int sameWay = 4;
        constexpr int heartsMeet = 2;
        constexpr int twoBoards = 3;
        const std::vector<std::size_t>& spots = m_blocks[block];
        int cost = 0;
        for (std::size_t i = 0; i + 1 < spots.size(); ++i) {
            const int upper = heartUp(spots[i]);
            const int lower = heartUp(spots[i + 1]);
            if (upper != 0 && lower != 0) {
                cost += upper == lower ? sameWay : upper < 0 ? heartsMeet : 0;
            }
        }
        const BoardId board = m_pieces[m_lies[spots.front()].piece].board;
        const bool isOne = std::all_of(spots.begin(), spots.end(), [&](std::size_t spot) {
            return m_pieces[m_lies[spot].piece].board == board;
        });
        return cost + (isOne ? 0 : twoBoards);
    }

    bool turnOne() {
        for (std::size_t spot = 0; spot < m_lies.size(); ++spot) {
            const int was = costOf(m_blockOf[spot]);
            const Lying before = m_lies[spot];
            for (int turn = 1; turn < 4; ++turn) {
                m_lies[spot].pose = before.pose ^ turn;
                if (mayLie(spot, m_lies[spot]) && costOf(m_blockOf[spot]) < was) {
                    return true;
                }
            }
            m_lies[spot] = before;
        }
        return false;
    }

    bool exchangeTwo() {
        for (std::size_t a = 0; a < m_lies.size(); ++a) {
            for (std::size_t b = a + 1; b < m_lies.size(); ++b) {
                const auto cost = [&] {
                    return costOf(m_blockOf[a]) +
                           (m_blockOf[a] == m_blockOf[b] ? 0 : costOf(m_blockOf[b]));
                };
                const int was = cost();
                const Lying one = m_lies[a];
                const Lying other = m_lies[b];
                for (int turns = 0; turns < 16; ++turns) {
                    m_lies[a] = {other.piece, other.pose ^ (turns / 4)};
                    m_lies[b] = {one.piece, one.pose ^ (turns % 4)};
                    if (mayLie(a, m_lies[a]) && mayLie(b, m_lies[b]) && cost() < was) {
                        return true;
                    }
                }
                m_lies[a] = one;
                m_lies[b] = other;
            }
        }
        return false;
    }

    const Document& m_document;
    const std::vector<BlankSpec>& m_specs;
    std::vector<BlankPurpose> m_purposes; ///< by spot
    std::vector<std::size_t> m_blockOf;   ///< by spot
    std::vector<std::vector<std::size_t>> m_blocks;
    std::vector<Piece> m_pieces;
    std::vector<Lying> m_lies;  ///< by spot
    std::vector<Lying> m_began; ///< by spot, as they lie in the plan
};

} // namespace

Result<PairingProposal> pairedPlies(const Document& document, PartId part) {
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    std::vector<Block> blocks;
    for (Block& block : blocksOf(document)) {
        if (block.part == part && !block.isGlued) {
            blocks.push_back(std::move(block));
        }
    }
    PairingProposal proposal;
    proposal.before = proposal.after = pairingOf(blocks, part);
    if (blocks.empty()) {
        return proposal;
    }
    Pairing pairing(document, specs.value(), blocks);
    pairing.improve();
    Result<Edit> edit = editFor(document, pairing.changes(), blocks.front());
    if (!edit) {
        return edit.error();
    }
    Document after = document;
    if (const Result<Edit> back = apply(after, edit.value()); !back) {
        return back.error();
    }
    std::vector<Block> paired = blocksOf(after);
    std::erase_if(paired, [](const Block& block) { return block.isGlued; });
    proposal.after = pairingOf(paired, part);
    if (!(proposal.after == proposal.before)) {
        proposal.edit = std::move(edit).value();
    }
    return proposal;
}

} // namespace stavewright::panels
