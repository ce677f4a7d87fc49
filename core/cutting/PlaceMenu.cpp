#include "core/cutting/PlaceMenu.h"

#include <algorithm>
#include <limits>

#include "core/cutting/Facing.h"

namespace stavewright::cutting {

namespace {

constexpr Cost never = std::numeric_limits<Cost>::min() / 4;
constexpr PlaceLimits places{200, 120};
/// Of a pool; more would be too many places anyway.
constexpr Nm mostWidths = 64;
constexpr std::size_t mostSpots = 4'000'000;

} // namespace

std::unique_ptr<PlaceMenu> PlaceMenu::of(const Context& context, const BoardModel& model) {
    std::unique_ptr<PlaceMenu> menu(new PlaceMenu(context, model));
    if (!menu->findItems()) {
        return nullptr;
    }
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.length().inNanometres() >= context.shortest && !menu->addPart(stretch)) {
            return nullptr;
        }
    }
    return menu;
}

bool PlaceMenu::findItems() {
    Nm longest = 0;
    for (const Stretch& stretch : m_model->freeStretches()) {
        longest = std::max(longest, stretch.length().inNanometres());
    }
    const BoardSize& size = m_model->size();
    const SectionShape whole(*m_model, size.xBegin, size.xEnd);
    const Facing facing(*m_context, *m_model, whole);
    for (std::size_t k = 0; k < m_context->problem->kinds.size(); ++k) {
        const Kind& kind = m_context->problem->kinds[k];
        if (!suits(kind, m_model->board()) || kind.demand <= 0 || kind.length > longest ||
            kind.width > whole.vTop()) {
            continue;
        }
        const Nm step = std::max<Nm>(1, kind.step);
        const Nm widest = kind.isPool ? kind.widest : kind.width;
        if (!facing.whole(k) || (widest - kind.width) / step >= mostWidths) {
            return false;
        }
        for (Nm width = kind.width; width <= widest; width += step) {
            m_items.push_back({static_cast<int>(k), kind.length, width, {}});
        }
    }
    return true;
}

bool PlaceMenu::addPart(const Stretch& stretch) {
    auto made = PlaceGrid::of(*m_context, *m_model, stretch, m_items, places);
    if (!made) {
        return false;
    }
    Part part(std::move(*made));
    PlaceGrid& grid = part.grid;
    const Limits& limits = m_context->problem->limits;
    std::size_t spots = 0;
    for (std::size_t bottom = 0; bottom < grid.bottoms().size(); ++bottom) {
        for (std::size_t top = 0; top < grid.tops().size(); ++top) {
            const Nm v0 = grid.bottoms()[bottom];
            const Nm v1 = grid.tops()[top];
            if (v1 - v0 < std::max<Nm>(1, limits.narrowestRip)) {
                continue;
            }
            Strip strip{bottom, top, {}, {}};
            bool touchesLow = false;
            bool touchesHigh = false;
            for (std::size_t low = 0; low < grid.lows().size(); ++low) {
                strip.first.push_back(static_cast<std::uint32_t>(strip.spots.size()));
                for (std::size_t i = 0; i < m_items.size(); ++i) {
                    const Nm width = m_items[i].width;
                    const Nm spare = v1 - v0 - width;
                    const int high = grid.endOf(i, low);
                    if (high < 0 || spare < 0 ||
                        (spare > 0 && (spare < limits.ripKerf || width < limits.narrowestRip))) {
                        continue;
                    }
                    Cost best = -1;
                    std::size_t at = 0;
                    for (const Nm v : {v0, v1 - width}) {
                        const std::size_t place = grid.placeAt(v);
                        const Cost cost = grid.fit(i, low, place).cost;
                        if (cost < 0) {
                            continue;
                        }
                        touchesLow = touchesLow || v == v0;
                        touchesHigh = touchesHigh || v + width == v1;
                        if (best < 0 || cost < best) {
                            best = cost;
                            at = place;
                        }
                    }
                    if (best >= 0) {
                        strip.spots.push_back(
                            {static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(at),
                             static_cast<std::uint32_t>(low), static_cast<std::uint32_t>(high),
                             best + (spare > 0 ? limits.ripCost : 0)});
                    }
                }
            }
            strip.first.push_back(static_cast<std::uint32_t>(strip.spots.size()));
            // A strip in which no blank can touch an edge is as good when that edge comes closer.
            if (touchesLow && touchesHigh) {
                spots += strip.spots.size();
                part.strips.push_back(std::move(strip));
            }
            if (spots > mostSpots) {
                return false;
            }
        }
    }
    m_preparation += static_cast<std::int64_t>(spots);
    m_parts.push_back(std::move(part));
    return true;
}

