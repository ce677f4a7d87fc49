#include "ui/layout/SelectionPanel.h"

#include <QScrollBar>

#include <algorithm>

#include "core/planning/Planner.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"
#include "ui/layout/FactSheet.h"
#include "ui/session/CutLimits.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// A blank with everything it stands on.
struct Place {
    const BoardLayout* layout = nullptr;
    const Section* section = nullptr;
    const Strip* strip = nullptr;
    const Blank* blank = nullptr;
};

Place placeOf(const Plan& plan, BlankId id) {
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.id == id) {
                        return {&layout, &section, &strip, &blank};
                    }
                }
            }
        }
    }
    return {};
}

} // namespace

SelectionPanel::SelectionPanel(DocumentSession& session, ShopEvents& shop, QWidget* parent)
    : QScrollArea(parent)
    , m_session(session)
    , m_shop(shop)
    , m_sheet(new FactSheet) {
    setObjectName("selectionPanel");
    setAccessibleName(tr("About what is selected"));
    setWidget(m_sheet);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    connect(&CutLimits::of(m_session), &CutLimits::ready, this, [this](BoardId board) {
        if (m_session.selection().board == board) {
            refresh(m_shown);
        }
    });
}

QString SelectionPanel::length(Length value) const {
    return tapeText(value, m_session.lengthStyle());
}

QString SelectionPanel::lumber(BoardFeet amount) const {
    return words(lumberText(amount, m_session.document().info.units, LumberDetail::Glance));
}

QString SelectionPanel::reading(Length value) const {
    return readingText(value, m_session.lengthStyle());
}

QString SelectionPanel::size(Length width, Length along) const {
    return tr("%1 × %2").arg(length(width), length(along));
}

void SelectionPanel::refresh(const Shown& shown) {
    const Plan* plan = shown.plan;
    m_shown = shown;
    m_isPreview = shown.isPreview;
    const Selection& selection = m_session.selection();
    const int scrolled = selection == m_about ? verticalScrollBar()->value() : 0;
    m_about = selection;
    m_sheet->clear();
    const Document& document = m_session.document();
    const Board* board = selection.board ? findBoard(document, *selection.board) : nullptr;
    const Part* part = selection.part ? findPart(document, *selection.part) : nullptr;
    if (selection.blank && plan != nullptr && placeOf(*plan, *selection.blank).blank != nullptr) {
        blankFacts(*selection.blank, plan);
    } else if (board != nullptr) {
        boardFacts(*board, plan);
    } else if (part != nullptr) {
        partFacts(*part, plan);
    } else {
        jobFacts(plan);
    }
    findings(plan);
    m_sheet->finish();
    // Focus goes from link to link as they are taken down, and scrolls to each of them.
    verticalScrollBar()->setValue(scrolled);
}

void SelectionPanel::jobFacts(const Plan* plan) {
    const Document& document = m_session.document();
    m_sheet->heading(document.info.title.empty() ? tr("Untitled job") : words(document.info.title),
                     document.info.client.empty() ? QString()
                                                  : tr("for %1").arg(words(document.info.client)));
    m_sheet->fact(tr("Lumber"),
                  counted(static_cast<qint64>(document.boards.size()), tr("board"), tr("boards")));
    m_sheet->fact(tr("Piece"),
                  counted(static_cast<qint64>(document.parts.size()), tr("part"), tr("parts")));
    if (plan == nullptr) {
        m_sheet->sentence(document.boards.empty()
                              ? tr("Begin with the boards you have, in the place Lumber (Ctrl+1).")
                          : document.parts.empty()
                              ? tr("Next come the parts of the piece, in the place Piece (Ctrl+2).")
                              : tr("No plan yet. Plan (F9) finds a place for every part."));
        return;
    }
    const PlanTotals& t = plan->totals;
    m_sheet->section(!m_isPreview              ? tr("The plan")
                     : m_shown.title.isEmpty() ? tr("Best plan so far")
                                               : m_shown.title);
    m_sheet->fact(tr("Placed"), tr("%1 of %2 blanks").arg(t.placed).arg(t.demanded),
                  t.placed == t.demanded ? Sign::Tick : Sign::Triangle);
    m_sheet->fact(
        tr("Lumber used"),
        tr("%1 on %2").arg(lumber(t.lumberUsed), counted(t.boardsUsed, tr("board"), tr("boards"))));
    m_sheet->fact(
        tr("Rough blanks"),
        tr("%1, %2 of it").arg(lumber(t.blanks), words(formatShare(t.blanks, t.lumberUsed))));
    m_sheet->fact(
        tr("Finished parts"),
        tr("%1, %2 of it").arg(lumber(t.parts), words(formatShare(t.parts, t.lumberUsed))));
    m_sheet->fact(tr("Offcuts kept"), lumber(t.offcutsKept));
    m_sheet->fact(tr("Fills"), QString::number(t.fills));
    m_sheet->fact(tr("Cost"), words(formatMoney(t.cost, document.info.currency)));
    choiceCost(*plan);
    m_sheet->sentence(
        tr("Click a board, a blank or a knot, or a part in the list, to read about it here."));
}

