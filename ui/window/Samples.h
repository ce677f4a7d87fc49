#pragma once
// The sample jobs that come with the program: beside the sources it was built from, or installed.

#include <QString>

#include <vector>

namespace stavewright::ui {

struct Sample {
    QString title; ///< from the file name: "Kitchen table"
    QString path;
};

/// Empty when no folder of samples can be found.
[[nodiscard]] std::vector<Sample> allSamples();
/// The one that the window opens when nothing else is asked for; empty when there is none.
[[nodiscard]] QString firstSample();

} // namespace stavewright::ui
