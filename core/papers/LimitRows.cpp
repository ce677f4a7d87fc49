// The rows of a board sheet that say how far its cuts may land off.

#include "core/papers/Sheets.h"
#include "core/papers/StepLines.h"
#include "core/papers/Words.h"
#include "core/units/SaidLength.h"

namespace stavewright::papers {

namespace {

using hand::CutKind;
using hand::CutWindow;

/// A cut that may land off by more than this on a side needs no word about it: nobody saws so far
/// off unawares. Common practice, no source.
constexpr Length worthSaying = Length::inches(1);

struct Side {
    bool isLimited = false;
    Length limit;
    std::string lost;
};

Side sideOf(const Document& document, bool open, Length limit, Length mark,
            const std::vector<BlankPurpose>& lost, const std::string& why) {
    const bool isLimited = !open && abs(limit - mark) < worthSaying;
    const std::string names = hand::namesOf(document, lost);
    return {isLimited, limit,
            !names.empty()                    ? names
            : why == hand::panelNoLongerHolds ? "the panel's width"
                                              : "the piece"};
}

class LimitWriter {
  public:
    LimitWriter(StepLines& lines, const Document& document, const BoardCuts& cuts)
        : m_lines(lines)
        , m_document(document)
        , m_cuts(cuts) {}

    void write(const hand::BoardLimits& limits) {
        bool begun = false;
        bool areFree = false;
        for (const CutWindow& window : limits.cuts) {
            const Side below = sideOf(m_document, window.openBelow, window.window.from, window.mark,
                                      window.lostBelow, window.whyBelow);
            const Side above = sideOf(m_document, window.openAbove, window.window.to, window.mark,
                                      window.lostAbove, window.whyAbove);
            if (!below.isLimited && !above.isLimited) {
                areFree = true;
                continue;
            }
            if (!begun) {
                m_lines.heading("How far a cut may land off");
                m_lines.instruction("Aim for the mark; the other cuts are taken to be on theirs. "
                                    "Outside, that piece is lost: mark it, plan again.");
                begun = true;
            }
            addRow(window, below, above);
        }
        if (begun && areFree) {
            m_lines.paragraph("Every other cut: " +
                              saidLength(worthSaying, {m_document.info.units,
                                                       m_document.info.inchDenominator, true}) +
                              " off loses nothing.");
        }
        if (!limits.standbys.empty()) {
            m_lines.heading("Standby");
            for (const std::string& standby : limits.standbys) {
                m_lines.paragraph(standby);
            }
        }
    }

  private:
    /// "1a ends 32 1/8: 32 to 32 5/8; less: T1-1, more: S2"; "exactly" where the tape tells no
    /// two limits apart
    void addRow(const CutWindow& window, const Side& below, const Side& above) {
        const Length zero = zeroOf(window.cut);
        const auto text = [&](Length at) { return tapeText(m_document.info, at - zero); };
        std::vector<Span> spans{small(nameOf(window.cut), Weight::SemiBold, 1.5_mm),
                                small(markText(window, zero) + ":", Weight::SemiBold, 2_mm)};
        if (below.isLimited && above.isLimited && text(below.limit) == text(above.limit)) {
            spans.push_back(small("exactly;", Weight::Regular, 2_mm));
        } else if (below.isLimited && above.isLimited) {
            spans.push_back(small(text(below.limit)));
            spans.push_back(small("to"));
            spans.push_back(small(text(above.limit) + ";", Weight::Regular, 2_mm));
        } else {
            spans.push_back(small(below.isLimited ? "at least" : "at most"));
            spans.push_back(small(text(below.isLimited ? below.limit : above.limit) + ";",
                                  Weight::Regular, 2_mm));
        }
        if (below.isLimited && above.isLimited && below.lost == above.lost) {
            spans.push_back(small("outside:"));
            spans.push_back(small(below.lost, Weight::SemiBold, 2_mm));
        } else {
            if (below.isLimited) {
                spans.push_back(small("less:"));
                spans.push_back(small(below.lost, Weight::SemiBold, 2_mm));
            }
            if (above.isLimited) {
                spans.push_back(small("more:"));
                spans.push_back(small(above.lost, Weight::SemiBold, 2_mm));
            }
        }
        m_lines.plainRow(std::move(spans));
    }

    /// As the step says it: a fence is set finer than a tape is read.
    [[nodiscard]] std::string markText(const CutWindow& window, Length zero) const {
        const Length mark = window.mark - zero;
        return window.cut.kind() == CutKind::Rip ? settingText(m_document.info, mark)
                                                 : tapeText(m_document.info, mark);
    }

    static Span small(std::string text, Weight weight = Weight::Regular, Length gap = 1.2_mm) {
        return {std::move(text), wordPoints, weight, Ink::Black, gap};
    }

    /// A rip that ends a strip is set as the strip's width.
    [[nodiscard]] Length zeroOf(const hand::CutRef& cut) const {
        if (cut.kind() == CutKind::Rip && cut.high) {
            for (const SectionCuts& section : m_cuts.sections) {
                for (const StripCuts& strip : section.strips) {
                    if (strip.strip->id == *cut.strip) {
                        return strip.strip->across.from;
                    }
                }
            }
        }
        return {};
    }

    [[nodiscard]] std::string nameOf(const hand::CutRef& cut) const {
        for (const SectionCuts& section : m_cuts.sections) {
            if (section.section->id != cut.section) {
                continue;
            }
            if (!cut.strip) {
                return section.name + (cut.high ? " ends" : " starts");
            }
            for (const StripCuts& strip : section.strips) {
                if (strip.strip->id != *cut.strip) {
                    continue;
                }
                if (!cut.blank) {
                    return strip.name + (cut.high ? " ripped" : " near edge");
                }
                for (const BlankLine& line : strip.blanks) {
                    if (line.blank->id == *cut.blank) {
                        return line.label + (cut.high ? " ends" : " starts");
                    }
                }
            }
        }
        return {};
    }

    StepLines& m_lines;
    const Document& m_document;
    const BoardCuts& m_cuts;
};

} // namespace

void addLimitRows(StepLines& lines, const Document& document, const BoardCuts& cuts,
                  const hand::BoardLimits& limits) {
    LimitWriter(lines, document, cuts).write(limits);
}

} // namespace stavewright::papers