void SelectionPanel::boardFacts(const Board& board, const Plan* plan) {
    const Document& document = m_session.document();
    const Species* species = findSpecies(board.species);
    m_sheet->heading(tr("Board %1").arg(words(board.mark)),
                     tr("%1/4 %2")
                         .arg(board.quarter.quarters)
                         .arg(species != nullptr ? words(species->name) : words(board.species)));
    m_sheet->fact(tr("Size"), size(widthOf(board), lengthOf(board)));
    m_sheet->fact(tr("Measure"), words(lumberText(boardFeetOf(board), document.info.units)));
    m_sheet->fact(
        tr("Cost"),
        tr("%1 at %2 a %3")
            .arg(words(formatMoney(costOf(board), document.info.currency)),
                 words(formatMoney(pricePerLumberUnit(board.pricePerBoardFoot, document.info.units),
                                   document.info.currency)),
                 words(lumberUnit(document.info.units))));
    m_sheet->fact(tr("Thinnest spot"), length(board.thinnest));
    const Warp& warp = board.warp;
    if (warp.bow == Length() && warp.cup == Length() && warp.twist == Length()) {
        m_sheet->fact(tr("Warp"), tr("flat"));
    } else {
        QStringList parts;
        if (warp.bow != Length()) {
            parts << tr("bow %1").arg(length(warp.bow));
        }
        if (warp.cup != Length()) {
            parts << tr("cup %1").arg(length(warp.cup));
        }
        if (warp.twist != Length()) {
            parts << tr("twist %1").arg(length(warp.twist));
        }
        m_sheet->fact(tr("Warp"), parts.join(", "));
    }
    const Length left = reachableThickness(board, {Length(), lengthOf(board)}, widthOf(board),
                                           document.shop.cleaning);
    m_sheet->fact(tr("Faced whole"),
                  tr("leaves %1; shorter sections leave more").arg(length(left)));
    if (board.setAside) {
        m_sheet->sentence(tr("Set aside: nothing is cut from it."), Sign::Triangle);
    }
    if (!board.notes.empty()) {
        m_sheet->sentence(words(board.notes));
    }

    const BoardLayout* layout = nullptr;
    if (plan != nullptr) {
        for (const BoardLayout& candidate : plan->boards) {
            layout = candidate.board == board.id ? &candidate : layout;
        }
    }
    m_sheet->section(tr("In the plan"));
    if (layout == nullptr || layout->sections.empty()) {
        m_sheet->sentence(plan == nullptr ? tr("Not planned yet.") : tr("Not used; stays whole."));
    } else {
        Plan only;
        only.boards.push_back(*layout);
        if (const Result<PlanTotals> totals = totalsOf(document, only)) {
            const PlanTotals& t = totals.value();
            m_sheet->fact(tr("Blanks"), QString::number(t.placed));
            m_sheet->fact(tr("Yield, rough"), words(formatShare(t.blanks, t.lumberUsed)));
            m_sheet->fact(tr("Yield, finished"), words(formatShare(t.parts, t.lumberUsed)));
            m_sheet->fact(tr("Offcuts kept"), lumber(t.offcutsKept));
        }
        for (const Section& section : layout->sections) {
            if (section.strips.empty()) {
                continue; // waste and offcuts are not faced
            }
            const Length reached = reachableThickness(board, section.along,
                                                      section.facing == FirstFacing::Whole
                                                          ? widthOf(board)
                                                          : section.strips.front().across.length(),
                                                      document.shop.cleaning);
            m_sheet->sentence(
                (section.facing == FirstFacing::Whole
                     ? tr("Section %1 to %2, faced whole: leaves %3.")
                     : tr("Section %1 to %2, ripped on the band saw before facing: leaves %3."))
                    .arg(reading(section.along.from), reading(section.along.to), length(reached)));
        }
    }

    if (!m_isPreview) {
        boardShop(board);
    }
    m_sheet->section(tr("Defects: %1").arg(board.defects.size()));
    for (const Defect& defect : board.defects) {
        const Rect box = boundingBox(defect.onA ? defect.onA->outline : defect.onB->outline);
        const QString faces = defect.through || (defect.onA && defect.onB) ? tr("both faces")
                              : defect.onA                                 ? tr("face A")
                                                                           : tr("face B");
        m_sheet->link(tr("%1  %2, %3, at %4, %5")
                          .arg(words(defect.mark), words(nameOf(defect.kind)),
                               length(sizeOf(defect)), reading(box.x0), faces),
                      Sign::None, [this, board = board.id, id = defect.id] {
                          Selection selection;
                          selection.board = board;
                          selection.defect = id;
                          m_session.select(selection);
                      });
    }
}

