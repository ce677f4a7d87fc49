#include "core/photo/Straighten.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/photo/CameraFit.h"
#include "core/units/LengthText.h"

namespace stavewright::photo {

namespace {

/// Two fits whose sums of squares differ by less cannot be told apart.
constexpr double alike = 6;

Error wrong(std::string sentence, std::string place = {}) {
    return {ErrorCode::BadInput, std::move(sentence), std::move(place)};
}

Length lengthOf(double inScale, Length scale) {
    return Length::nanometres(std::llround(inScale * static_cast<double>(scale.inNanometres())));
}

/// Corners give two residuals each, tape and edges one.
void addResiduals(Straightening& result, const CameraProblem& problem,
                  const PhotoControls& controls) {
    const Length scale = problem.frame.scale;
    double sum = 0;
    int counted = 0;
    const auto distance = [&](const Constraint& c, bool counts = true) {
        const double d = CameraProblem::distance(c, result.map).value_or(1);
        if (counts && !c.overruled) {
            sum += d * d;
            ++counted;
            result.worst = std::max(result.worst, lengthOf(std::abs(d), scale));
        }
        return lengthOf(d, scale);
    };
    auto next = problem.constraints.begin();
    for (std::size_t i = 0; i < controls.corners.size(); ++i) {
        const bool overruled = next->overruled;
        const Length along = distance(*next++);
        const Length across = distance(*next++);
        result.residuals.push_back({MarkResidual::Of::Corner, i, along, across, overruled, false});
    }
    for (std::size_t i = 0; i < controls.tape.size(); ++i) {
        result.residuals.push_back(
            {MarkResidual::Of::Tape, i, distance(*next++), {}, false, false});
    }
    // With four corners a place's own distance is the board's crook; the widths are what agrees.
    for (std::size_t i = 0; i < controls.edges.size(); ++i) {
        result.residuals.push_back(
            {MarkResidual::Of::Edge, i, {}, distance(*next++, !problem.allCorners), false, false});
    }
    for (; next != problem.constraints.end(); ++next) {
        if (next->minus && next->b > 0) {
            distance(*next);
        }
    }
    result.rms = counted == 0 ? Length() : lengthOf(std::sqrt(sum / counted), scale);
}

/// Over the part of the board that the marks reach.
Length worstExpectedOf(const Straightening& result, const CameraProblem& problem,
                       const BoardSize& board) {
    Length from = board.length;
    Length to;
    for (const Constraint& constraint : problem.constraints) {
        if (const auto place = result.map.toBoard(constraint.at)) {
            from = std::min(from, place->x);
            to = std::max(to, place->x);
        }
    }
    from = std::clamp(from, Length(), board.length);
    to = std::clamp(to, from, board.length);
    Length worst;
    constexpr int steps = 16;
    for (int i = 0; i <= steps; ++i) {
        const Length x = from + (to - from) * i / steps;
        for (const Length y : {Length(), widthAt(board, x) / 2, widthAt(board, x)}) {
            worst = std::max(worst, result.expectedError({x, y}));
        }
    }
    return worst;
}

Error openMarks(std::string place) {
    return wrong("These marks do not fix the photograph: mark the board's four corners, or three "
                 "readings of the tape and two places on each long edge, well apart.",
                 std::move(place));
}

Result<CameraProblem> problemOf(const PhotoControls& controls, const BoardSize& board,
                                const std::string& place) {
    Result<std::vector<Constraint>> constraints = constraintsOf(controls, board);
    if (!constraints) {
        return Error{ErrorCode::BadInput, constraints.error().message, place};
    }
    if (constraints.value().size() < 7) {
        return openMarks(place);
    }
    CameraProblem problem;
    problem.constraints = std::move(constraints).value();
    problem.allCorners = controls.corners.size() == 4;
    problem.frame.scale = board.length;
    problem.frame.width = controls.width;
    problem.frame.height = controls.height;
    return problem;
}

/// Places on both edges that face each other tell the width there, whatever the crook: straight
/// edges that stand farther apart in the middle were bent by the lens. `map` has to be about right.
void addWidths(CameraProblem& problem, const PhotoControls& controls, const BoardSize& board,
               const PhotoMap& map) {
    constexpr double facing = 1.0 / 32;         // of the board's length
    constexpr double widthPixels = 1;           // two marks, each placed with a loupe
    constexpr double straightInches = 1.0 / 48; // both edges sawn; common practice, no source
    const double perInch = 1 / board.length.toInches();
    const double datum = board.widthAtDatum.toInches() * perInch;
    const double rise = (board.widthAtFar - board.widthAtDatum).toInches() * perInch;
    std::vector<bool> used(controls.edges.size());
    for (const EdgeMark& near : controls.edges) {
        const auto from = map.toBoardPlain(near.at.pixels());
        if (near.edge != LongEdge::Near || !from) {
            continue;
        }
        std::size_t best = used.size();
        double least = facing;
        double x = 0;
        for (std::size_t i = 0; i < used.size(); ++i) {
            const auto to = map.toBoardPlain(controls.edges[i].at.pixels());
            if (controls.edges[i].edge == LongEdge::Far && !used[i] && to &&
                std::abs(to->x - from->x) < least) {
                best = i;
                least = std::abs(to->x - from->x);
                x = to->x;
            }
        }
        if (best < used.size()) {
            used[best] = true;
            problem.constraints.push_back({controls.edges[best].at.pixels(), near.at.pixels(), 0, 1,
                                           datum + rise * x, widthPixels, straightInches * perInch,
                                           false});
        }
    }
}

/// Four corners say where an edge starts and ends; how crooked it may be between them its own marks
/// say, so that a crook is not taken for the bend of the lens.
void allowForCrook(CameraProblem& problem, const PhotoControls& controls, const PhotoMap& map) {
    constexpr double severalTimes = 1;
    const auto first =
        problem.constraints.begin() +
        static_cast<std::ptrdiff_t>(2 * controls.corners.size() + controls.tape.size());
    const auto count = static_cast<std::ptrdiff_t>(controls.edges.size());
    double sum = 0;
    std::for_each(first, first + count, [&](const Constraint& edge) {
        sum += std::pow(CameraProblem::distance(edge, map).value_or(0), 2);
    });
    // They all run out together, so they count as one: mean times the root of their number.
    const double crook = severalTimes * std::sqrt(sum);
    std::for_each(first, first + count, [&](Constraint& edge) { edge.boardOff = crook; });
}

struct FaceFit {
    Fit fit;
    std::vector<std::optional<Vector>> otherwise; ///< of each photograph
};

Vector replaced(const Vector& all, std::size_t photo, const Vector& own) {
    Vector changed = all;
    std::copy(own.begin(), own.end(),
              changed.begin() + static_cast<std::ptrdiff_t>(photo * unknownCount));
    return changed;
}

/// Together, trying for each photograph without four corners both ways it may lean.
FaceFit fitTogether(const FaceProblem& face, const std::vector<Fit>& alone) {
    const auto residuals = [&](const Vector& u) { return face.residuals(u); };
    Vector start;
    for (const Fit& fit : alone) {
        start.insert(start.end(), fit.unknowns.begin(), fit.unknowns.end());
    }
    FaceFit best{leastSquares(residuals, start),
                 std::vector<std::optional<Vector>>(face.photos.size())};
    for (std::size_t i = 0; i < face.photos.size(); ++i) {
        if (face.photos[i].allCorners) {
            continue;
        }
        const Fit turned = face.photos[i].leaningOtherwise(alone[i]);
        Fit fit = leastSquares(residuals, replaced(best.fit.unknowns, i, turned.unknowns));
        if (fit.cost < best.fit.cost) {
            std::swap(fit, best.fit);
        }
        if (fit.cost < best.fit.cost + alike) {
            best.otherwise[i] = face.unknownsOf(fit.unknowns, i);
        }
    }
    return best;
}

/// Of one photograph among all; nothing when the marks leave it open.
std::optional<Vector> covarianceOf(const Fit& fit, std::size_t photo, double factor) {
    Vector covariance(unknownCount * unknownCount);
    for (std::size_t i = 0; i < unknownCount; ++i) {
        Vector unit(fit.unknowns.size());
        unit[photo * unknownCount + i] = factor;
        const std::optional<Vector> column = solve(fit.normal, unit);
        if (!column) {
            return std::nullopt;
        }
        for (std::size_t j = 0; j < unknownCount; ++j) {
            covariance[j * unknownCount + i] = (*column)[photo * unknownCount + j];
        }
    }
    return covariance;
}

} // namespace

Point placeOf(Corner corner, const BoardSize& board) {
    switch (corner) {
    case Corner::DatumNear:
        return {Length(), Length()};
    case Corner::DatumFar:
        return {Length(), board.widthAtDatum};
    case Corner::EndNear:
        return {board.length, Length()};
    case Corner::EndFar:
        return {board.length, board.widthAtFar};
    }
    return {};
}

Length widthAt(const BoardSize& board, Length x) {
    const double share =
        static_cast<double>(x.inNanometres()) / static_cast<double>(board.length.inNanometres());
    return board.widthAtDatum + lengthOf(share, board.widthAtFar - board.widthAtDatum);
}

Length Straightening::expectedError(Point at) const {
    const std::optional<Pixels> seen = map.toPhoto(at);
    if (!seen) {
        return map.values().scale;
    }
    // Slopes of the place on the board by each unknown.
    std::array<std::array<double, 2>, focalAt> slope{};
    for (std::size_t i = 0; i < focalAt; ++i) {
        std::array<PhotoMap::Plain, 2> side{};
        const double step = 1e-6;
        for (std::size_t k = 0; k < 2; ++k) {
            PhotoMap::Values values = map.values();
            double& value = i < lensAt ? values.h[i] : values.lens;
            value += k == 0 ? -step : step;
            side[k] = PhotoMap(values).toBoardPlain(*seen).value_or(PhotoMap::Plain{});
        }
        slope[i] = {(side[1].x - side[0].x) / (2 * step), (side[1].y - side[0].y) / (2 * step)};
    }
    double variance = 0;
    for (std::size_t i = 0; i < focalAt; ++i) {
        for (std::size_t j = 0; j < focalAt; ++j) {
            variance += m_covariance[i * unknownCount + j] *
                        (slope[i][0] * slope[j][0] + slope[i][1] * slope[j][1]);
        }
    }
    if (otherwise) {
        const auto here = map.toBoardPlain(*seen);
        const auto there = otherwise->toBoardPlain(*seen);
        variance +=
            here && there ? std::pow(here->x - there->x, 2) + std::pow(here->y - there->y, 2) : 1.0;
    }
    return lengthOf(std::min(std::sqrt(std::max(variance, 0.0)), 1.0), map.values().scale);
}

Result<std::vector<Straightening>> straightenFace(const std::vector<PhotoControls>& photos,
                                                  const std::vector<SameSpot>& spots,
                                                  const BoardSize& board) {
    FaceProblem face;
    std::vector<Fit> alone;
    const auto placeOfPhoto = [&](std::size_t i) {
        return photos.size() == 1 ? std::string() : "photo " + std::to_string(i + 1);
    };
    for (std::size_t i = 0; i < photos.size(); ++i) {
        Result<CameraProblem> problem = problemOf(photos[i], board, placeOfPhoto(i));
        if (!problem) {
            return problem.error();
        }
        std::optional<Fit> fit = problem.value().fit();
        if (!fit) {
            return openMarks(placeOfPhoto(i));
        }
        if (problem.value().allCorners && !photos[i].edges.empty()) {
            const PhotoMap about = problem.value().mapOf(fit->unknowns);
            allowForCrook(problem.value(), photos[i], about);
            addWidths(problem.value(), photos[i], board, about);
            fit->unknowns = problem.value().fit().value_or(*fit).unknowns;
        }
        alone.push_back(std::move(*fit));
        face.photos.push_back(std::move(problem).value());
    }
    for (const SameSpot& spot : spots) {
        if (spot.left >= photos.size() || spot.right >= photos.size() || spot.left == spot.right) {
            return wrong("A spot is marked in photo " + std::to_string(spot.left + 1) +
                         " and photo " + std::to_string(spot.right + 1) +
                         "; it must be in two of the " + std::to_string(photos.size()) +
                         " photos of the face.");
        }
        face.spots.push_back({spot.left, spot.inLeft.pixels(), spot.right, spot.inRight.pixels()});
    }

    const FaceFit found = fitTogether(face, alone);
    // Marks that disagree more than they should say that everything is less certain.
    const double spare = static_cast<double>(face.residuals(found.fit.unknowns).size()) -
                         static_cast<double>(found.fit.unknowns.size());
    const double factor = std::max(1.0, found.fit.cost / std::max(1.0, spare));
    std::vector<Straightening> result;
    for (std::size_t i = 0; i < photos.size(); ++i) {
        std::optional<Vector> covariance = covarianceOf(found.fit, i, factor);
        if (!covariance) {
            return openMarks(placeOfPhoto(i));
        }
        const CameraProblem& problem = face.photos[i];
        Straightening one(problem.mapOf(face.unknownsOf(found.fit.unknowns, i)),
                          std::move(*covariance));
        if (found.otherwise[i]) {
            one.otherwise = problem.mapOf(*found.otherwise[i]);
        }
        addResiduals(one, problem, photos[i]);
        if (one.worst * 4 > std::min(board.widthAtDatum, board.widthAtFar) * 3 &&
            one.worst * 20 > board.length) {
            return wrong("The marks contradict each other: with the best fit one is still off by " +
                             nearestText(one.worst, {UnitSystem::Inches, 8, true}) + " (" +
                             nearestText(one.worst, {UnitSystem::Millimetres, 16, true}) +
                             "); look for a mark on the wrong place or a wrong reading.",
                         placeOfPhoto(i));
        }
        one.worstExpected = worstExpectedOf(one, problem, board);
        result.push_back(std::move(one));
    }
    return result;
}

Result<Straightening> straighten(const PhotoControls& controls, const BoardSize& board) {
    Result<std::vector<Straightening>> face = straightenFace({controls}, {}, board);
    if (!face) {
        return face.error();
    }
    return std::move(face.value().front());
}

} // namespace stavewright::photo
