#include "core/cutting/BoardMenu.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numeric>
#include <set>

#include "core/cutting/Places.h"
#include "core/cutting/WoodWorth.h"

namespace stavewright::cutting {

namespace {

/// Foreseen strips that one section remembers, the newest.
constexpr std::size_t mostForeseen = 24;
/// Along, of what the wood can be worth.
constexpr Nm woodStep = 12'700'000;
constexpr std::int64_t unlimited = std::numeric_limits<std::int64_t>::max();
/// For looking among many more sections at once.
constexpr std::int64_t workToRefine = 1'000'000;
constexpr std::int64_t workOfMore = 200'000;

} // namespace

BoardMenu::BoardMenu(const Context& context, const BoardModel& model, const Fineness& fineness,
                     const Context* whole)
    : m_context(&context)
    , m_whole(whole != nullptr ? whole : &context)
    , m_model(&model) {
    std::vector<std::pair<Nm, Nm>> found;
    findSections(fineness, found);
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
        return a.second != b.second ? a.second < b.second : a.first < b.first;
    });
    for (const auto& [x0, x1] : found) {
        if (auto section = makeSection(x0, x1, fineness)) {
            m_sections.push_back(std::move(section));
        }
    }
    chainUp();
    for (const Stretch& stretch : model.freeStretches()) {
        if (stretch.length().inNanometres() >= context.shortest) {
            // With the slack of any section, so that on bent edges too the bounds hold.
            const Nm longest = stretch.length().inNanometres() +
                               context.problem->limits.crosscutKerf + 2 * woodStep;
            Lattice lattice(context, model, stretch, {woodStep, stepAcross(*context.problem)},
                            EdgeSlack(model, stretch, longest, context.narrowest));
            UsableWood usable = usableWood(lattice);
            m_woods.push_back({std::move(lattice), std::move(usable)});
        }
    }
    m_preparation = static_cast<std::int64_t>(20 * found.size());
}

void BoardMenu::cap(SectionCeilings&& ceilings) {
    cap(std::make_shared<const SectionCeilings>(std::move(ceilings)));
}

void BoardMenu::cap(std::shared_ptr<const SectionCeilings> ceilings) {
    m_ceilings = std::move(ceilings);
    for (const auto& section : m_sections) {
        section->ceiling = m_ceilings->find(section->x0, section->x1);
    }
}

void BoardMenu::refine(const Values& values, const Interrupt& interrupt, std::int64_t& work) {
    if (m_more == nullptr) {
        m_more = std::make_unique<BoardMenu>(*m_context, *m_model, Fineness::capped());
        m_more->tellNear(m_mostNear);
        work += m_more->preparation();
    }
    if (m_ceilings != nullptr) {
        m_more->cap(m_ceilings);
    }
    for (const BoardChoice::Section& best :
         m_more->choose({}, values, interrupt, work, workToRefine, nullptr).sections) {
        if (known(best.menu->x0(), best.menu->x1()) == nullptr) {
            insert(makeSection(best.menu->x0(), best.menu->x1(), Fineness::capped()));
        }
    }
    chainUp();
}

BoardChoice BoardMenu::bestOfMore(const Values& values, const Interrupt& interrupt,
                                  std::int64_t& work) const {
    return m_more != nullptr ? m_more->choose({}, values, interrupt, work, workOfMore, nullptr)
                             : best(values, interrupt, work);
}

std::unique_ptr<BoardMenu::Section> BoardMenu::makeSection(Nm x0, Nm x1,
                                                           const Fineness& fineness) const {
    const SectionShape shape(*m_model, x0, x1);
    if (shape.vTop() < m_context->narrowest || shape.uHigh() - shape.uLow() < m_context->shortest) {
        return nullptr;
    }
    auto section = std::make_unique<Section>();
    section->x0 = x0;
    section->x1 = x1;
    section->fineness = fineness;
    section->area =
        static_cast<double>(shape.uHigh() - shape.uLow()) * static_cast<double>(shape.vTop());
    section->ceiling = m_ceilings != nullptr ? m_ceilings->find(x0, x1) : SectionCeilings::none;
    section->crosscuts =
        ((x0 != m_model->size().xBegin ? 1 : 0) + (x1 != m_model->size().xEnd ? 1 : 0)) *
        m_context->problem->limits.crosscutCost;
    return section;
}

void BoardMenu::chainUp() {
    const Nm kerf = m_context->problem->limits.crosscutKerf;
    for (const auto& section : m_sections) {
        const auto end =
            std::partition_point(m_sections.begin(), m_sections.end(), [&](const auto& other) {
                return other->x1 + kerf <= section->x0;
            });
        section->before = static_cast<std::size_t>(end - m_sections.begin());
    }
}

