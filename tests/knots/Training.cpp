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
        const Seen seen = look(window, picture);
        // There is more than enough plain wood: a part of it will do.
        if (seen.is == Is::Unclear || (seen.is == Is::Wood && next(chance) % 4 != 0) ||
            !photo::worthMeasuring(picture.grid, window)) {
            return;
        }
        if (seen.is == Is::Knot) {
            ofMark[seen.mark].push_back(window);
        } else if (seen.is == Is::Wood) {
            wood.push_back(window);
        }
    });
    for (std::vector<Window>& windows : ofMark) {
        thin(windows, mostOfOneKnot, chance);
        for (const Window& window : windows) {
            lesson.knots.push_back(
                {photo::measure(picture.grid, window), true, weight,
                 picture.marks[static_cast<std::size_t>(&windows - ofMark.data())].kind});
        }
    }
    thin(wood, woodWindows, chance);
    for (const Window& window : wood) {
        lesson.wood.push_back({photo::measure(picture.grid, window), false, weight, {}});
    }
}

double between(double low, double high, std::uint32_t& chance) {
    return low + (high - low) * static_cast<double>(next(chance) % 10000) / 9999;
}

/// A running mean over three pixels each way, `times` times.
void softened(photo::Image& image, int times) {
    for (int t = 0; t < times; ++t) {
        for (const bool down : {false, true}) {
            const photo::Image before = image;
            for (int y = 0; y < image.height(); ++y) {
                for (int x = 0; x < image.width(); ++x) {
                    const std::uint8_t* a = before.view().at(down ? x : std::max(0, x - 1),
                                                             down ? std::max(0, y - 1) : y);
                    const std::uint8_t* b =
                        before.view().at(down ? x : std::min(image.width() - 1, x + 1),
                                         down ? std::min(image.height() - 1, y + 1) : y);
                    std::uint8_t* pixel = image.at(x, y);
                    for (int c = 0; c < 3; ++c) {
                        pixel[c] = static_cast<std::uint8_t>((a[c] + 2 * pixel[c] + b[c] + 2) / 4);
                    }
                }
            }
        }
    }
}

/// Taken with another camera, in other light, of a board of another colour.
void retaken(photo::Image& image, std::uint32_t& chance) {
    const double gamma = between(0.7, 1.4, chance);
    const double contrast = between(0.7, 1.15, chance);
    const double colourful = next(chance) % 5 == 0 ? 0 : between(0.4, 1.3, chance);
    const std::array<double, 3> tint = {between(0.85, 1.05, chance), 1, between(0.8, 1.1, chance)};
    const double specks = next(chance) % 2 == 0 ? 0 : between(1, 9, chance);
    softened(image, static_cast<int>(next(chance) % 4));
    double middle = 0;
    for (int x = 0; x < image.width(); ++x) {
        middle += image.at(x, image.height() / 2)[1];
    }
    middle = std::max(20.0, middle / image.width());
    std::array<double, 256> table{};
    for (std::size_t v = 0; v < 256; ++v) {
        const double light = std::max(0.0, middle + contrast * (static_cast<double>(v) - middle));
        table[v] = 255 * std::pow(light / 255, gamma);
    }
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            std::uint8_t* pixel = image.at(x, y);
            const double grey = 0.3 * pixel[0] + 0.59 * pixel[1] + 0.11 * pixel[2];
            const double speck =
                specks <= 0 ? 0 : specks * (static_cast<double>(next(chance) % 201) / 100 - 1);
            for (std::size_t c = 0; c < 3; ++c) {
                const double own = std::clamp(grey + colourful * (pixel[c] - grey), 0.0, 255.0);
                pixel[c] = static_cast<std::uint8_t>(std::clamp(
                    tint[c] * table[static_cast<std::size_t>(own)] + speck + 0.5, 0.0, 255.0));
            }
        }
    }
}

