#include "tests/unit/core/hand/CutSets.h"

#include <algorithm>
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

/// One mark beyond the window something must be lost, and what is said to be lost must be.
void tryOutside(const Document& job, const SafeWindows& windows, BoardId board,
                const CutWindow& window, const Wish& wish, Counted& counted) {
    ++counted.outside;
    const Length beyond = window.window.to + tapeStep(job);
    const bool isSaid = !window.lostAbove.empty() || !window.whyAbove.empty();
    if (windows.isSafe(board, window.cut, beyond) || !isSaid) {
        ++counted.harmless;
        counted.troubles.push_back(sentenceOf(job, window));
    }
    const std::optional<Landed> landed = windows.landed(board, window.cut, beyond);
    if (!landed) {
        return;
    }
    for (const Blank& blank : landed->lost) {
        const std::optional<hand::TreePlace> place = hand::placeOf(*job.plan, blank.id);
        if (!place || counted.judged >= wish.judged) {
            continue;
        }
        const Section& section = hand::sectionAt(*job.plan, *place);
        const Strip& strip = section.strips[place->strip];
        if (strip.blanks.size() > 1) {
            continue; // which of several is lost is a choice
        }
        ++counted.judged;
        if (comesOutAnyhow(job, landed->layout, blank, section.id, strip.id)) {
            ++counted.comeOut;
            counted.troubles.push_back(sentenceOf(job, window));
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
        for (const CutRef& cut : SafeWindows(begun).cutsOn(board)) {
            const SafeWindows windows(begun);
            const std::optional<CutWindow> window = windows.windowOf(board, cut);
            if (!window || window->window.from > window->mark || window->window.to < window->mark) {
                ++counted.losses;
                counted.troubles.push_back("a cut on its mark is not safe");
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
                counted.troubles.push_back(sentenceOf(begun, *window) + ", cut at " +
                                           std::to_string(where.toInches()));
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

bool comesOutAnyhow(const Document& job, BoardLayout layout, const Blank& lost, SectionId sectionId,
                    StripId stripId) {
    const BoardJudge judge(job);
    const BoardJudge::LeastWood least = judge.leastWoodFor(lost.purpose);
    const Length width = lost.rect.width();
    Section* section = nullptr;
    Strip* strip = nullptr;
    for (Section& each : layout.sections) {
        for (Strip& other : each.strips) {
            if (each.id == sectionId && other.id == stripId) {
                section = &each;
                strip = &other;
            }
        }
    }
    if (!strip) {
        return false;
    }
    const Rect box = hand::boxOnBoard(
        *section, {Length(), strip->across.from, Length::inches(1), strip->across.to});
    const Length from = section->along.from - box.x0 - Length::inches(1, 2);
    const Length room = section->along.length() + Length::inches(1);
    const Length step = Length::inches(1, 16);
    for (const Length wide : {std::min(width, strip->across.length()), strip->across.length()}) {
        if (wide < least.width) {
            continue;
        }
        for (const Length v : {strip->across.from, strip->across.to - wide}) {
            for (Length cutTo = least.length; cutTo <= lost.rect.length(); cutTo += step) {
                for (Length u = from; u + cutTo <= from + room; u += step) {
                    Blank blank = lost;
                    blank.state = CutState::Cut;
                    blank.actual = Rect{u, v, u + cutTo, v + wide};
                    strip->blanks = {blank};
                    if (judge.failures(layout).empty()) {
                        return true;
                    }
                }
            }
        }
    }
    return false;
}

} // namespace stavewright::cut_sets