BoardMenu::Sections::iterator BoardMenu::placeOf(Nm x0, Nm x1) {
    return std::partition_point(m_sections.begin(), m_sections.end(), [&](const auto& other) {
        return std::pair(other->x1, other->x0) < std::pair(x1, x0);
    });
}

const BoardMenu::Section* BoardMenu::known(Nm x0, Nm x1) {
    const auto at = placeOf(x0, x1);
    const bool isThere = at != m_sections.end() && (*at)->x0 == x0 && (*at)->x1 == x1;
    return isThere ? at->get() : nullptr;
}

void BoardMenu::insert(std::unique_ptr<Section> section) {
    const bool isKnown = known(section->x0, section->x1) != nullptr;
    const auto at = placeOf(section->x0, section->x1);
    const auto place = at - m_sections.begin();
    const bool remembers = !m_remembered.section.empty();
    if (isKnown) {
        *at = std::move(section);
        if (remembers) {
            m_remembered.worked[static_cast<std::size_t>(place)] = false;
        }
        return;
    }
    m_sections.insert(at, std::move(section));
    if (remembers) {
        m_remembered.section.insert(m_remembered.section.begin() + place, SectionChoice{});
        m_remembered.worked.insert(m_remembered.worked.begin() + place, false);
    }
}

void BoardMenu::widen(const std::vector<BoundSection>& sections) {
    for (const BoundSection& wanted : sections) {
        auto section = makeSection(wanted.x0, wanted.x1, Fineness::fine());
        if (section == nullptr) {
            continue;
        }
        section->foreseen = std::make_unique<BoundSection>(wanted);
        const Section* before = known(wanted.x0, wanted.x1);
        if (before != nullptr && before->foreseen != nullptr) {
            const std::vector<BoundStrip>& more = before->foreseen->strips;
            std::vector<BoundStrip>& strips = section->foreseen->strips;
            strips.insert(strips.end(), more.begin(), more.end());
            strips.resize(std::min(strips.size(), mostForeseen));
        }
        insert(std::move(section));
    }
    chainUp();
}

const SectionMenu& BoardMenu::menuOf(std::size_t index) const {
    Section& section = *m_sections[index];
    std::call_once(section.once, [&] {
        section.menu = std::make_unique<SectionMenu>(
            section.foreseen != nullptr ? *m_whole : *m_context, *m_model, section.x0, section.x1,
            section.fineness, section.foreseen.get());
    });
    return *section.menu;
}

void BoardMenu::findSections(const Fineness& fineness,
                             std::vector<std::pair<Nm, Nm>>& found) const {
    const Problem& problem = *m_context->problem;
    const Nm kerf = problem.limits.crosscutKerf;
    std::vector<Nm> lengths;
    for (const Kind& kind : problem.kinds) {
        if (suits(kind, m_model->board()) && kind.demand > 0) {
            lengths.push_back(kind.length);
        }
    }
    sortUnique(lengths);
    if (lengths.empty()) {
        return;
    }
    std::vector<Nm> spans = lengths;
    for (int inARow = 1; inARow < fineness.inARow; ++inARow) {
        for (const Nm a : std::vector<Nm>(spans)) {
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
            for (const Piece& piece : m_model->pieces(zone.rule, zone.onB)) {
                pastDefects.push_back(static_cast<Nm>(std::ceil(piece.high.x)) - zone.x0);
                beforeDefects.push_back(static_cast<Nm>(std::floor(piece.low.x)) - zone.x1 +
                                        length);
            }
        }
    }

    std::set<std::pair<Nm, Nm>> known;
    for (const Stretch& stretch : m_model->freeStretches()) {
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
                found.emplace_back(x0, x1);
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
                const Nm x1 = starts[i] + spanFrom(*m_model, starts[i], span, end);
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
                consider(x1 - spanUpTo(*m_model, x1, span, begin), x1);
            }
        }
        // Rip first: whole stretches, from end to end and between places where defects stop a
        // blank.
        consider(begin, end);
        const std::vector<Nm> fewLows = thinned(lows, fineness.longSections);
        const std::vector<Nm> fewHighs = thinned(highs, fineness.longSections);
        for (const Nm x0 : fewLows) {
            consider(x0, end);
            for (const Nm x1 : fewHighs) {
                if (fineness.inARow > 1 && x1 - x0 > 2 * lengths.front()) {
                    consider(x0, x1);
                }
            }
        }
        for (const Nm x1 : fewHighs) {
            consider(begin, x1);
        }
    }
}

