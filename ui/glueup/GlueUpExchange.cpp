// What the maker exchanges in the place Glue-up: staves with the panel that this one matches, and
// the plies of laminated blocks.

#include <QMenu>

#include "core/panels/PanelEdits.h"
#include "core/panels/PlyEdits.h"
#include "core/units/SaidLength.h"
#include "ui/glueup/BlockCanvas.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

void GlueUpView::keepAsBefore(const PanelName& name) {
    if (const panels::Panel* panel = findPanel(m_panels, name)) {
        m_before[name] = *panel;
    }
}

void GlueUpView::exchangeStave(std::size_t place) {
    const panels::Panel* panel = shown();
    if (panel == nullptr || place >= panel->order.size()) {
        return;
    }
    const panels::Panel* partner = panels::partnerOf(m_panels, *panel);
    if (partner == nullptr) {
        m_banner->showMessage(Sign::Triangle,
                              tr("Choose the panel that this one matches; its staves can be "
                                 "exchanged then."));
        return;
    }
    auto* menu = new QMenu(tr("Exchange %1 for").arg(labelAt(place)), this);
    menu->setObjectName("glueUpExchange");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addSection(menu->title());
    const JobInfo& info = m_session.document().info;
    for (std::size_t other = 0; other < partner->order.size(); ++other) {
        const panels::PanelStave& stave = partner->staveAt(other);
        QAction* action =
            menu->addAction(tr("&%1  %2, board %3, %4 wide")
                                .arg(other + 1)
                                .arg(words(stave.label), words(stave.boardMark),
                                     words(saidLength(stave.net.width(),
                                                      {info.units, info.inchDenominator, true}))));
        connect(action, &QAction::triggered, this, [this, place, other] {
            const panels::Panel* one = shown();
            const panels::Panel* two = one ? panels::partnerOf(m_panels, *one) : nullptr;
            if (two == nullptr || place >= one->order.size() || other >= two->order.size()) {
                return;
            }
            const QString step =
                tr("Exchange %1 for %2").arg(labelAt(place), words(two->staveAt(other).label));
            const auto formerly = m_before;
            const Result<Edit> edit = exchanged(m_session.document(), *one, place, *two, other);
            for (const PanelName& name : {PanelName(one->name), PanelName(two->name)}) {
                keepAsBefore(name);
            }
            m_showsBefore = false;
            if (change(step, edit)) {
                m_canvas->setSelected(place);
                selectStave(place); // the one that came
                m_banner->showMessage(Sign::Tick,
                                      tr("The two changed panels; where they are cut from stays. "
                                         "Chalk them anew if they are cut already."));
            } else {
                m_before = formerly;
            }
        });
    }
    menu->popup(m_canvas->mapToGlobal(m_canvas->boxOf(place).center().toPoint()));
}

// ---- plies --------------------------------------------------------------------------------------

void GlueUpView::connectBlock() {
    const auto turn = [this](panels::Turn how, const QString& step) {
        return [this, how, step](std::size_t ply) {
            if (m_block && *m_block < m_blocks.size()) {
                const QString name = words(m_blocks[*m_block].plies[ply].label);
                changePlies(step.arg(name),
                            plyTurned(m_session.document(), m_blocks, {*m_block, ply}, how));
            }
        };
    };
    connect(m_blockCanvas, &BlockCanvas::faceOverWanted, this,
            turn(panels::Turn::FaceOver, tr("Roll %1 over")));
    connect(m_blockCanvas, &BlockCanvas::endForEndWanted, this,
            turn(panels::Turn::EndForEnd, tr("Turn %1 end for end")));
    connect(m_blockCanvas, &BlockCanvas::moveWanted, this,
            [this](std::size_t from, std::size_t to) {
                if (m_block && *m_block < m_blocks.size() &&
                    changePlies(tr("Swap plies of %1").arg(words(m_blocks[*m_block].label)),
                                pliesExchanged(m_session.document(), m_blocks, {*m_block, from},
                                               {*m_block, to}))) {
                    m_blockCanvas->setSelected(to);
                }
            });
    connect(m_blockCanvas, &BlockCanvas::exchangeWanted, this, &GlueUpView::exchangePly);
    connect(m_blockCanvas, &BlockCanvas::arrangeWanted, this, &GlueUpView::pairPlies);
    connect(m_blockCanvas, &BlockCanvas::layoutWanted, this, &GlueUpView::layoutWanted);
    connect(m_blockCanvas, &BlockCanvas::picked, this, [this](std::size_t ply) {
        if (m_block && *m_block < m_blocks.size()) {
            const panels::BlockPly& picked = m_blocks[*m_block].plies[ply];
            Selection selection;
            selection.board = picked.board;
            selection.part = m_blocks[*m_block].part;
            selection.blank = picked.blank;
            m_session.select(selection);
        }
    });
}

