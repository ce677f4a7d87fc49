#include "app/Headless.h"

#include <QDate>
#include <QGuiApplication>

#include <nlohmann/json.hpp>

#include <cstdio>
#include <cstdlib>
#include <iostream>

#include "app/Choices.h"
#include "app/Planning.h"
#include "core/glueup/LaidPlace.h"
#include "core/job/JobFile.h"
#include "core/midjob/Standby.h"
#include "core/papers/LimitSheets.h"
#include "core/units/QuantityText.h"
#include "ui/paint/PagePainter.h"
#include "ui/photo/PagePhotos.h"

namespace stavewright::app {

namespace {

int fail(const Error& error) {
    std::cerr << describe(error) << '\n';
    return exitCodeOf(error);
}

int exitCodeOf(const PlannedJob& job) {
    if (!job.audit.passed()) {
        return exitAuditFailed;
    }
    return job.outcome.plan.unplaced.empty() ? exitGood : exitSomeUnplaced;
}

double ratio(BoardFeet part, BoardFeet whole) {
    return whole.inMillionths() == 0 ? 0.0 : part.toDouble() / whole.toDouble();
}

/// One object for programs; keys are permanent.
nlohmann::json reportOf(const PlannedJob& job) {
    const PlanTotals& totals = job.audit.totals;
    nlohmann::json unplaced = nlohmann::json::array();
    for (const Unplaced& item : job.outcome.plan.unplaced) {
        unplaced.push_back(
            {{"part", labelOf(job.document, item.purpose)}, {"nearest_miss", item.nearestMiss}});
    }
    const int code = exitCodeOf(job);
    const std::optional<Proof>& proof = job.outcome.plan.origin.proof;
    return {{"status", code == exitGood           ? "planned"
                       : code == exitSomeUnplaced ? "planned, not everything placed"
                                                  : "audit failed"},
            {"boards_used", totals.boardsUsed},
            {"board_feet_used", totals.lumberUsed.toDouble()},
            {"board_feet_blanks", totals.blanks.toDouble()},
            {"board_feet_parts", totals.parts.toDouble()},
            {"board_feet_offcuts_kept", totals.offcutsKept.toDouble()},
            {"yield", ratio(totals.blanks, totals.lumberUsed)},
            {"yield_finished", ratio(totals.parts, totals.lumberUsed)},
            {"cost", totals.cost.toDouble()},
            {"fills", totals.fills},
            {"placed", totals.placed},
            {"demanded", totals.demanded},
            {"counted", proof ? nlohmann::json(proof->counted.toDouble()) : nlohmann::json()},
            {"least_possible", proof ? nlohmann::json(proof->least.toDouble()) : nlohmann::json()},
            {"board_feet_least", proof && proof->leastLumber
                                     ? nlohmann::json(proof->leastLumber->toDouble())
                                     : nlohmann::json()},
            {"seed", job.outcome.plan.origin.seed},
            {"work", job.outcome.plan.origin.work},
            {"seconds_first_plan", job.outcome.secondsToFirst},
            {"seconds", job.outcome.seconds},
            {"audit", job.audit.passed() ? "pass" : "fail"},
            {"findings", job.audit.failures()},
            {"unplaced", unplaced}};
}

void printFindings(const AuditReport& report) {
    for (const Finding& finding : report.findings) {
        std::cout << (finding.severity == Severity::Failure ? "Finding: " : "Remark: ")
                  << finding.sentence << '\n';
    }
}

void printPlan(const PlannedJob& job) {
    const PlanTotals& totals = job.audit.totals;
    const UnitSystem units = job.document.info.units;
    std::cout << job.document.info.title << '\n'
              << "Placed " << totals.placed << " of " << totals.demanded << " blanks on "
              << totals.boardsUsed << " of " << job.document.boards.size() << " boards.\n"
              << "Lumber used " << lumberText(totals.lumberUsed, units) << "; rough blanks "
              << formatShare(totals.blanks, totals.lumberUsed) << ", finished parts "
              << formatShare(totals.parts, totals.lumberUsed) << "; offcuts kept "
              << lumberText(totals.offcutsKept, units) << ".\n"
              << "Cost " << formatMoney(totals.cost, job.document.info.currency) << ", fills "
              << totals.fills << ".\n";
    if (const auto& proof = job.outcome.plan.origin.proof) {
        std::cout << "At most " << formatExcess(proof->counted, proof->least)
                  << " above the least possible: no plan for these boards can count for less than "
                  << formatMoney(proof->least, job.document.info.currency) << ".\n";
        if (proof->leastLumber) {
            std::cout << "No plan that places everything can take boards of less than "
                      << lumberText(*proof->leastLumber, units) << ".\n";
        }
    }
    for (const Unplaced& item : job.outcome.plan.unplaced) {
        std::cout << "Not placed: " << labelOfAll(job.document, item.purpose) << ". "
                  << item.nearestMiss << '\n';
    }
    printFindings(job.audit);
    std::cout << (job.audit.passed() ? "Audit clean.\n" : "The audit found failures.\n");
}

} // namespace

int exitCodeOf(const Error& error) {
    return error.code == ErrorCode::CannotWrite ? exitCannotWrite : exitBadInput;
}

int runPlan(const PlanCommand& command) {
    Result<Document> document = readJob(command.job);
    if (!document) {
        return fail(document.error());
    }
    Result<PlannedJob> planned = planDocument(std::move(document).value(), command.options);
    if (!planned) {
        return fail(planned.error());
    }
    PlannedJob& job = planned.value();
    std::optional<choices::Alternatives> others;
    if (command.alternatives && job.audit.passed()) {
        Result<choices::Alternatives> found = alternativesTo(job, command);
        if (!found) {
            return fail(found.error());
        }
        others = std::move(found).value();
        take(*others, command.take, job);
    }
    std::optional<choices::DemandCosts> demands;
    if (command.explain && job.audit.passed()) {
        Result<choices::DemandCosts> costs = demandsOf(job, command);
        if (!costs) {
            return fail(costs.error());
        }
        demands = std::move(costs).value();
    }
    std::optional<choices::WhyHere> why;
    if (!command.why.empty() && job.audit.passed()) {
        Result<choices::WhyHere> said = whyOf(job, command);
        if (!said) {
            return fail(said.error());
        }
        why = std::move(said).value();
    }
    // A plan that fails the audit is never written over anything.
    if (!command.out.empty() && job.audit.passed()) {
        if (const Status written = writeJob(job.document, command.out); !written) {
            return fail(written.error());
        }
    }
    if (command.json) {
        nlohmann::json report = reportOf(job);
        if (others) {
            report["alternatives"] = reportOf(*others, job);
        }
        if (demands) {
            report["demands"] = reportOf(*demands);
        }
        if (why) {
            report["why"] = why->sentence;
        }
        std::cout << report.dump(2) << '\n';
    } else {
        printPlan(job);
        if (others) {
            print(*others, job);
        }
        if (demands) {
            print(*demands, job);
        }
        if (why) {
            std::cout << '\n' << why->sentence << '\n';
        }
    }
    return exitCodeOf(job);
}

int runCheck(const CheckCommand& command) {
    const Result<Document> document = readJob(command.job);
    if (!document) {
        return fail(document.error());
    }
    if (!document.value().plan) {
        std::cout << "The job is sound. It has no plan yet.\n";
        return exitGood;
    }
    const AuditReport report = audit(document.value());
    printFindings(report);
    if (!report.passed()) {
        std::cout << report.failures() << (report.failures() == 1 ? " finding.\n" : " findings.\n");
        return exitAuditFailed;
    }
    std::cout << "The job is sound and its plan audits clean.\n";
    return document.value().plan->unplaced.empty() ? exitGood : exitSomeUnplaced;
}

int runPapers(const PapersCommand& command) {
    Result<Document> read = readJob(command.job);
    if (!read) {
        return fail(read.error());
    }
    Document document = std::move(read).value();
    if (!document.plan) {
        Result<PlannedJob> planned = planDocument(std::move(document), command.options);
        if (!planned) {
            return fail(planned.error());
        }
        document = std::move(planned).value().document;
    }
    const AuditReport report = audit(document);
    if (!report.passed()) {
        printFindings(report);
        std::cerr << command.job << ": nothing was printed, because the plan fails the audit.\n";
        return exitAuditFailed;
    }

    // Fonts and PDF need a Qt application, but no display.
    qputenv("QT_QPA_PLATFORM", "offscreen");
    int argc = 1;
    char name[] = "stavewright";
    char* argv[] = {name, nullptr};
    const QGuiApplication application(argc, argv);
    ui::loadBundledFont();

    papers::PaperOptions options;
    options.paper = command.letter ? papers::Paper::Letter : papers::Paper::A4;
    options.date = command.date.empty() ? QDate::currentDate().toString(Qt::ISODate).toStdString()
                                        : command.date;
    const Result<std::vector<papers::Page>> pages = papers::makePapers(
        document, options, ui::FontMeasure(),
        command.plain ? std::vector<hand::BoardLimits>{} : midjob::limitsOf(document));
    if (!pages) {
        return fail(pages.error());
    }
    const ui::PagePhotos photos = ui::PagePhotos::of(
        glueup::withLaidOut(document.boards, document.glueUp.laidOut), pages.value(), {}, {});
    const Status written =
        ui::writePdf(pages.value(), QString::fromStdString(command.out),
                     QString::fromStdString(document.info.title), photos.onPage());
    if (!written) {
        return fail(written.error());
    }
    std::cout << "Wrote " << pages.value().size() << " pages to " << command.out << ".\n";
    return document.plan->unplaced.empty() ? exitGood : exitSomeUnplaced;
}

} // namespace stavewright::app