std::vector<Cost> BoardMenu::bounds(const Values& values, std::uint64_t& reusable) const {
    // Most money per area among the kinds that are no longer than the section.
    const std::vector<Kind>& kinds = m_context->problem->kinds;
    std::vector<std::pair<double, double>> density; // length, money per nm^2 up to this length
    double growth = 0; // most that a value grew since it was remembered
    bool comparable = !m_remembered.section.empty();
    std::uint64_t changed = 0;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const Kind& kind = kinds[k];
        if (!suits(kind, m_model->board()) || kind.demand <= 0) {
            continue;
        }
        double best = 0;
        for (const Nm width : {kind.width, kind.isPool ? kind.widest : kind.width}) {
            best = std::max(best, static_cast<double>(values.of(kind, k, width)) /
                                      static_cast<double>(width));
            if (comparable) {
                const Cost now = values.of(kind, k, width);
                const Cost then = m_remembered.values.of(kind, k, width);
                if (now != then) {
                    changed |= std::uint64_t{1} << (k % 64);
                }
                if (then > 0) {
                    growth = std::max(growth, static_cast<double>(now) / static_cast<double>(then));
                } else if (now > 0) {
                    comparable = false;
                }
            }
        }
        density.emplace_back(static_cast<double>(kind.length),
                             best / static_cast<double>(kind.length));
    }
    std::sort(density.begin(), density.end());
    for (std::size_t i = 1; i < density.size(); ++i) {
        density[i].second = std::max(density[i].second, density[i - 1].second);
    }
    reusable = comparable && growth <= 1 ? ~changed : 0;
    const Limits& limits = m_context->problem->limits;
    const double cuts = static_cast<double>(8 * (limits.ripCost + limits.crosscutCost));
    std::vector<Cost> bound(m_sections.size(), 0);
    for (std::size_t i = 0; i < m_sections.size(); ++i) {
        const Section& section = *m_sections[i];
        const auto past =
            std::partition_point(density.begin(), density.end(), [&](const auto& entry) {
                return entry.first <= static_cast<double>(section.x1 - section.x0);
            });
        double most = past == density.begin() ? 0 : (past - 1)->second * section.area;
        if (comparable && m_remembered.worked[i]) {
            // The blanks' worth grows by no more than `growth`; cuts and fills do not grow with it,
            // so the difference may grow a little more.
            const double then = static_cast<double>(m_remembered.section[i].value);
            const double now =
                growth <= 1 ? then : growth * then + (growth - 1) * (cuts + then / 8);
            most = std::min(most, now);
        }
        bound[i] = static_cast<Cost>(std::ceil(most));
    }
    const std::vector<Cost> ceilings =
        m_ceilings != nullptr ? m_ceilings->at(*m_context->problem, values) : std::vector<Cost>();
    for (std::size_t i = 0; i < m_sections.size(); ++i) {
        if (m_sections[i]->ceiling != SectionCeilings::none) {
            bound[i] = std::min(bound[i], ceilings[m_sections[i]->ceiling]);
        }
    }
    const BoundPrices prices(*m_context->problem, values);
    for (const Wood& wood : m_woods) {
        const Lattice& lattice = wood.lattice;
        const WoodWorth worth(lattice, wood.usable, prices);
        const auto cellOf = [&](Nm x) {
            return static_cast<int>((x - lattice.begin()) / lattice.step().along);
        };
        for (std::size_t i = 0; i < m_sections.size(); ++i) {
            const Section& section = *m_sections[i];
            if (section.x0 < lattice.begin() || section.x0 >= lattice.end()) {
                continue;
            }
            const int first = cellOf(section.x0);
            const int last = cellOf(section.x1);
            bound[i] = std::min(
                bound[i], static_cast<Cost>(std::ceil(worth.of(first, last, last - first + 1))));
        }
    }
    return bound;
}

BoardChoice BoardMenu::bestBeside(const std::vector<Stretch>& taken, const Values& values,
                                  const Interrupt& interrupt, std::int64_t& work) const {
    return choose(taken, values, interrupt, work, unlimited, nullptr);
}

BoardChoice BoardMenu::rebase(const Values& values, const Interrupt& interrupt,
                              std::int64_t& work) {
    m_remembered = {};
    Remembered remember;
    BoardChoice choice = choose({}, values, interrupt, work, unlimited, &remember);
    if (!interrupt.isCalled()) {
        m_remembered = std::move(remember);
    }
    return choice;
}

