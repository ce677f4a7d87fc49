#pragma once
// Invented rough boards for the samples: outline with taper, wane and crook, knots on both faces,
// warp. The same seed always gives the same boards, on every platform.

#include <cstdint>
#include <random>
#include <string>

#include "core/document/Document.h"

namespace stavewright::samples {

/// Whole numbers from a fixed engine by our own mapping (the standard's distributions are not
/// portable).
class Dice {
  public:
    explicit Dice(std::uint64_t seed)
        : m_engine(seed) {}
    /// Uniform in low..high, both included.
    int between(int low, int high) {
        const auto span = static_cast<std::uint64_t>(high - low + 1);
        return low + static_cast<int>(m_engine() % span);
    }
    Length between(Length low, Length high, Length step) {
        return low + step * between(0, static_cast<int>((high - low) / step));
    }
    bool oneIn(int n) { return between(1, n) == 1; }

  private:
    std::mt19937_64 m_engine;
};

/// A stack of similar boards as a yard would have it.
struct Stack {
    std::string species;
    Quarter quarter;
    Length thinnestLeast, thinnestMost;
    Length shortest, longest;
    Length narrowest, widest;
    int knotsPerTenFeet = 5;
    Length smallestKnot, largestKnot;
    Money price;
    Length step;              ///< everything is measured to this
    int warpedOneIn = 3;      ///< every so many boards carries warp worth writing down
    bool otherDefects = true; ///< checks, splits, pith, bark pockets, sapwood, stain, worm holes
};

/// Appends `count` boards marked from `firstMark` upwards.
void addBoards(Document& document, Dice& dice, const Stack& stack, int count, int firstMark);

} // namespace stavewright::samples
