#include "ui/layout/PartRows.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <map>

#include "core/layout/PieceState.h"
#include "core/layout/StateNames.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PartsPanel", text); }

struct Placed {
    BlankId blank;
    BlankPurpose purpose;
    BoardId board;
    QString boardMark;
    Length from; ///< tape reading of the blank's end nearest the datum
    CutState state = CutState::Planned;
};

std::map<PartId, std::vector<Placed>> placedByPart(const Document& document, const Plan* plan) {
    std::map<PartId, std::vector<Placed>> placed;
    if (plan == nullptr) {
        return placed;
    }
    for (const BoardLayout& layout : plan->boards) {
        const Board* board = findBoard(document, layout.board);
        const QString mark = board != nullptr ? words(board->mark) : QString("?");
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Rect box = boundingBox(toOuter(section.frame, woodOf(blank)));
                    placed[blank.purpose.part].push_back({blank.id, blank.purpose, layout.board,
                                                          mark, box.x0, stateOf(section, blank)});
                }
            }
        }
    }
    for (auto& [part, blanks] : placed) {
        std::sort(blanks.begin(), blanks.end(),
                  [](const Placed& a, const Placed& b) { return a.purpose < b.purpose; });
    }
    return placed;
}

BlankRow rowOf(const Document& document, const Placed& placed, const LengthStyle& style) {
    BlankRow row;
    row.blank = placed.blank;
    row.board = placed.board;
    row.name = words(labelOfAll(document, placed.purpose));
    if (placed.state != CutState::Planned) {
        row.name = tr("%1, %2").arg(row.name, words(briefOf(placed.state)));
    }
    const QString reading = readingText(placed.from, style);
    row.where = tr("%1, at %2").arg(placed.boardMark, reading);
    row.tip =
        tr("On board %1; the tape reads %2 at the blank's near end").arg(placed.boardMark, reading);
    return row;
}

/// The audit finds something wrong with the part or one of its blanks.
bool isWrong(const AuditReport& report, PartId part, const std::vector<BlankRow>& blanks) {
    return std::any_of(report.findings.begin(), report.findings.end(), [&](const Finding& finding) {
        return finding.severity == Severity::Failure &&
               (finding.part == part ||
                std::any_of(blanks.begin(), blanks.end(),
                            [&](const BlankRow& row) { return finding.blank == row.blank; }));
    });
}

} // namespace

std::vector<PartRow> partRowsOf(const Document& document, const Plan* plan,
                                const AuditReport* report, const LengthStyle& style) {
    std::vector<PartRow> rows;
    const auto placed = placedByPart(document, plan);
    for (const Part& part : document.parts) {
        PartRow row;
        row.part = part.id;
        row.name = QString("%1  %2").arg(words(part.mark), words(part.name));
        row.tip = words(part.name);
        if (const auto found = placed.find(part.id); found != placed.end()) {
            for (const Placed& blank : found->second) {
                row.blanks.push_back(rowOf(document, blank, style));
            }
        }
        const std::size_t done = row.blanks.size();
        std::size_t open = 0;
        row.count = tr("%1 wanted").arg(part.count);
        if (plan != nullptr) {
            open = static_cast<std::size_t>(
                std::count_if(plan->unplaced.begin(), plan->unplaced.end(),
                              [&](const Unplaced& item) { return item.purpose.part == part.id; }));
            row.count =
                open == 0 ? tr("all %1").arg(done) : tr("%1 of %2").arg(done).arg(done + open);
            row.sign = open == 0 ? Sign::Tick : Sign::Triangle;
        }
        row.countTip = open == 0 ? tr("%1 blanks placed").arg(done)
                                 : tr("%1 blanks placed, %2 not placed").arg(done).arg(open);
        if (report != nullptr && isWrong(*report, part.id, row.blanks)) {
            row.sign = Sign::Cross;
            row.countTip += tr("; not as the part is to be now, see the findings");
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

TrayRows trayRowsOf(const Document& document, const Plan* plan, const AuditReport* report) {
    if (plan == nullptr) {
        if (document.parts.empty()) {
            return {tr("Nothing to place"),
                    Sign::None,
                    {{{},
                      tr("No parts yet"),
                      tr("Put in the parts of the piece in the place Piece (Ctrl+2)."),
                      Sign::None}}};
        }
        const bool isBare = document.boards.empty();
        return {tr("Not planned yet"),
                Sign::None,
                {{{},
                  isBare ? tr("No boards yet") : tr("Press Plan (F9)"),
                  isBare ? tr("Put in the boards you have in the place Lumber (Ctrl+1).")
                         : tr("Every part then gets its place on a board, or a reason here."),
                  Sign::None}}};
    }
    if (plan->unplaced.empty() && report != nullptr && !report->passed()) {
        return {tr("Everything has a place, but not as it is to be now"), Sign::Cross, {}};
    }
    if (plan->unplaced.empty()) {
        return {tr("Everything is placed"), Sign::Tick, {}};
    }
    TrayRows tray{tr("Not placed: %1").arg(plan->unplaced.size()), Sign::Triangle, {}};
    for (std::size_t i = 0; i < plan->unplaced.size(); ++i) {
        const Unplaced& first = plan->unplaced[i];
        const auto same = [&](const Unplaced& item) {
            return item.purpose.part == first.purpose.part && item.nearestMiss == first.nearestMiss;
        };
        const auto begin = plan->unplaced.begin();
        if (std::any_of(begin, begin + static_cast<std::ptrdiff_t>(i), same)) {
            continue;
        }
        QStringList marks;
        for (const Unplaced& item : plan->unplaced) {
            if (same(item)) {
                marks << words(labelOfAll(document, item.purpose));
            }
        }
        const Part* part = findPart(document, first.purpose.part);
        const QString name = part != nullptr ? words(part->name) : QString();
        tray.rows.push_back({first.purpose.part, QString("%1  %2").arg(marks.join(", "), name),
                             words(first.nearestMiss), Sign::Triangle});
    }
    return tray;
}

} // namespace stavewright::ui
