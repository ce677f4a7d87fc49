#pragma once
// The case before the judge: the plan's tree laid out flat, with what each blank is needed for and
// where it lies on its board. Built once and read by every family of checks.

#include <vector>

#include "core/audit/Needs.h"
#include "core/audit/Report.h"
#include "core/document/Document.h"

namespace stavewright::audit_detail {

struct PlacedSection {
    const Board* board = nullptr;
    const Section* section = nullptr;
    std::size_t index = 0; ///< from 0 on its board
    /// Extents and frame are usable: the geometric checks judge sound sections only.
    bool sound = false;
    std::size_t firstBlank = 0; ///< its blanks in Case::blanks: [firstBlank, endBlank)
    std::size_t endBlank = 0;
};

struct PlacedBlank {
    std::size_t inSection = 0; ///< index into Case::sections
    const Board* board = nullptr;
    const Section* section = nullptr;
    const Strip* strip = nullptr;
    const Blank* blank = nullptr;
    const Need* need = nullptr; ///< null when the job asks for no such blank
    Rect wood;                  ///< as cut where that differs, otherwise as planned; section frame
    bool sound = false;         ///< the section is, and so are the strip and the rectangle
    Polygon outline;            ///< in the board frame; empty when not sound
    Rect box;                   ///< round the outline
};

[[nodiscard]] inline About about(const PlacedBlank& placed) {
    return {
        .board = placed.board->id, .blank = placed.blank->id, .part = placed.blank->purpose.part};
}

struct Case {
    const Document& document;
    const Plan& plan;
    std::vector<Need> needs;
    std::vector<PlacedSection> sections; ///< of boards that the job has
    std::vector<PlacedBlank> blanks;     ///< of those sections, in the plan's order
    bool tellsMoves = true; ///< look which small move would clear a blank of a defect; takes long
};

/// Reads the plan's tree and reports what cannot be judged at all: unknown boards, boards that are
/// set aside or appear twice, extents and frames that make no sense.
[[nodiscard]] Case openCase(const Document& document, const Plan& plan, Report& report);
/// The same with needs that were worked out before.
[[nodiscard]] Case openCase(const Document& document, const Plan& plan, std::vector<Need> needs,
                            Report& report);

/// Has extent and lies within anything a shop holds.
[[nodiscard]] bool isUsable(const Stretch& stretch);
[[nodiscard]] bool isUsable(const Rect& rect);

/// Kerf of the rips that part the strips of a section.
[[nodiscard]] Length ripKerf(const Shop& shop, const Section& section);

/// A crosscut in the section's frame: exact where the frame is parallel to the board, otherwise
/// where it meets the frame's axis.
[[nodiscard]] Stretch crosscutsInFrame(const Section& section);

/// Raw ends that are cut off before anything else, as the stretch of sound length between them.
[[nodiscard]] Stretch betweenRawEnds(const Shop& shop, const Board& board);

} // namespace stavewright::audit_detail
