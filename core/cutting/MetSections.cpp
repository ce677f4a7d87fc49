#include "core/cutting/MetSections.h"

#include <iterator>

#include "core/cutting/Workers.h"

namespace stavewright::cutting {

namespace {

/// Others that are alike are nearly always the same.
constexpr int mostAlike = 2;

} // namespace

void MetSections::add(const std::vector<SeenSections>& seen, int threads,
                      const Interrupt& interrupt) {
    struct Task {
        const SeenSections* from;
        const BoardChoice::Section* section;
    };
    std::vector<Task> tasks;
    for (const SeenSections& each : seen) {
        for (const BoardChoice::Section& section : each.sections) {
            int& known = m_known[{each.board, section.menu->x0(), section.menu->x1(),
                                  section.choice.roughRippedFirst, section.choice.kinds}];
            if (known < mostAlike) {
                ++known;
                tasks.push_back({&each, &section});
            }
        }
    }
    std::vector<Pattern> patterns(tasks.size());
    const bool done = runItems(
        tasks.size(), threads,
        [&](std::size_t i) {
            const auto& [from, section] = tasks[i];
            patterns[i] = {static_cast<int>(from->board),
                           {section->menu->cut(from->values, section->choice)}};
        },
        interrupt);
    if (done) {
        m_new.insert(m_new.end(), std::make_move_iterator(patterns.begin()),
                     std::make_move_iterator(patterns.end()));
    }
}

} // namespace stavewright::cutting
