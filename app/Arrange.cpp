#include <nlohmann/json.hpp>

#include <array>
#include <cstdio>
#include <iostream>

#include "app/Headless.h"
#include "app/PairPlies.h"
#include "app/Planning.h"
#include "core/job/JobFile.h"
#include "core/panels/PanelChecks.h"
#include "core/panels/Proposal.h"
#include "core/panels/TermWords.h"
#include "core/units/SaidLength.h"
#include "ui/photo/StaveLook.h"

namespace stavewright::app {

namespace {

using panels::Panel;
using panels::Proposal;

int fail(const Error& error) {
    std::cerr << describe(error) << '\n';
    return exitCodeOf(error);
}

/// One panel, or two that match, as found out; in the document as it was when they were looked at.
struct Found {
    std::vector<Panel> panels; ///< arranged
    Proposal proposal;
};

struct Arranging {
    Document document;
    ui::PhotoLooks looks;
    std::vector<Found> found;
};

Result<std::vector<Panel>> wantedPanels(const Arranging& job, const std::string& label) {
    Result<std::vector<Panel>> panels = panels::panelsOf(job.document, job.looks);
    if (!panels || label.empty()) {
        return panels;
    }
    std::vector<Panel> wanted;
    std::string known;
    for (Panel& panel : panels.value()) {
        known += (known.empty() ? "" : ", ") + panel.label;
        if (panel.label == label) {
            wanted.push_back(std::move(panel));
        }
    }
    if (wanted.empty()) {
        return Error{ErrorCode::BadInput,
                     "There is no panel \"" + label + "\" in the plan; there are " +
                         (known.empty() ? "none" : known) + ".",
                     "--panel"};
    }
    return wanted;
}

Status arrangeOne(Arranging& job, const PanelName& name, std::uint64_t seed,
                  const std::stop_token& stop) {
    const Result<std::vector<Panel>> all = panels::panelsOf(job.document, job.looks);
    if (!all) {
        return all.error();
    }
    const Panel* panel = panels::findPanel(all.value(), name);
    if (!panel || panel->isGlued) {
        return Done{};
    }
    const Panel* partner = panels::partnerOf(all.value(), *panel);
    glueup::ArrangeLimits limits;
    limits.seed = seed;
    Found found;
    found.proposal = panels::propose(*panel, partner, limits, stop);
    if (found.proposal.isBetter) {
        const Result<Edit> edit = panels::editFor(job.document, all.value(), found.proposal);
        if (!edit) {
            return edit.error();
        }
        if (const Result<Edit> back = apply(job.document, edit.value()); !back) {
            return back.error();
        }
    }
    const Result<std::vector<Panel>> after = panels::panelsOf(job.document, job.looks);
    if (!after) {
        return after.error();
    }
    for (const PanelName& each : found.proposal.panels) {
        found.panels.push_back(*panels::findPanel(after.value(), each));
    }
    job.found.push_back(std::move(found));
    return Done{};
}

bool isDone(const Arranging& job, const PanelName& name) {
    for (const Found& found : job.found) {
        for (const PanelName& each : found.proposal.panels) {
            if (each == name) {
                return true;
            }
        }
    }
    return false;
}

const char* faceText(Pose pose) {
    return pose.endForEnd ? (pose.faceOver ? "face B up, end for end" : "end for end")
                          : (pose.faceOver ? "face B up" : "as it lay");
}

std::string titleOf(const Found& found) {
    std::string title;
    for (const Panel& panel : found.panels) {
        title += (title.empty() ? "" : " and ") + panel.label;
    }
    return title + " " + found.panels.front().title;
}

void print(const Document& document, const Found& found) {
    const JobInfo& info = document.info;
    const Proposal& proposal = found.proposal;
    std::cout << titleOf(found) << ": " << panels::nameOf(proposal.proved) << ", "
              << panels::pointsText(proposal.before.total) << " points before, "
              << panels::pointsText(proposal.after.total) << " after"
              << (proposal.isBetter ? "" : " (left as it was)") << '\n';
    std::cout.flush();
    std::printf("  %-24s %17s %17s %28s %8s\n", "term", "before", "after", "weight", "points");
    for (std::size_t i = 0; i < proposal.after.terms.size(); ++i) {
        const glueup::TermValue& before = proposal.before.terms[i];
        const glueup::TermValue& after = proposal.after.terms[i];
        std::printf("  %-24s %17s %17s %28s %8s\n", panels::nameOf(after.term).c_str(),
                    panels::valueText(before, info).c_str(), panels::valueText(after, info).c_str(),
                    panels::weightText(after, info).c_str(),
                    panels::pointsText(after.cost()).c_str());
    }
    std::fflush(stdout);
    const auto worse = panels::whatGotWorse(proposal.before, proposal.after, info);
    for (const std::string& line : worse) {
        std::cout << "  Worse: " << line << '\n';
    }
    const LengthStyle style{info.units, info.inchDenominator, true};
    for (const Panel& panel : found.panels) {
        std::cout << "  From the near edge of " << panel.label << ":\n";
        for (std::size_t place = 0; place < panel.order.size(); ++place) {
            const panels::PanelStave& stave = panel.staveAt(place);
            std::cout << "    " << place + 1 << "  " << stave.label << "  board " << stave.boardMark
                      << ", " << saidLength(stave.net.width(), style) << " wide, "
                      << faceText(glueup::poseOf(panel.order[place].pose)) << ", cup "
                      << panels::fineText(panels::staveCup(panel, place), info) << '\n';
        }
        std::cout << "    Forecast cup of the panel "
                  << panels::fineText(panels::cupOf(panel).depth, info) << "; it "
                  << panels::widthChangeText(panels::widthChangeOf(panel), info) << ".\n";
        if (const std::string unknown = panels::cupUnknownOf(panel); !unknown.empty()) {
            std::cout << "    " << unknown << '\n';
        }
        for (const panels::PanelFinding& finding : panels::checkPanel(document, panel)) {
            std::cout << (finding.isRefusal ? "    Finding: " : "    Remark: ") << finding.sentence
                      << '\n';
        }
    }
}

/// Keys are permanent.
nlohmann::json reportOf(const Document& document, const Found& found) {
    const Proposal& proposal = found.proposal;
    nlohmann::json terms = nlohmann::json::array();
    for (std::size_t i = 0; i < proposal.after.terms.size(); ++i) {
        const glueup::TermValue& before = proposal.before.terms[i];
        const glueup::TermValue& after = proposal.after.terms[i];
        constexpr std::array units = {"staves",       "joints", "knots", "mm",
                                      "colour steps", "edges",  "seams"};
        terms.push_back({{"term", panels::nameOf(after.term)},
                         {"unit", units[static_cast<std::size_t>(after.unit)]},
                         {"before", static_cast<double>(before.thousandths) / 1000},
                         {"after", static_cast<double>(after.thousandths) / 1000},
                         {"weight", after.weightHundredths / 100.0},
                         {"points_before", static_cast<double>(before.cost()) / 1e5},
                         {"points_after", static_cast<double>(after.cost()) / 1e5},
                         {"worse", after.cost() > before.cost()}});
    }
    nlohmann::json panelList = nlohmann::json::array();
    for (const Panel& panel : found.panels) {
        nlohmann::json staves = nlohmann::json::array();
        for (std::size_t place = 0; place < panel.order.size(); ++place) {
            const panels::PanelStave& stave = panel.staveAt(place);
            const Pose pose = glueup::poseOf(panel.order[place].pose);
            staves.push_back({{"stave", stave.label},
                              {"board", stave.boardMark},
                              {"net_width_mm", stave.net.width().toMillimetres()},
                              {"end_for_end", pose.endForEnd},
                              {"face_over", pose.faceOver},
                              {"cup_mm", panels::staveCup(panel, place).toMillimetres()}});
        }
        nlohmann::json findings = nlohmann::json::array();
        for (const panels::PanelFinding& finding : panels::checkPanel(document, panel)) {
            findings.push_back({{"refused", finding.isRefusal}, {"sentence", finding.sentence}});
        }
        panelList.push_back({{"panel", panel.label},
                             {"rings", panels::nameOf(panel.chosen.rings)},
                             {"cup_mm", panels::cupOf(panel).overall.toMillimetres()},
                             {"width_change_mm", panels::widthChangeOf(panel).toMillimetres()},
                             {"staves", staves},
                             {"findings", findings}});
    }
    return {{"panels", panelList},
            {"proved", panels::nameOf(proposal.proved)},
            {"better", proposal.isBetter},
            {"points_before", static_cast<double>(proposal.before.total) / 1e5},
            {"points_after", static_cast<double>(proposal.after.total) / 1e5},
            {"terms", terms}};
}

} // namespace

int runArrange(const ArrangeCommand& command) {
    Result<Document> read = readJob(command.job);
    if (!read) {
        return fail(read.error());
    }
    ui::PhotoLooks looks(read.value().boards, read.value().glueUp.laidOut);
    Arranging job{std::move(read).value(), std::move(looks), {}};
    if (!job.document.plan) {
        Result<PlannedJob> planned = planDocument(std::move(job.document), command.options);
        if (!planned) {
            return fail(planned.error());
        }
        job.document = std::move(planned).value().document;
    }
    const Result<std::vector<Panel>> wanted = wantedPanels(job, command.panel);
    if (!wanted) {
        return fail(wanted.error());
    }
    Status status = Done{};
    withSignals([&](const Progress& progress) {
        for (const Panel& panel : wanted.value()) {
            if (status && !isDone(job, panel.name)) {
                status = arrangeOne(job, panel.name, command.options.seed, progress.stop);
            }
        }
    });
    if (!status) {
        return fail(status.error());
    }
    std::vector<PairedPart> paired;
    if (command.panel.empty()) {
        Result<std::vector<PairedPart>> plies = pairAllPlies(job.document);
        if (!plies) {
            return fail(plies.error());
        }
        paired = std::move(plies).value();
    }
    const AuditReport report = audit(job.document);
    if (!command.out.empty() && report.passed()) {
        if (const Status written = writeJob(job.document, command.out); !written) {
            return fail(written.error());
        }
    }
    if (command.json) {
        nlohmann::json list = nlohmann::json::array();
        for (const Found& found : job.found) {
            list.push_back(reportOf(job.document, found));
        }
        nlohmann::json plies = nlohmann::json::array();
        for (const PairedPart& part : paired) {
            plies.push_back(reportOf(job.document, part));
        }
        std::cout << nlohmann::json{{"arranged", list},
                                    {"paired", plies},
                                    {"audit", report.passed() ? "pass" : "fail"}}
                         .dump(2)
                  << '\n';
    } else {
        for (const Found& found : job.found) {
            print(job.document, found);
        }
        for (const PairedPart& part : paired) {
            printPaired(job.document, part);
        }
        if (job.found.empty() && paired.empty()) {
            std::cout << "There is no panel to arrange, and no block with plies to pair.\n";
        }
    }
    if (!report.passed()) {
        std::cerr << command.job << ": nothing was written, because the plan fails the audit.\n";
        return exitAuditFailed;
    }
    return exitGood;
}

} // namespace stavewright::app
