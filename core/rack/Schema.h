#pragma once
// The tables of a shop rack and how an older file becomes one of today, step by step.

#include "core/rack/Database.h"

namespace stavewright::rack {

inline constexpr int schemaVersion = 2;
/// Stands in the head of the file: "SwRk".
inline constexpr std::int64_t applicationId = 0x5377526B;

/// Takes the steps from the file's version up to `version`, all or none. Refuses files of other
/// programs, and racks of a newer version of this one.
Status bringUpTo(Database& database, int version = schemaVersion);

} // namespace stavewright::rack