/// One pricing of one free stretch.
class PlaceMenu::Run {
  public:
    Run(const PlaceMenu& menu, const Part& part, const Values& values)
        : m_limits(&menu.m_context->problem->limits)
        , m_part(&part)
        , m_lows(&part.grid.lows())
        , m_highs(&part.grid.highs()) {
        for (const PlaceItem& item : menu.m_items) {
            const auto k = static_cast<std::size_t>(item.kind);
            m_gain.push_back(values.of(menu.m_context->problem->kinds[k], k, item.width) -
                             m_limits->crosscutCost);
        }
    }

    /// Rows of all strips that begin at or behind `from`.
    void fillRows(std::size_t from) {
        const std::size_t highs = m_highs->size();
        m_rows.assign(m_part->strips.size() * highs, never);
        for (std::size_t s = 0; s < m_part->strips.size(); ++s) {
            fillRow(m_part->strips[s], from, &m_rows[s * highs]);
        }
    }

    /// Worth of a strip in a section that ends at `high`, by strip.
    void stripWorths(std::vector<Cost>& best, std::size_t high, std::vector<Cost>& worth) const {
        const std::size_t highs = m_highs->size();
        worth.resize(best.size());
        for (std::size_t s = 0; s < best.size(); ++s) {
            const Cost here = m_rows[s * highs + high];
            // The last blank's crosscut falls away where the section ends with it.
            worth[s] = std::max(best[s], here + m_limits->crosscutCost);
            best[s] = std::max(best[s], here);
        }
    }

    /// The best stack of strips; `taken`, when given, gets them from the top down.
    Cost stack(const std::vector<Cost>& worth, std::vector<std::size_t>* taken) {
        const std::vector<Nm>& bottoms = m_part->grid.bottoms();
        const std::vector<Nm>& tops = m_part->grid.tops();
        m_ended.assign(tops.size(), never);
        m_by.assign(tops.size(), {});
        Cost loose = 0; // best that ended far enough below, and where
        int looseTop = -1;
        std::size_t behind = 0;
        std::size_t strip = 0;
        for (std::size_t b = 0; b < bottoms.size() && strip < worth.size(); ++b) {
            Cost start = never;
            int below = -1;
            for (; behind < tops.size() && tops[behind] + m_limits->ripKerf <= bottoms[b];
                 ++behind) {
                if (tops[behind] + m_limits->ripKerf == bottoms[b]) {
                    start = m_ended[behind];
                    below = static_cast<int>(behind);
                }
                if (m_ended[behind] > loose) {
                    loose = m_ended[behind];
                    looseTop = static_cast<int>(behind);
                }
            }
            if (loose - m_limits->ripCost > start) {
                start = loose - m_limits->ripCost;
                below = looseTop;
            }
            for (; strip < worth.size() && m_part->strips[strip].bottom == b; ++strip) {
                const Cost value = start + worth[strip] - m_limits->ripCost;
                const std::size_t top = m_part->strips[strip].top;
                if (worth[strip] > 0 && value > m_ended[top]) {
                    m_ended[top] = value;
                    m_by[top] = {strip, below};
                }
            }
        }
        const auto best = std::max_element(m_ended.begin(), m_ended.end());
        if (best == m_ended.end() || *best <= 0) {
            return 0;
        }
        if (taken != nullptr) {
            for (auto top = static_cast<int>(best - m_ended.begin()); top >= 0;
                 top = m_by[static_cast<std::size_t>(top)].second) {
                taken->push_back(m_by[static_cast<std::size_t>(top)].first);
            }
        }
        return *best;
    }

