// Sharing staves out among panels, against complete enumeration of all assignments.

#include "core/cutting/PanelShare.h"

#include <random>

#include <gtest/gtest.h>

#include "Racks.h"

namespace stavewright::cutting::testing {
namespace {

Kind somePool(int panels) {
    Kind pool;
    pool.isPool = true;
    pool.step = inch / 16;
    pool.width = 2 * inch;
    pool.widest = 5 * inch;
    pool.netWanted = 9 * inch;
    pool.netMost = 9 * inch + inch / 2;
    pool.fewest = 2;
    pool.most = 4;
    pool.demand = panels;
    return pool;
}

bool isClosed(const Kind& pool, Nm net, int staves) {
    return net >= pool.netWanted && net <= pool.netMost && staves >= pool.fewest &&
           staves <= pool.most;
}

/// Some assignment of the staves to two panels, or to none, closes both.
bool canCloseTwo(const Kind& pool, const std::vector<Nm>& nets) {
    int all = 1;
    for (std::size_t i = 0; i < nets.size(); ++i) {
        all *= 3;
    }
    for (int code = 0; code < all; ++code) {
        Nm net[3] = {};
        int staves[3] = {};
        int rest = code;
        for (const Nm width : nets) {
            net[rest % 3] += width;
            ++staves[rest % 3];
            rest /= 3;
        }
        if (isClosed(pool, net[0], staves[0]) && isClosed(pool, net[1], staves[1])) {
            return true;
        }
    }
    return false;
}

TEST(PanelShare, ClosesBothPanelsWheneverThatCanBeDone) {
    std::mt19937_64 engine(7);
    int closable = 0;
    for (int round = 0; round < 300; ++round) {
        const Kind pool = somePool(2);
        std::vector<Nm> nets;
        for (int i = 0; i < 7; ++i) {
            nets.push_back(pool.width + static_cast<Nm>(engine() % 49) * pool.step);
        }
        const auto shares = shareStaves(pool, nets, {BegunPanel{}, BegunPanel{}});
        ASSERT_TRUE(shares);
        int closed = 0;
        std::vector<bool> used(nets.size(), false);
        for (const std::vector<std::size_t>& share : *shares) {
            Nm net = 0;
            for (const std::size_t stave : share) {
                EXPECT_FALSE(used[stave]);
                used[stave] = true;
                net += nets[stave];
            }
            closed += isClosed(pool, net, static_cast<int>(share.size())) ? 1 : 0;
        }
        if (canCloseTwo(pool, nets)) {
            ++closable;
            EXPECT_EQ(closed, 2) << "round " << round;
        }
    }
    EXPECT_GT(closable, 50);
}

TEST(PanelShare, APanelThatIsBegunTakesOnlyWhatItLacks) {
    const Kind pool = somePool(1);
    const std::vector<Nm> nets = {4 * inch, 3 * inch, 2 * inch};
    const auto shares = shareStaves(pool, nets, {BegunPanel{6 * inch, 2}});
    ASSERT_TRUE(shares);
    EXPECT_EQ((*shares)[0], (std::vector<std::size_t>{1})); // 6 + 3 in make 9 in
}

TEST(FewestStaves, FollowsFromTheWidestStave) {
    Kind pool = somePool(1);
    EXPECT_EQ(fewestStaves(pool), 2); // 9 in of staves to 5 in
    pool.netWanted = 13 * inch;
    EXPECT_EQ(fewestStaves(pool), 3);
    pool.fewest = 4;
    EXPECT_EQ(fewestStaves(pool), 4);
}

} // namespace
} // namespace stavewright::cutting::testing
