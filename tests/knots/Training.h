#pragma once
// How the weights of core/photo/KnotWeights.cpp are made: boosted trees of two questions, from
// windows of pictures whose knots are known. Repeatable: no chance but a fixed sequence.

#include <functional>
#include <string>
#include <vector>

#include "core/photo/KnotModel.h"
#include "tests/knots/Boosting.h"
#include "tests/knots/KnotPicture.h"
#include "tests/knots/Score.h"

namespace stavewright::knots {

/// A picture on its grid.
struct Prepared {
    photo::GrainGrid grid;
    std::vector<TrueMark> marks; ///< boxes in cells of the grid
};
[[nodiscard]] Prepared prepared(const KnotPicture& picture);

/// What is learned from one picture: windows of its knots, and many of its plain wood, measured
/// once.
struct Lesson {
    std::string board;
    std::string kind;
    std::vector<Example> knots;
    std::vector<Example> wood; ///< in no particular order
};
/// From the picture as it is and mirrored along and across (the light then comes from elsewhere).
[[nodiscard]] Lesson lessonOf(const KnotPicture& picture, double weight = 1);

struct TrainingOptions {
    int trees = 220;
    int rounds = 2; ///< of looking for windows that are mistaken for knots
    double pace = 0.25;
};
/// `use` tells which lessons.
[[nodiscard]] photo::KnotModel train(const std::vector<Lesson>& lessons,
                                     const std::function<bool(const Lesson&)>& use,
                                     const TrainingOptions& options = {});

[[nodiscard]] photo::KindModel trainKinds(const std::vector<Lesson>& lessons,
                                          const std::function<bool(const Lesson&)>& use);

/// What is learned from: every real photograph there is, and made ones, which count less.
[[nodiscard]] std::vector<Lesson> allLessons(const std::vector<KnotPicture>& real);
/// Made boards from this seed on are never learned from.
inline constexpr std::uint64_t firstUnseenSeed = 1001;

/// For each picture what a model finds that was trained without all pictures of the same group; in
/// cells of its grid, with the model's bare score as confidence. Groups are boards, or kinds of
/// pictures.
enum class Group { Board, Kind };
[[nodiscard]] std::vector<std::vector<FoundBox>>
leavingOut(Group group, const std::vector<KnotPicture>& pictures,
           const std::vector<Prepared>& prepared, const std::vector<Lesson>& lessons);

/// Sets what scores and agreement mean: from what was found without having been learned, and the
/// truth.
void calibrate(photo::KnotModel& model, const std::vector<std::vector<FoundBox>>& found,
               const std::vector<Prepared>& pictures);

/// The confidence that a calibrated model gives to what was found with bare scores.
[[nodiscard]] double confidenceOf(const photo::KnotModel& model, const FoundBox& box);

/// What a model finds in a picture, in cells of its grid.
[[nodiscard]] std::vector<FoundBox> foundBy(const photo::KnotModel& model, const Prepared& picture,
                                            double leastConfidence);

} // namespace stavewright::knots