    /// The blanks of a strip of the section [from, high] whose row is worth `worth`.
    PlacedStrip cutRow(std::size_t s, std::size_t from, std::size_t high, Cost worth) const {
        const PlaceGrid& grid = m_part->grid;
        const Strip& strip = m_part->strips[s];
        PlacedStrip cut{grid.bottoms()[strip.bottom], grid.tops()[strip.top], {}};
        const Cost* ended = &m_rows[s * m_highs->size()];
        std::size_t end = high;
        bool flush = ended[high] + m_limits->crosscutCost == worth;
        for (std::size_t e = 0; e < high && !flush; ++e) {
            if (ended[e] == worth) {
                end = e;
                break;
            }
        }
        for (bool isFirst = false; !isFirst;) {
            const Cost value = ended[end];
            for (const Spot& spot : strip.spots) {
                if (spot.low < from || spot.high != end) {
                    continue;
                }
                const Cost before = value - m_gain[spot.item] + spot.cost;
                const int behind = startedBehind(ended, spot.low, from, before, isFirst);
                if (behind < 0 && !isFirst) {
                    continue;
                }
                cut.blanks.push_back(grid.blank(spot.item, spot.low, spot.place, (*m_lows)[from]));
                end = behind < 0 ? 0 : static_cast<std::size_t>(behind);
                break;
            }
        }
        std::reverse(cut.blanks.begin(), cut.blanks.end());
        return cut;
    }

  private:
    void fillRow(const Strip& strip, std::size_t from, Cost* ended) const {
        Cost loose = 0;
        std::size_t behind = 0;
        for (std::size_t low = from; low < m_lows->size(); ++low) {
            if (strip.first[low] == strip.first[low + 1]) {
                continue;
            }
            Cost start = never;
            for (; behind < m_highs->size() &&
                   (*m_highs)[behind] + m_limits->stripCrosscutKerf <= (*m_lows)[low];
                 ++behind) {
                loose = std::max(loose, ended[behind]);
            }
            if (behind > 0 &&
                (*m_highs)[behind - 1] + m_limits->stripCrosscutKerf == (*m_lows)[low]) {
                start = ended[behind - 1];
            }
            start = std::max(start, low == from ? 0 : loose - m_limits->crosscutCost);
            for (std::uint32_t i = strip.first[low]; i < strip.first[low + 1]; ++i) {
                const Spot& spot = strip.spots[i];
                ended[spot.high] =
                    std::max(ended[spot.high], start + m_gain[spot.item] - spot.cost);
            }
        }
    }

    /// Where the row ended before a blank that began at `low` on top of `start`; -1: nowhere, or
    /// the blank is the first.
    int startedBehind(const Cost* ended, std::size_t low, std::size_t from, Cost start,
                      bool& isFirst) const {
        const Cost cut = low == from ? 0 : m_limits->crosscutCost;
        if (start == -cut) {
            isFirst = true;
            return -1;
        }
        for (std::size_t e = 0; e < m_highs->size(); ++e) {
            const Nm next = (*m_highs)[e] + m_limits->stripCrosscutKerf;
            if (next > (*m_lows)[low]) {
                break;
            }
            const bool joined = next == (*m_lows)[low];
            if (ended[e] > never / 2 &&
                ((joined && ended[e] == start) || ended[e] - m_limits->crosscutCost == start)) {
                return static_cast<int>(e);
            }
        }
        return -1;
    }

    const Limits* m_limits;
    const Part* m_part;
    const std::vector<Nm>* m_lows;
    const std::vector<Nm>* m_highs;
    std::vector<Cost> m_gain; ///< by item: worth less the crosscut behind it
    std::vector<Cost> m_rows; ///< by strip and high edge: the best row that ends there
    std::vector<Cost> m_ended;
    std::vector<std::pair<std::size_t, int>> m_by; ///< by top: strip, and the top below it
};

