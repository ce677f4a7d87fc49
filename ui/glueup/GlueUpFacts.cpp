// The right pane of the place Glue-up below its table of terms: the picked stave, what speaks
// against gluing, what the plan moved, and the bench's figures.

#include "ui/glueup/GlueUpView.h"

#include <QTimer>
#include <QToolButton>

#include <algorithm>
#include <cmath>

#include "core/glueup/LaidPlace.h"
#include "core/panels/BenchWords.h"
#include "core/panels/Fills.h"
#include "core/panels/PanelChecks.h"
#include "core/panels/PanelEdits.h"
#include "core/panels/TermWords.h"
#include "core/units/SaidLength.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/layout/FactSheet.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString said(Length length, const JobInfo& info) {
    return words(saidLength(length, {info.units, info.inchDenominator, true}));
}

} // namespace

void GlueUpView::fillFacts() {
    m_facts->clear();
    if (m_block && *m_block < m_blocks.size()) {
        blockFacts(m_blocks[*m_block]);
        m_facts->finish();
        return;
    }
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        m_facts->finish();
        return;
    }
    const JobInfo& info = m_session.document().info;
    if (const auto place = m_canvas->selected(); place && *place < panel->order.size()) {
        staveFacts(*panel, *place);
    }
    for (const std::string& sentence : panel->moved) {
        m_facts->sentence(words(sentence), Sign::Triangle);
    }
    if (!panel->isGlued && !panels::standsAsArranged(*panel)) {
        m_facts->link(tr("Seen: it stands well as it is"), Sign::None,
                      [this] { keepAsItStands(); });
    }
    m_facts->section(tr("Before the glue is open"));
    const auto findings = panels::checkPanel(m_session.document(), *panel);
    for (const panels::PanelFinding& finding : findings) {
        m_facts->sentence(words(finding.sentence),
                          finding.isRefusal ? Sign::Cross : Sign::Triangle);
    }
    if (findings.empty()) {
        m_facts->sentence(tr("Ready to glue."), Sign::Tick);
    }
    const std::string width = panels::widthChangeText(panels::widthChangeOf(*panel), info);
    const std::string cup = panels::cupText(*panel, info);
    m_facts->fact(tr("Forecast"), cup.empty() ? tr("it %1").arg(words(width))
                                              : tr("it %1 and %2").arg(words(width), words(cup)));
    if (const std::string unknown = panels::cupUnknownOf(*panel); !unknown.empty()) {
        m_facts->sentence(words(unknown));
    }
    const GlueSettings& settings = m_session.document().glueUp.settings;
    m_facts->fact(tr("Moisture"), tr("to %1 % in use, from what each board has now (%2 % where it "
                                     "was not measured)")
                                      .arg(settings.moistureInUseTenths / 10.0)
                                      .arg(settings.moistureTenths / 10.0));
    practiceFacts(*panel);
    m_facts->finish();
    QTimer::singleShot(0, m_facts, [facts = m_facts] { // once its lines know how wide they are
        facts->setMinimumHeight(0);
        facts->setMinimumHeight(std::max(0, facts->heightForWidth(facts->width())));
    });
}

void GlueUpView::staveFacts(const panels::Panel& panel, std::size_t place) {
    const JobInfo& info = m_session.document().info;
    const panels::PanelStave& stave = panel.staveAt(place);
    const auto& wood = panel.problem.staves[static_cast<std::size_t>(panel.order[place].stave)];
    const Pose pose = glueup::poseOf(panel.order[place].pose);
    m_facts->heading(
        words(stave.label),
        tr("place %1 of %2 from the near edge").arg(place + 1).arg(panel.order.size()));
    m_facts->factLink(
        tr("Comes from"),
        tr("board %1, from %2")
            .arg(words(stave.boardMark), readingText(stave.woodAt, m_session.lengthStyle())),
        [this] { emit layoutWanted(); });
    m_facts->fact(tr("Net width"), said(stave.net.width(), info));
    m_facts->fact(tr("Lies"), pose.endForEnd ? (pose.faceOver ? tr("face B up, end for end")
                                                              : tr("face A up, end for end"))
                                             : (pose.faceOver ? tr("face B up") : tr("face A up")));
    pictureFacts(panel, place);
    const int planing = glueup::planingInPanel(wood, pose);
    m_facts->fact(tr("Goes in first"), planing == 0  ? tr("not noted")
                                       : planing > 0 ? tr("its right end, as it lies here")
                                                     : tr("its left end, as it lies here"));
    const int heart = glueup::heartInPanel(wood, pose);
    m_facts->fact(tr("Heart side"), heart == 0  ? tr("none, or not noted")
                                    : heart > 0 ? tr("up")
                                                : tr("down"));
    const Length cup = panels::staveCup(panel, place);
    m_facts->fact(tr("Its own cup"),
                  cup == Length() ? tr("none forecast")
                                  : tr("%1 %2").arg(words(panels::fineText(abs(cup), info)),
                                                    cup > Length() ? tr("hollow") : tr("round")));
}

