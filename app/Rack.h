#pragma once
// The headless commands of the shop rack; see Headless.h for exit codes.

#include "app/CommandLine.h"

namespace stavewright::app {

int runRack(const RackCommand& command);

} // namespace stavewright::app
