#include "core/planning/ThicknessSteps.h"

#include "tests/unit/core/planning/SmallJob.h"

namespace stavewright {
namespace {

using namespace small_job;
using planning::thinnerSteps;

std::vector<Length> stepsTo(Length least) {
    Document job = oneBar();
    job.parts[0].leastThickness = least;
    return thinnerSteps(job, job.parts[0]);
}

TEST(ThicknessSteps, NoneWhenOnlyTheWantedThicknessWillDo) {
    const Document job = oneBar();
    EXPECT_TRUE(thinnerSteps(job, job.parts[0]).empty());
    EXPECT_TRUE(stepsTo(in(3, 4)).empty());
}

TEST(ThicknessSteps, FourStepsOnThirtySecondsDownToTheLeast) {
    EXPECT_EQ(stepsTo(in(5, 8)),
              (std::vector<Length>{in(23, 32), in(11, 16), in(21, 32), in(5, 8)}));
}

TEST(ThicknessSteps, TheLeastItselfMayStandOffTheGrid) {
    EXPECT_EQ(stepsTo(in(47, 64)), std::vector<Length>{in(47, 64)});
    EXPECT_EQ(stepsTo(in(45, 64)), (std::vector<Length>{in(23, 32), in(45, 64)}));
}

TEST(ThicknessSteps, HalfMillimetresInAMetricJob) {
    Document job = oneBar();
    job.info.units = UnitSystem::Millimetres;
    job.parts[0].thickness.base = Length::millimetres(20);
    job.parts[0].leastThickness = Length::millimetres(18);
    EXPECT_EQ(thinnerSteps(job, job.parts[0]),
              (std::vector<Length>{Length::micrometres(19'500), Length::millimetres(19),
                                   Length::micrometres(18'500), Length::millimetres(18)}));
}

} // namespace
} // namespace stavewright
