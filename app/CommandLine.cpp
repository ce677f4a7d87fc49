#include "app/CommandLine.h"

#include <CLI/CLI.hpp>

#include <limits>

namespace stavewright::app {

namespace {

void addPlanOptions(CLI::App& command, PlanOptions& options) {
    command.add_option("--seconds", options.seconds, "Stop improving after this many seconds")
        ->check(CLI::Range(0.0, 86400.0))
        ->capture_default_str();
    command.add_option("--work", options.work, "Stop after this much counted work (repeatable)")
        ->check(CLI::Range(std::int64_t{0}, std::numeric_limits<std::int64_t>::max()));
    command.add_option("--threads", options.threads, "Threads to use")
        ->check(CLI::Range(1, 64))
        ->capture_default_str();
    command.add_option("--seed", options.seed, "Seed: the same seed and work give the same plan")
        ->capture_default_str();
}

CLI::Option* addUnits(CLI::App& command, std::string& units) {
    return command.add_option("--units", units, "inches or mm")
        ->check(CLI::IsMember({"inches", "mm"}, CLI::ignore_case));
}

std::optional<UnitSystem> unitsNamed(const std::string& units) {
    if (units.empty()) {
        return std::nullopt;
    }
    return CLI::detail::to_lower(units) == "mm" ? UnitSystem::Millimetres : UnitSystem::Inches;
}

/// `rack` and its own commands; `asked` becomes the one that was typed.
class RackOptions {
  public:
    explicit RackOptions(CLI::App& root)
        : m_rack(*root.add_subcommand("rack", "The shop rack: boards and offcuts for every job")) {
        m_rack.require_subcommand(1);
        CLI::App* list = add("list", "List what is on the shop rack", RackCommand::Action::List);
        list->add_option("--text", m_command.text, "Words in mark, species, notes, source or job");
        list->add_option("--species", m_command.species, "White oak, white_oak");
        list->add_option("--quarter", m_command.quarters, "Nominal thickness: 4 for 4/4")
            ->check(CLI::IsMember({4, 5, 6, 8, 10, 12, 16}));
        list->add_option("--length", m_command.length, "At least so long: 48, 4', 1200 mm");
        list->add_option("--width", m_command.width,
                         "At least so wide; with --length, of a straight strip");
        list->add_flag("--all", m_command.all, "Also what is in jobs, used up or thrown out");
        list->add_flag("--json", m_command.json, "Print a JSON list instead of words");
        addUnits(*list, m_units);
        CLI::App* take =
            add("take", "Take pieces into a job, which gets copies", RackCommand::Action::Take);
        addJob(*take);
        take->add_option("NUMBER", m_command.pieces, "Numbers on the shop rack")->required();
        CLI::App* back =
            add("return",
                "Put boards of a job on the shop rack: whole, or their offcuts where the "
                "plan cuts them",
                RackCommand::Action::Return);
        addJob(*back);
        back->add_option("--board", m_command.boards,
                         "Marks (without: all offcuts, and boards of the shop rack that were not "
                         "needed)");
        CLI::App* call =
            add("call-back", "Pieces whose job was lost or never saved are on the shop rack again",
                RackCommand::Action::CallBack);
        call->add_option("NUMBER", m_command.pieces, "Numbers on the shop rack")->required();
    }

    [[nodiscard]] bool parsed() const { return m_rack.parsed(); }
    [[nodiscard]] const CLI::App& asked() const {
        for (const auto& [app, action] : m_actions) {
            if (app->parsed()) {
                return *app;
            }
        }
        return m_rack;
    }
    [[nodiscard]] RackCommand command() const {
        RackCommand command = m_command;
        for (const auto& [app, action] : m_actions) {
            command.action = app->parsed() ? action : command.action;
        }
        command.units = unitsNamed(m_units).value_or(UnitSystem::Inches);
        return command;
    }

