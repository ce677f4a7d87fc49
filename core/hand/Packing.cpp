#include "core/hand/Packing.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "core/hand/PlanTree.h"

namespace stavewright::hand {

namespace {

/// Where the blank may lie across its strip: along either edge, or over its whole width where what
/// is beside it is too narrow to be ripped off. Nothing when the strip is too narrow.
std::vector<Stretch> bedsAcross(const Strip& strip, Length width, Length least, Length kerf) {
    const Length spare = strip.across.length() - width;
    if (Length() <= spare && spare < kerf) {
        return {strip.across};
    }
    if (spare < Length()) {
        return strip.across.length() >= least ? std::vector<Stretch>{strip.across}
                                              : std::vector<Stretch>{};
    }
    return {{strip.across.from, strip.across.from + width},
            {strip.across.to - width, strip.across.to}};
}

/// The first position from `from` on (or the last one up to it) that nothing bars.
Length firstFree(const std::vector<Bar>& bars, Length from, bool upwards) {
    Length at = from;
    for (bool moved = true; moved;) {
        moved = false;
        for (const Bar& bar : bars) {
            if (bar.from < at && at < bar.to) {
                at = upwards ? bar.to : bar.from;
                moved = true;
            }
        }
    }
    return at;
}

/// Nothing has to move: the blank lies between the piece's ends, along an edge of the strip, with
/// room for the trimming rip beside it.
bool liesAsBefore(const Section& section, const Strip& strip, const Blank& blank, Length kerf,
                  const PieceEnds& ends) {
    const Rect& wood = woodOf(blank);
    if ((ends.from && wood.x0 < *ends.from) || (ends.to && wood.x1 > *ends.to)) {
        return false;
    }
    const Rect box = boxOnBoard(section, wood);
    const Length allowed = section.frame.isParallel() ? Length() : polygonTolerance;
    const Length near = wood.y0 - strip.across.from;
    const Length far = strip.across.to - wood.y1;
    const Length waste = std::max(near, far);
    return box.x0 >= section.along.from - allowed && box.x1 <= section.along.to + allowed &&
           std::min(near, far) == Length() && (waste == Length() || waste >= kerf);
}

/// More blanks than this in one strip are only left out from the yielding end on.
constexpr std::size_t mostTriedAll = 8;

/// More blanks than this are only tried in their order.
constexpr std::size_t mostInAnyOrder = 3;

/// Which of `count` blanks in a row are left out if it is so many, those nearest to the yielding
/// end first.
std::vector<std::vector<bool>> whatToLeaveOut(std::size_t count, std::size_t many,
                                              Yielding yielding) {
    std::vector<std::vector<bool>> choices;
    std::vector<bool> out(count, false);
    std::fill(out.end() - static_cast<std::ptrdiff_t>(many), out.end(), true);
    do {
        choices.push_back(out);
        if (yielding == Yielding::LowEnd) {
            std::reverse(choices.back().begin(), choices.back().end());
        }
    } while (count <= mostTriedAll && std::next_permutation(out.begin(), out.end()));
    return choices;
}

} // namespace

Packer::Packer(const Document& document, const std::vector<BlankSpec>& specs,
               const BoardJudge& judge, const Board& board, std::shared_ptr<Ground::Known> known)
    : m_document(document)
    , m_specs(specs)
    , m_judge(judge)
    , m_board(board)
    , m_known(known ? std::move(known) : nothingKnown()) {}

/// One blank on one bed, pushed against what was placed before.
class Packer::Fitting {
  public:
    Fitting(const Ground& ground, const Section& section, const PieceEnds& piece, bool upwards,
            std::optional<Length> reached)
        : m_ground(ground)
        , m_section(section)
        , m_piece(piece)
        , m_upwards(upwards)
        , m_reached(reached) {}

    [[nodiscard]] std::optional<Rect> fit(const Load& load, const Bed& bed) const {
        Stretch ends = positionsWithin(bed, load.length(), m_section.along);
        ends.from = std::max(ends.from, m_piece.from.value_or(ends.from));
        ends.to = std::min(ends.to, m_piece.to ? *m_piece.to - load.length() : ends.to);
        Length start = m_upwards ? ends.from : ends.to;
        if (m_reached) {
            start = m_upwards ? std::max(start, *m_reached)
                              : std::min(start, *m_reached - load.length());
        }
        if (start < ends.from || start > ends.to) {
            return std::nullopt;
        }
        const Length at = firstFree(m_ground.bars(load, bed), start, m_upwards);
        if (at > ends.to || at < ends.from) {
            return std::nullopt;
        }
        return Rect{at, bed.across.from, at + load.length(), bed.across.to};
    }

