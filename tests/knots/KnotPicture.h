#pragma once
// A picture of a board of which is known where its knots are, for training and measuring.

#include <optional>
#include <string>
#include <vector>

#include "core/lumber/Defect.h"
#include "core/photo/BoardFinding.h"
#include "core/photo/Image.h"

namespace stavewright::knots {

/// In pixels of the picture.
struct Box {
    double x0 = 0;
    double y0 = 0;
    double x1 = 0;
    double y1 = 0;
    [[nodiscard]] double longer() const { return x1 - x0 > y1 - y0 ? x1 - x0 : y1 - y0; }
    [[nodiscard]] double area() const { return (x1 - x0) * (y1 - y0); }
};
[[nodiscard]] double common(const Box& a, const Box& b);
/// Common area by area of both together.
[[nodiscard]] double overlap(const Box& a, const Box& b);

struct TrueMark {
    enum class Counts { Knot, Neither, NoKnot };
    Box box;
    Counts counts = Counts::Knot;
    std::optional<DefectKind> kind; ///< as far as the truth tells
};

struct KnotPicture {
    std::string name;
    std::string board; ///< pictures of one board are left out together
    std::string kind;  ///< how it was taken; pictures of one kind are alike
    photo::Image image;
    bool fillsPicture = false; ///< nothing but board is shown
    std::vector<TrueMark> marks;
    std::string credit; ///< licence and attribution

    [[nodiscard]] photo::FoundBoard found() const {
        return fillsPicture ? photo::wholePicture(image.view()) : photo::findBoard(image.view());
    }
};

} // namespace stavewright::knots
