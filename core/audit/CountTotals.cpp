#include <algorithm>
#include <map>
#include <set>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

/// Counts by the rules stated at PlanTotals; what has no usable size counts nothing.
class Counter {
  public:
    explicit Counter(const Case& opened)
        : m_opened(opened)
        , m_shop(opened.document.shop) {}

    PlanTotals count(int fills) {
        m_totals.fills = fills;
        for (const PlacedSection& section : m_opened.sections) {
            countBoard(*section.board);
            countOffcuts(section);
        }
        countCrosscuts();
        countDemand();
        for (const PlacedBlank& placed : m_opened.blanks) {
            m_blanks += volumeOf(*placed.board, placed.blank->rect);
        }
        m_totals.placed = static_cast<int>(m_opened.blanks.size());
        m_totals.blanks = BoardFeet::ofVolume(m_blanks);
        m_totals.offcutsKept = BoardFeet::ofVolume(m_offcuts);
        m_totals.parts = BoardFeet::ofVolume(finishedWood());
        const Prices& prices = m_shop.prices;
        m_totals.cost +=
            prices.fillEach * fills + prices.crosscut * m_crosscuts + prices.rip * m_rips;
        return m_totals;
    }

  private:
    static Volume volumeOf(const Board& board, const Rect& rect) {
        return isUsable(rect) ? rect.area() * board.quarter.nominal() : Volume();
    }

    static BoardFeet feetOf(const Board& board) {
        return board.billed ? *board.billed
                            : BoardFeet::ofVolume(areaOf(board.outline) * board.quarter.nominal());
    }

    void countBoard(const Board& board) {
        if (m_boards.insert(board.id).second) {
            ++m_totals.boardsUsed;
            m_totals.lumberUsed += feetOf(board);
            m_totals.cost += priceOf(board.pricePerBoardFoot, feetOf(board));
        }
    }

    void countOffcuts(const PlacedSection& placed) {
        const auto count = [&](const Offcut& offcut) {
            m_offcuts += volumeOf(*placed.board, offcut.rect);
            m_totals.cost -= worthOf(*placed.board, offcut.rect);
        };
        for (const Offcut& offcut : placed.section->offcuts) {
            count(offcut);
        }
        for (const Strip& strip : placed.section->strips) {
            for (const Offcut& offcut : strip.offcuts) {
                count(offcut);
            }
        }
    }

    Money worthOf(const Board& board, const Rect& rect) const {
        const Int128 whole = areaOf(board.outline).inSquareNanometres();
        if (whole <= 0 || !isUsable(rect)) {
            return {};
        }
        const Int128 cost = priceOf(board.pricePerBoardFoot, feetOf(board)).inTenThousandths();
        const Int128 worth =
            cost * rect.area().inSquareNanometres() * m_shop.offcuts.worthPercent / (whole * 100);
        return Money::tenThousandths(static_cast<std::int64_t>(worth));
    }

    void countCrosscuts() {
        const PlacedSection* before = nullptr;
        for (const PlacedSection& placed : m_opened.sections) {
            if (!placed.sound) {
                continue;
            }
            const Stretch& along = placed.section->along;
            const Rect box = boundingBox(placed.board->outline);
            const bool shared =
                before && before->board == placed.board &&
                along.from - before->section->along.to == m_shop.machines.crosscut.kerf;
            m_crosscuts += (along.from != box.x0 && !shared) + (along.to != box.x1);
            before = &placed;
            countInSection(placed);
        }
    }

    void countInSection(const PlacedSection& placed) {
        const Strip* before = nullptr;
        for (const Strip& strip : placed.section->strips) {
            if (!isUsable(strip.across)) {
                continue;
            }
            const bool shared =
                before && strip.across.from - before->across.to == ripKerf(m_shop, *placed.section);
            m_rips += shared ? 1 : 2;
            before = &strip;
            countInStrip(placed, strip);
        }
    }

    void countInStrip(const PlacedSection& placed, const Strip& strip) {
        const Blank* before = nullptr;
        for (const Blank& blank : strip.blanks) {
            const Rect& rect = blank.rect;
            if (!isUsable(rect)) {
                continue;
            }
            const bool shared =
                before && rect.x0 - before->rect.x1 == m_shop.machines.stripCrosscut.kerf;
            bool flushLow = false;
            bool flushHigh = false;
            if (placed.section->frame.isParallel()) {
                const Stretch cuts = crosscutsInFrame(*placed.section);
                flushLow = rect.x0 == cuts.from;
                flushHigh = rect.x1 == cuts.to;
            }
            m_crosscuts += (!flushLow && !shared) + !flushHigh;
            m_rips += (rect.y0 != strip.across.from) + (rect.y1 != strip.across.to);
            before = &blank;
        }
    }

    void countDemand() {
        for (const Need& need : m_opened.needs) {
            if (!need.staves) {
                m_totals.demanded += need.blanksPerPart();
            }
        }
        for (const PlacedBlank& placed : m_opened.blanks) {
            m_totals.demanded += placed.need && placed.need->staves;
        }
        for (const Unplaced& unplaced : m_opened.plan.unplaced) {
            const Need* need = needFor(m_opened.needs, unplaced.purpose);
            m_totals.demanded += need && need->staves;
        }
    }

    /// Finished wood of the parts that the blanks complete or share in; a purpose placed twice
    /// counts once.
    Volume finishedWood() const {
        std::set<BlankPurpose> seen;
        std::map<BlankPurpose, std::pair<const Need*, Length>> panels;
        Volume wood;
        for (const PlacedBlank& placed : m_opened.blanks) {
            const Need* need = placed.need;
            BlankPurpose purpose = placed.blank->purpose;
            if (!placed.sound || !need || !need->wantsInstance(purpose.instance) ||
                !seen.insert(purpose).second) {
                continue;
            }
            if (!need->staves) {
                wood += share(need->finishedPart * need->partsIn(purpose.instance), need->plies);
                continue;
            }
            purpose.stave = 0;
            auto& [panelNeed, net] = panels[purpose];
            panelNeed = need;
            net += placed.blank->rect.width() - need->staves->jointing;
        }
        for (const auto& [purpose, panel] : panels) {
            const auto& [need, net] = panel;
            const Length glued = need->staves->gluedWidth;
            const Length counted = std::clamp(net, Length(), glued);
            if (glued > Length()) {
                wood += share(need->finishedPart,
                              static_cast<Int128>(glued.inNanometres()) * need->plies,
                              counted.inNanometres());
            }
        }
        return wood;
    }

    /// volume * times / divisor, rounded down, without leaving 128 bits on the way.
    static Volume share(Volume volume, Int128 divisor, Int128 times = 1) {
        const Int128 whole = volume.inCubicNanometres() / divisor;
        const Int128 rest = volume.inCubicNanometres() % divisor;
        return Volume::cubicNanometres(whole * times + rest * times / divisor);
    }

    const Case& m_opened;
    const Shop& m_shop;
    PlanTotals m_totals;
    std::set<BoardId> m_boards;
    Volume m_blanks;
    Volume m_offcuts;
    int m_crosscuts = 0;
    int m_rips = 0;
};

} // namespace

PlanTotals countTotals(const Case& opened, int fills) { return Counter(opened).count(fills); }

} // namespace stavewright::audit_detail
