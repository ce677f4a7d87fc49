#include <algorithm>

#include "core/audit/Checks.h"
#include "core/audit/Facing.h"
#include "core/layout/PieceState.h"

namespace stavewright::audit_detail {

namespace {

/// A piece as it first meets the jointer: a whole section, or a strip that was rough-ripped before.
struct FacedPiece {
    const PlacedSection* section = nullptr;
    const Strip* strip = nullptr; ///< null when the section is faced whole
    Length length;
    Length width;
    std::string name;
};

class FacingCheck {
  public:
    FacingCheck(const Case& opened, Report& report)
        : m_shop(opened.document.shop)
        , m_opened(opened)
        , m_report(report)
        , m_words(report.words()) {}

    void checkMachines(const FacedPiece& piece) {
        const Machines& machines = m_shop.machines;
        tooWide(piece, machines.jointerWidth, "jointer");
        tooWide(piece, machines.planerWidth, "planer");
        tooShort(piece, machines.jointerLeastLength, "jointer");
        tooShort(piece, machines.planerLeastLength, "planer");
    }

    void checkThickness(const FacedPiece& piece) {
        const PlacedSection& section = *piece.section;
        const Length left =
            thicknessLeft(*section.board, section.section->along, piece.width, m_shop.cleaning);
        const Length reaches = std::max(left, Length());
        for (std::size_t i = section.firstBlank; i < section.endBlank; ++i) {
            const PlacedBlank& placed = m_opened.blanks[i];
            const bool isOfPiece = !piece.strip || placed.strip == piece.strip;
            if (!isOfPiece || !placed.need || left >= placed.need->thickness) {
                continue;
            }
            m_report.fail(FindingKind::ThicknessNotReached, about(placed),
                          m_words.blank(placed.blank->purpose) + " needs " +
                              m_words.beside(placed.need->thickness, reaches) +
                              " after its first facing; " + piece.name + ", " +
                              m_words.length(piece.length) + " long and " +
                              m_words.length(piece.width) + " wide then, leaves " +
                              m_words.beside(reaches, placed.need->thickness) + ".");
        }
    }

    /// What is laid into wood that is milled already finds it planed.
    void checkPlaned(const FacedPiece& piece) {
        const PlacedSection& section = *piece.section;
        for (std::size_t i = section.firstBlank; i < section.endBlank; ++i) {
            const PlacedBlank& placed = m_opened.blanks[i];
            const std::optional<Length> planed = planedTo(*section.section, *placed.strip);
            const bool isOfPiece = !piece.strip || placed.strip == piece.strip;
            if (!isOfPiece || !placed.need || !planed || *planed >= placed.need->thickness) {
                continue;
            }
            const Length needed = placed.need->thickness;
            m_report.fail(FindingKind::PlanedTooThin, about(placed),
                          m_words.blank(placed.blank->purpose) + " needs wood " +
                              m_words.beside(needed, *planed) + " thick; " + piece.name +
                              " is planed already, and nothing thicker than " +
                              m_words.beside(*planed, needed) + " comes from it.");
        }
    }

  private:
    void tooWide(const FacedPiece& piece, Length takes, const char* machine) {
        if (takes > Length() && piece.width > takes) {
            m_report.fail(FindingKind::TooWideForMachine, {.board = piece.section->board->id},
                          piece.name + " is " + m_words.beside(piece.width, takes) +
                              " wide when it is first faced; the " + machine + " takes " +
                              m_words.beside(takes, piece.width) + ".");
        }
    }
    void tooShort(const FacedPiece& piece, Length needs, const char* machine) {
        if (piece.length < needs) {
            m_report.fail(FindingKind::TooShortForMachine, {.board = piece.section->board->id},
                          piece.name + " is " + m_words.beside(piece.length, needs) +
                              " long when it is first faced; the " + machine + " needs " +
                              m_words.beside(needs, piece.length) + ".");
        }
    }

    const Shop& m_shop;
    const Case& m_opened;
    Report& m_report;
    const Words& m_words;
};

} // namespace

void checkFacing(const Case& opened, Report& report) {
    FacingCheck check(opened, report);
    for (const PlacedSection& placed : opened.sections) {
        // A section of offcuts alone is not milled.
        if (!placed.sound || placed.firstBlank == placed.endBlank) {
            continue;
        }
        const std::string name = report.words().section(placed.board->id, placed.index);
        const Length length = placed.section->along.length();
        if (placed.section->facing == FirstFacing::Whole) {
            const FacedPiece piece{&placed, nullptr, length,
                                   widestBetween(*placed.board, placed.section->along), name};
            check.checkMachines(piece);
            check.checkThickness(piece);
            check.checkPlaned(piece);
            continue;
        }
        for (std::size_t k = 0; k < placed.section->strips.size(); ++k) {
            const Strip& strip = placed.section->strips[k];
            if (strip.blanks.empty()) {
                continue;
            }
            const FacedPiece piece{&placed, &strip, length, strip.across.length(),
                                   "strip " + std::to_string(k + 1) + " in " + name};
            check.checkMachines(piece);
            check.checkThickness(piece);
            check.checkPlaned(piece);
        }
    }
}

} // namespace stavewright::audit_detail
