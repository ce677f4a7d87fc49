// The rows of a board sheet that say how far its cuts may land off.

#include <algorithm>
#include <utility>

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
Length worthSaying(const Document& document) {
    return document.info.units == UnitSystem::Inches ? Length::inches(1) : Length::millimetres(25);
}

/// What comes about outside, after "less" or "more": "loses T1-1", "leaves panel T1 too narrow".
struct Loss {
    std::string verb; ///< or all there is to say
    bool isOfPanel = false;
    std::string names = {};
    std::string how = {};
    friend bool operator==(const Loss&, const Loss&) = default;
};

Loss lossOf(const Document& document, const std::vector<BlankPurpose>& lost, const std::string& why,
            const std::optional<hand::PanelMissed>& panel) {
    if (!lost.empty()) {
        return {"loses", false, hand::namesOf(document, lost)};
    }
    if (panel) {
        const bool isTooWide = panel->by == hand::PanelMissed::By::TooWide;
        return {isTooWide ? "makes" : "leaves", true, labelOf(document, panel->panel),
                isTooWide ? "too wide" : "too narrow"};
    }
    if (!why.empty()) {
        return {"means: " + (why.ends_with('.') ? why.substr(0, why.size() - 1) : why)};
    }
    return {"loses the piece"};
}

struct Side {
    bool isLimited = false;
    Length limit;
    Loss loss;
};

