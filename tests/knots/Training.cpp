#include "tests/knots/Training.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "tests/knots/Boosting.h"
#include "tests/knots/MadePictures.h"

namespace stavewright::knots {

namespace {

using photo::FoundKnot;
using photo::KnotModel;
using photo::Measures;
using photo::Window;

// Of each picture each way round.
constexpr std::size_t mostOfOneKnot = 20;
constexpr std::size_t woodWindows = 4000;
// Of each lesson in each round.
constexpr std::size_t plainWindows = 1500;
constexpr std::size_t mistakenWindows = 800;

std::uint32_t next(std::uint32_t& state) {
    state = state * 1664525U + 1013904223U;
    return state >> 8;
}

Box boxOf(const Window& w) {
    return {static_cast<double>(w.x0), static_cast<double>(w.y0), static_cast<double>(w.x1),
            static_cast<double>(w.y1)};
}

enum class Is { Knot, Wood, Unclear };

struct Seen {
    Is is = Is::Wood;
    std::size_t mark = 0;
    double by = 0;
};

Seen look(const Window& window, const Prepared& picture) {
    const Box box = boxOf(window);
    Seen seen;
    for (std::size_t i = 0; i < picture.marks.size(); ++i) {
        const TrueMark& mark = picture.marks[i];
        const double by = overlap(box, mark.box);
        if (mark.counts == TrueMark::Counts::Knot) {
            if (by > seen.by) {
                seen.by = by;
                seen.mark = i;
            }
        } else if (mark.counts == TrueMark::Counts::Neither &&
                   (by > 0.15 || common(box, mark.box) > 0.3 * box.area() ||
                    common(box, mark.box) > 0.6 * mark.box.area())) {
            seen.is = Is::Unclear;
            return seen;
        }
    }
    seen.is = seen.by >= 0.55 ? Is::Knot : seen.by < 0.28 ? Is::Wood : Is::Unclear;
    return seen;
}

photo::Image mirrored(const photo::Image& image, bool x, bool y) {
    photo::Image result(image.width(), image.height());
    for (int row = 0; row < image.height(); ++row) {
        for (int column = 0; column < image.width(); ++column) {
            std::copy_n(image.view().at(x ? image.width() - 1 - column : column,
                                        y ? image.height() - 1 - row : row),
                        3, result.at(column, row));
        }
    }
    return result;
}

/// As many as asked for, chosen by a fixed sequence.
template <class T>
void thin(std::vector<T>& items, std::size_t most, std::uint32_t& chance) {
    for (std::size_t i = 0; i < most && i < items.size(); ++i) {
        std::swap(items[i], items[i + next(chance) % (items.size() - i)]);
    }
    items.resize(std::min(items.size(), most));
}

void learn(const Prepared& picture, double weight, Lesson& lesson, std::uint32_t& chance) {
    std::vector<std::vector<Window>> ofMark(picture.marks.size());
    std::vector<Window> wood;
    photo::forEachWindow(picture.grid, [&](const Window& window) {
        if (!photo::worthMeasuring(picture.grid, window)) {
            return;
        }
        const Seen seen = look(window, picture);
        if (seen.is == Is::Knot) {
            ofMark[seen.mark].push_back(window);
        } else if (seen.is == Is::Wood) {
            wood.push_back(window);
        }
    });
    for (std::vector<Window>& windows : ofMark) {
        thin(windows, mostOfOneKnot, chance);
        for (const Window& window : windows) {
            lesson.knots.push_back({photo::measure(picture.grid, window), true, weight});
        }
    }
    thin(wood, woodWindows, chance);
    for (const Window& window : wood) {
        lesson.wood.push_back({photo::measure(picture.grid, window), false, weight});
    }
}

/// Taken with another camera: `way` 0 leaves it alone; others change contrast and tint, blur or add
/// specks.
void retaken(photo::Image& image, int way) {
    if (way == 0) {
        return;
    }
    const double gamma = way == 1 ? 1.0 : way == 2 ? 0.8 : 1.2;
    const double red = way == 1 ? 1.0 : way == 2 ? 1.06 : 0.95;
    std::uint32_t chance = 7;
    std::array<std::array<std::uint8_t, 256>, 3> table{};
    for (std::size_t c = 0; c < 3; ++c) {
        const double tint = c == 0 ? red : c == 2 ? 2 - red : 1;
        for (std::size_t v = 0; v < 256; ++v) {
            table[c][v] = static_cast<std::uint8_t>(std::clamp(
                255 * tint * std::pow(static_cast<double>(v) / 255, gamma) + 0.5, 0.0, 255.0));
        }
    }
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            std::uint8_t* pixel = image.at(x, y);
            for (std::size_t c = 0; c < 3; ++c) {
                int value = table[c][pixel[c]];
                if (way == 1 && x + 1 < image.width()) {
                    value = (value + table[c][pixel[c + 3]]) / 2; // moved a little
                }
                if (way == 3) {
                    value += static_cast<int>(next(chance) % 13) - 6;
                }
                pixel[c] = static_cast<std::uint8_t>(std::clamp(value, 0, 255));
            }
        }
    }
}

