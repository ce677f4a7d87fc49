#include "core/cutting/UsableWood.h"

#include <algorithm>
#include <bit>

namespace stavewright::cutting {

namespace {

using Word = Lattice::Word;

/// Bits by cell along, then across.
struct Cover {
    int words = 0;
    std::vector<Word> bits;

    Cover(int cells, int wordsAcross)
        : words(wordsAcross)
        , bits(static_cast<std::size_t>(cells) * static_cast<std::size_t>(wordsAcross), 0) {}
    [[nodiscard]] Word* at(int cell) {
        return bits.data() + static_cast<std::size_t>(cell) * static_cast<std::size_t>(words);
    }
    /// Rows [from, to] of a cell.
    void set(int cell, int from, int to) {
        Word* row = at(cell);
        for (int v = from; v <= to;) {
            const int word = v / 64;
            const int last = std::min(to, 64 * word + 63);
            const Word upTo = last % 64 == 63 ? ~Word{0} : (Word{1} << (last % 64 + 1)) - 1;
            row[word] |= upTo & ~((Word{1} << (v % 64)) - 1);
            v = last + 1;
        }
    }
    /// Every cell as well to the `count` - 1 cells behind it.
    void spread(int count) {
        const auto all = static_cast<std::ptrdiff_t>(bits.size());
        for (int done = 1; done < count;) {
            const int by = std::min(done, count - done);
            const std::ptrdiff_t step = static_cast<std::ptrdiff_t>(by) * words;
            for (std::ptrdiff_t i = all - 1; i >= step; --i) {
                bits[static_cast<std::size_t>(i)] |= bits[static_cast<std::size_t>(i - step)];
            }
            done += by;
        }
    }
};

/// Where the low edges of a kind may stand in a cell along, and how far up its blanks reach.
template <class Visit>
void visitPlaces(const Lattice& lattice, const Lattice::KindCells& cells, int i,
                 const Visit& visit) {
    const auto words = static_cast<std::size_t>(lattice.words());
    const auto at = static_cast<std::size_t>(i);
    const auto visitBits = [&](const std::vector<Word>& open, const auto& lastRow) {
        for (std::size_t w = 0; w < words; ++w) {
            for (Word left = open[at * words + w]; left != 0; left &= left - 1) {
                const int v = static_cast<int>(64 * w) + std::countr_zero(left);
                if (v >= lattice.rows()) {
                    return; // the last word has bits to spare
                }
                visit(v, lastRow(v));
            }
        }
    };
    // A low edge lies anywhere in its cell, so the blank reaches into one cell more.
    for (int level = 0; level < Lattice::levels; ++level) {
        if (level == 0 || cells.hasLevel[level]) {
            if (!cells.open[level].empty()) {
                visitBits(cells.open[level], [&](int v) { return v + cells.footprint + 1; });
            }
        }
    }
    for (const Lattice::PoolPose& pose : cells.poses) {
        visitBits(pose.cell.lowOpen, [&](int v) {
            return pose.cell.upTo.at(Lattice::dearest, at)[v] + cells.footprint - cells.width + 1;
        });
    }
}

} // namespace

UsableWood usableWood(const Lattice& lattice) {
    const Problem& problem = *lattice.context().problem;
    const int cells = lattice.lastEnd() + 1;
    int highest = lattice.rows();
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        highest = std::max(highest, lattice.rows() + lattice.kind(k).footprint + 2);
    }
    const int words = highest / 64 + 1;
    Cover all(cells, words);
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
        const Lattice::KindCells& kind = lattice.kind(k);
        if (!kind.isHere) {
            continue;
        }
        Cover cover(cells, words);
        for (int i = 0; i < std::min(cells, lattice.cells()); ++i) {
            visitPlaces(lattice, kind, i,
                        [&](int v, int last) { cover.set(i, v, std::min(last, 64 * words - 1)); });
        }
        // The low end lies anywhere in its cell, and a section can be longer than it is along x.
        cover.spread(static_cast<int>((problem.kinds[k].length + lattice.slack().longer() +
                                       problem.limits.crosscutKerf) /
                                      lattice.step().along) +
                     2);
        for (std::size_t w = 0; w < all.bits.size(); ++w) {
            all.bits[w] |= cover.bits[w];
        }
    }
    UsableWood wood(static_cast<std::size_t>(cells));
    for (int i = 0; i < cells; ++i) {
        std::int16_t run = 0;
        for (int v = 0; v <= 64 * words; ++v) {
            const bool covered = v < 64 * words && ((all.at(i)[v / 64] >> (v % 64)) & 1) != 0;
            if (covered) {
                ++run;
            } else if (run > 0) {
                wood[static_cast<std::size_t>(i)].push_back(
                    {static_cast<std::int16_t>(v - run), run});
                run = 0;
            }
        }
    }
    return wood;
}

double woodTaken(const Problem& problem, const Kind& kind, Nm width) {
    const Nm kerf = std::min(problem.limits.crosscutKerf, problem.limits.stripCrosscutKerf);
    return static_cast<double>(kind.length + kerf) *
           static_cast<double>(width + problem.limits.ripKerf);
}

} // namespace stavewright::cutting
