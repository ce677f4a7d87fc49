#pragma once
// Tallies and racks as tables on the command line.

#include "app/CommandLine.h"

namespace stavewright::app {

/// Says what a table of boards comes to and which cells cannot be read; with a job, puts its boards
/// on the rack. A table with a bad cell changes nothing.
int runTally(const TallyCommand& command);
/// Writes the rack of a job as CSV, to standard output when no file is named.
int runBoards(const BoardsCommand& command);

} // namespace stavewright::app
