#pragma once
// A small invented job with one good plan laid out by hand, every number explicit: four staves of a
// top, two rails, two multiples of cleats and a two-ply leg on three boards. Tests break it one way
// at a time.

#include "core/document/Document.h"

namespace stavewright::audit_sample {

namespace id {
inline constexpr BoardId board7{101};
inline constexpr BoardId board8{102};
inline constexpr BoardId board9{103};
inline constexpr BoardId board10{104}; ///< set aside
inline constexpr PartId rail{201};
inline constexpr PartId cleat{202};
inline constexpr PartId top{203};
inline constexpr PartId leg{204};
} // namespace id

/// n/d inches.
[[nodiscard]] constexpr Length in(std::int64_t n, std::int64_t d = 1) {
    return Length::inches(n, d);
}

/// The job with its good plan.
[[nodiscard]] Document goodJob();

/// Shorthands into the good plan, in its order.
[[nodiscard]] Section& section(Document& job, std::size_t board, std::size_t index);
[[nodiscard]] Strip& strip(Document& job, std::size_t board, std::size_t section,
                           std::size_t index);
/// The only blank of that strip.
[[nodiscard]] Blank& blank(Document& job, std::size_t board, std::size_t section,
                           std::size_t strip);

[[nodiscard]] Board& boardOf(Document& job, BoardId id);
[[nodiscard]] Part& partOf(Document& job, PartId id);

/// A round defect through the board, straight, as an ellipse.
[[nodiscard]] Defect roundDefect(DefectId id, std::string mark, DefectKind kind, Point centre,
                                 Length size);

} // namespace stavewright::audit_sample