BoardChoice PlaceMenu::bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                  const Interrupt& interrupt, std::int64_t& work) const {
    struct Chosen {
        std::size_t low = 0;
        int behind = -1; ///< high edge of the section before
    };
    const Limits& limits = m_context->problem->limits;
    BoardChoice choice;
    choice.whole.emplace();
    choice.whole->board = m_model->index();
    std::vector<Cost> best;
    std::vector<Cost> worth;
    for (const Part& part : m_parts) {
        const std::vector<Nm>& lows = part.grid.lows();
        const std::vector<Nm>& highs = part.grid.highs();
        Run run(*this, part, values);
        std::vector<Cost> ended(highs.size(), never);
        std::vector<Chosen> by(highs.size());
        Cost loose = 0;
        int looseHigh = -1;
        std::size_t behind = 0;
        for (std::size_t low = 0; low < lows.size(); ++low) {
            Cost start = never;
            int before = -1;
            for (; behind < highs.size() && highs[behind] + limits.crosscutKerf <= lows[low];
                 ++behind) {
                if (highs[behind] + limits.crosscutKerf == lows[low]) {
                    start = ended[behind];
                    before = static_cast<int>(behind);
                }
                if (ended[behind] > loose) {
                    loose = ended[behind];
                    looseHigh = static_cast<int>(behind);
                }
            }
            const Cost cut = lows[low] == m_model->size().xBegin ? 0 : limits.crosscutCost;
            if (loose - cut > start) {
                start = loose - cut;
                before = looseHigh;
            }
            run.fillRows(low);
            work += static_cast<std::int64_t>(part.strips.size() * lows.size() / 8) + 1;
            best.assign(part.strips.size(), 0);
            for (std::size_t high = 0; high < highs.size(); ++high) {
                if (highs[high] <= lows[low]) {
                    continue;
                }
                run.stripWorths(best, high, worth);
                if (highs[high] - lows[low] < limits.leastFacedLength ||
                    !isBeside(taken, lows[low], highs[high], limits.crosscutKerf)) {
                    continue;
                }
                const Cost end = highs[high] == m_model->size().xEnd ? 0 : limits.crosscutCost;
                const Cost value = start + run.stack(worth, nullptr) - end;
                work += static_cast<std::int64_t>(part.strips.size() / 8) + 1;
                if (value > ended[high]) {
                    ended[high] = value;
                    by[high] = {low, before};
                }
            }
            if (interrupt.isCalled()) {
                return {};
            }
        }
        const auto last = std::max_element(ended.begin(), ended.end());
        if (last == ended.end() || *last <= 0) {
            continue;
        }
        choice.value += *last;
        std::vector<PlacedSection> sections;
        for (auto high = static_cast<int>(last - ended.begin()); high >= 0;
             high = by[static_cast<std::size_t>(high)].behind) {
            const auto end = static_cast<std::size_t>(high);
            const std::size_t low = by[end].low;
            run.fillRows(low);
            best.assign(part.strips.size(), 0);
            for (std::size_t h = 0; h <= end; ++h) {
                if (highs[h] > lows[low]) {
                    run.stripWorths(best, h, worth);
                }
            }
            std::vector<std::size_t> strips;
            run.stack(worth, &strips);
            PlacedSection section;
            section.x0 = lows[low];
            section.x1 = highs[end];
            section.frame = SectionShape(*m_model, section.x0, section.x1).frame();
            for (auto strip = strips.rbegin(); strip != strips.rend(); ++strip) {
                section.strips.push_back(run.cutRow(*strip, low, end, worth[*strip]));
            }
            if (!section.strips.empty()) {
                sections.push_back(std::move(section));
            }
        }
        choice.whole->sections.insert(choice.whole->sections.end(), sections.rbegin(),
                                      sections.rend());
    }
    return choice;
}

} // namespace stavewright::cutting