    /// As much of its allowance as is left: the least that has to go, in steps of the tape, with
    /// the part where the audit looks for it. With one end's allowance whole, cutting more off the
    /// other never makes a place worse; neither does cutting more off both ends alike.
    [[nodiscard]] std::optional<Rect> fitShorter(Load load, const Bed& bed, Length most,
                                                 Length step) const {
        enum class Off { HighEnd, LowEnd, BothEnds };
        std::optional<Rect> best;
        for (const Off off : {Off::HighEnd, Off::LowEnd, Off::BothEnds}) {
            const Length mostHere = off == Off::BothEnds ? most : std::min(most, load.spec->partAt);
            const auto fitBy = [&](std::int64_t steps) {
                load.shorter = std::min(step * steps, mostHere); // down to the finished length
                load.shortAtLow = off == Off::HighEnd  ? Length()
                                  : off == Off::LowEnd ? load.shorter
                                                       : load.shorter / 2;
                return fit(load, bed);
            };
            std::int64_t fits = (mostHere + step - Length::nanometres(1)) / step;
            std::optional<Rect> found = fits > 0 ? fitBy(fits) : std::nullopt;
            for (std::int64_t low = 0; found && low + 1 < fits;) {
                const std::int64_t middle = (low + fits) / 2;
                if (const std::optional<Rect> longer = fitBy(middle)) {
                    found = longer;
                    fits = middle;
                } else {
                    low = middle;
                }
            }
            if (found && (!best || found->length() > best->length())) {
                best = found;
            }
        }
        return best;
    }

    /// So that it ends as near to the other end as it can, shorter if need be.
    [[nodiscard]] std::optional<Rect> fitTightest(Load load, const Bed& bed, Length most) const {
        std::optional<Rect> best = fit(load, bed);
        const Length ofOneEnd = std::min(most, load.spec->partAt);
        const std::array<std::pair<Length, Length>, 3> ways = {
            {{ofOneEnd, Length()}, {ofOneEnd, ofOneEnd}, {most, most / 2}}};
        for (const auto& [shorter, atLow] : ways) {
            load.shorter = shorter;
            load.shortAtLow = atLow;
            const std::optional<Rect> found = fit(load, bed);
            if (found && (!best || isTighter(*found, *best))) {
                best = found;
            }
        }
        return best;
    }

    [[nodiscard]] bool isTighter(const Rect& a, const Rect& b) const {
        return m_upwards ? a.x1 < b.x1 : a.x0 > b.x0;
    }

