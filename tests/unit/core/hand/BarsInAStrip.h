#pragma once
// One board and, of one strip of it, bars that the test lays where it wants them.

#include "core/planning/Planner.h"
#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright::bars_in_a_strip {

/// Bars of 24 x 2 3/4 in rough, 22 in finished, on one board: a section over this stretch of the
/// tape, whose frame begins at 10 in, and a strip 1 to 3 3/4 in from its edge. The bars begin at
/// these places along the frame.
inline Document laid(Stretch along, const std::vector<Length>& bars) {
    using small_job::in;
    Document job = small_job::oneBar();
    job.info.inchDenominator = 16;
    job.parts[0].count = static_cast<int>(bars.size());
    job.boards = {small_job::board(job, "1", Quarter{4}, in(1))};
    Section section;
    section.id = job.takeId<SectionId>();
    section.along = along;
    section.frame.origin = {in(10), in(0)};
    Strip strip;
    strip.id = job.takeId<StripId>();
    strip.across = {in(1), in(15, 4)};
    for (const Length from : bars) {
        Blank blank;
        blank.id = job.takeId<BlankId>();
        blank.purpose = {job.parts[0].id, static_cast<int>(strip.blanks.size()) + 1, 0, 0};
        blank.rect = {from, in(1), from + in(24), in(15, 4)};
        strip.blanks.push_back(blank);
    }
    section.strips = {strip};
    job.plan = Plan{};
    job.plan->boards = {{job.boards[0].id, {section}}};
    job.plan->totals = totalsOf(job, *job.plan).value();
    return job;
}

} // namespace stavewright::bars_in_a_strip
