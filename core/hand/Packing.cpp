#include "core/hand/Packing.h"

#include <algorithm>

#include "core/hand/PlanTree.h"
#include "core/planning/Kept.h"

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
std::optional<Length> firstFree(const std::vector<Bar>& bars, Length from, bool upwards) {
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
    const Rect& wood = planning::woodOf(blank);
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

} // namespace

Packer::Packer(const Document& document, const std::vector<BlankSpec>& specs,
               const BoardJudge& judge, const Board& board, std::shared_ptr<Ground::Known> known)
    : m_document(document)
    , m_specs(specs)
    , m_judge(judge)
    , m_board(board)
    , m_known(known ? std::move(known) : nothingKnown()) {}

std::optional<std::vector<Rect>> Packer::placed(const BoardLayout& layout, const Section& section,
                                                const Strip& strip,
                                                const std::vector<Blank>& blanks, Yielding yielding,
                                                const PieceEnds& piece) const {
    const Ground ground(m_document, m_board, layout, m_known);
    const Machines& machines = m_document.shop.machines;
    const bool upwards = yielding == Yielding::HighEnd;
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
        const Length width = spec->staves ? planning::woodOf(blank).width() : spec->width;
        std::optional<Rect> best;
        for (const Stretch across : bedsAcross(strip, width, least.width, machines.rip.kerf)) {
            Bed bed;
            bed.section = section.id;
            bed.frame = section.frame;
            bed.across = across;
            Load load{spec, blank.pose, across.length(), {}};
            const auto tryLength = [&]() -> std::optional<Rect> {
                Stretch ends = positionsWithin(bed, load.length(), section.along);
                ends.from = std::max(ends.from, piece.from.value_or(ends.from));
                ends.to = std::min(ends.to, piece.to ? *piece.to - load.length() : ends.to);
                const std::vector<Bar> bars = ground.bars(load, bed);
                Length start = upwards ? ends.from : ends.to;
                if (reached) {
                    start = upwards ? std::max(start, *reached)
                                    : std::min(start, *reached - load.length());
                }
                const std::optional<Length> at = firstFree(bars, start, upwards);
                if (!at || *at > ends.to || *at < ends.from) {
                    return std::nullopt;
                }
                return Rect{*at, across.from, *at + load.length(), across.to};
            };
            std::optional<Rect> found = tryLength();
            if (!found && isLast && least.length < spec->length) {
                // As much of its allowance as is left: halve until a tape mark is settled.
                const TapeMarks marks = tapeMarksOf(m_document, bed);
                const Length most = spec->length - least.length;
                const auto shorterBy = [&](std::int64_t count) {
                    return std::min(marks.step * count, most); // down to the finished length itself
                };
                std::int64_t fits = (most + marks.step - Length::nanometres(1)) / marks.step;
                load.shorter = shorterBy(fits);
                found = fits > 0 ? tryLength() : std::nullopt;
                for (std::int64_t low = 0; found && low + 1 < fits;) {
                    const std::int64_t middle = (low + fits) / 2;
                    load.shorter = shorterBy(middle);
                    if (const std::optional<Rect> longer = tryLength()) {
                        found = longer;
                        fits = middle;
                    } else {
                        low = middle;
                    }
                }
            }
            if (found && (!best || (upwards ? found->x1 < best->x1 : found->x0 > best->x0))) {
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
    std::optional<std::vector<Rect>> woods;
    while (!(woods = placed(bare, section, strip, blanks, yielding, ends))) {
        const auto gone = yielding == Yielding::HighEnd ? blanks.end() - 1 : blanks.begin();
        packed.lost.push_back(*gone);
        blanks.erase(gone);
    }
    for (std::size_t i = 0; i < blanks.size(); ++i) {
        const Rect& wood = (*woods)[i];
        const BlankSpec* spec = specOf(m_specs, blanks[i].purpose);
        Rect nominal = wood;
        nominal.x1 = nominal.x0 + spec->length;
        if (!spec->staves) {
            nominal.y1 = nominal.y0 + spec->width;
        }
        blanks[i].rect = nominal;
        blanks[i].actual = wood == nominal ? std::nullopt : std::optional(wood);
    }
    packed.strip.blanks = std::move(blanks);
    return packed;
}

} // namespace stavewright::hand
