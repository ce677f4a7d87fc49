// How well knots are suggested, and how fast: on made boards, on the annotated photographs beside
// the project where they are there, and (with --leave-out) on those with the board left out in
// training.

#include <QGuiApplication>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <set>
#include <string>

#include "core/photo/Resample.h"
#include "core/photo/SuggestedMarks.h"
#include "tests/knots/MadePictures.h"
#include "tests/knots/OtherPictures.h"
#include "tests/knots/RealPhotos.h"
#include "tests/knots/Training.h"

namespace {

using namespace stavewright;
using namespace stavewright::knots;

Box boxOf(const std::vector<photo::Pixels>& outline) {
    Box box{1e9, 1e9, -1e9, -1e9};
    for (const photo::Pixels& p : outline) {
        box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
               std::max(box.y1, p.y)};
    }
    return box;
}

std::vector<FoundBox> suggested(const KnotPicture& picture) {
    std::vector<FoundBox> boxes;
    for (const photo::SuggestedMark& mark :
         photo::suggestMarks(picture.image.view(), {picture.fillsPicture, 0.05}).marks) {
        if (!photo::isKnot(mark.kind)) {
            continue;
        }
        boxes.push_back({boxOf(mark.outline), mark.confidence, 0, mark.kind});
    }
    return boxes;
}

void head(const char* title) {
    std::printf("\n%s\n%-24s %6s %6s %6s %8s %10s\n", title, "", "knots", "found", "wrong",
                "recall", "precision");
}

void row(const std::string& name, const Score& score) {
    std::printf("%-24s %6d %6d %6d %8.3f %10.3f\n", name.c_str(), score.knots, score.hits,
                score.wrong, score.recall(), score.precision());
}

void thresholds(const std::vector<std::vector<FoundBox>>& found,
                const std::vector<std::vector<TrueMark>>& marks) {
    for (const double least : {0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7}) {
        Score sum;
        for (std::size_t i = 0; i < found.size(); ++i) {
            sum += scoreOf(found[i], marks[i], least);
        }
        char name[40];
        std::snprintf(name, sizeof name, "all, confidence >= %.2f", least);
        row(name, sum);
    }
}

void table(const char* title, const std::vector<KnotPicture>& pictures) {
    head(title);
    std::vector<std::vector<FoundBox>> found;
    std::vector<std::vector<TrueMark>> marks;
    for (const KnotPicture& picture : pictures) {
        found.push_back(suggested(picture));
        marks.push_back(picture.marks);
        if (pictures.size() <= 30) {
            row(picture.name, scoreOf(found.back(), picture.marks, 0.5));
        }
    }
    thresholds(found, marks);
}

constexpr std::array knotKinds = {DefectKind::SoundKnot, DefectKind::LooseKnot,
                                  DefectKind::KnotHole};
constexpr std::array kindNames = {"sound", "loose", "hole"};

std::size_t placeOf(DefectKind kind) {
    return static_cast<std::size_t>(std::find(knotKinds.begin(), knotKinds.end(), kind) -
                                    knotKinds.begin());
}

/// A check and its suggestion are thin, so boxes hardly overlap: they are one when each covers at
/// least 0.3 of the other's length and they lie side by side within 1 % of the picture's height.
bool isSameCheck(const Box& a, const Box& b, double height) {
    const double along = std::min(a.x1, b.x1) - std::max(a.x0, b.x0);
    const double apart = std::max(a.y0, b.y0) - std::min(a.y1, b.y1);
    return along >= 0.3 * (a.x1 - a.x0) && along >= 0.3 * (b.x1 - b.x0) && apart < 0.01 * height;
}

/// What knots that were found are said to be, and how many checks are found.
void kinds(const char* title, const std::vector<KnotPicture>& pictures) {
    std::array<std::array<int, 3>, 3> said{};
    Score checks;
    for (const KnotPicture& picture : pictures) {
        const std::vector<photo::SuggestedMark> marks =
            photo::suggestMarks(picture.image.view(), {picture.fillsPicture, 0.5}).marks;
        std::vector<bool> taken(picture.marks.size());
        for (const photo::SuggestedMark& mark : marks) {
            const Box box = boxOf(mark.outline);
            bool isHit = false;
            for (std::size_t i = 0; i < picture.marks.size() && !isHit; ++i) {
                const TrueMark& truth = picture.marks[i];
                if (!truth.kind || taken[i]) {
                    continue;
                }
                if (photo::isKnot(mark.kind)) {
                    isHit =
                        truth.counts == TrueMark::Counts::Knot && overlap(box, truth.box) >= 0.3;
                    if (isHit) {
                        ++said[placeOf(*truth.kind)][placeOf(mark.kind)];
                    }
                } else {
                    isHit = *truth.kind == DefectKind::Check &&
                            isSameCheck(box, truth.box, picture.image.height());
                    checks.hits += isHit ? 1 : 0;
                }
                taken[i] = taken[i] || isHit;
            }
            checks.wrong += !isHit && !photo::isKnot(mark.kind) ? 1 : 0;
        }
        checks.knots += static_cast<int>(
            std::count_if(picture.marks.begin(), picture.marks.end(),
                          [](const TrueMark& mark) { return mark.kind == DefectKind::Check; }));
    }
    std::printf("\n%s, confidence >= 0.5\n%-24s %8s %8s %8s %8s\n", title, "found knots that are",
                "sound", "loose", "hole", "right");
    for (std::size_t is = 0; is < said.size(); ++is) {
        const int all = said[is][0] + said[is][1] + said[is][2];
        std::printf("%-24s %8d %8d %8d %8.2f\n", kindNames[is], said[is][0], said[is][1],
                    said[is][2], all == 0 ? 0.0 : static_cast<double>(said[is][is]) / all);
    }
    std::printf("checks: %d, found %d, wrong %d; recall %.3f, precision %.3f\n", checks.knots,
                checks.hits, checks.wrong, checks.recall(), checks.precision());
}