bool GlueUpView::changePlies(const QString& step, const Result<Edit>& edit) {
    return change(step, edit);
}

void GlueUpView::exchangePly(std::size_t ply) {
    if (!m_block || *m_block >= m_blocks.size()) {
        return;
    }
    const panels::Block& block = m_blocks[*m_block];
    auto* menu = new QMenu(tr("Exchange %1 for").arg(words(block.plies[ply].label)), this);
    menu->setObjectName("glueUpExchange");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addSection(menu->title());
    for (std::size_t b = 0; b < m_blocks.size(); ++b) {
        for (std::size_t p = 0; p < m_blocks[b].plies.size(); ++p) {
            if (m_blocks[b].part != block.part || b == *m_block) {
                continue;
            }
            const panels::BlockPly& other = m_blocks[b].plies[p];
            QAction* action =
                menu->addAction(tr("%1, board %2").arg(words(other.label), words(other.boardMark)));
            connect(action, &QAction::triggered, this, [this, ply, b, p] {
                if (m_block && *m_block < m_blocks.size() && b < m_blocks.size()) {
                    changePlies(
                        tr("Exchange %1 for %2")
                            .arg(words(m_blocks[*m_block].plies[ply].label),
                                 words(m_blocks[b].plies[p].label)),
                        pliesExchanged(m_session.document(), m_blocks, {*m_block, ply}, {b, p}));
                }
            });
        }
    }
    if (menu->actions().size() < 2) {
        delete menu;
        m_banner->showMessage(Sign::Triangle, tr("There is no other block of this part."));
        return;
    }
    menu->popup(m_blockCanvas->mapToGlobal(m_blockCanvas->boxOf(ply).center().toPoint()));
}

void GlueUpView::pairPlies() {
    if (!m_block || *m_block >= m_blocks.size()) {
        return;
    }
    const Result<panels::PairingProposal> found =
        panels::pairedPlies(m_session.document(), m_blocks[*m_block].part);
    if (!found) {
        m_banner->showMessage(Sign::Cross, words(describe(found.error())));
        return;
    }
    const panels::PairingFigures& before = found.value().before;
    const panels::PairingFigures& after = found.value().after;
    const auto said = [](const panels::PairingFigures& figures) {
        return tr("%1 seams bark to bark, %2 heart to heart, %3 with hearts the same way, "
                  "%4 blocks of several boards")
            .arg(figures.barksMeet)
            .arg(figures.heartsMeet)
            .arg(figures.sameWay)
            .arg(figures.ofTwoBoards);
    };
    if (!found.value().edit) {
        m_banner->showMessage(Sign::Tick, tr("Nothing better was found: %1.").arg(said(after)));
        return;
    }
    if (changePlies(tr("Pair plies"), *found.value().edit)) {
        m_banner->showMessage(Sign::Tick, tr("Now %1. Before: %2.").arg(said(after), said(before)));
    }
}

} // namespace stavewright::ui