KnotPicture mirrored(const KnotPicture& picture, bool x, bool y) {
    KnotPicture turned{picture.name,         picture.board, mirrored(picture.image, x, y),
                       picture.fillsPicture, picture.marks, {}};
    for (TrueMark& mark : turned.marks) {
        if (x) {
            mark.box = {turned.image.width() - mark.box.x1, mark.box.y0,
                        turned.image.width() - mark.box.x0, mark.box.y1};
        }
        if (y) {
            mark.box = {mark.box.x0, turned.image.height() - mark.box.y1, mark.box.x1,
                        turned.image.height() - mark.box.y0};
        }
    }
    return turned;
}

} // namespace

Prepared prepared(const KnotPicture& picture) {
    Prepared result{photo::GrainGrid(picture.image.view(), picture.found()), picture.marks};
    for (TrueMark& mark : result.marks) {
        const photo::Pixels a = result.grid.toGrid({mark.box.x0, mark.box.y0});
        const photo::Pixels b = result.grid.toGrid({mark.box.x1, mark.box.y1});
        mark.box = {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
    }
    return result;
}

Lesson lessonOf(const KnotPicture& picture, double weight) {
    Lesson lesson;
    lesson.board = picture.board;
    std::uint32_t chance = 1;
    for (const bool x : {false, true}) {
        for (const bool y : {false, true}) {
            KnotPicture turned = mirrored(picture, x, y);
            retaken(turned.image, (x ? 1 : 0) + (y ? 2 : 0));
            learn(prepared(turned), weight, lesson, chance);
        }
    }
    thin(lesson.wood, lesson.wood.size(), chance);
    return lesson;
}

KnotModel train(const std::vector<Lesson>& lessons, const std::function<bool(const Lesson&)>& use,
                const TrainingOptions& options) {
    std::vector<Example> examples;
    std::vector<const Lesson*> used;
    for (const Lesson& lesson : lessons) {
        if (use(lesson)) {
            used.push_back(&lesson);
            examples.insert(examples.end(), lesson.knots.begin(), lesson.knots.end());
            const auto plain =
                static_cast<std::ptrdiff_t>(std::min(plainWindows, lesson.wood.size()));
            examples.insert(examples.end(), lesson.wood.begin(), lesson.wood.begin() + plain);
        }
    }
    KnotModel model = boosted(examples, options.trees / 3, options.pace);
    for (int round = 0; round < options.rounds; ++round) {
        for (const Lesson* lesson : used) {
            // Windows of wood that the model takes for knots, the worst first.
            std::vector<std::pair<float, const Example*>> mistaken;
            for (std::size_t i = plainWindows; i < lesson->wood.size(); ++i) {
                const float score = model.quickScore(lesson->wood[i].measures);
                if (score > -1) {
                    mistaken.emplace_back(score, &lesson->wood[i]);
                }
            }
            std::stable_sort(mistaken.begin(), mistaken.end(),
                             [](const auto& a, const auto& b) { return a.first > b.first; });
            for (std::size_t i = 0; i < mistaken.size() && i < mistakenWindows; ++i) {
                examples.push_back(*mistaken[i].second);
            }
        }
        const bool last = round + 1 == options.rounds;
        model = boosted(examples, last ? options.trees : options.trees / 2, options.pace);
    }
    return model;
}

std::vector<Lesson> allLessons(const std::vector<KnotPicture>& real) {
    constexpr std::uint64_t madeBoards = 36;
    constexpr double madeWeight = 0.35;
    std::vector<Lesson> lessons;
    for (const KnotPicture& picture : real) {
        lessons.push_back(lessonOf(picture));
    }
    for (std::uint64_t seed = 1; seed <= madeBoards; ++seed) {
        lessons.push_back(lessonOf(madePicture(seed, 1600), madeWeight));
    }
    return lessons;
}

std::vector<std::vector<FoundBox>> leavingBoardsOut(const std::vector<KnotPicture>& pictures,
                                                    const std::vector<Prepared>& ready,
                                                    const std::vector<Lesson>& lessons) {
    std::set<std::string> boards;
    for (const KnotPicture& picture : pictures) {
        boards.insert(picture.board);
    }
    std::vector<std::vector<FoundBox>> found(pictures.size());
    for (const std::string& board : boards) {
        const KnotModel model =
            train(lessons, [&](const Lesson& lesson) { return lesson.board != board; });
        for (std::size_t i = 0; i < pictures.size(); ++i) {
            if (pictures[i].board != board) {
                continue;
            }
            for (const FoundKnot& knot : photo::searchKnots(ready[i].grid, model, 0.05)) {
                found[i].push_back({{knot.x0, knot.y0, knot.x1, knot.y1}, knot.score});
            }
        }
    }
    return found;
}

void calibrate(KnotModel& model, const std::vector<std::vector<FoundBox>>& found,
               const std::vector<Prepared>& pictures) {
    struct Case {
        double score;
        double right;
    };
    std::vector<Case> cases;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::vector<Verdict> verdicts = judged(found[i], pictures[i].marks);
        for (std::size_t k = 0; k < verdicts.size(); ++k) {
            if (verdicts[k] != Verdict::Neither) {
                cases.push_back({found[i][k].confidence, verdicts[k] == Verdict::Hit ? 1.0 : 0.0});
            }
        }
    }
    // Logistic regression of one variable, by Newton's steps.
    double a = 0;
    double b = 1;
    for (int round = 0; round < 60; ++round) {
        double ga = 0;
        double gb = 0;
        double haa = 1e-6;
        double hab = 0;
        double hbb = 1e-6;
        for (const Case& c : cases) {
            const double p = 1 / (1 + std::exp(-(a + b * c.score)));
            const double w = p * (1 - p);
            ga += c.right - p;
            gb += (c.right - p) * c.score;
            haa += w;
            hab += w * c.score;
            hbb += w * c.score * c.score;
        }
        const double determinant = haa * hbb - hab * hab;
        if (std::abs(determinant) < 1e-12) {
            break;
        }
        a += 0.7 * (hbb * ga - hab * gb) / determinant;
        b += 0.7 * (haa * gb - hab * ga) / determinant;
    }
    model.slope = static_cast<float>(b);
    model.even = static_cast<float>(-a / b);
}

std::vector<FoundBox> foundBy(const KnotModel& model, const Prepared& picture,
                              double leastConfidence) {
    std::vector<FoundBox> boxes;
    for (const FoundKnot& knot : photo::searchKnots(picture.grid, model, leastConfidence)) {
        boxes.push_back({{knot.x0, knot.y0, knot.x1, knot.y1}, model.confidence(knot.score)});
    }
    return boxes;
}

} // namespace stavewright::knots