/// What the picture of the stave is, on the face that is looked at, and what it tells.
void GlueUpView::pictureFacts(const panels::Panel& panel, std::size_t place) {
    const panels::PanelStave& stave = panel.staveAt(place);
    const auto& wood = panel.problem.staves[static_cast<std::size_t>(panel.order[place].stave)];
    const Pose pose = glueup::poseOf(panel.order[place].pose);
    const BoardFace face = pose.faceOver != m_back->isChecked() ? BoardFace::B : BoardFace::A;
    const Board* board = findBoard(m_session.document(), stave.board);
    const bool isLaid = glueup::laidPlaceOf(m_session.document().glueUp.laidOut, stave.board, face,
                                            stave.frame, stave.net)
                            .has_value();
    const bool isPhotographed =
        board != nullptr && std::any_of(board->photos.begin(), board->photos.end(),
                                        [&](const BoardPhoto& each) { return each.face == face; });
    m_facts->fact(tr("Picture"), isLaid           ? tr("the staves laid out")
                                 : isPhotographed ? tr("photograph of its board")
                                                  : tr("drawn, there is no photograph"));
    const auto near = glueup::linesAt(wood, pose, glueup::Side::Near);
    const auto far = glueup::linesAt(wood, pose, glueup::Side::Far);
    const auto lines = [](const std::optional<glueup::EdgeLines>& edge) {
        return edge ? tr("%1° (%2 % sure)")
                          .arg(std::lround(edge->angleTenths / 10.0))
                          .arg(edge->surePercent)
                    : tr("not plain");
    };
    if (near || far) {
        m_facts->fact(tr("Lines of the figure"),
                      tr("near edge %1, far edge %2").arg(lines(near), lines(far)));
    }
}

void GlueUpView::practiceFacts(const panels::Panel& panel) {
    const JobInfo& info = m_session.document().info;
    const panels::GluePractice practice = panels::practiceFor(m_session.document(), panel);
    const auto clamps = [&info](int count, Length spacing) {
        return words(panels::clampsText(count, spacing, info));
    };
    m_facts->section(tr("At the bench"));
    int number = 0;
    const bool isWhole = practice.subPanels.size() == 1;
    for (const panels::SubPanel& subPanel : practice.subPanels) {
        QStringList labels;
        for (std::size_t place = subPanel.first; place <= subPanel.last; ++place) {
            labels << words(panel.staveAt(place).label);
        }
        const bool isGlued = subPanel.last > subPanel.first;
        m_facts->fact(
            isWhole ? tr("In one go") : tr("Sub-panel %1").arg(++number),
            tr("%1: %2 wide%3")
                .arg(labels.join(QStringLiteral(", ")), said(subPanel.width, info),
                     isGlued ? QStringLiteral("; ") + clamps(subPanel.clamps, subPanel.clampSpacing)
                             : QString()));
    }
    if (practice.lastJoints > 0) {
        m_facts->fact(tr("Last"), (practice.lastJoints == 1
                                       ? tr("the joint between the sub-panels; %1")
                                       : tr("%1 joints between the sub-panels, one at a time; %2")
                                             .arg(practice.lastJoints))
                                      .arg(clamps(practice.lastClamps, practice.lastSpacing)));
    }
    m_facts->fact(tr("Pressure"),
                  tr("%1; a glue maker asks %2 of hardwoods. Where joints fit, the spacing is the "
                     "working rule.")
                      .arg(words(panels::pressureText(m_session.document(), practice.leastPounds)),
                           words(panels::makersPressureText(info))));
    m_facts->fact(tr("Glue"),
                  words(panels::glueText(practice.millilitres, practice.glueArea, info)));
    if (const std::string fills =
            panels::fillSentence(m_session.document(), panel, m_session.auditReport().fills);
        !fills.empty()) {
        m_facts->sentence(words(fills));
    }
    for (const std::string& caution : panels::cautionsFor(panel, practice, info)) {
        m_facts->sentence(words(caution), Sign::Triangle);
    }
}

void GlueUpView::blockFacts(const panels::Block& block) {
    m_facts->heading(words(block.label), tr("laminated block"));
    for (const panels::BlockPly& ply : block.plies) {
        m_facts->fact(words(ply.label),
                      tr("board %1, heart %2")
                          .arg(words(ply.boardMark), ply.heartUp == 0  ? tr("not noted")
                                                     : ply.heartUp > 0 ? tr("towards face A")
                                                                       : tr("towards face B")));
    }
    for (const std::string& sentence : block.advice) {
        m_facts->sentence(words(sentence));
    }
    m_facts->section(tr("At the bench"));
    for (const std::string& sentence : panels::benchLines(m_session.document(), block)) {
        m_facts->sentence(words(sentence));
    }
}

} // namespace stavewright::ui
