#pragma once
// The marks of one photograph, whatever their kind, as one row of things that can be picked, moved
// and taken away.

#include <QString>

#include <vector>

#include "core/photo/Straighten.h"

namespace stavewright::ui {

/// Which mark of a PhotoControls: its list and its place there.
struct PhotoMark {
    photo::MarkResidual::Of of = photo::MarkResidual::Of::Corner;
    std::size_t index = 0;
    friend bool operator==(const PhotoMark&, const PhotoMark&) = default;
};
/// Corners, tape, edges, spots: the order of the table and of Tab.
[[nodiscard]] std::vector<PhotoMark> marksOf(const photo::PhotoControls& controls);
[[nodiscard]] photo::PhotoPoint placeOf(const photo::PhotoControls& controls, PhotoMark mark);
void setPlaceOf(photo::PhotoControls& controls, PhotoMark mark, photo::PhotoPoint at);
void remove(photo::PhotoControls& controls, PhotoMark mark);
/// "1 datum, near", "Tape", "Near edge", "Spot 2".
[[nodiscard]] QString nameOf(const photo::PhotoControls& controls, PhotoMark mark);
/// What stands beside it in the photograph: "1" to "4", "T", "N", "F", "S2".
[[nodiscard]] QString letterOf(const photo::PhotoControls& controls, PhotoMark mark);

} // namespace stavewright::ui
