#include "core/cutting/BoardMenu.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace stavewright::cutting {

namespace {

void sortUnique(std::vector<Nm>& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
}

/// At most `most` of them, spread evenly, the first and the last among them.
std::vector<Nm> thinned(std::vector<Nm> values, std::size_t most) {
    sortUnique(values);
    if (values.size() <= most || most < 2) {
        return values;
    }
    std::vector<Nm> kept;
    for (std::size_t i = 0; i < most; ++i) {
        kept.push_back(values[i * (values.size() - 1) / (most - 1)]);
    }
    sortUnique(kept);
    return kept;
}

/// How far past x0 the far crosscut must stand for a blank of this length: the length itself in a parallel
/// frame, in a turned one a little more for the skew.
Nm spanFor(const BoardModel& model, Nm x0, Nm length, Nm end) {
    Nm span = length;
    for (int round = 0; round < 4; ++round) {
        if (x0 + span > end) {
            return span;
        }
        const SectionShape shape(model, x0, x0 + span);
        const Nm missing = length - (shape.uHigh() - shape.uLow());
        if (missing <= 0) {
            return span;
        }
        span += missing + turnedMargin;
    }
    return span;
}

/// The same with the far crosscut given.
Nm spanBefore(const BoardModel& model, Nm x1, Nm length, Nm begin) {
    Nm span = length;
    for (int round = 0; round < 4; ++round) {
        if (x1 - span < begin) {
            return span;
        }
        const SectionShape shape(model, x1 - span, x1);
        const Nm missing = length - (shape.uHigh() - shape.uLow());
        if (missing <= 0) {
            return span;
        }
        span += missing + turnedMargin;
    }
    return span;
}

} // namespace

BoardMenu::BoardMenu(const Context& context, int board, const Fineness& fineness)
    : m_context(&context)
    , m_model(*context.problem, board) {
    findSections(fineness);
    std::stable_sort(m_sections.begin(), m_sections.end(),
                     [](const SectionMenu& a, const SectionMenu& b) {
                         return a.x1() != b.x1() ? a.x1() < b.x1() : a.x0() < b.x0();
                     });
    const Limits& limits = context.problem->limits;
    for (const SectionMenu& section : m_sections) {
        const auto end = std::partition_point(
            m_sections.begin(), m_sections.end(), [&](const SectionMenu& other) {
                return other.x1() + limits.crosscutKerf <= section.x0();
            });
        m_before.push_back(static_cast<std::size_t>(end - m_sections.begin()));
        const int cuts = (section.x0() != m_model.size().xBegin ? 1 : 0) +
                         (section.x1() != m_model.size().xEnd ? 1 : 0);
        m_crosscuts.push_back(cuts * limits.crosscutCost);
    }
}

void BoardMenu::addSection(Nm x0, Nm x1, const Fineness& fineness) {
    SectionMenu menu(*m_context, m_model, x0, x1, fineness);
    m_preparation += 50;
    if (!menu.isEmpty()) {
        m_sections.push_back(std::move(menu));
    }
}

