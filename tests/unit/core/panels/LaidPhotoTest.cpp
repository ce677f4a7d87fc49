// From what a camera shows of the staves laid out, aslant and through a lens that bends, to the
// wood: marks at known places of the staves arrive at their places on the boards. What the camera
// shows is worked out by a pinhole and a lens in space, not by the code under test.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/glueup/LaidPlace.h"
#include "core/panels/LaidEdits.h"
#include "core/photo/CornerOrder.h"
#include "tests/boards/Camera.h"
#include "tests/unit/core/panels/HandPanel.h"

namespace stavewright::panels {
namespace {

using boards::Camera;
using boards::Hand;

/// Hand-held over 42 x 14 in of staves, a little aslant, differently for every seed.
Camera over(Hand& hand, int quarterTurns, double barrel) {
    Camera camera = boards::handHeld(hand, {19, 23, 5, 9, 48, 58});
    camera.roll += quarterTurns * std::numbers::pi / 2;
    camera.barrel = barrel;
    if (quarterTurns % 2 != 0) {
        std::swap(camera.width, camera.height);
    }
    return camera;
}

/// Corners as a loupe lets one mark them, and places on the long edges, which tell of the lens.
photo::PhotoControls marked(const Camera& camera, const photo::BoardSize& size, Hand& hand) {
    photo::PhotoControls controls = boards::cornersSeen(camera, size, hand, 0.5);
    const double length = size.length.toInches();
    boards::markEdges(controls, camera, size, hand, length / 6, length * 5 / 6, 5, 0.5);
    return controls;
}

/// The four staves in four different poses.
Panel inAnyPoses(int shift) {
    Panel panel = hand_panel::only(hand_panel::job());
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        panel.order[place].pose = (static_cast<int>(place) + shift) % 4;
    }
    return panel;
}

LaidOut laidOut(const Panel& panel, photo::PhotoControls controls) {
    BoardPhoto photo;
    photo.id = PhotoId{7};
    photo.size = laidSize(panel);
    photo.controls = std::move(controls);
    return laidAsItStands(panel, photo);
}

/// The farthest that a mark on a stave arrives from where it is on its board, in inches.
double worstOf(const Panel& panel, const LaidOut& laid, const photo::PhotoMap& map,
               const Camera& camera) {
    double worst = 0;
    double near = 0;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const PanelStave& stave = panel.staveAt(place);
        const Pose pose = glueup::poseOf(panel.order[place].pose);
        const double length = stave.net.length().toInches();
        const double width = stave.net.width().toInches();
        const double spare = (panel.roughLength.toInches() - length) / 2;
        for (const double along : {0.05, 0.3, 0.5, 0.8, 0.95}) {
            for (const double across : {0.1, 0.5, 0.85}) {
                // Where the mark is on the board, and where that lies in the panel, by hand.
                const double boardX = stave.at.toInches() + along * length;
                const double boardY =
                    stave.frame.origin.y.toInches() + stave.net.y0.toInches() + across * width;
                const double x = spare + (pose.endForEnd ? 1 - along : along) * length;
                const bool mirrored = pose.endForEnd != pose.faceOver;
                const double y = near + (mirrored ? 1 - across : across) * width;
                const auto inPicture = map.toBoard(camera.shows(x, y));
                if (!inPicture) {
                    return 1e6;
                }
                const Point at = glueup::LaidPlace(laid, place).toBoard(*inPicture);
                worst =
                    std::max(worst, std::hypot(at.x.toInches() - boardX, at.y.toInches() - boardY));
            }
        }
        near += width;
    }
    return worst;
}

/// 0, 90, 180 and 270 degrees, through lenses from none to 3 % barrel: within a sixteenth of an
/// inch, and about as far off as the straightening says.
TEST(LaidPhoto, MarksArriveAtTheirPlacesOnTheWood) {
    for (int seed = 1; seed <= 48; ++seed) {
        Hand hand(static_cast<std::uint64_t>(seed));
        const double barrel = 0.01 * (seed / 4 % 4);
        const Camera camera = over(hand, seed % 4, barrel);
        const Panel panel = inAnyPoses(seed);
        const LaidOut laid = laidOut(panel, marked(camera, laidSize(panel), hand));
        const auto fit = photo::straighten(laid.photo.controls, laid.photo.size);
        ASSERT_TRUE(fit.ok()) << seed << ' ' << fit.error().message;
        const double worst = worstOf(panel, laid, fit.value().map, camera);
        EXPECT_LE(worst, 1.0 / 16) << "seed " << seed << ", barrel " << barrel;
        EXPECT_LE(worst, 4 * fit.value().worstExpected.toInches()) << seed;
    }
}

/// Marked as if it were taken from this side, and put right by turning it round.
TEST(LaidPhoto, TakenFromTheOtherSideOfTheBench) {
    Hand hand(5);
    const Camera camera = over(hand, 2, 0.02);
    const Panel panel = inAnyPoses(1);
    const photo::PhotoControls right = marked(camera, laidSize(panel), hand);
    const LaidOut wrong = laidOut(panel, photo::seenFromOtherSide(right));
    const auto astray = photo::straighten(wrong.photo.controls, wrong.photo.size);
    ASSERT_TRUE(astray.ok());
    EXPECT_GE(worstOf(panel, wrong, astray.value().map, camera), 10);
    const LaidOut turned = seenFromOtherSide(wrong, photo::seenFromOtherSide(wrong.photo.controls));
    const auto fit = photo::straighten(turned.photo.controls, turned.photo.size);
    ASSERT_TRUE(fit.ok());
    EXPECT_LE(worstOf(panel, turned, fit.value().map, camera), 1.0 / 16);
}

} // namespace
} // namespace stavewright::panels
