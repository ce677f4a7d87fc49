#pragma once
// The kinds of lines that a step list is made of: headings, instructions, rows to tick. Numbers
// that are read at a saw are set in 14 points, words in 10.

#include "core/papers/CutSteps.h"
#include "core/papers/Flow.h"

namespace stavewright::papers {

inline constexpr double sawPoints = 14; ///< numbers read at the saw
inline constexpr double wordPoints = 10;

[[nodiscard]] Span wordSpan(std::string text, Length gap = 1.5_mm);
[[nodiscard]] Span nameSpan(std::string text, Length gap = 3_mm);
/// A number to set a machine by, and one that only checks it.
[[nodiscard]] Span numberSpan(std::string text, Length gap = 3.5_mm);
[[nodiscard]] Span plainNumberSpan(std::string text, Length gap = 3.5_mm);

/// Readings under one another, aligned on their whole numbers.
struct ReadingColumn {
    Length nameWidth;  ///< of the names before them; zero when there are none
    Length wholeWidth; ///< of the widest whole number
};

/// A sign between the box to tick and the words.
enum class RowSign { None, Fill };

/// A drop that hangs at `at`, as it stands beside a knot that is to be filled.
void drawFillSign(Pen& pen, Point at);
inline constexpr Length fillSignWidth = 2_mm;
inline constexpr Length fillSignHeight = 3_mm;

/// A set square standing on this baseline.
void drawSquareSign(Pen& pen, Point baseline);

/// A triangle with a bar and a dot in it, on this baseline.
void drawCautionSign(Pen& pen, Point baseline);

class StepLines {
  public:
    StepLines(const JobInfo& info, Length width, const TextMeasure& measure)
        : m_info(info)
        , m_width(width)
        , m_measure(measure) {}

    [[nodiscard]] Length width() const { return m_width; }
    [[nodiscard]] FlowRows take() { return std::move(m_rows); }

    void numberedHeading(const std::string& title);
    void heading(const std::string& title);
    /// The last heading is a good place to turn the sheet.
    void beginStepHere() { m_rows[m_lastHeading].beginsStep = true; }
    void paragraph(const std::string& text, double points = wordPoints,
                   Weight weight = Weight::Regular);
    /// A paragraph that stays with the rows it explains.
    void instruction(const std::string& text);
    void gap(Length height);

    /// A row to tick; it wraps between spans where the column is too narrow.
    void tickRow(const std::vector<Span>& spans, RowSign sign = RowSign::None,
                 Done done = Done::No);
    /// A line of spans to read, without a box; it wraps between spans.
    void plainRow(std::vector<Span> spans);
    /// A triangle and what to beware of, kept with what follows.
    void caution(const std::string& text);
    struct Tick {
        std::vector<Span> spans;
        Done done = Done::No;
    };
    /// Rows to tick, two abreast where both fit; read from left to right.
    void tickPairs(const std::vector<Tick>& entries);

    /// Makes room in the column for these readings and the name before them.
    void widen(ReadingColumn& column, const std::string& name,
               const std::vector<CrosscutMark>& marks) const;
    /// The reading, the blade's side, and what the cut makes of `names`.
    /// `square`: with the sign that the end is squared first.
    void readingRow(const ReadingColumn& column, const std::string& name, const CrosscutMark& mark,
                    const std::vector<std::string>& names, bool square = false);
    /// What the sign before some readings means.
    void squareInstruction(const std::string& text);

  private:
    [[nodiscard]] std::vector<Span> crosscutWords(const CrosscutMark& mark,
                                                  const std::vector<std::string>& names,
                                                  Length room) const;

    const JobInfo& m_info;
    Length m_width;
    const TextMeasure& m_measure;
    FlowRows m_rows;
    int m_step = 0;
    std::size_t m_lastHeading = 0; ///< its first row
};

} // namespace stavewright::papers
