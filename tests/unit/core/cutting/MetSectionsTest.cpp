// Sections met on the way are written out once each, whoever asks how often and on how many
// threads.

#include "core/cutting/MetSections.h"

#include <gtest/gtest.h>

#include "Racks.h"
#include "core/cutting/BoardMenu.h"
#include "core/cutting/FirstValues.h"

namespace stavewright::cutting::testing {
namespace {

class MetSectionsTest : public ::testing::Test {
  protected:
    MetSectionsTest()
        : m_problem(makeRack({.family = JobFamily::Chest, .boards = 6, .seed = 4}))
        , m_context(m_problem) {
        std::vector<const BoardModel*> models;
        for (std::size_t b = 0; b < m_problem.boards.size(); ++b) {
            m_boards.push_back(std::make_unique<BoardModel>(m_problem, static_cast<int>(b)));
            models.push_back(m_boards.back().get());
        }
        m_values = firstValues(m_problem, models);
        for (const BoardModel* model : models) {
            m_menus.push_back(std::make_unique<BoardMenu>(m_context, *model, Fineness::quick()));
            m_menus.back()->tellNear(8);
        }
    }
    std::vector<SeenSections> seen() {
        std::vector<SeenSections> all;
        std::int64_t work = 0;
        for (std::size_t b = 0; b < m_menus.size(); ++b) {
            all.push_back({b, m_values, m_menus[b]->best(m_values, m_never, work).near});
        }
        return all;
    }

    Interrupt m_never{{}, 0};
    Problem m_problem;
    Context m_context;
    Values m_values;
    std::vector<std::unique_ptr<BoardModel>> m_boards;
    std::vector<std::unique_ptr<BoardMenu>> m_menus;
};

TEST_F(MetSectionsTest, AreWrittenOutOnceAndInTheirOrder) {
    const std::vector<SeenSections> all = seen();
    std::size_t sections = 0;
    for (const SeenSections& each : all) {
        sections += each.sections.size();
    }
    ASSERT_GT(sections, 10U);
    MetSections met;
    met.add(all, 1, m_never);
    const std::vector<Pattern> one = met.takeNew();
    EXPECT_EQ(one.size(), sections);
    EXPECT_TRUE(met.takeNew().empty());
    for (const Pattern& pattern : one) {
        ASSERT_EQ(pattern.sections.size(), 1U);
        EXPECT_FALSE(pattern.sections.front().strips.empty());
    }
    // Some may come a second time, as others that are alike; then no more.
    met.add(all, 1, m_never);
    static_cast<void>(met.takeNew());
    met.add(all, 1, m_never);
    EXPECT_TRUE(met.takeNew().empty());

    MetSections side;
    side.add(all, 4, m_never);
    const std::vector<Pattern> four = side.takeNew();
    ASSERT_EQ(four.size(), one.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
        EXPECT_EQ(four[i].board, one[i].board);
        EXPECT_EQ(four[i].sections.front().x0, one[i].sections.front().x0);
        EXPECT_EQ(four[i].sections.front().x1, one[i].sections.front().x1);
    }
}

TEST_F(MetSectionsTest, NothingIsKeptWhenInterrupted) {
    const std::vector<SeenSections> all = seen();
    std::stop_source stop;
    stop.request_stop();
    MetSections met;
    met.add(all, 2, Interrupt(stop.get_token(), 0));
    EXPECT_TRUE(met.takeNew().empty());
}

} // namespace
} // namespace stavewright::cutting::testing