void SelectionPanel::partFacts(const Part& part, const Plan* plan) {
    const Document& document = m_session.document();
    m_sheet->heading(tr("%1  %2").arg(words(part.mark), words(part.name)),
                     part.group.empty() ? QString() : words(part.group));
    const auto finished = [&](Dimension dimension) {
        const Result<Length> value = resolvedSize(document, part, dimension);
        return value ? length(value.value()) : tr("not known");
    };
    m_sheet->fact(tr("Count"), QString::number(part.count));
    m_sheet->fact(tr("Finished"),
                  tr("%1 × %2 × %3")
                      .arg(finished(Dimension::Thickness), finished(Dimension::Width),
                           finished(Dimension::Length)));
    if (part.makeUp.lamination) {
        m_sheet->fact(tr("Made up"),
                      tr("%1 plies glued face to face").arg(part.makeUp.lamination->plies));
    }
    if (part.makeUp.panel) {
        m_sheet->fact(tr("Made up"), tr("edge-glued from staves %1 to %2 wide")
                                         .arg(length(part.makeUp.panel->leastStave),
                                              length(part.makeUp.panel->widestStave)));
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (specs) {
        for (const BlankSpec& spec : specs.value()) {
            if (spec.part == part.id && spec.ply <= 1) {
                sizeSums(spec);
            }
        }
    }
    if (plan != nullptr) {
        m_sheet->section(tr("Not placed"));
        bool any = false;
        for (const Unplaced& item : plan->unplaced) {
            if (item.purpose.part == part.id) {
                any = true;
                m_sheet->sentence(tr("%1: %2").arg(words(labelOf(document, item.purpose)),
                                                   words(item.nearestMiss)),
                                  Sign::Triangle);
            }
        }
        if (!any) {
            m_sheet->sentence(tr("Nothing: all of it is placed."), Sign::Tick);
        }
    }
}

void SelectionPanel::blankFacts(BlankId id, const Plan* plan) {
    const Document& document = m_session.document();
    const Place place = placeOf(*plan, id);
    const Blank& blank = *place.blank;
    const Board* board = findBoard(document, place.layout->board);
    const Part* part = findPart(document, blank.purpose.part);
    m_sheet->heading(words(labelOfAll(document, blank.purpose)),
                     part != nullptr ? words(part->name) : QString());
    if (board != nullptr) {
        m_sheet->factLink(tr("From"), tr("Board %1").arg(words(board->mark)),
                          [this, target = board->id] { selectBoard(target); });
    }
    const auto exact = [this](Length one, Length two) {
        const LengthStyle style = m_session.lengthStyle();
        const bool whole = exactTip(one, style).isEmpty() && exactTip(two, style).isEmpty();
        return whole ? QString()
                     : tr("exactly %1 and %2").arg(exactText(one, style), exactText(two, style));
    };
    m_sheet->fact(tr("Rough size"), size(blank.rect.width(), blank.rect.length()));
    m_sheet->tipOfLast(exact(blank.rect.width(), blank.rect.length()));
    const Rect box = boundingBox(toOuter(place.section->frame, blank.rect));
    m_sheet->fact(tr("Along"),
                  tr("%1 to %2 from the datum end").arg(reading(box.x0), reading(box.x1)));
    m_sheet->tipOfLast(exact(box.x0, box.x1));
    m_sheet->fact(tr("Across"),
                  tr("%1 to %2 from the near edge").arg(reading(box.y0), reading(box.y1)));
    m_sheet->tipOfLast(exact(box.y0, box.y1));
    QString lies = blank.pose.endForEnd ? tr("turned end for end") : tr("as the board lies");
    lies += blank.pose.faceOver ? tr(", its face A under") : tr(", its face A up");
    m_sheet->fact(tr("Lies"), lies);
    if (blank.locked || place.section->locked || place.layout->locked) {
        m_sheet->fact(tr("Lock"), tr("locked: planning leaves it where it is"));
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    const BlankSpec* spec = specs ? specOf(specs.value(), blank.purpose) : nullptr;
    if (spec != nullptr && board != nullptr) {
        const Length reached = reachableThickness(*board, place.section->along,
                                                  place.section->facing == FirstFacing::Whole
                                                      ? widthOf(*board)
                                                      : place.strip->across.length(),
                                                  document.shop.cleaning);
        m_sheet->fact(tr("Thickness"),
                      tr("wants %1 when planed; the section leaves %2")
                          .arg(length(spec->thicknessWanted), length(reached)),
                      reached >= spec->thicknessWanted ? Sign::Tick : Sign::Triangle);
        sizeSums(*spec);
    }
    if (!m_isPreview) {
        choiceCost(*plan);
        byHand();
        blankShop(id);
        whyHere(id);
    }
}

void SelectionPanel::whyHere(BlankId id) {
    m_sheet->section(tr("Why on this board?"));
    if (m_shown.asked == id && m_shown.isAsking) {
        m_sheet->sentence(tr("Planning without it there..."));
        m_sheet->link(tr("Stop"), Sign::None, [this] { emit whyStopped(); });
    } else if (m_shown.asked == id && !m_shown.why.isEmpty()) {
        m_sheet->sentence(m_shown.why);
    } else {
        m_sheet->link(tr("Plan without it there, and see (F7)"), Sign::None,
                      [this, id] { emit whyAsked(id); });
    }
}

void SelectionPanel::sizeSums(const BlankSpec& spec) {
    m_sheet->beginFold(tr("Why this size?"), tr("Why this size?"), m_sumsOpen,
                       [this](bool open) { m_sumsOpen = open; });
    LengthStyle style = m_session.lengthStyle();
    style.denominator = 64; // a sum is shown so that it adds up
    const auto fine = [&style](Length value) { return words(formatLength(value, style)); };
    // The walk goes stage by stage; it is read as one sum for each dimension.
    for (const Dimension dimension : {Dimension::Length, Dimension::Width, Dimension::Thickness}) {
        bool first = true;
        for (const SumLine& line : spec.sums) {
            if (line.dimension != dimension) {
                continue;
            }
            if (first) {
                const QString name = dimension == Dimension::Length  ? tr("Length")
                                     : dimension == Dimension::Width ? tr("Width")
                                                                     : tr("Thickness");
                m_sheet->sumLine(name, tr("adds"), tr("is then"), true);
            }
            m_sheet->sumLine(words(line.text), first ? QString() : fine(line.amount),
                             fine(line.after), false);
            first = false;
        }
    }
    m_sheet->endFold();
}

void SelectionPanel::findings(const Plan* plan) {
    if (plan == nullptr) {
        return;
    }
    m_sheet->section(tr("Audit"));
    if (m_isPreview) {
        m_sheet->sentence(
            m_shown.title.isEmpty()
                ? tr("The plan is audited when planning ends.")
                : tr("Audit clean. This plan is only shown; the job has not taken it."),
            m_shown.title.isEmpty() ? Sign::None : Sign::Tick);
        if (m_session.document().plan) {
            m_sheet->link(tr("Show the job's own plan, to work on it"), Sign::None,
                          [this] { emit ownPlanWanted(); });
        }
        return;
    }
    const AuditReport& report = m_session.auditReport();
    if (report.passed()) {
        m_sheet->sentence(tr("Audit clean."), Sign::Tick);
    }
    for (const Finding& finding : report.findings) {
        m_sheet->link(words(finding.sentence),
                      finding.severity == Severity::Failure ? Sign::Cross : Sign::Triangle,
                      [this, finding] { selectFinding(finding); });
    }
}

void SelectionPanel::selectBoard(BoardId id) {
    Selection selection;
    selection.board = id;
    m_session.select(selection);
}

void SelectionPanel::selectFinding(const Finding& finding) {
    Selection selection;
    if (finding.board.isSet()) {
        selection.board = finding.board;
    }
    if (finding.blank.isSet()) {
        selection.blank = finding.blank;
    }
    if (finding.part.isSet()) {
        selection.part = finding.part;
    }
    if (finding.defect.isSet() && !selection.blank) {
        selection.defect = finding.defect;
    }
    m_session.select(selection);
}

} // namespace stavewright::ui