void leaveOut(const std::vector<KnotPicture>& real) {
    std::vector<Prepared> ready;
    std::vector<std::vector<TrueMark>> marks;
    for (const KnotPicture& picture : real) {
        ready.push_back(prepared(picture));
        marks.push_back(ready.back().marks);
    }
    const std::vector<Lesson> lessons = allLessons(real);
    for (const Group group : {Group::Board, Group::Kind}) {
        std::vector<std::vector<FoundBox>> found = leavingOut(group, real, ready, lessons);
        for (std::vector<FoundBox>& boxes : found) {
            for (FoundBox& box : boxes) {
                box.confidence = confidenceOf(photo::trainedKnotModel(), box);
            }
        }
        head(group == Group::Board ? "annotated photographs, each board left out in training"
                                   : "the same, all photographs of its kind left out");
        for (std::size_t i = 0; i < real.size(); ++i) {
            row(real[i].name, scoreOf(found[i], marks[i], 0.5));
        }
        thresholds(found, marks);
    }
}

void speed() {
    std::printf("\ntime for 12 million pixels, the best of three\n");
    boards::MadeBoard board;
    const auto timed = [](const char* name, const photo::ImageView& picture, bool fills) {
        double best = 1e9;
        double bestWork = 1e9;
        std::size_t marks = 0;
        for (int round = 0; round < 3; ++round) {
            const auto start = std::chrono::steady_clock::now();
            const std::clock_t work = std::clock();
            marks = photo::suggestMarks(picture, {fills, 0.3}).marks.size();
            const std::chrono::duration<double, std::milli> took =
                std::chrono::steady_clock::now() - start;
            best = std::min(best, took.count());
            bestWork = std::min(bestWork,
                                1000.0 * static_cast<double>(std::clock() - work) / CLOCKS_PER_SEC);
        }
        std::printf("%-32s %6.0f ms, %6.0f ms of one processor, %zu marks\n", name, best, bestWork,
                    marks);
    };
    const boards::MadePhoto photo = madePhoto(1500, 4000, board);
    timed("4000 x 3000, board all over", photo.image.view(), true);
    timed("4000 x 3000, board looked for", photo.image.view(), false);
    const photo::Image wide = photo::scaled(madePicture(1501, 3000).image.view(), 10000, 1200);
    timed("10000 x 1200, a straightened face", wide.view(), true);
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    int madeBoards = 40;
    int otherBoards = 60;
    bool leaving = false;
    for (int i = 1; i < argc; ++i) {
        const std::string option = argv[i];
        if (option == "--leave-out") {
            leaving = true;
        } else if (option == "--made" && i + 1 < argc) {
            madeBoards = std::atoi(argv[++i]);
        } else if (option == "--other" && i + 1 < argc) {
            otherBoards = std::atoi(argv[++i]);
        } else {
            std::fputs("bench_photo [--made COUNT] [--other COUNT] [--leave-out]\n", stderr);
            return 2;
        }
    }
    std::vector<KnotPicture> made;
    for (int i = 0; i < madeBoards; ++i) {
        made.push_back(madePicture(firstUnseenSeed + static_cast<std::uint64_t>(i)));
    }
    table("photographs of made boards that were not learned from", made);

    kinds("kinds on the same boards", made);
    made.clear();

    std::vector<KnotPicture> other;
    for (int i = 0; i < otherBoards; ++i) {
        other.push_back(otherPicture(firstUnseenSeed + static_cast<std::uint64_t>(i)));
    }
    table("boards drawn in another way, which nothing was learned from", other);
    kinds("kinds on the same boards", other);
    other.clear();

    const std::vector<KnotPicture> real = realPhotos();
    if (real.empty()) {
        std::printf("\nThe annotated photographs are not beside the project: left out.\n");
    } else {
        table("annotated photographs (learned from: see --leave-out)", real);
        table("the same, the board looked for in the whole photograph", realPhotos(false));
        kinds("kinds on the annotated photographs (learned from)", real);
        if (leaving) {
            leaveOut(real);
        }
        std::printf("\nThe annotated photographs:\n");
        std::set<std::string> credits;
        for (const KnotPicture& picture : real) {
            credits.insert(picture.credit);
        }
        for (const std::string& credit : credits) {
            std::printf("  %s\n", credit.c_str());
        }
    }
    speed();
    return 0;
}