KnotPicture mirrored(const KnotPicture& picture, bool x, bool y) {
    KnotPicture turned{picture.name,
                       picture.board,
                       picture.kind,
                       mirrored(picture.image, x, y),
                       picture.fillsPicture,
                       picture.marks,
                       {}};
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
    lesson.kind = picture.kind;
    // Others for each picture, the same each time.
    std::uint32_t chance = 1;
    for (const char c : picture.name) {
        chance = chance * 31 + static_cast<unsigned char>(c);
    }
    for (const bool x : {false, true}) {
        for (const bool y : {false, true}) {
            KnotPicture turned = mirrored(picture, x, y);
            if (x || y) {
                retaken(turned.image, chance);
            }
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

photo::KindModel trainKinds(const std::vector<Lesson>& lessons,
                            const std::function<bool(const Lesson&)>& use) {
    // Made knots, however many, say as much in all as real ones.
    const auto share = [](const Lesson& lesson) -> std::size_t {
        return lesson.kind == "made" ? 1 : 0;
    };
    std::array<double, 2> weight{};
    for (const Lesson& lesson : lessons) {
        for (const Example& example : lesson.knots) {
            weight[share(lesson)] += use(lesson) && example.kind ? example.weight : 0;
        }
    }
    std::vector<Example> loose;
    std::vector<Example> hole;
    for (const Lesson& lesson : lessons) {
        for (Example example : lesson.knots) {
            if (!use(lesson) || !example.kind) {
                continue;
            }
            example.weight /= weight[share(lesson)];
            example.knot = example.kind == DefectKind::KnotHole;
            hole.push_back(example);
            if (!example.knot) {
                example.knot = example.kind == DefectKind::LooseKnot;
                loose.push_back(example);
            }
        }
    }
    constexpr int trees = 80;
    constexpr double pace = 0.25;
    photo::KindModel kinds{boosted(loose, trees, pace), boosted(hole, trees, pace)};
    kinds.loose.even = 0.3F; // in doubt sound: there are more of them than were learned from
    return kinds;
}

std::vector<Lesson> allLessons(const std::vector<KnotPicture>& real) {
    constexpr std::uint64_t madeBoards = 36;
    constexpr double madeWeight = 0.35;
    std::vector<Lesson> lessons;
    for (const KnotPicture& picture : real) {
        lessons.push_back(lessonOf(picture));
    }
    for (std::uint64_t seed = 1; seed <= madeBoards; ++seed) {
        const int width = 1000 + 300 * static_cast<int>(seed % 5);
        lessons.push_back(lessonOf(madePicture(seed, width, true), madeWeight));
    }
    return lessons;
}

std::vector<std::vector<FoundBox>> leavingOut(Group group, const std::vector<KnotPicture>& pictures,
                                              const std::vector<Prepared>& ready,
                                              const std::vector<Lesson>& lessons) {
    const auto of = [group](const auto& item) -> const std::string& {
        return group == Group::Board ? item.board : item.kind;
    };
    std::set<std::string> names;
    for (const KnotPicture& picture : pictures) {
        names.insert(of(picture));
    }
    std::vector<std::vector<FoundBox>> found(pictures.size());
    for (const std::string& name : names) {
        const auto isUsed = [&](const Lesson& lesson) { return of(lesson) != name; };
        const KnotModel model = train(lessons, isUsed);
        const photo::KindModel kinds = trainKinds(lessons, isUsed);
        for (std::size_t i = 0; i < pictures.size(); ++i) {
            if (of(pictures[i]) != name) {
                continue;
            }
            for (const FoundKnot& knot : photo::searchKnots(ready[i].grid, model, 0)) {
                const auto agreeing = static_cast<double>(knot.agreeing);
                found[i].push_back(
                    {{knot.x0, knot.y0, knot.x1, knot.y1},
                     static_cast<double>(knot.score),
                     agreeing,
                     kinds.kindOf(photo::measure(ready[i].grid, photo::windowOf(knot)))});
            }
        }
    }
    return found;
}

void calibrate(KnotModel& model, const std::vector<std::vector<FoundBox>>& found,
               const std::vector<Prepared>& pictures) {
    // Logistic regression on 1, score and agreement, by Newton's steps.
    using Row = std::array<double, 3>;
    std::vector<std::pair<Row, double>> cases;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::vector<Verdict> verdicts = judged(found[i], pictures[i].marks);
        for (std::size_t k = 0; k < verdicts.size(); ++k) {
            if (verdicts[k] != Verdict::Neither) {
                const FoundBox& box = found[i][k];
                cases.push_back(
                    {{1, box.confidence, box.agreeing}, verdicts[k] == Verdict::Hit ? 1.0 : 0.0});
            }
        }
    }
    Row w = {0, 1, 0};
    for (int round = 0; round < 100; ++round) {
        std::array<std::array<double, 4>, 3> m{};
        for (std::size_t i = 0; i < 3; ++i) {
            m[i][i] = 1e-6;
        }
        for (const auto& [row, right] : cases) {
            const double p = 1 / (1 + std::exp(-(w[0] * row[0] + w[1] * row[1] + w[2] * row[2])));
            for (std::size_t i = 0; i < 3; ++i) {
                for (std::size_t k = 0; k < 3; ++k) {
                    m[i][k] += p * (1 - p) * row[i] * row[k];
                }
                m[i][3] += (right - p) * row[i];
            }
        }
        for (std::size_t i = 0; i < 3; ++i) { // Gauss; the matrix is positive
            for (std::size_t k = 0; k < 3; ++k) {
                if (k != i) {
                    const double f = m[k][i] / m[i][i];
                    for (std::size_t c = 0; c < 4; ++c) {
                        m[k][c] -= f * m[i][c];
                    }
                }
            }
        }
        for (std::size_t i = 0; i < 3; ++i) {
            w[i] += 0.6 * m[i][3] / m[i][i];
        }
    }
    model.slope = static_cast<float>(w[1]);
    model.even = static_cast<float>(-w[0] / w[1]);
    model.agreement = static_cast<float>(w[2] / w[1]);
}

double confidenceOf(const KnotModel& model, const FoundBox& box) {
    return model.confidence(
        static_cast<float>(box.confidence + static_cast<double>(model.agreement) * box.agreeing));
}

std::vector<FoundBox> foundBy(const KnotModel& model, const Prepared& picture,
                              double leastConfidence) {
    std::vector<FoundBox> boxes;
    for (const FoundKnot& knot : photo::searchKnots(picture.grid, model, leastConfidence)) {
        boxes.push_back(
            {{knot.x0, knot.y0, knot.x1, knot.y1}, model.confidence(knot.score), 0, {}});
    }
    return boxes;
}

} // namespace stavewright::knots
