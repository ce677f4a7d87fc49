// The slack of a lattice against the edges of sections as they are cut.

#include "core/cutting/EdgeSlack.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/SectionShape.h"

namespace stavewright::cutting::testing {
namespace {

constexpr Nm longest = 60 * inch;

/// Calls check(slack, model, shape) for many sections of boards of which many are bent.
template <class Check>
void forManySections(const Check& check) {
    for (const std::uint64_t seed : {1, 2, 3, 4}) {
        const Problem problem = makeRack({.boards = 12, .seed = seed});
        for (int b = 0; b < 12; ++b) {
            SCOPED_TRACE("seed " + std::to_string(seed) + " board " + std::to_string(b + 1));
            const BoardModel model(problem, b);
            const Stretch stretch = model.freeStretches().front();
            const EdgeSlack slack(model, stretch, longest, 2 * inch);
            const Nm begin = stretch.from.inNanometres();
            const Nm end = stretch.to.inNanometres();
            for (Nm x0 = begin; x0 + 20 * inch < end; x0 += 13 * inch / 3) {
                for (Nm length = 20 * inch; length <= longest && x0 + length <= end;
                     length += 17 * inch / 5) {
                    check(slack, model, SectionShape(model, x0, x0 + length));
                }
            }
        }
    }
}

/// Of the section's edge above the near edge, to a nanometre.
double heightAt(const BoardModel& model, const SectionShape& shape, double x) {
    return -shape.toLocal({x, model.nearEdge().at(static_cast<Nm>(x))}).y;
}

TEST(EdgeSlack, CoversTheEdgeOfEverySection) {
    forManySections([](const EdgeSlack& slack, const BoardModel& model, const SectionShape& shape) {
        const Nm length = shape.x1() - shape.x0();
        for (Nm at = shape.x0(); at <= shape.x1(); at += length / 7) {
            const auto x = static_cast<double>(at);
            // The near edge lies below the section's, by no more than the slack.
            const double height = heightAt(model, shape, x);
            EXPECT_GE(height, -1.0);
            EXPECT_LE(height, static_cast<double>(slack.upOver(x, x))) << at / inch << " in";
            // And what it is sure of, every section has.
            EXPECT_GE(height + 1, static_cast<double>(slack.sureOver(x, x))) << at / inch << " in";
        }
    });
}

TEST(EdgeSlack, DrawsLinesBetweenWhichTheyStand) {
    constexpr double apart = 3 * inch;
    int tilted = 0;
    forManySections(
        [&](const EdgeSlack& slack, const BoardModel& model, const SectionShape& shape) {
            const auto past = static_cast<double>(shape.x1());
            for (auto x0 = static_cast<double>(shape.x0()); x0 + apart <= past; x0 += 2 * apart) {
                const EdgeSlack::Lines lines = slack.over(x0, x0 + apart);
                tilted += lines.highest.left != lines.highest.right ? 1 : 0;
                // Straight between two points of the near edge, as a defect's edge is measured.
                const double left = heightAt(model, shape, x0);
                const double right = heightAt(model, shape, x0 + apart);
                for (const double part : {0.0, 0.3, 0.5, 0.8, 1.0}) {
                    const double height = heightAt(model, shape, x0 + part * apart);
                    for (const double measured : {height, left + part * (right - left)}) {
                        EXPECT_LE(measured, lines.highest.at(part) + 1);
                        EXPECT_GE(measured + 1, lines.lowest.at(part));
                    }
                }
            }
        });
    EXPECT_GT(tilted, 1'000);
}

} // namespace
} // namespace stavewright::cutting::testing
