#include "tests/knots/Score.h"

#include <algorithm>
#include <iterator>
#include <numeric>

namespace stavewright::knots {

namespace {

constexpr double enough = 0.3;

} // namespace

Score& Score::operator+=(const Score& other) {
    knots += other.knots;
    hits += other.hits;
    wrong += other.wrong;
    return *this;
}

std::vector<Verdict> judged(const std::vector<FoundBox>& found,
                            const std::vector<TrueMark>& marks) {
    std::vector<std::size_t> order(found.size());
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return found[a].confidence > found[b].confidence;
    });
    std::vector<Verdict> verdicts(found.size(), Verdict::Wrong);
    std::vector<bool> taken(marks.size());
    for (const std::size_t k : order) {
        const Box& box = found[k].box;
        double best = enough;
        std::size_t which = marks.size();
        for (std::size_t i = 0; i < marks.size(); ++i) {
            const double by = overlap(box, marks[i].box);
            if (marks[i].counts == TrueMark::Counts::Knot && !taken[i] && by >= best) {
                best = by;
                which = i;
            }
            if (marks[i].counts == TrueMark::Counts::Neither &&
                (by >= enough || common(box, marks[i].box) > 0.5 * box.area())) {
                verdicts[k] = Verdict::Neither;
            }
        }
        if (which < marks.size()) {
            taken[which] = true;
            verdicts[k] = Verdict::Hit;
        }
    }
    return verdicts;
}

Score scoreOf(const std::vector<FoundBox>& found, const std::vector<TrueMark>& marks,
              double leastConfidence) {
    std::vector<FoundBox> sure;
    std::copy_if(found.begin(), found.end(), std::back_inserter(sure),
                 [&](const FoundBox& box) { return box.confidence >= leastConfidence; });
    const std::vector<Verdict> verdicts = judged(sure, marks);
    Score score;
    score.knots = static_cast<int>(std::count_if(marks.begin(), marks.end(), [](const auto& m) {
        return m.counts == TrueMark::Counts::Knot;
    }));
    score.hits = static_cast<int>(std::count(verdicts.begin(), verdicts.end(), Verdict::Hit));
    score.wrong = static_cast<int>(std::count(verdicts.begin(), verdicts.end(), Verdict::Wrong));
    return score;
}

} // namespace stavewright::knots
