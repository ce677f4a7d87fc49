#pragma once
// Planned sample jobs, and the checks that every change by hand must stand.

#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "core/audit/Audit.h"
#include "core/document/Edit.h"
#include "core/planning/Planner.h"
#include "tests/tools/BlanksOf.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::hand_sample {

/// So many, times STAVEWRIGHT_ROUNDS where that is set: few in the suite, which also runs under
/// sanitizers, and many by hand.
inline std::uint64_t rounds(std::uint64_t few) {
    const char* asked = std::getenv("STAVEWRIGHT_ROUNDS");
    return few * (asked ? std::strtoull(asked, nullptr, 10) : 1);
}

/// The job with a plan. Many tests of a program want the same one, which is planned once.
inline Document planned(Document job, std::uint64_t seed = 1) {
    struct Known {
        Document bare;
        std::uint64_t seed;
        Document planned;
    };
    static std::vector<Known> known;
    for (const Known& each : known) {
        if (each.seed == seed && each.bare == job) {
            return each.planned;
        }
    }
    const Document bare = job;
    Result<PlanOutcome> outcome =
        planJob(job, {.seed = seed, .seconds = 0, .work = 300, .threads = 1});
    EXPECT_TRUE(outcome.ok());
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    known.push_back({bare, seed, job});
    return job;
}

using plan_tools::blanksOf;

inline void expectAudited(const Document& job) {
    const AuditReport report = audit(job);
    for (const Finding& finding : report.findings) {
        EXPECT_NE(finding.severity, Severity::Failure) << finding.sentence;
    }
}

/// Does the edit, undoes it and does it again; the document is then as it is after the edit.
inline void doUndoRedo(Document& job, const Edit& edit) {
    const Document before = job;
    Result<Edit> back = apply(job, edit);
    ASSERT_TRUE(back.ok()) << describe(back.error());
    const Document after = job;
    Result<Edit> again = apply(job, back.value());
    ASSERT_TRUE(again.ok()) << describe(again.error());
    EXPECT_EQ(job, before);
    Result<Edit> undone = apply(job, again.value());
    ASSERT_TRUE(undone.ok()) << describe(undone.error());
    EXPECT_EQ(job, after);
}

} // namespace stavewright::hand_sample
