// What the maker does in the place Glue-up: arrange, take what was found, wish and weigh.

#include <QCheckBox>
#include <QComboBox>

#include <algorithm>
#include <utility>

#include "core/panels/PanelEdits.h"
#include "core/panels/TermWords.h"
#include "ui/glueup/ArrangeRun.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/PanelPhotos.h"
#include "ui/glueup/RingWishes.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

bool GlueUpView::change(const QString& step, const Result<Edit>& edit) {
    if (!edit) {
        m_banner->showMessage(Sign::Cross, words(describe(edit.error())));
        return false;
    }
    m_banner->dismiss();
    return m_session.edit(step, edit.value());
}

bool GlueUpView::changeOrder(const QString& step, const Result<Edit>& edit) {
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return false;
    }
    const auto formerly = m_before;
    keepAsBefore(panel->name);
    m_showsBefore = false;
    if (!change(step, edit)) {
        m_before = formerly;
        return false;
    }
    return true;
}

void GlueUpView::arrange() {
    stopBlinking();
    if (m_block) {
        return pairPlies();
    }
    if (m_run->isRunning()) {
        return m_run->stop();
    }
    if (std::exchange(m_awaitsColours, false)) {
        m_banner->dismiss();
        return refreshTools();
    }
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return;
    }
    if (m_photos->coloursAreComing()) { // an arrangement without them would be for nothing
        m_awaitsColours = true;
        m_banner->showMessage(Sign::Triangle,
                              tr("The photographs are being made ready; the panel "
                                 "is arranged as soon as their colours are known."));
        return refreshTools();
    }
    const panels::Panel* partner = panels::partnerOf(m_panels, *panel);
    m_run->start(*panel, partner != nullptr ? std::optional(*partner) : std::nullopt);
    refreshTools();
}

void GlueUpView::take(const panels::Proposal& proposal) {
    const auto noteProved = [this, &proposal] {
        for (const PanelName& name : proposal.panels) {
            m_proved[name] = proposal.proved;
        }
        showPanel();
    };
    const JobInfo info = m_session.document().info;
    if (!proposal.isBetter) {
        m_banner->showMessage(
            Sign::Tick, proposal.proved == glueup::Proved::Best
                            ? tr("Nothing is better than the panel as it stands: proved best.")
                            : tr("Nothing better was found; the panel stays as it is."));
        refreshTools();
        noteProved();
        return;
    }
    for (const PanelName& name : proposal.panels) {
        if (const panels::Panel* panel = findPanel(m_panels, name)) {
            m_before[name] = *panel;
        }
    }
    m_showsBefore = false;
    if (change(tr("Arrange panel"), panels::editFor(m_session.document(), m_panels, proposal))) {
        noteProved(); // after the change, with which all that was proved before is gone
        QStringList worse;
        for (const std::string& line :
             panels::whatGotWorse(proposal.before, proposal.after, info)) {
            worse << words(line);
        }
        m_banner->showMessage(
            worse.isEmpty() ? Sign::Tick : Sign::Triangle,
            tr("From %1 to %2 points, %3. %4")
                .arg(words(panels::pointsText(proposal.before.total)),
                     words(panels::pointsText(proposal.after.total)),
                     words(panels::nameOf(proposal.proved)),
                     worse.isEmpty() ? tr("Nothing got worse.")
                                     : tr("Worse: %1.").arg(worse.join(QStringLiteral("; ")))));
    }
    refreshTools();
}

/// What the plan moved has been looked at; from here on only what it moves then is told.
void GlueUpView::keepAsItStands() {
    if (const panels::Panel* panel = shown()) {
        change(tr("Keep %1 as it stands").arg(words(panel->label)),
               panels::arranged(m_session.document(), *panel, panel->order));
        m_canvas->setFocus(); // the words that were pressed are gone
    }
}

void GlueUpView::setWishes() {
    const panels::Panel* panel = shown();
    if (m_filling || panel == nullptr) {
        return;
    }
    panels::PanelWishes wishes;
    wishes.rings = ringWishes[static_cast<std::size_t>(std::max(0, m_rings->currentIndex()))];
    wishes.noCentreSeam = m_noCentreSeam->isChecked();
    if (m_matches->currentIndex() > 0) {
        const auto index = static_cast<std::size_t>(m_matches->currentData().toLongLong());
        if (index < m_panels.size()) {
            wishes.matches = m_panels[index].name;
        }
    }
    change(tr("Change what is wished of %1").arg(words(panel->label)),
           panels::wished(m_session.document(), *panel, wishes));
}

void GlueUpView::setWeight(GlueTerm term, int hundredths) {
    GlueUp glueUp = m_session.document().glueUp;
    glueUp.settings.weights.hundredths[static_cast<std::size_t>(term)] = hundredths;
    change(tr("Weigh %1").arg(words(panels::nameOf(term)).toLower()),
           Edit{ReplaceGlueUp{std::move(glueUp)}});
}

void GlueUpView::selectStave(std::size_t place) {
    const panels::Panel* panel = shown();
    if (panel == nullptr || place >= panel->order.size()) {
        return;
    }
    const panels::PanelStave& stave = panel->staveAt(place);
    Selection selection;
    selection.board = stave.board;
    selection.part = panel->name.part;
    selection.blank = stave.blank;
    m_session.select(selection);
    fillFacts();
}

QString GlueUpView::labelAt(std::size_t place) const {
    const panels::Panel* panel = shown();
    return panel != nullptr && place < panel->order.size() ? words(panel->staveAt(place).label)
                                                           : QString();
}

} // namespace stavewright::ui
