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
        std::optional<Stretch> sawn;
        if (window.cut.kind() == hand::CutKind::Second) {
            const Length at = beyond + hand::alongStrip(section, strip).from;
            const Length kerf = job.shop.machines.stripCrosscut.kerf;
            sawn = window.cut.high ? Stretch{at, at + kerf} : Stretch{at - kerf, at};
        }
        if (comesOutAnyhow(job, landed->layout, blank, section.id, strip.id, sawn)) {
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

bool comesOutAnyhow(const Document& job, BoardLayout layout, const Blank& lost, SectionId sectionId,
                    StripId stripId, std::optional<Stretch> sawn) {
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
                    if (sawn && u < sawn->to && sawn->from < u + cutTo) {
                        continue;
                    }
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
