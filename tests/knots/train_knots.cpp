// Trains the weights of the search for knots and writes them as a source file:
//   train_knots core/photo/KnotWeights.cpp
// Needs the annotated photographs beside the project; made boards come on top. What the scores mean
// is set by leaving each board out in turn.

#include <cstdio>
#include <fstream>
#include <map>

#include "tests/knots/RealPhotos.h"
#include "tests/knots/Training.h"

namespace {

using namespace stavewright;
using namespace stavewright::knots;

std::string number(float value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.6gF", static_cast<double>(value));
    std::string result = text;
    // 3F is no number of C++, 3.F is.
    if (result.find_first_of(".en") == std::string::npos) {
        result.insert(result.size() - 1, ".");
    }
    return result;
}

void writeModel(std::ofstream& file, const char* name, const photo::KnotModel& model) {
    file << "const KnotModel " << name << " = {{\n";
    for (const photo::KnotTree& tree : model.trees) {
        file << "    {{" << int(tree.measure[0]) << ", " << int(tree.measure[1]) << ", "
             << int(tree.measure[2]) << "}, {" << number(tree.below[0]) << ", "
             << number(tree.below[1]) << ", " << number(tree.below[2]) << "}, {"
             << number(tree.says[0]) << ", " << number(tree.says[1]) << ", " << number(tree.says[2])
             << ", " << number(tree.says[3]) << "}},\n";
    }
    file << "}, " << number(model.even) << ", " << number(model.slope) << ", "
         << number(model.agreement) << "};\n";
}

bool write(const std::string& path, const photo::KnotModel& model, const photo::KindModel& kinds) {
    std::ofstream file(path);
    file << "// Made by tests/knots/train_knots from annotated photographs (Kodytek, Bodzas, "
            "Bilik: A "
            "large-scale\n// image dataset of wood surface defects, doi 10.5281/zenodo.4694695, CC "
            "BY "
            "4.0; ambientCG and Poly\n// Haven, CC0) and from made boards; DEVELOPERS.md says how. "
            "Not to be edited by hand.\n#include \"core/photo/KnotModel.h\"\n\nnamespace "
            "stavewright::photo {\n\nnamespace {\n\n// clang-format off\n";
    writeModel(file, "model", model);
    writeModel(file, "loose", kinds.loose);
    writeModel(file, "hole", kinds.hole);
    file << "// clang-format on\n\n} // namespace\n\nconst KnotModel& trainedKnotModel() { return "
            "model; "
            "}\n\nconst KindModel& trainedKindModel() {\n    static const KindModel kinds{loose, "
            "hole};\n    return kinds;\n}\n\n} // namespace stavewright::photo\n";
    return file.good();
}

/// What found knots are said to be that were not learned from.
void reportKinds(const std::vector<std::vector<FoundBox>>& found,
                 const std::vector<Prepared>& ready) {
    std::map<std::pair<DefectKind, DefectKind>, int> said;
    for (std::size_t i = 0; i < found.size(); ++i) {
        for (const FoundBox& box : found[i]) {
            for (const TrueMark& mark : ready[i].marks) {
                if (mark.counts == TrueMark::Counts::Knot && mark.kind && box.kind &&
                    overlap(box.box, mark.box) >= 0.5) {
                    ++said[{*mark.kind, *box.kind}];
                }
            }
        }
    }
    for (const auto& [which, count] : said) {
        std::printf("left out: %s is said to be %s: %d\n", nameOf(which.first).data(),
                    nameOf(which.second).data(), count);
    }
}

void report(const std::vector<std::vector<FoundBox>>& found, const std::vector<Prepared>& ready,
            const std::vector<KnotPicture>& pictures, const photo::KnotModel& model) {
    for (const double least : {0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9}) {
        Score sum;
        for (std::size_t i = 0; i < found.size(); ++i) {
            std::vector<FoundBox> boxes = found[i];
            for (FoundBox& box : boxes) {
                box.confidence = confidenceOf(model, box);
            }
            const Score score = scoreOf(boxes, ready[i].marks, least);
            if (least == 0.5 && (score.wrong > 0 || score.hits < score.knots)) {
                std::printf("  %-22s %d of %d, %d wrong\n", pictures[i].name.c_str(), score.hits,
                            score.knots, score.wrong);
            }
            sum += score;
        }
        std::printf("left out, at %.2f: recall %.3f precision %.3f (%d of %d, %d wrong)\n", least,
                    sum.recall(), sum.precision(), sum.hits, sum.knots, sum.wrong);
    }
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("train_knots OUT.cpp\n", stderr);
        return 2;
    }
    const std::vector<KnotPicture> real = realPhotos();
    if (real.empty()) {
        std::fputs("The annotated photographs are not there.\n", stderr);
        return 2;
    }
    std::vector<Prepared> ready;
    for (const KnotPicture& picture : real) {
        ready.push_back(prepared(picture));
    }
    const std::vector<Lesson> lessons = allLessons(real);
    const std::vector<std::vector<FoundBox>> found = leavingOut(Group::Board, real, ready, lessons);
    photo::KnotModel model = train(lessons, [](const Lesson&) { return true; });
    calibrate(model, found, ready);
    report(found, ready, real, model);
    reportKinds(found, ready);
    const photo::KindModel kinds = trainKinds(lessons, [](const Lesson&) { return true; });
    return write(argv[1], model, kinds) ? 0 : 2;
}
