#pragma once
// Random jobs with a plan that is valid by construction: boards filled section by section, strip by
// strip, every blank with a part of its own made to fit, defects only where they do no harm.

#include <cstdint>

#include "core/document/Document.h"

namespace stavewright::audit_sample {

/// Same seed, same job. The totals are left for the audit to fill in.
[[nodiscard]] Document randomJob(std::uint64_t seed);

} // namespace stavewright::audit_sample