Side sideOf(const Document& document, bool open, Length limit, Length mark, Loss loss) {
    return {!open && abs(limit - mark) < worthSaying(document), limit, std::move(loss)};
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
            const std::optional<Step> step = stepOf(window.cut);
            if (!step) {
                continue;
            }
            const Side below =
                sideOf(m_document, window.openBelow, window.window.from, window.mark,
                       lossOf(m_document, window.lostBelow, window.whyBelow, window.panelBelow));
            const Side above =
                sideOf(m_document, window.openAbove, window.window.to, window.mark,
                       lossOf(m_document, window.lostAbove, window.whyAbove, window.panelAbove));
            if (!below.isLimited && !above.isLimited) {
                areFree = true;
                continue;
            }
            if (!begun) {
                m_lines.heading("How far a cut may land off");
                m_lines.instruction("Aim for the mark; the other cuts are taken to be on theirs. "
                                    "Where one lands outside, mark it and plan again.");
                begun = true;
            }
            addRow(window, *step, below, above);
        }
        if (begun && areFree) {
            m_lines.paragraph(
                "Every other cut: " +
                saidLength(worthSaying(m_document),
                           {m_document.info.units, m_document.info.inchDenominator, true}) +
                " off loses nothing.");
        }
        if (!limits.standbys.empty()) {
            m_lines.heading("If a knot opens");
            for (const std::string& standby : limits.standbys) {
                m_lines.paragraph(standby);
            }
        }
    }

  private:
    /// How a step reads or sets a cut: `name` says which, and the figure for a place `at` is
    /// at - zero, or zero - at where the piece lies the other way round.
    struct Step {
        std::string name;
        Length zero;
        bool isTurned = false;
    };

    /// "1a ends 32 1/8: 32 to 32 5/8; less loses T1-1, more leaves panel S too narrow";
    /// "exactly" where no two limits can be told apart. Mark and limits are said to the same
    /// step, so that the mark stays within them.
    void addRow(const CutWindow& window, const Step& step, Side below, Side above) {
        const auto figure = [&](Length at) {
            return step.isTurned ? step.zero - at : at - step.zero;
        };
        if (step.isTurned) {
            std::swap(below, above);
        }
        const Length mark = figure(window.mark);
        const LengthStyle fence = settingStyle(mark, styleOf(m_document.info));
        const auto text = [&](Length at) {
            return window.cut.kind() == CutKind::Rip ? nearestText(figure(at), fence)
                                                     : tapeText(m_document.info, figure(at));
        };
        std::vector<Span> spans{small(step.name, Weight::SemiBold, 1.5_mm),
                                small(text(window.mark) + ":", Weight::SemiBold, 2_mm)};
        if (below.isLimited && above.isLimited && text(below.limit) == text(above.limit)) {
            addWords(spans, "exactly;");
        } else if (below.isLimited && above.isLimited) {
            spans.push_back(small(text(below.limit)));
            spans.push_back(small("to"));
            spans.push_back(small(text(above.limit) + ";"));
        } else {
            spans.push_back(small(below.isLimited ? "at least" : "at most"));
            spans.push_back(small(text(below.isLimited ? below.limit : above.limit) + ";"));
        }
        if (below.isLimited && above.isLimited && below.loss == above.loss) {
            addWords(spans, "anything else");
            addLoss(spans, below.loss);
        } else {
            if (below.isLimited) {
                addWords(spans, "less");
                addLoss(spans, below.loss);
                spans.back().utf8 += above.isLimited ? "," : "";
            }
            if (above.isLimited) {
                addWords(spans, "more");
                const bool isSaid = below.isLimited && below.loss.isOfPanel &&
                                    above.loss.isOfPanel && below.loss.names == above.loss.names;
                addLoss(spans, above.loss, isSaid);
            }
        }
        m_lines.plainRow(std::move(spans));
    }

    /// A span for each word, so that the row may break at any of them.
    static void addWords(std::vector<Span>& spans, const std::string& text,
                         Weight weight = Weight::Regular) {
        for (const std::string& word : wordsOf(text)) {
            spans.push_back(small(word, weight));
        }
    }
    /// `isNamed`: the row has named the panel already.
    static void addLoss(std::vector<Span>& spans, const Loss& loss, bool isNamed = false) {
        addWords(spans, loss.verb);
        if (isNamed) {
            addWords(spans, "it");
        } else {
            addWords(spans, loss.isOfPanel ? "panel" : "");
            addWords(spans, loss.names, Weight::SemiBold);
        }
        addWords(spans, loss.how);
    }

    static Span small(std::string text, Weight weight = Weight::Regular, Length gap = 1.2_mm) {
        return {std::move(text), wordPoints, weight, Ink::Black, gap};
    }

    /// Nothing for a cut that no step asks for.
    [[nodiscard]] std::optional<Step> stepOf(const hand::CutRef& cut) const {
        for (const SectionCuts& section : m_cuts.sections) {
            if (section.section->id != cut.section) {
                continue;
            }
            if (!cut.strip) {
                return Step{section.name + (cut.high ? " ends" : " starts"), {}};
            }
            for (std::size_t i = 0; i < section.strips.size(); ++i) {
                if (section.strips[i].strip->id == *cut.strip) {
                    return cut.blank ? secondStep(section.strips[i], cut)
                                     : ripStep(section, i, cut);
                }
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] static std::optional<Step> ripStep(const SectionCuts& section, std::size_t strip,
                                                     const hand::CutRef& cut) {
        using Kind = RipPass::Kind;
        const StripCuts& cuts = section.strips[strip];
        for (const RipPass& pass : section.rips) {
            if (pass.strip != strip) {
                continue;
            }
            const bool endsStrip = pass.kind == Kind::Strip || pass.kind == Kind::WithSliver;
            if (cut.high && endsStrip) {
                return Step{cuts.name + (pass.kind == Kind::Strip ? " ripped" : " with its waste"),
                            pass.fence};
            }
            if (!cut.high && pass.kind == Kind::OffSliver) {
                return Step{cuts.name + " down to", pass.fence, true};
            }
            if (!cut.high && (pass.kind == Kind::Waste || pass.kind == Kind::Kept)) {
                // The strip begins a kerf past what is ripped off before it.
                return Step{(pass.kind == Kind::Waste ? "waste" : pass.keeps) + " before " +
                                cuts.name,
                            cuts.strip->across.from - pass.width};
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] static std::optional<Step> secondStep(const StripCuts& strip,
                                                        const hand::CutRef& cut) {
        for (std::size_t i = 0; i < strip.blanks.size(); ++i) {
            if (strip.blanks[i].blank->id != *cut.blank) {
                continue;
            }
            const auto makesIt = [&](const CrosscutMark& mark) {
                return (cut.high ? mark.ends : mark.starts) == i;
            };
            const auto measured = strip.crosscuts.begin() + (strip.isSquared ? 1 : 0);
            if (std::any_of(measured, strip.crosscuts.end(), makesIt)) {
                const std::string& label = strip.blanks[i].label;
                const bool isSeveral = label.find(", ") != std::string::npos; // "B1, B2"
                return Step{label + (isSeveral  ? (cut.high ? " end" : " start")
                                     : cut.high ? " ends"
                                                : " starts"),
                            strip.hook};
            }
        }
        return std::nullopt;
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
