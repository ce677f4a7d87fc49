#pragma once
// A second opinion on the least cost of a job on a grid: complete tables of what every strip, every
// section and every board can yield and at which least cost, without a linear programme and without
// leaving any strip or section out.

#include "GridJob.h"

namespace stavewright::cutting::exact {

[[nodiscard]] Cost bestByTables(const GridJob& job);

} // namespace stavewright::cutting::exact
