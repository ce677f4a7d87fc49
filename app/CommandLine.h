#pragma once
// What the command line asks for, as a value. Parsing is CLI11's; every complaint is one sentence.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/base/Result.h"
#include "core/choices/Alternatives.h"
#include "core/photo/SuggestedMarks.h"
#include "core/planning/Planner.h"

namespace stavewright::app {

/// No command: the window, with a job to open if one was named.
struct OpenWindow {
    std::string job; ///< may be empty: the sample
};
struct PlanCommand {
    std::string job;
    std::string out; ///< empty: write nothing
    PlanOptions options;
    bool json = false;
    bool alternatives = false; ///< look for plans that are good at something else, too
    choices::Aim take = choices::Aim::Cheapest; ///< which of them is written
    bool explain = false;                       ///< say what each demand of the job costs
    std::string why; ///< label of a blank: say why it lies where it lies; empty: none
};
struct CheckCommand {
    std::string job;
};
struct PapersCommand {
    std::string job;
    std::string out;
    PlanOptions options; ///< used when the job has no plan yet
    bool letter = true;
    std::string date;   ///< as printed; empty: today
    bool plain = false; ///< without the safe windows of the cuts
};
/// Suggested knots of a photograph.
struct KnotsCommand {
    std::string photo;
    std::string length; ///< as typed
    std::string width;
    std::string farWidth;        ///< of the far end; empty: as width
    std::vector<double> corners; ///< x, y of four corners in pixels; empty: the picture is L x W
    double leastConfidence = photo::usefulConfidence;
    bool json = false;
};
struct TallyCommand {
    std::string table;
    std::string into;                ///< a job; empty: only say what the table comes to
    std::string out;                 ///< empty: write nothing
    std::optional<UnitSystem> units; ///< of bare numbers where there is no job
};
struct BoardsCommand {
    std::string job;
    std::string out;                 ///< empty: standard output
    std::optional<UnitSystem> units; ///< empty: the job's
};
/// A better order of the staves of each panel, its terms before and after.
struct ArrangeCommand {
    std::string job;
    std::string panel;   ///< label of one panel ("T1"); empty: all
    std::string out;     ///< the job with the panels arranged; empty: write nothing
    PlanOptions options; ///< used when the job has no plan yet; its seed is the search's as well
    bool json = false;
};
/// The shop rack: what is there, and wood on its way between it and a job.
struct RackCommand {
    enum class Action { List, Take, Return, CallBack };
    Action action = Action::List;
    std::string file; ///< of the rack; empty: the user's own
    std::string job;
    std::string out;                  ///< the job with what came or went
    std::vector<std::int64_t> pieces; ///< numbers on the rack
    std::vector<std::string> boards;  ///< marks in the job; empty: all that the job is done with
    std::string text;
    std::string species; ///< name or key
    int quarters = 0;
    std::string length; ///< as typed
    std::string width;
    bool all = false; ///< also what is away
    UnitSystem units = UnitSystem::Inches;
    bool json = false;
};
/// Help or version: print the text and end well.
struct PrintText {
    std::string text;
};

using Command = std::variant<OpenWindow, PlanCommand, CheckCommand, PapersCommand, KnotsCommand,
                             TallyCommand, BoardsCommand, ArrangeCommand, RackCommand, PrintText>;

Result<Command> parseCommandLine(int argc, const char* const* argv);

} // namespace stavewright::app