  private:
    const Ground& m_ground;
    const Section& m_section;
    const PieceEnds& m_piece;
    bool m_upwards;
    std::optional<Length> m_reached;
};

std::optional<std::vector<Rect>> Packer::placed(const Wood& wood, const std::vector<Blank>& blanks,
                                                std::size_t shorter) const {
    const Ground ground(m_document, m_board, wood.layout, m_known);
    const Machines& machines = m_document.shop.machines;
    const bool upwards = wood.yielding == Yielding::HighEnd;
    std::vector<Rect> woods(blanks.size());
    std::optional<Length> reached; // the end of the blank before, kerf included
    for (std::size_t n = 0; n < blanks.size(); ++n) {
        const std::size_t i = upwards ? n : blanks.size() - 1 - n;
        const Blank& blank = blanks[i];
        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        if (!spec) {
            return std::nullopt;
        }
        const BoardJudge::LeastWood least = m_judge.leastWoodFor(blank.purpose);
        const bool isLast = n + 1 == blanks.size();
        const Length width = spec->staves ? woodOf(blank).width() : spec->width;
        const bool mayBeShorter = n + shorter >= blanks.size();
        const Length most = spec->length - least.length;
        const Fitting fitting(ground, wood.section, wood.ends, upwards, reached);
        std::optional<Rect> best;
        for (const Stretch across : bedsAcross(wood.strip, width, least.width, machines.rip.kerf)) {
            Bed bed;
            bed.section = wood.section.id;
            bed.frame = wood.section.frame;
            bed.across = across;
            const Load load{spec, blank.pose, across.length(), {}, {}};
            std::optional<Rect> found = mayBeShorter && !isLast
                                            ? fitting.fitTightest(load, bed, most)
                                            : fitting.fit(load, bed);
            if (!found && mayBeShorter && isLast) {
                found = fitting.fitShorter(load, bed, most, tapeMarksOf(m_document, bed).step);
            }
            if (found && (!best || fitting.isTighter(*found, *best))) {
                best = found;
            }
        }
        if (!best) {
            return std::nullopt;
        }
        woods[i] = *best;
        reached = upwards ? best->x1 + machines.stripCrosscut.kerf
                          : best->x0 - machines.stripCrosscut.kerf;
    }
    return woods;
}

std::optional<std::vector<Rect>> Packer::placedAnyhow(const Wood& wood,
                                                      std::vector<Blank>& blanks) const {
    if (blanks.size() < 2 || blanks.size() > mostInAnyOrder) {
        return std::nullopt;
    }
    std::vector<std::size_t> order(blanks.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    do {
        std::vector<Blank> ordered;
        ordered.reserve(order.size());
        for (const std::size_t i : order) {
            ordered.push_back(blanks[i]);
        }
        // In the order they are in, with the last one shorter, was tried before.
        const std::size_t first = std::is_sorted(order.begin(), order.end()) ? 2 : 1;
        for (std::size_t shorter = first; shorter <= blanks.size(); ++shorter) {
            if (auto woods = placed(wood, ordered, shorter)) {
                blanks = std::move(ordered);
                return woods;
            }
        }
    } while (std::next_permutation(order.begin(), order.end()));
    return std::nullopt;
}

PackedStrip Packer::pack(const BoardLayout& layout, const Section& section, const Strip& strip,
                         Yielding yielding, const PieceEnds& ends) const {
    PackedStrip packed{strip, {}};
    const Length kerf = m_document.shop.machines.rip.kerf;
    if (std::all_of(strip.blanks.begin(), strip.blanks.end(), [&](const Blank& blank) {
            return liesAsBefore(section, strip, blank, kerf, ends);
        })) {
        return packed;
    }
    std::vector<Blank> blanks = strip.blanks;
    // The strip's own blanks are no bars to one another here: their order is kept instead.
    BoardLayout bare = layout;
    for (Section& each : bare.sections) {
        for (Strip& other : each.strips) {
            if (other.id == strip.id) {
                other.blanks.clear();
            }
        }
    }
    const Wood wood{bare, section, strip, yielding, ends};
    std::optional<std::vector<Rect>> woods;
    const auto tries = [&](const std::vector<bool>& out, bool anyhow) {
        blanks.clear();
        packed.lost.clear();
        for (std::size_t i = 0; i < strip.blanks.size(); ++i) {
            (out[i] ? packed.lost : blanks).push_back(strip.blanks[i]);
        }
        woods = anyhow ? placedAnyhow(wood, blanks) : placed(wood, blanks, 1);
        return woods.has_value();
    };
    // As few as possible; of as few rather in the order they are in.
    for (std::size_t many = 0; many <= strip.blanks.size() && !woods; ++many) {
        const auto choices = whatToLeaveOut(strip.blanks.size(), many, yielding);
        for (const bool anyhow : {false, true}) {
            if (std::any_of(choices.begin(), choices.end(),
                            [&](const std::vector<bool>& out) { return tries(out, anyhow); })) {
                break;
            }
        }
    }
    for (std::size_t i = 0; i < blanks.size(); ++i) {
        const Rect& found = (*woods)[i];
        const BlankSpec* spec = specOf(m_specs, blanks[i].purpose);
        Rect nominal = found;
        nominal.x1 = nominal.x0 + spec->length;
        if (!spec->staves) {
            nominal.y1 = nominal.y0 + spec->width;
        }
        blanks[i].rect = nominal;
        blanks[i].actual = found == nominal ? std::nullopt : std::optional(found);
    }
    packed.strip.blanks = std::move(blanks);
    return packed;
}

} // namespace stavewright::hand
