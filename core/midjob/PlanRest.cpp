#include "core/midjob/PlanRest.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <set>

#include "core/audit/Audit.h"
#include "core/hand/Finish.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/midjob/Conflicts.h"
#include "core/midjob/Settle.h"
#include "core/planning/Kept.h"

namespace stavewright::midjob {

namespace {

/// Work for each planning that tries a set of locks.
constexpr std::int64_t conflictWork = 200;

/// Counted work after which the search round places that are kept ends where everything found its
/// place at once: what little is free then has been tried over and over.
constexpr std::int64_t workForBetter = 3'000'000;

double secondsSince(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Sections that were locked only so that they stay.
using Held = std::set<SectionId>;

/// Everything that lies on a board not named is locked where it is.
Held hold(Document& document, const std::set<BoardId>& free) {
    Held held;
    for (BoardLayout& layout : document.plan->boards) {
        if (free.contains(layout.board) || layout.locked) {
            continue;
        }
        for (Section& section : layout.sections) {
            const bool hasBlanks =
                std::any_of(section.strips.begin(), section.strips.end(),
                            [](const Strip& strip) { return !strip.blanks.empty(); });
            if (!section.locked && hasBlanks) {
                section.locked = true;
                held.insert(section.id);
            }
        }
    }
    return held;
}

Plan released(Plan plan, const Held& held) {
    for (BoardLayout& layout : plan.boards) {
        for (Section& section : layout.sections) {
            section.locked = section.locked && !held.contains(section.id);
        }
    }
    return plan;
}

/// Boards that may be let go, those first that give most for their letting go: most lumber for the
/// fewest blanks.
std::vector<BoardId> byWaste(const Document& document) {
    std::vector<std::pair<std::int64_t, BoardId>> ranked;
    for (const BoardLayout& layout : document.plan->boards) {
        const Board* board = findBoard(document, layout.board);
        if (!board || layout.locked) {
            continue;
        }
        Area used;
        bool isFree = false;
        for (const Section& section : layout.sections) {
            isFree = isFree || hand::isFree(layout, section);
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    used += woodOf(blank).area();
                }
            }
        }
        if (isFree) {
            const BoardFeet wood = BoardFeet::ofVolume(used * board->quarter.nominal());
            ranked.emplace_back(wood.inMillionths() - exactBoardFeet(*board).inMillionths(),
                                layout.board);
        }
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<BoardId> ids;
    ids.reserve(ranked.size());
    for (const auto& each : ranked) {
        ids.push_back(each.second);
    }
    return ids;
}

bool isCutWood(const BoardLayout& layout) {
    return std::any_of(layout.sections.begin(), layout.sections.end(),
                       [](const Section& section) { return section.state != CutState::Planned; });
}

std::vector<BlankPurpose> unplacedIn(const Plan& plan) {
    std::vector<BlankPurpose> wanted;
    for (const Unplaced& each : plan.unplaced) {
        wanted.push_back(each.purpose);
    }
    return wanted;
}

/// The job with everything taken up that may be planned anew, and then what finds a place in wood
/// of cut sections laid there: the engine plans whole sections and would leave that wood. Nothing
/// where no wood is cut or nothing finds a place in it.
std::optional<Document> laidInCutWood(const Document& document) {
    if (!document.plan ||
        std::none_of(document.plan->boards.begin(), document.plan->boards.end(), isCutWood)) {
        return std::nullopt;
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return std::nullopt;
    }
    Document laid = document;
    laid.plan->boards = planning::keptOf(document, specs.value()).boards;
    laid.plan->unplaced.clear();
    hand::listUnplaced(specs.value(), *laid.plan, "To be planned.");
    if (layMissing(laid, unplacedIn(*laid.plan), LayIn::CutWood) == 0) {
        return std::nullopt;
    }
    return laid;
}

/// From scratch, twice where cut wood is left over: with and without the pieces that fit into it.
Result<PlanOutcome> fromScratch(const Document& document, PlanOptions options,
                                const Progress& progress, const OnBetterPlan& better) {
    const std::optional<Document> laid = laidInCutWood(document);
    if (laid) {
        options.seconds /= 2;
        options.work = options.work > 0 ? std::max<std::int64_t>(1, options.work / 2) : 0;
    }
    Result<PlanOutcome> plain = planJob(document, options, progress, better);
    if (!laid || progress.stop.stop_requested()) {
        return plain;
    }
    const Result<PlanOutcome> reusing = planJob(*laid, options, progress);
    if (!reusing) {
        return plain;
    }
    const auto rank = [](const Plan& plan) {
        return std::pair(plan.unplaced.size(), plan.totals.cost);
    };
    const bool isBetter = !plain || rank(reusing.value().plan) < rank(plain.value().plan);
    if (!isBetter || !audit(document, reusing.value().plan).passed()) {
        return plain;
    }
    PlanOutcome outcome = reusing.value();
    outcome.plan.origin.proof.reset(); // it was proved for what was laid
    if (better) {
        better(outcome.plan);
    }
    return outcome;
}

/// The job with the blanks in the tray that cannot stay where they are, for instance since a board
/// is kept for another part. What is cut or locked stays.
Document withoutWrong(const Document& document) {
    Document sound = document;
    for (const Finding& finding : audit(document).findings) {
        const bool isWrong = finding.severity == Severity::Failure && finding.blank.isSet();
        if (isWrong && hand::placeOf(*sound.plan, finding.blank)) {
            if (const Result<Edit> edit = hand::backToTray(sound, finding.blank)) {
                static_cast<void>(apply(sound, edit.value()));
            }
        }
    }
    return sound;
}

Result<RestOutcome> keepPlaces(const Document& document, const PlanOptions& options,
                               const Progress& progress, const OnBetterPlan& better) {
    const auto start = std::chrono::steady_clock::now();
    RestOutcome best;
    // As a maker would lay it: an answer at once.
    Document reused = withoutWrong(document); // with what fits into wood that is cut already
    layMissing(reused, unplacedIn(*reused.plan), LayIn::CutWood);
    Document laid = reused;
    layMissing(laid, unplacedIn(*laid.plan));
    const auto passes = [&](const Plan& plan) { return audit(document, plan).passed(); };
    best.outcome.plan = *document.plan;
    const std::array<const Plan*, 3> ways = {&*laid.plan, &*reused.plan, &*document.plan};
    const auto good =
        std::find_if(ways.begin(), ways.end(), [&](const Plan* plan) { return passes(*plan); });
    if (good != ways.end()) {
        best.outcome.plan = **good;
    }
    best.outcome.secondsToFirst = secondsSince(start);
    const auto isWhole = [&] { return best.outcome.plan.unplaced.empty(); };
    if (better && good != ways.end()) {
        better(best.outcome.plan);
    }
    const std::vector<BoardId> boards = byWaste(document);
    std::set<BoardId> free;
    std::int64_t worked = 0;
    for (std::size_t step = 0; step <= boards.size(); ++step) {
        const double spent = secondsSince(start);
        if (progress.stop.stop_requested() || (options.seconds > 0 && spent >= options.seconds) ||
            (options.work > 0 && worked >= options.work)) {
            best.outcome.stoppedEarly = true;
            break;
        }
        if (step > 0) {
            free.insert(boards[step - 1]);
        }
        Document holding = reused;
        const Held held = hold(holding, free);
        PlanOptions each = options;
        if (options.seconds > 0) {
            each.seconds = options.seconds - spent;
        }
        if (options.work > 0) {
            each.work = options.work - worked;
        }
        if (isWhole()) { // nothing is missing; only something cheaper is looked for
            each.work = each.work > 0 ? std::min(each.work, workForBetter) : workForBetter;
        }
        Result<PlanOutcome> tried = planJob(holding, each, progress);
        if (!tried) {
            if (tried.error().code == ErrorCode::Cancelled) {
                best.outcome.stoppedEarly = true;
                break;
            }
            return tried.error();
        }
        worked += std::max<std::int64_t>(1, tried.value().plan.origin.work);
        Plan plan = released(std::move(tried.value().plan), held);
        plan.origin.proof.reset(); // it was proved for what was held
        const Plan& now = best.outcome.plan;
        const bool isBetter =
            plan.unplaced.size() < now.unplaced.size() ||
            (plan.unplaced.size() == now.unplaced.size() && plan.totals.cost < now.totals.cost) ||
            (step == 0 && !now.unplaced.empty() &&
             plan.unplaced.size() == now.unplaced.size()); // it says why
        if (isBetter && passes(plan)) {
            best.outcome.plan = std::move(plan);
            best.boardsFreed = static_cast<int>(step);
            if (better) {
                better(best.outcome.plan);
            }
        }
        if (isWhole()) {
            break;
        }
    }
    best.outcome.seconds = secondsSince(start);
    best.work = worked;
    return best;
}

} // namespace

Result<RestOutcome> planRest(const Document& document, RestMode mode, const PlanOptions& options,
                             const Progress& progress, const OnBetterPlan& better) {
    RestOutcome rest;
    if (mode == RestMode::KeepPlaces && document.plan) {
        Result<RestOutcome> kept = keepPlaces(document, options, progress, better);
        if (!kept) {
            return kept;
        }
        rest = std::move(kept).value();
    } else {
        Result<PlanOutcome> planned = fromScratch(document, options, progress, better);
        if (!planned) {
            return planned.error();
        }
        rest.outcome = std::move(planned).value();
    }
    if (!rest.outcome.plan.unplaced.empty() && document.plan && !locksOf(*document.plan).empty()) {
        PlanOptions each = options;
        each.work = options.work > 0 ? std::min(options.work, conflictWork) : conflictWork;
        const Result<Conflict> conflict = conflictingLocks(document, each, progress);
        rest.conflict = conflict ? conflict.value().sentence : std::string();
    }
    return rest;
}

} // namespace stavewright::midjob