  private:
    CLI::App* add(const std::string& name, const std::string& help, RackCommand::Action action) {
        CLI::App* app = m_rack.add_subcommand(name, help);
        app->add_option("--rack", m_command.file, "File of the rack (default: the user's own)");
        m_actions.emplace_back(app, action);
        return app;
    }
    void addJob(CLI::App& app) {
        app.add_option("JOB", m_command.job, "Job file")->required();
        app.add_option("-o,--out", m_command.out, "Write the job here (may be the same file)")
            ->required();
    }

    CLI::App& m_rack;
    RackCommand m_command;
    std::string m_units;
    std::vector<std::pair<CLI::App*, RackCommand::Action>> m_actions;
};

} // namespace

Result<Command> parseCommandLine(int argc, const char* const* argv) {
    CLI::App root{"Stavewright plans solid-wood pieces from rough, knotty boards.", "stavewright"};
    root.set_version_flag("--version", "stavewright " STAVEWRIGHT_VERSION);

    OpenWindow window;
    root.add_option("JOB", window.job, "Job to open in the window (without it: the sample)");

    PlanCommand plan;
    CLI::App* planApp = root.add_subcommand("plan", "Plan a job without the window");
    planApp->add_option("JOB", plan.job, "Job file (*.stavejob or JSON)")->required();
    planApp->add_option("-o,--out", plan.out, "Write the job with its plan here");
    planApp->add_flag("--json", plan.json, "Print one JSON object instead of words");
    planApp->add_flag("--alternatives", plan.alternatives,
                      "Look as long again for plans of least lumber, with fewest knots on show and "
                      "with fewest set-ups");
    std::string take;
    std::vector<std::string> takeable;
    for (const choices::Aim aim : choices::allAims) {
        takeable.push_back(keyOf(aim));
    }
    planApp->add_option("--take", take, "The plan that -o writes (with --alternatives)")
        ->check(CLI::IsMember(takeable));
    planApp->add_flag(
        "--explain", plan.explain,
        "Say what single requirements of the job cost: plans it with each one eased, for a "
        "quarter of --seconds or --work each");
    planApp->add_option(
        "--why", plan.why,
        "Say why the blank of this label lies on its board: plans without it there");
    addPlanOptions(*planApp, plan.options);

    CheckCommand check;
    CLI::App* checkApp = root.add_subcommand("check", "Validate a job and audit its plan");
    checkApp->add_option("JOB", check.job, "Job file")->required();

    PapersCommand papers;
    std::string paper = "letter";
    CLI::App* papersApp = root.add_subcommand(
        "papers", "Write the papers as PDF; plans first if the job has no plan");
    papersApp->add_option("JOB", papers.job, "Job file")->required();
    papersApp->add_option("-o,--out", papers.out, "PDF to write")->required();
    papersApp->add_option("--paper", paper, "letter or a4")
        ->check(CLI::IsMember({"letter", "a4"}, CLI::ignore_case))
        ->capture_default_str();
    papersApp->add_option("--date", papers.date, "Date to print (default: today)");
    papersApp->add_flag("--plain", papers.plain,
                        "Leave out how far each cut may land off, and what to do if a knot opens "
                        "(quicker)");
    addPlanOptions(*papersApp, papers.options);

    KnotsCommand knots;
    CLI::App* knotsApp =
        root.add_subcommand("knots", "Suggest the knots of a board from a photograph of it");
    knotsApp->add_option("PHOTO", knots.photo, "JPEG, PNG, TIFF or WebP")->required();
    knotsApp
        ->add_option("--length", knots.length,
                     "Length along the grain: 2438, 96in, 8' (without a unit: mm)")
        ->required();
    knotsApp
        ->add_option("--width", knots.width,
                     "Width across the grain: 203, 8in, 8 1/4\" (without a unit: mm)")
        ->required();
    knotsApp->add_option("--far-width", knots.farWidth, "Width at the far end, if it differs");
    knotsApp
        ->add_option(
            "--corners", knots.corners,
            "The board's four corners in pixels: x,y,x,y,x,y,x,y going round, datum end at "
            "the left (without them: the whole picture is length x width)")
        ->delimiter(',')
        ->expected(8);
    knotsApp
        ->add_option("--least-confidence", knots.leastConfidence,
                     "Leave out what is less sure than this")
        ->check(CLI::Range(0.0, 1.0))
        ->capture_default_str();
    knotsApp->add_flag("--json", knots.json, "Print one JSON object instead of a table");

    TallyCommand tally;
    std::string tallyUnits;
    CLI::App* tallyApp = root.add_subcommand(
        "tally", "Read a table of boards (CSV): what it comes to, and put them into a job");
    tallyApp->add_option("TABLE", tally.table, "CSV with a row for each board")->required();
    CLI::Option* into = tallyApp->add_option("--into", tally.into, "Job that they go into");
    tallyApp->add_option("-o,--out", tally.out, "Write the job with the boards here")->needs(into);
    addUnits(*tallyApp, tallyUnits)->excludes(into);

    BoardsCommand boards;
    std::string boardsUnits;
    CLI::App* boardsApp =
        root.add_subcommand("boards", "Write the boards of a job as a table (CSV)");
    boardsApp->add_option("JOB", boards.job, "Job file")->required();
    boardsApp->add_option("-o,--out", boards.out, "CSV to write (default: standard output)");
    addUnits(*boardsApp, boardsUnits);

    ArrangeCommand arrange;
    CLI::App* arrangeApp = root.add_subcommand(
        "arrange",
        "Find a better order for the staves of each panel and pair the plies of laminated "
        "blocks; plans first if the job has no plan");
    arrangeApp->add_option("JOB", arrange.job, "Job file")->required();
    arrangeApp->add_option("--panel", arrange.panel, "Only the panel of this label, such as T1");
    arrangeApp->add_option("-o,--out", arrange.out, "Write the job with its panels arranged here");
    arrangeApp->add_flag("--json", arrange.json, "Print one JSON object instead of words");
    addPlanOptions(*arrangeApp, arrange.options);

    RackOptions rack(root);

    root.require_subcommand(0, 1);
    try {
        root.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        const CLI::App* asked = &root;
        for (const CLI::App* command :
             {planApp, checkApp, papersApp, knotsApp, tallyApp, boardsApp, arrangeApp}) {
            if (command->parsed()) {
                asked = command;
            }
        }
        asked = rack.parsed() ? &rack.asked() : asked;
        return Command{PrintText{asked->help()}};
    } catch (const CLI::CallForVersion&) {
        return Command{PrintText{"stavewright " STAVEWRIGHT_VERSION "\n"}};
    } catch (const CLI::ParseError& error) {
        return Error{ErrorCode::BadInput, std::string(error.what()) + ". Try --help.",
                     "command line"};
    }

    if (planApp->parsed()) {
        for (const choices::Aim aim : choices::allAims) {
            plan.take = keyOf(aim) == take ? aim : plan.take;
        }
        plan.alternatives = plan.alternatives || !take.empty();
        return Command{plan};
    }
    if (checkApp->parsed()) {
        return Command{check};
    }
    if (papersApp->parsed()) {
        papers.letter = CLI::detail::to_lower(paper) == "letter";
        return Command{papers};
    }
    if (knotsApp->parsed()) {
        return Command{knots};
    }
    if (tallyApp->parsed()) {
        tally.units = unitsNamed(tallyUnits);
        return Command{tally};
    }
    if (boardsApp->parsed()) {
        boards.units = unitsNamed(boardsUnits);
        return Command{boards};
    }
    if (arrangeApp->parsed()) {
        return Command{arrange};
    }
    if (rack.parsed()) {
        return Command{rack.command()};
    }
    return Command{window};
}

} // namespace stavewright::app
