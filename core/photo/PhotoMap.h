#pragma once
// From pixels of a photograph to the board frame and back: a plane seen in perspective, through a
// lens with one radial coefficient.

#include <array>
#include <optional>

#include "core/geometry/Shapes.h"
#include "core/lumber/PhotoPoint.h"

namespace stavewright::photo {

class PhotoMap {
  public:
    /// With u, v in half diagonals from the middle of the picture (v down), r^2 = u^2 + v^2 and
    /// m = 1 + lens r^2, the board frame is
    ///   x = scale (h0 mu + h1 mv + h2) / w,  y = scale (h3 mu + h4 mv + h5) / w,
    ///   w = h6 mu + h7 mv + 1.
    struct Values {
        std::array<double, 8> h = {1, 0, 0, 0, -1, 0, 0, 0};
        double lens = 0; ///< positive for barrel distortion
        Length scale = Length::inches(1);
        int width = 1;  ///< pixels
        int height = 1; ///< pixels
    };

    explicit PhotoMap(const Values& values);
    /// A picture that shows the rectangle `shown` of the board, square on; far edge at the top.
    [[nodiscard]] static PhotoMap ofStraightened(const Rect& shown, int width, int height);

    [[nodiscard]] const Values& values() const { return m_values; }

    /// Nothing at or beyond the horizon.
    [[nodiscard]] std::optional<Point> toBoard(Pixels at) const;
    /// Nothing for what no lens could show: behind the camera, or beyond where the distortion
    /// folds. The place may lie outside the picture.
    [[nodiscard]] std::optional<Pixels> toPhoto(Point at) const;

    /// The same in doubles and in units of `scale`, for fitting and resampling.
    struct Plain {
        double x = 0;
        double y = 0;
    };
    [[nodiscard]] std::optional<Plain> toBoardPlain(Pixels at) const;
    [[nodiscard]] std::optional<Pixels> toPhotoPlain(Plain at) const;

  private:
    Values m_values;
    std::array<double, 9> m_inverse = {};
    double m_halfDiagonal = 1;
};

} // namespace stavewright::photo