void BoardMenu::findSections(const Fineness& fineness) {
    const Problem& problem = *m_context->problem;
    const Nm kerf = problem.limits.crosscutKerf;
    std::vector<Nm> lengths;
    for (const Kind& kind : problem.kinds) {
        if (kind.material == m_model.board().material && kind.demand > 0) {
            lengths.push_back(kind.length);
        }
    }
    sortUnique(lengths);
    if (lengths.empty()) {
        return;
    }
    std::vector<Nm> spans = lengths;
    if (fineness.pairs) {
        for (const Nm a : lengths) {
            for (const Nm b : lengths) {
                spans.push_back(a + b + problem.limits.stripCrosscutKerf);
            }
        }
        sortUnique(spans);
    }

    // Where a low end stands just past, or a high end just before, something forbidden.
    std::vector<Nm> pastDefects;
    std::vector<Nm> beforeDefects;
    for (const BlankPose& pose : m_context->poses) {
        const Nm length = problem.kinds[static_cast<std::size_t>(pose.kind)].length;
        for (const PosedZone& zone : pose.zones) {
            for (const Piece& piece : m_model.pieces(zone.rule, zone.onB)) {
                pastDefects.push_back(static_cast<Nm>(std::ceil(piece.high.x)) - zone.x0);
                beforeDefects.push_back(static_cast<Nm>(std::floor(piece.low.x)) - zone.x1 + length);
            }
        }
    }

    std::set<std::pair<Nm, Nm>> known;
    for (const Stretch& stretch : m_model.freeStretches()) {
        const Nm begin = stretch.from.inNanometres();
        const Nm end = stretch.to.inNanometres();
        if (end - begin < lengths.front()) {
            continue;
        }
        const auto inside = [&](std::vector<Nm> places) {
            std::erase_if(places, [&](Nm x) { return x <= begin || x >= end; });
            sortUnique(places);
            return places;
        };
        const std::vector<Nm> lows = thinned(inside(pastDefects), fineness.startsPerBoard / 2);
        const std::vector<Nm> highs = thinned(inside(beforeDefects), fineness.startsPerBoard / 2);
        const auto consider = [&](Nm x0, Nm x1) {
            if (x0 >= begin && x1 <= end && x1 - x0 >= lengths.front() &&
                known.emplace(x0, x1).second) {
                addSection(x0, x1, fineness);
            }
        };
        std::vector<Nm> starts = {begin};
        std::set<Nm> started = {begin};
        for (const Nm x : lows) {
            if (started.insert(x).second) {
                starts.push_back(x);
            }
        }
        for (std::size_t i = 0; i < starts.size(); ++i) {
            for (const Nm span : spans) {
                if (starts[i] + span > end) {
                    break;
                }
                const Nm x1 = starts[i] + spanFor(m_model, starts[i], span, end);
                consider(starts[i], x1);
                if (starts.size() < fineness.startsPerBoard + lows.size() &&
                    x1 + kerf + lengths.front() <= end && started.insert(x1 + kerf).second) {
                    starts.push_back(x1 + kerf);
                }
            }
        }
        std::vector<Nm> ends = highs;
        ends.push_back(end);
        for (const Nm x1 : ends) {
            for (const Nm span : spans) {
                if (x1 - span < begin) {
                    break;
                }
                consider(x1 - spanBefore(m_model, x1, span, begin), x1);
            }
        }
        // Rip first: whole stretches, from end to end and between places where defects stop a blank.
        consider(begin, end);
        const std::vector<Nm> fewLows = thinned(lows, fineness.longSections);
        const std::vector<Nm> fewHighs = thinned(highs, fineness.longSections);
        for (const Nm x0 : fewLows) {
            consider(x0, end);
            for (const Nm x1 : fewHighs) {
                if (fineness.pairs && x1 - x0 > 2 * lengths.front()) {
                    consider(x0, x1);
                }
            }
        }
        for (const Nm x1 : fewHighs) {
            consider(begin, x1);
        }
    }
}

BoardChoice BoardMenu::best(const Values& values, std::int64_t& work) const {
    const std::size_t count = m_sections.size();
    std::vector<SectionChoice> choices(count);
    std::vector<Cost> upTo(count + 1, 0);
    for (std::size_t i = 0; i < count; ++i) {
        choices[i] = m_sections[i].best(values, work);
        const Cost here = choices[i].value - m_crosscuts[i];
        upTo[i + 1] = std::max(upTo[i], here > 0 ? upTo[m_before[i]] + here : 0);
    }
    BoardChoice chosen;
    chosen.value = upTo[count];
    for (std::size_t i = count; i > 0;) {
        if (upTo[i] == upTo[i - 1]) {
            --i;
            continue;
        }
        chosen.sections.push_back({i - 1, choices[i - 1]});
        i = m_before[i - 1];
    }
    std::reverse(chosen.sections.begin(), chosen.sections.end());
    return chosen;
}

Pattern BoardMenu::cut(const Values& values, const BoardChoice& choice) const {
    Pattern pattern;
    pattern.board = m_model.index();
    for (const BoardChoice::Section& section : choice.sections) {
        pattern.sections.push_back(m_sections[section.index].cut(values, section.choice));
    }
    return pattern;
}

} // namespace stavewright::cutting
