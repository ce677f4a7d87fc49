// Large plates with small defects, used one after the other; everything must be cut, each piece
// turned or not. Only instances whose pieces may come in any order compare one to one.
//
// What is not stated to the engine: that a first cut lies at most 3500 from the one before, that
// waste is at least 20 wide, and that a piece may be cut either way round - it is planned with all
// pieces as listed, with all long sides along and with all long sides across, and the best counts.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

#include "Racks.h"
#include "published/FewestBoards.h"

namespace stavewright::cutting::bench {

namespace {

constexpr std::int64_t plateLength = 6000;
constexpr std::int64_t plateWidth = 3210;
constexpr Nm leastBetweenCuts = 100 * sheetUnit;
constexpr int mostPlates = 100;

enum class Turn { AsListed, LongAlong, LongAcross };

struct Instance {
    Sheet pieces;
    std::int64_t pieceArea = 0;
    std::map<std::int64_t, std::vector<SheetHole>> holes; ///< by plate
};

std::optional<Instance> read(const std::string& stem) {
    const auto items = knownValues(stem + "_batch.csv");
    const auto defects = knownValues(stem + "_defects.csv");
    if (!items || !defects) {
        return std::nullopt;
    }
    Instance instance;
    for (const KnownLine& line : *items) {
        const std::int64_t length = line.number("LENGTH_ITEM").value_or(0);
        const std::int64_t width = line.number("WIDTH_ITEM").value_or(0);
        instance.pieces.pieces.push_back({length, width, 0, 1});
        instance.pieceArea += length * width;
    }
    for (const KnownLine& line : *defects) {
        const auto real = [&](const char* name) { return std::atof(line.text(name).c_str()); };
        const auto x = static_cast<std::int64_t>(std::floor(real("X")));
        const auto y = static_cast<std::int64_t>(std::floor(real("Y")));
        const auto x1 = static_cast<std::int64_t>(std::ceil(real("X") + real("WIDTH")));
        const auto y1 = static_cast<std::int64_t>(std::ceil(real("Y") + real("HEIGHT")));
        instance.holes[line.number("PLATE_ID").value_or(0)].push_back({x, y, x1 - x, y1 - y});
    }
    return instance;
}

/// The pieces laid as told, equal ones together.
Sheet laid(const Sheet& listed, Turn turn) {
    std::map<std::pair<std::int64_t, std::int64_t>, std::int64_t> copies;
    for (const SheetPiece& piece : listed.pieces) {
        const auto [small, large] = std::minmax(piece.length, piece.width);
        // Neither way round may a piece stand out of the plate.
        const bool mustLie = large > plateWidth;
        if (turn == Turn::AsListed && !(mustLie && piece.width > plateWidth)) {
            ++copies[{piece.length, piece.width}];
        } else if (turn == Turn::LongAcross && !mustLie) {
            ++copies[{small, large}];
        } else {
            ++copies[{large, small}];
        }
    }
    Sheet sheet;
    sheet.length = plateLength;
    sheet.width = plateWidth;
    for (const auto& [size, count] : copies) {
        sheet.pieces.push_back({size.first, size.second, 0, count});
    }
    return sheet;
}

Problem problemOf(const Instance& instance, Turn turn, bool distances) {
    Sheet sheet = laid(instance.pieces, turn);
    const int plates = std::min(mostPlates, shelfBoards(sheet) + 1);
    for (SheetPiece& piece : sheet.pieces) {
        piece.value = plates + 1; // leaving one out is dearer than all plates
    }
    Problem problem;
    for (int plate = 0; plate < plates; ++plate) {
        const auto found = instance.holes.find(plate);
        sheet.holes = found == instance.holes.end() ? std::vector<SheetHole>{} : found->second;
        // A hair dearer each than the one before: none is skipped for nothing.
        Problem one = bench::problemOf(sheet, 1, valueUnit + plate, Stages::Three);
        problem.boards.push_back(std::move(one.boards.front()));
        if (plate == 0 || !sheet.holes.empty()) {
            problem.kinds = std::move(one.kinds); // with the zone that minds defects
        }
    }
    if (distances) {
        problem.limits.leastFacedLength = leastBetweenCuts;
        problem.limits.narrowestRip = leastBetweenCuts;
    }
    return problem;
}

/// Plates up to the last one used, less what is left of that behind its last first cut, less the
/// pieces.
std::int64_t wasteOf(const Solution& solution, std::int64_t pieceArea) {
    int last = -1;
    Nm end = 0;
    for (const Pattern& pattern : solution.patterns) {
        if (pattern.board > last && !pattern.sections.empty()) {
            last = pattern.board;
            end = pattern.sections.back().x1;
        }
    }
    return plateWidth * plateLength * last + plateWidth * (end / sheetUnit) - pieceArea;
}

} // namespace

bool runRoadef2018(const std::string& folder, const BenchOptions& options, FamilyTable& table) {
    const auto known = knownValues(folder + "/known.csv");
    if (!known) {
        return false;
    }
    for (const KnownLine& line : *known) {
        const auto best = line.number("best_waste");
        if (!best || line.number("stacks") != line.number("items")) {
            continue; // its pieces must leave the plates in an order
        }
        const auto instance = read(folder + "/" + line.text("name"));
        if (!instance) {
            continue;
        }
        std::optional<Row> least;
        double seconds = 0;
        for (const Turn turn : {Turn::AsListed, Turn::LongAlong, Turn::LongAcross}) {
            const Problem problem = problemOf(*instance, turn, options.distances);
            Measured measured = measureSolve(problem, options, options.secondsOr(180) / 3, 1);
            // A plan that leaves pieces out has no waste to speak of.
            measured.row.value =
                isComplete(measured.row)
                    ? static_cast<double>(wasteOf(measured.solution, instance->pieceArea))
                    : 0;
            seconds += measured.row.total.value_or(0);
            if (!least || measured.row.placed > least->placed ||
                (measured.row.placed == least->placed && measured.row.value < least->value)) {
                least = std::move(measured.row);
            }
        }
        least->total = seconds;
        least->instance = line.text("name") + ", others in 180 s " + line.text("waste_after_180s");
        least->published = static_cast<double>(*best);
        std::optional<double> distance;
        if (isComplete(*least)) {
            least->reached = least->value <= *least->published;
            distance = std::max(0.0, least->value / *least->published - 1);
        }
        table.print(*least, options.distances ? "with distances" : "without distances", distance);
    }
    return true;
}

} // namespace stavewright::cutting::bench
