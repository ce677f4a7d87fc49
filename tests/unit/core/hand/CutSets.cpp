#include "tests/unit/core/hand/CutSets.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <random>

#include "core/audit/Audit.h"
#include "core/hand/PlanTree.h"
#include "core/planning/Planner.h"

namespace stavewright::cut_sets {

namespace {

using hand::CutRef;
using hand::CutWindow;
using hand::Landed;
using hand::SafeWindows;

Length tapeStep(const Document& job) {
    return job.info.units == UnitSystem::Inches ? Length::inches(1, job.info.inchDenominator)
                                                : Length::millimetres(1);
}

/// The document with the board as it is after the cut.
Document withBoard(Document job, const BoardLayout& layout) {
    for (BoardLayout& each : job.plan->boards) {
        if (each.board == layout.board) {
            each = layout;
        }
    }
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

/// More blanks than this in one strip are not tried in every order.
constexpr std::size_t mostTogether = 3;

/// Of the strip's blanks one more than was said comes out.
bool oneMoreComesOut(const Document& job, const Landed& landed, const std::vector<Blank>& blanks,
                     std::size_t lost, SectionId section, StripId strip,
                     std::optional<Stretch> sawn) {
    std::vector<bool> out(blanks.size(), false);
    std::fill(out.end() - static_cast<std::ptrdiff_t>(lost - 1), out.end(), true);
    do {
        std::vector<Blank> kept;
        for (std::size_t i = 0; i < blanks.size(); ++i) {
            if (!out[i]) {
                kept.push_back(blanks[i]);
            }
        }
        if (comeOutTogether(job, landed.layout, kept, section, strip, sawn)) {
            return true;
        }
    } while (std::next_permutation(out.begin(), out.end()));
    return false;
}

/// One mark beyond the window something must be lost, and what is said to be lost must be.
void tryOutside(const Document& job, const SafeWindows& windows, BoardId board,
                const CutWindow& window, const Wish& wish, Counted& counted) {
    ++counted.outside;
    const Length beyond = window.beyondAbove;
    if (beyond <= window.window.to || beyond > window.window.to + tapeStep(job)) {
        counted.troubles.push_back("the place where something is lost is not the next one");
    }
    const bool isSaid = !window.lostAbove.empty() || !window.whyAbove.empty();
    if (windows.isSafe(board, window.cut, beyond) || !isSaid) {
        ++counted.harmless;
        counted.troubles.push_back(sentenceOf(job, window));
    }
    const std::optional<Landed> landed = windows.landed(board, window.cut, beyond);
    if (!landed) {
        return;
    }
    std::map<StripId, std::vector<Blank>> lostOf;
    for (const Blank& blank : landed->lost) {
        if (const auto place = hand::placeOf(*job.plan, blank.id)) {
            lostOf[hand::sectionAt(*job.plan, *place).strips[place->strip].id].push_back(blank);
        }
    }
    for (const auto& [id, lost] : lostOf) {
        const hand::TreePlace place = *hand::placeOf(*job.plan, lost.front().id);
        const Section& section = hand::sectionAt(*job.plan, place);
        const Strip& strip = section.strips[place.strip];
        std::optional<Stretch> sawn;
        if (window.cut.kind() == hand::CutKind::Second) {
            const Length at = beyond + hand::alongStrip(section, strip).from;
            const Length kerf = job.shop.machines.stripCrosscut.kerf;
            sawn = window.cut.high ? Stretch{at, at + kerf} : Stretch{at - kerf, at};
        }
        if (strip.blanks.size() == 1) {
            if (counted.judged < wish.judged) {
                ++counted.judged;
                if (comesOutAnyhow(job, landed->layout, lost.front(), section.id, id, sawn)) {
                    ++counted.comeOut;
                    counted.troubles.push_back(sentenceOf(job, window));
                }
            }
        } else if (counted.strips < wish.judged && strip.blanks.size() <= mostTogether &&
                   std::none_of(strip.blanks.begin(), strip.blanks.end(), [](const Blank& each) {
                       return each.lowEndCut || each.highEndCut; // it has left the strip
                   })) {
            // Which of several is lost is a choice; how many are is not.
            ++counted.strips;
            if (oneMoreComesOut(job, *landed, strip.blanks, lost.size(), section.id, id, sawn)) {
                ++counted.more;
                counted.troubles.push_back(sentenceOf(job, window));
            }
        }
    }
}

} // namespace

Counted cutAtRandom(const std::vector<Document>& jobs, const Wish& wish) {
    std::mt19937_64 random(wish.seed);
    Counted counted;
    for (; counted.sets < wish.sets; ++counted.sets) {
        const Document& job = jobs[random() % jobs.size()];
        const BoardId board = job.plan->boards[random() % job.plan->boards.size()].board;
        Document begun = job;
        for (const CutRef& cut : hand::cutsOn(job, board)) {
            const std::vector<CutRef> left = hand::cutsOn(begun, board);
            if (std::find(left.begin(), left.end(), cut) == left.end()) {
                continue; // an earlier one that landed off has made it needless
            }
            const SafeWindows windows(begun);
            const std::optional<CutWindow> window = windows.windowOf(board, cut);
            if (!window || window->window.from > window->mark || window->window.to < window->mark) {
                ++counted.losses;
                const std::optional<Landed> onMark =
                    windows.landed(board, cut, *hand::markOf(begun, board, cut));
                std::string why = !onMark                ? "cannot be made"
                                  : onMark->lost.empty() ? "is refused"
                                                         : "loses a blank";
                if (onMark) {
                    for (const Finding& finding : BoardJudge(begun).failures(onMark->layout)) {
                        why += "; " + finding.sentence;
                    }
                }
                counted.troubles.push_back(std::string("a cut on its mark is not safe: ") +
                                           hand::nameOf(cut.kind()) + " on its mark " + why);
                break;
            }
            if (!window->openAbove && random() % 4 == 0) {
                tryOutside(begun, windows, board, *window, wish, counted);
            }
            const auto places = static_cast<std::uint64_t>(
                (window->window.to - window->window.from) / Length::inches(1, 64));
            const Length where =
                window->window.from +
                Length::inches(static_cast<std::int64_t>(random() % (places + 1)), 64);
            const std::optional<Landed> landed = windows.landed(board, cut, where);
            if (!landed || !landed->lost.empty()) {
                ++counted.losses;
                counted.troubles.push_back(
                    sentenceOf(begun, *window) + ", cut at " + std::to_string(where.toInches()) +
                    (landed ? " loses " + labelOf(begun, landed->lost.front().purpose)
                            : std::string()));
                break;
            }
            begun = withBoard(begun, landed->layout);
            ++counted.cuts;
        }
        const AuditReport report = audit(begun);
        if (!report.passed()) {
            ++counted.unclean;
            counted.troubles.push_back(report.findings.front().sentence);
        }
    }
    return counted;
}

namespace {

/// One strip, in which blanks are laid everywhere and judged by the audit alone.
class StripTrial {
  public:
    StripTrial(const Document& job, BoardLayout layout, SectionId sectionId, StripId stripId,
               std::optional<Stretch> sawn)
        : m_judge(job)
        , m_layout(std::move(layout))
        , m_sawn(sawn) {
        for (Section& each : m_layout.sections) {
            for (Strip& other : each.strips) {
                if (each.id == sectionId && other.id == stripId) {
                    m_section = &each;
                    m_strip = &other;
                }
            }
        }
        if (m_strip) {
            const Rect box = hand::boxOnBoard(*m_section, {Length(), m_strip->across.from,
                                                           Length::inches(1), m_strip->across.to});
            m_from = m_section->along.from - box.x0 - Length::inches(1, 2);
            m_to = m_from + m_section->along.length() + Length::inches(1);
        }
    }

