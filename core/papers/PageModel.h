#pragma once
// Pages as values: what preview, PDF and tests read. All coordinates are paper lengths, origin top
// left, y down. Text is measured through TextMeasure, which ui implements with the bundled font, so
// that the model is complete before anything is painted.

#include <array>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::papers {

enum class Weight { Regular, Medium, SemiBold };
enum class Align { Left, Centre, Right };

class TextMeasure {
  public:
    virtual ~TextMeasure() = default;
    /// Width of one line set at `points`; fractions are set as the painter sets them.
    [[nodiscard]] virtual Length widthOf(const std::string& utf8, double points,
                                         Weight weight) const = 0;
};

/// Ink for print: black and two greys, plus one accent that reads as dark grey without colour.
enum class Ink { Black, Grey, LightGrey, Accent, White };
enum class LineStyle { Solid, LongDash, ShortDash, Dotted };

struct Text {
    Point at; ///< of the baseline
    std::string utf8;
    double points = 10;
    Weight weight = Weight::Regular;
    Align align = Align::Left;
    Ink ink = Ink::Black;
    int turnDegrees = 0; ///< 0 or 90 (reading upwards)
    bool halo = false;   ///< white edge behind, so that it reads over hatching
};
struct Line {
    Point from, to;
    Length width = Length::micrometres(250);
    LineStyle style = LineStyle::Solid;
    Ink ink = Ink::Black;
};
struct Shape { ///< closed polygon
    std::vector<Point> corners;
    Length width = Length::micrometres(250);
    LineStyle style = LineStyle::Solid;
    Ink ink = Ink::Black;
    bool filled = false;
    Ink fill = Ink::White;
};
using Mark = std::variant<Text, Line, Shape>;

/// A stretch of the straightened photograph of a board's face. Whoever paints has the photographs;
/// the page says only what of them is to be seen.
struct Photo {
    BoardId board;
    BoardFace face = BoardFace::A;
    Rect at; ///< on paper
    /// What comes to lie in its upper left, upper right and lower left corner, board frame.
    std::array<Point, 3> corners;
    std::vector<Line> figure; ///< painted in its place where the photograph cannot be had
};

struct Page {
    std::string title; ///< for bookmarks
    Length width;
    Length height;
    std::vector<Photo> photos; ///< under all marks
    std::vector<Mark> marks;   ///< in painting order
};

enum class Paper { A4, Letter };

struct PaperOptions {
    Paper paper = Paper::Letter;
    std::string date; ///< as printed; given by the caller so that the model is deterministic
};

/// The papers of the document's plan: a first page with the yield and the job, one page per touched
/// board, the parts pages. Refused when there is no plan or the audit finds a failure.
Result<std::vector<Page>> makePapers(const Document& document, const PaperOptions& options,
                                     const TextMeasure& measure);

} // namespace stavewright::papers
