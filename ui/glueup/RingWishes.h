#pragma once
// What can be wished of the rings, in the order of the list that offers it.

#include <array>

#include "core/document/Document.h"

namespace stavewright::ui {

inline constexpr std::array ringWishes = {RingWish::Alternate, RingWish::HeartUp,
                                          RingWish::BestFaceUp};

} // namespace stavewright::ui
