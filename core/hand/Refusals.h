#pragma once
// Private to core/hand: how an edit by hand is refused.

#include <string>
#include <utility>

#include "core/base/Result.h"

namespace stavewright::hand {

[[nodiscard]] inline Error refused(std::string message) {
    return {ErrorCode::BadInput, std::move(message), {}};
}

[[nodiscard]] inline Error noPlan() {
    return refused("The job has no plan yet; plan first, then move blanks by hand.");
}

} // namespace stavewright::hand
