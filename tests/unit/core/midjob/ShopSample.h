#pragma once
// What must hold after anything that happens in the shop.

#include <map>

#include "core/job/JobFile.h"
#include "core/midjob/ShopEvent.h"
#include "tests/unit/core/hand/HandSample.h"

namespace stavewright::shop_sample {

using namespace hand_sample;

/// Every piece that is cut, with where it lies on which board.
using CutPieces = std::map<BlankId, std::pair<BoardId, Blank>>;

inline CutPieces cutPieces(const Plan& plan) {
    CutPieces pieces;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.state != CutState::Planned) {
                        pieces[blank.id] = {layout.board, blank};
                    }
                }
            }
        }
    }
    return pieces;
}

/// The job file holds the job.
inline void expectWritten(const Document& job) {
    const Result<Document> read = fromJson(toJson(job));
    ASSERT_TRUE(read.ok()) << describe(read.error());
    EXPECT_EQ(read.value(), job);
}

/// As take(); the job file is left to the end of a row of events.
inline void takeOfMany(Document& job, const Result<midjob::ShopEvent>& event) {
    ASSERT_TRUE(event.ok()) << describe(event.error());
    const std::size_t logged = job.log.size();
    doUndoRedo(job, event.value().edit);
    const Status sound = validate(job);
    EXPECT_TRUE(sound.ok()) << (sound.ok() ? "" : describe(sound.error()));
    expectAudited(job);
    EXPECT_EQ(*job.plan, event.value().plan);
    ASSERT_EQ(job.log.size(), logged + 1);
    EXPECT_EQ(job.log.back().what, event.value().sentence);
}

/// Takes the event in: undone and done again the document is identical, it is valid, the audit
/// finds nothing, the job file holds it, and the log says what happened and why.
inline void take(Document& job, const Result<midjob::ShopEvent>& event) {
    ASSERT_NO_FATAL_FAILURE(takeOfMany(job, event));
    expectWritten(job);
}

} // namespace stavewright::shop_sample
