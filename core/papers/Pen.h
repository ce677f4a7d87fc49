#pragma once
// Puts marks on one page: lines of type, rules, shapes. Knows the measure, so that callers can fit
// text.
//
//   Pen pen(page, measure);
//   pen.text({12_mm, 20_mm}, "Board 7", {.points = 20, .weight = Weight::SemiBold});

#include <string>
#include <vector>

#include "core/papers/PageModel.h"
#include "core/papers/PaperUnits.h"

namespace stavewright::papers {

struct TextStyle {
    double points = 10;
    Weight weight = Weight::Regular;
    Align align = Align::Left;
    Ink ink = Ink::Black;
    bool halo = false;
    int turnDegrees = 0;
};

struct LineLook {
    Length width = 0.25_mm;
    LineStyle style = LineStyle::Solid;
    Ink ink = Ink::Black;
};

/// One stretch of a line set in several sizes, all on one baseline.
struct Span {
    std::string utf8;
    double points = 10;
    Weight weight = Weight::Regular;
    Ink ink = Ink::Black;
    Length gapAfter; ///< white space behind it
};

class Pen {
  public:
    Pen(Page& page, const TextMeasure& measure)
        : m_page(&page)
        , m_measure(&measure) {}

    [[nodiscard]] const TextMeasure& measure() const { return *m_measure; }
    [[nodiscard]] Page& page() { return *m_page; }
    [[nodiscard]] Length widthOf(const std::string& utf8, const TextStyle& style) const;

    /// Empty text leaves no mark. Returns the box it covers.
    Rect text(Point baseline, const std::string& utf8, const TextStyle& style);
    /// Several sizes on one baseline; returns where the line ends.
    Length spans(Point baseline, const std::vector<Span>& line);

    void line(Point from, Point to, const LineLook& look = {});
    void polygon(std::vector<Point> corners, const LineLook& look = {});
    /// Filled; `look.width` zero leaves the outline away.
    void area(std::vector<Point> corners, Ink fill, const LineLook& look = {Length()});
    void rect(const Rect& rect, const LineLook& look = {});
    void circle(Point centre, Length radius, const LineLook& look = {});
    void disc(Point centre, Length radius, Ink fill);

  private:
    Page* m_page;
    const TextMeasure* m_measure;
};

[[nodiscard]] Length widthOf(const std::vector<Span>& line, const TextMeasure& measure);
[[nodiscard]] std::vector<Point> cornersOf(const Rect& rect);
[[nodiscard]] std::vector<Point> circleCorners(Point centre, Length radius);

/// Words at spaces; a whole number and its fraction are one.
[[nodiscard]] std::vector<std::string> wordsOf(const std::string& utf8);

/// Lines no wider than `width`; breaks at spaces, and inside a word only when it is wider than a
/// line. A whole number and its fraction stay together.
[[nodiscard]] std::vector<std::string> wrapped(const std::string& utf8, Length width,
                                               const TextStyle& style, const TextMeasure& measure);
/// The text, or its beginning and "…", no wider than `width`.
[[nodiscard]] std::string elided(const std::string& utf8, Length width, const TextStyle& style,
                                 const TextMeasure& measure);

} // namespace stavewright::papers