    /// The nearest place from `from` on where the blank, as short as it may be, comes out: its end.
    [[nodiscard]] std::optional<Length> firstEnd(const Blank& lost, std::optional<Length> from) {
        if (!m_strip) {
            return std::nullopt;
        }
        const BoardJudge::LeastWood least = m_judge.leastWoodFor(lost.purpose);
        const Length step = Length::inches(1, 16);
        const Length begin = from.value_or(m_from);
        for (Length end = begin + least.length; end <= m_to; end += step) {
            for (Length cutTo = least.length; cutTo <= lost.rect.length() && cutTo <= end - begin;
                 cutTo += step) {
                const Length u = end - cutTo;
                if (!(m_sawn && u < m_sawn->to && m_sawn->from < end) &&
                    isGood(lost, u, cutTo, least.width)) {
                    return end;
                }
            }
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] bool isGood(const Blank& lost, Length u, Length cutTo, Length leastWidth) {
        const Length width = lost.rect.width();
        const Stretch across = m_strip->across;
        for (const Length wide : {std::min(width, across.length()), across.length()}) {
            if (wide < leastWidth) {
                continue;
            }
            for (const Length v : {across.from, across.to - wide}) {
                Blank blank = lost;
                blank.state = CutState::Cut;
                blank.actual = Rect{u, v, u + cutTo, v + wide};
                m_strip->blanks = {blank};
                if (m_judge.failures(m_layout).empty()) {
                    return true;
                }
            }
        }
        return false;
    }

    BoardJudge m_judge;
    BoardLayout m_layout;
    std::optional<Stretch> m_sawn;
    Section* m_section = nullptr;
    Strip* m_strip = nullptr;
    Length m_from;
    Length m_to;
};

} // namespace

bool comesOutAnyhow(const Document& job, BoardLayout layout, const Blank& lost, SectionId section,
                    StripId strip, std::optional<Stretch> sawn) {
    return StripTrial(job, std::move(layout), section, strip, sawn).firstEnd(lost, {}).has_value();
}

bool comeOutTogether(const Document& job, const BoardLayout& layout,
                     const std::vector<Blank>& blanks, SectionId section, StripId strip,
                     std::optional<Stretch> sawn) {
    StripTrial trial(job, layout, section, strip, sawn);
    std::vector<std::size_t> order(blanks.size());
    std::iota(order.begin(), order.end(), 0);
    do { // in any one order, what ends as early as it can leaves most for those after it
        std::optional<Length> from;
        bool fit = true;
        for (const std::size_t i : order) {
            const std::optional<Length> end = trial.firstEnd(blanks[i], from);
            fit = fit && end;
            if (!fit) {
                break;
            }
            from = *end + job.shop.machines.stripCrosscut.kerf;
        }
        if (fit) {
            return true;
        }
    } while (std::next_permutation(order.begin(), order.end()));
    return false;
}

} // namespace stavewright::cut_sets
