#pragma once
// What the search for knots looks at: brightness, colour and grain of a board picture, each against
// its surroundings, summed so that the mean over any rectangle costs four look-ups. Only of this
// folder and of the training of its weights.

#include <array>
#include <cstdint>
#include <vector>

#include "core/photo/BoardFinding.h"
#include "core/photo/Image.h"

namespace stavewright::photo {

/// Sums kept for each rectangle. Logarithms are natural, in thousandths.
enum class Channel : std::uint8_t {
    Wood,  ///< 256 for each cell that is board all over
    Light, ///< lighter (+) or darker (-) than the wood around
    LightSquare,
    Warm,        ///< red against blue
    Green,       ///< green against red and blue
    ChangeAlong, ///< squares of the slopes of the light
    ChangeAcross,
    ChangeBoth,
    Dark,    ///< share darker than the wood around by a sixth,
    Darker,  ///< by a third,
    Darkest, ///< by a half
    Detail   ///< fine roughness
};
inline constexpr std::size_t channelCount = 12;
using Sums = std::array<std::int32_t, channelCount>;

class GrainGrid {
  public:
    /// Cells across a board; a knot of a twentieth of the width has ten.
    static constexpr int cellsAcross = 200;

    /// Grain along x (the picture is turned if need be).
    GrainGrid(const ImageView& picture, const FoundBoard& board);

    [[nodiscard]] int columns() const { return m_columns; }
    [[nodiscard]] int rows() const { return m_rows; }
    /// Over columns [0, x) and rows [0, y); differences are exact even after wrapping round.
    [[nodiscard]] const Sums& upTo(int x, int y) const {
        return m_sums[static_cast<std::size_t>(y) * static_cast<std::size_t>(m_columns + 1) +
                      static_cast<std::size_t>(x)];
    }
    /// How much the clear wood of this board varies in light, in thousandths; at least 10.
    [[nodiscard]] double grainContrast() const { return m_grainContrast; }
    /// Cells in the board.
    [[nodiscard]] double width() const { return m_width; }

    /// Between cells and pixels of the picture.
    [[nodiscard]] Pixels toPicture(double column, double row) const;
    [[nodiscard]] Pixels toGrid(Pixels picture) const;

    /// Of one cell (for outlines and thin lines).
    [[nodiscard]] int valueAt(Channel channel, int x, int y) const;
    [[nodiscard]] int lightAt(int x, int y) const { return valueAt(Channel::Light, x, y); }
    [[nodiscard]] bool isWood(int x, int y) const;

  private:
    int m_columns = 0;
    int m_rows = 0;
    bool m_upright = false;
    double m_cell = 1; ///< pixels of the picture
    Pixels m_origin;   ///< of the part of the picture that shows the board
    double m_width = 0;
    double m_grainContrast = 10;
    std::vector<Sums> m_sums;
};

} // namespace stavewright::photo
