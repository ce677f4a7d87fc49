#include <algorithm>

#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

namespace {

class SizeCheck {
  public:
    SizeCheck(const Case& opened, Report& report)
        : m_opened(opened)
        , m_report(report)
        , m_words(report.words()) {}

    void species(const PlacedBlank& placed) {
        const std::string& wanted = placed.need->part->species;
        if (!wanted.empty() && wanted != placed.board->species) {
            fail(FindingKind::WrongSpecies, placed,
                 name(placed) + " would be of " + placed.board->species + "; part " +
                     m_words.part(placed.need->part->id) + " is of " + wanted + ".");
        }
    }

    void fixedBlank(const PlacedBlank& placed) {
        const Need& need = *placed.need;
        const Rect& rect = placed.blank->rect;
        if (rect.length() != need.length || rect.width() != need.width) {
            fail(FindingKind::WrongSize, placed,
                 name(placed) + " is " +
                     size(rect.length(), need.length, rect.width(), need.width) +
                     "; its milling chain asks for " + size(need.length, need.width) + '.' +
                     hairsbreadth(rect.length() - need.length, rect.width() - need.width));
        }
        const bool isLost =
            placed.wood.length() < need.leastLength || placed.wood.width() < need.leastWidth;
        if (placed.blank->actual && isLost) {
            fail(FindingKind::WrongSize, placed,
                 name(placed) + " was cut to " +
                     size(placed.wood.length(), need.leastLength, placed.wood.width(),
                          need.leastWidth) +
                     ", smaller than the finished " + size(need.leastLength, need.leastWidth) +
                     ".");
        }
    }

    void stave(const PlacedBlank& placed) {
        const Need& need = *placed.need;
        const NeededStaves& staves = *need.staves;
        const Length length = placed.blank->rect.length();
        if (length != need.length) {
            fail(FindingKind::WrongSize, placed,
                 name(placed) + " is " + m_words.beside(length, need.length) +
                     " long; its milling chain asks for " + m_words.length(need.length) + '.' +
                     hairsbreadth(length - need.length, Length()));
        }
        if (placed.blank->actual && placed.wood.length() < need.leastLength) {
            fail(FindingKind::WrongSize, placed,
                 name(placed) + " was cut to " +
                     m_words.beside(placed.wood.length(), need.leastLength) +
                     " long, shorter than the finished " + m_words.length(need.leastLength) + ".");
        }
        const Length net = placed.wood.width() - staves.jointing;
        if (net < staves.leastNet || net > staves.widestNet) {
            fail(FindingKind::StaveWidth, placed,
                 name(placed) + " is " +
                     m_words.beside(net,
                                    net < staves.leastNet ? staves.leastNet : staves.widestNet) +
                     " wide in the panel; from " + m_words.length(staves.leastNet) + " to " +
                     m_words.length(staves.widestNet) + " is allowed.");
        }
        const Length jointer = m_opened.document.shop.machines.jointerWidth;
        if (jointer > Length() && placed.wood.width() > jointer) {
            fail(FindingKind::TooWideForMachine, placed,
                 name(placed) + " is " + m_words.beside(placed.wood.width(), jointer) +
                     " wide rough; the jointer takes " + m_words.length(jointer) + ".");
        }
    }

    /// A board that is too long is crosscut where it lies; a blank that is stays so at every
    /// machine.
    void reach(const PlacedBlank& placed) {
        const Length longest = m_opened.document.shop.machines.longestBoard;
        const Length length = placed.blank->rect.length();
        // What is cut already is cut.
        if (longest > Length() && length > longest && placed.blank->state == CutState::Planned) {
            fail(FindingKind::TooLongToHandle, placed,
                 name(placed) + " is " + m_words.beside(length, longest) +
                     " long rough; the longest board handled in the shop is " +
                     m_words.beside(longest, length) + ".");
        }
    }

  private:
    [[nodiscard]] std::string name(const PlacedBlank& placed) const {
        return m_words.blank(placed.blank->purpose) + " on " + m_words.board(placed.board->id);
    }
    [[nodiscard]] std::string size(Length length, Length width) const {
        return m_words.length(length) + " x " + m_words.length(width);
    }
    /// The size there is, held against the one there should be.
    [[nodiscard]] std::string size(Length length, Length wantedLength, Length width,
                                   Length wantedWidth) const {
        return m_words.beside(length, wantedLength) + " x " + m_words.beside(width, wantedWidth);
    }
    /// Two sizes that read alike need their difference said.
    [[nodiscard]] std::string hairsbreadth(Length along, Length across) const {
        const Length difference = std::max(abs(along), abs(across));
        return difference < m_words.tapeStep()
                   ? " They differ by " + m_words.length(difference) + "."
                   : std::string();
    }
    void fail(FindingKind kind, const PlacedBlank& placed, std::string sentence) {
        m_report.fail(kind, about(placed), std::move(sentence));
    }

    const Case& m_opened;
    Report& m_report;
    const Words& m_words;
};

} // namespace

void checkSizes(const Case& opened, Report& report) {
    SizeCheck check(opened, report);
    for (const PlacedBlank& placed : opened.blanks) {
        if (!placed.sound || !placed.need) {
            continue;
        }
        check.species(placed);
        check.reach(placed);
        if (placed.need->staves) {
            check.stave(placed);
        } else {
            check.fixedBlank(placed);
        }
    }
}

} // namespace stavewright::audit_detail
