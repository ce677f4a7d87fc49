#pragma once
// Private to the board's drawing: how its rooms lie, in pixels.

namespace stavewright::ui::sheet {

inline constexpr double margin = 24;
inline constexpr double tape = 30;    ///< along the top
inline constexpr double caption = 24; ///< above each face
inline constexpr double footer = 24;  ///< the place pointed at, or what the tool does

} // namespace stavewright::ui::sheet
