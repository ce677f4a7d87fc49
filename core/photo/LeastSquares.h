#pragma once
// Least squares for a handful of unknowns (Levenberg-Marquardt with numeric slopes). Deterministic:
// plain double arithmetic in a fixed order.

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace stavewright::photo {

using Vector = std::vector<double>;

/// A symmetric positive definite matrix of n x n, row by row.
struct Normal {
    std::size_t size = 0;
    Vector values;
    explicit Normal(std::size_t n = 0)
        : size(n)
        , values(n * n) {}
    double& at(std::size_t row, std::size_t column) { return values[row * size + column]; }
    [[nodiscard]] double at(std::size_t row, std::size_t column) const {
        return values[row * size + column];
    }
};

/// x with matrix * x = right; nothing when the matrix is singular to within rounding.
[[nodiscard]] std::optional<Vector> solve(const Normal& matrix, const Vector& right);

/// Residuals, each divided by how far off it may be, for these unknowns.
using Residuals = std::function<Vector(const Vector& unknowns)>;

struct Fit {
    Vector unknowns;
    double cost = 0; ///< sum of the squared residuals
    Normal normal;   ///< J^T J at the end
};

/// From `start` to the nearest minimum. `normal` is what tells how well each unknown is held.
[[nodiscard]] Fit leastSquares(const Residuals& residuals, Vector start);

} // namespace stavewright::photo
