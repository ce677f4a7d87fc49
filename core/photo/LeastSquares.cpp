#include "core/photo/LeastSquares.h"

#include <algorithm>
#include <cmath>

namespace stavewright::photo {

namespace {

constexpr int mostRounds = 200;

double sumOfSquares(const Vector& residuals) {
    double sum = 0;
    for (const double residual : residuals) {
        sum += residual * residual;
    }
    return std::isfinite(sum) ? sum : 1e300;
}

/// Slopes of every residual, one row for each unknown.
std::vector<Vector> slopes(const Residuals& residuals, const Vector& unknowns) {
    std::vector<Vector> rows;
    rows.reserve(unknowns.size());
    for (std::size_t i = 0; i < unknowns.size(); ++i) {
        const double step = 1e-6 * std::max(1.0, std::abs(unknowns[i]));
        Vector up = unknowns;
        Vector down = unknowns;
        up[i] += step;
        down[i] -= step;
        Vector high = residuals(up);
        const Vector low = residuals(down);
        for (std::size_t k = 0; k < high.size(); ++k) {
            high[k] = (high[k] - low[k]) / (2 * step);
        }
        rows.push_back(std::move(high));
    }
    return rows;
}

double dot(const Vector& a, const Vector& b) {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += a[i] * b[i];
    }
    return sum;
}

Normal normalOf(const std::vector<Vector>& rows) {
    Normal normal(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = 0; j < rows.size(); ++j) {
            normal.at(i, j) = dot(rows[i], rows[j]);
        }
    }
    return normal;
}

} // namespace

std::optional<Vector> solve(const Normal& matrix, const Vector& right) {
    const std::size_t n = matrix.size;
    // Scaled to ones on the diagonal, so that a small pivot means what it says.
    Vector scale(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (!(matrix.at(i, i) > 0)) {
            return std::nullopt;
        }
        scale[i] = 1 / std::sqrt(matrix.at(i, i));
    }
    Normal lower(n);
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = matrix.at(i, j) * scale[i] * scale[j];
            for (std::size_t k = 0; k < j; ++k) {
                sum -= lower.at(i, k) * lower.at(j, k);
            }
            if (i != j) {
                lower.at(i, j) = sum / lower.at(j, j);
            } else if (sum > 1e-13) {
                lower.at(i, i) = std::sqrt(sum);
            } else {
                return std::nullopt;
            }
        }
    }
    Vector x(n);
    for (std::size_t i = 0; i < n; ++i) {
        double sum = right[i] * scale[i];
        for (std::size_t k = 0; k < i; ++k) {
            sum -= lower.at(i, k) * x[k];
        }
        x[i] = sum / lower.at(i, i);
    }
    for (std::size_t i = n; i-- > 0;) {
        double sum = x[i];
        for (std::size_t k = i + 1; k < n; ++k) {
            sum -= lower.at(k, i) * x[k];
        }
        x[i] = sum / lower.at(i, i);
    }
    for (std::size_t i = 0; i < n; ++i) {
        x[i] *= scale[i];
    }
    return x;
}

Fit leastSquares(const Residuals& residuals, Vector start) {
    Vector now = residuals(start);
    Fit fit{std::move(start), sumOfSquares(now), Normal()};
    std::vector<Vector> rows = slopes(residuals, fit.unknowns);
    fit.normal = normalOf(rows);
    double damping = 1e-3;
    for (int round = 0; round < mostRounds && damping < 1e12; ++round) {
        Normal damped = fit.normal;
        Vector downhill(rows.size());
        for (std::size_t i = 0; i < rows.size(); ++i) {
            damped.at(i, i) += damping * std::max(fit.normal.at(i, i), 1e-9);
            downhill[i] = -dot(rows[i], now);
        }
        const std::optional<Vector> step = solve(damped, downhill);
        if (!step) {
            damping *= 10;
            continue;
        }
        Vector next = fit.unknowns;
        for (std::size_t i = 0; i < next.size(); ++i) {
            next[i] += (*step)[i];
        }
        Vector there = residuals(next);
        const double cost = sumOfSquares(there);
        if (!(cost < fit.cost)) {
            damping *= 10;
            continue;
        }
        const bool settled = fit.cost - cost <= 1e-12 * fit.cost;
        fit.unknowns = std::move(next);
        fit.cost = cost;
        now = std::move(there);
        rows = slopes(residuals, fit.unknowns);
        fit.normal = normalOf(rows);
        damping = std::max(damping / 10, 1e-12);
        if (settled) {
            break;
        }
    }
    return fit;
}

} // namespace stavewright::photo