BoardChoice BoardMenu::choose(const std::vector<Stretch>& taken, const Values& values,
                              const Interrupt& interrupt, std::int64_t& work, std::int64_t mostWork,
                              Remembered* remember) const {
    const std::int64_t workBefore = work;
    const std::size_t count = m_sections.size();
    std::uint64_t reusable = 0;
    std::vector<Cost> value = bounds(values, reusable);
    std::vector<SectionChoice> choices(count);
    std::vector<bool> worked(count, false);
    std::vector<Cost> upTo(count + 1, 0);
    for (std::size_t i = 0; i < count && reusable != 0; ++i) {
        if (m_remembered.worked[i] && (m_remembered.section[i].kinds & ~reusable) == 0) {
            worked[i] = true;
            choices[i] = m_remembered.section[i];
            value[i] = choices[i].value;
        }
    }
    for (std::size_t i = 0; i < count && !taken.empty(); ++i) {
        if (!isBeside(taken, m_sections[i]->x0, m_sections[i]->x1,
                      m_context->problem->limits.crosscutKerf)) {
            worked[i] = true;
            value[i] = 0;
        }
    }
    BoardChoice chosen;
    std::vector<std::size_t> chain; ///< sections, from the far end
    bool isShort = false;           ///< of work
    for (bool settled = false; !settled;) {
        for (std::size_t i = 0; i < count; ++i) {
            const Cost here = value[i] - m_sections[i]->crosscuts;
            upTo[i + 1] = std::max(upTo[i], here > 0 ? upTo[m_sections[i]->before] + here : 0);
        }
        work += static_cast<std::int64_t>(count / 8);
        settled = true;
        if (!isShort && work - workBefore > mostWork) {
            for (std::size_t i = 0; i < count; ++i) {
                value[i] = worked[i] ? value[i] : 0;
            }
            isShort = true;
            settled = false;
            continue;
        }
        chain.clear();
        for (std::size_t i = count; i > 0;) {
            if (upTo[i] == upTo[i - 1]) {
                --i;
                continue;
            }
            if (!worked[i - 1]) {
                if (interrupt.isCalled()) {
                    return {};
                }
                worked[i - 1] = true;
                settled = false;
                choices[i - 1] = menuOf(i - 1).best(values, work);
                value[i - 1] = choices[i - 1].value;
            }
            chain.push_back(i - 1);
            i = m_sections[i - 1]->before;
        }
    }
    chosen.value = upTo[count];
    for (auto index = chain.rbegin(); index != chain.rend(); ++index) {
        chosen.sections.push_back({&menuOf(*index), choices[*index]});
    }
    if (m_mostNear > 0) {
        for (const std::size_t index : nearest(value, upTo, worked, chain)) {
            chosen.near.push_back({&menuOf(index), choices[index]});
        }
    }
    if (remember != nullptr) {
        *remember = {values, std::move(choices), std::move(worked)};
    }
    return chosen;
}

std::vector<std::size_t> BoardMenu::nearest(const std::vector<Cost>& value,
                                            const std::vector<Cost>& upTo,
                                            const std::vector<bool>& worked,
                                            const std::vector<std::size_t>& chosen) const {
    std::vector<std::size_t> byBegin(m_sections.size());
    std::iota(byBegin.begin(), byBegin.end(), std::size_t{0});
    std::sort(byBegin.begin(), byBegin.end(), [&](std::size_t a, std::size_t b) {
        return m_sections[a]->x0 != m_sections[b]->x0 ? m_sections[a]->x0 > m_sections[b]->x0
                                                      : a < b;
    });
    // By descending begin: the best chain that begins there or further on.
    std::vector<std::pair<Nm, Cost>> onward;
    const auto onwardFrom = [&](Nm x) {
        const auto at = std::partition_point(onward.begin(), onward.end(),
                                             [&](const auto& each) { return each.first >= x; });
        return at == onward.begin() ? Cost{0} : std::prev(at)->second;
    };
    const Nm kerf = m_context->problem->limits.crosscutKerf;
    std::vector<std::pair<Cost, std::size_t>> through; // negated, so that the best come first
    for (const std::size_t i : byBegin) {
        const Section& section = *m_sections[i];
        const Cost here = value[i] - section.crosscuts;
        if (here <= 0) {
            continue;
        }
        const Cost from = here + onwardFrom(section.x1 + kerf);
        onward.emplace_back(section.x0,
                            onward.empty() ? from : std::max(onward.back().second, from));
        if (worked[i] && std::find(chosen.begin(), chosen.end(), i) == chosen.end()) {
            through.emplace_back(-(upTo[section.before] + from), i);
        }
    }
    const std::size_t most = std::min(m_mostNear, through.size());
    std::partial_sort(through.begin(), through.begin() + static_cast<std::ptrdiff_t>(most),
                      through.end());
    std::vector<std::size_t> near;
    for (std::size_t n = 0; n < most; ++n) {
        near.push_back(through[n].second);
    }
    return near;
}

} // namespace stavewright::cutting
