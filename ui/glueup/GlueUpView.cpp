#include "ui/glueup/GlueUpView.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTimer>
#include <QToolButton>

#include <algorithm>
#include <array>
#include <utility>

#include "core/panels/PanelEdits.h"
#include "core/panels/TermWords.h"
#include "ui/glueup/ArrangeRun.h"
#include "ui/glueup/BlockCanvas.h"
#include "ui/glueup/LaidDesk.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/PanelPhotos.h"
#include "ui/glueup/RingWishes.h"
#include "ui/glueup/TermTable.h"
#include "ui/layout/FactSheet.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/EmptyState.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// Its staves are still what they were then, in this panel or another.
bool stillStands(const panels::Panel& before, const std::vector<panels::Panel>& panels) {
    return std::all_of(
        before.staves.begin(), before.staves.end(), [&](const panels::PanelStave& then) {
            return std::any_of(panels.begin(), panels.end(), [&](const panels::Panel& panel) {
                return std::any_of(panel.staves.begin(), panel.staves.end(),
                                   [&](const panels::PanelStave& now) {
                                       return now.blank == then.blank && now.board == then.board &&
                                              now.net == then.net && now.at == then.at;
                                   });
            });
        });
}

/// What is known of its wood may have changed since: photographs tell colours when they are ready.
void knowAnew(panels::Panel& before, const std::vector<panels::Panel>& panels) {
    for (std::size_t i = 0; i < before.staves.size(); ++i) {
        for (const panels::Panel& panel : panels) {
            for (std::size_t k = 0; k < panel.staves.size(); ++k) {
                if (panel.staves[k].blank == before.staves[i].blank) {
                    before.problem.staves[i] = panel.problem.staves[k];
                }
            }
        }
    }
}

} // namespace

GlueUpView::GlueUpView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_banner(new Banner(this))
    , m_stack(new QStackedWidget(this))
    , m_list(new QListWidget(this))
    , m_canvas(new PanelCanvas(this))
    , m_blockCanvas(new BlockCanvas(this))
    , m_pictures(new QStackedWidget(this))
    , m_laid(new LaidDesk(
          session, [this] { return shown(); }, this))
    , m_terms(new TermTable(this))
    , m_facts(new FactSheet(this))
    , m_total(new QLabel(this))
    , m_run(new ArrangeRun(this))
    , m_photos(new PanelPhotos(session, this)) {
    setObjectName("glueUpPlace");
    build();
    setFocusProxy(m_canvas);
    connectBlock();
    m_canvas->setPhotos(m_photos->pictures());
    connect(m_photos, &PanelPhotos::pictureReady, m_canvas, qOverload<>(&QWidget::update));
    connect(m_photos, &PanelPhotos::coloursReady, this, &GlueUpView::takeColours);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_run->discard();
        m_awaitsColours = false;
        m_before.clear();
        m_proved.clear();
        m_name.reset();
        m_block.reset();
        markStale();
    });
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.boards || scope.parts || scope.plan || scope.shop || scope.info || scope.glueUp ||
            scope.photos) {
            if (m_run->isRunning()) {
                m_run->discard();
                m_banner->showMessage(Sign::Triangle,
                                      tr("The job changed while the panel was being arranged; what "
                                         "was found is left out."));
            }
            m_proved.clear(); // also where a step is taken back
            markStale();
        }
    });
    connect(&m_session, &DocumentSession::selectionChanged, this, &GlueUpView::pickFromSelection);
    connect(m_run, &ArrangeRun::finished, this, &GlueUpView::take);
    connect(m_list, &QListWidget::currentRowChanged, this, [this](int row) {
        if (m_filling || row < 0) {
            return;
        }
        const auto index = static_cast<std::size_t>(row);
        stopBlinking();
        m_showsBefore = false;
        Selection selection; // a stave of the panel before would draw the view back to it
        if (index < m_panels.size()) {
            m_block.reset();
            selection.part = m_panels[index].name.part;
            choose(m_panels[index].name);
        } else {
            m_block = index - m_panels.size();
            selection.part = m_blocks[*m_block].part;
            showPanel();
        }
        m_session.select(selection);
    });
}

GlueUpView::~GlueUpView() = default;

const panels::Panel* GlueUpView::shown() const {
    return m_name && !m_block ? findPanel(m_panels, *m_name) : nullptr;
}

bool GlueUpView::isArranging() const { return m_run->isRunning() || m_awaitsColours; }

void GlueUpView::takeColours() {
    // What is being arranged has other values now.
    const bool again = m_run->isRunning() || std::exchange(m_awaitsColours, false);
    if (m_run->isRunning()) {
        m_run->discard();
    }
    m_proved.clear(); // what was proved did not know of the colours
    markStale();
    if (again) {
        arrange();
    }
}

// ---- what is shown ------------------------------------------------------------------------------

void GlueUpView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) {
        rebuild();
    }
    pickFromSelection(); // something else may have been picked in another place
}

void GlueUpView::markStale() {
    stopBlinking();
    m_stale = true;
    if (isVisible()) {
        rebuild();
    }
}

void GlueUpView::rebuild() {
    m_stale = false;
    Result<std::vector<panels::Panel>> panels =
        panels::panelsOf(m_session.document(), m_photos->looks());
    if (!panels) {
        m_banner->showMessage(Sign::Cross, words(describe(panels.error())));
    }
    m_panels = panels ? std::move(panels).value() : std::vector<panels::Panel>{};
    for (auto& [name, before] : m_before) {
        knowAnew(before, m_panels);
    }
    m_blocks = panels::blocksOf(m_session.document(), m_session.auditReport().fills);
    if (m_block && *m_block >= m_blocks.size()) {
        m_block.reset();
    }
    if (!m_name || findPanel(m_panels, *m_name) == nullptr) {
        m_name = m_panels.empty() ? std::nullopt : std::optional(m_panels.front().name);
        if (!m_name && !m_blocks.empty() && !m_block) {
            m_block = 0;
        }
    }
    m_stack->setCurrentIndex(m_panels.empty() && m_blocks.empty() ? 1 : 0);
    fillList();
    showPanel();
    if (holdsSelection()) { // else it has gone to another panel; what is looked at stays
        pickFromSelection();
    }
}

void GlueUpView::fillList() {
    m_filling = true;
    m_list->clear();
    int current = -1;
    for (const panels::Panel& panel : m_panels) {
        const glueup::Score score = panels::scoreOf(panel, nullptr);
        m_list->addItem(tr("%1  %2\n%3, %4 points")
                            .arg(words(panel.label), words(panel.title),
                                 panel.staves.size() == 1
                                     ? tr("1 stave")
                                     : tr("%1 staves").arg(panel.staves.size()),
                                 words(panels::pointsText(score.total))));
        if (!m_block && m_name == panel.name) {
            current = m_list->count() - 1;
        }
    }
    for (std::size_t i = 0; i < m_blocks.size(); ++i) {
        m_list->addItem(
            tr("%1  block\n%2")
                .arg(words(m_blocks[i].label),
                     tr("%n plies", nullptr, static_cast<int>(m_blocks[i].plies.size()))));
        if (m_block == i) {
            current = m_list->count() - 1;
        }
    }
    m_list->setCurrentRow(current);
    m_filling = false;
}

void GlueUpView::layOut(bool isShown) {
    stopBlinking();
    m_laysOut = isShown && shown() != nullptr;
    m_banner->dismiss();
    refreshTools();
    refreshPicture();
    m_pictures->currentWidget()->setFocus();
}

void GlueUpView::blinkAlternately() {
    if (m_blinking->isActive()) {
        return stopBlinking();
    }
    if (shown() != nullptr) {
        m_blink->setChecked(!m_blink->isChecked());
        m_blinking->start();
    }
}

/// What is looked at in the end is the panel as it stands.
void GlueUpView::stopBlinking() {
    if (m_blinking->isActive()) {
        m_blinking->stop();
        m_blink->setChecked(false);
    }
}

void GlueUpView::showNextPanel(int by) {
    const int row = m_list->currentRow() + by;
    if (row >= 0 && row < m_list->count()) {
        m_list->setCurrentRow(row);
        m_pictures->currentWidget()->setFocus();
    }
}

void GlueUpView::focusNextPane() {
    const auto holdsFocus = [](const QWidget* pane) {
        const QWidget* now = QApplication::focusWidget();
        return now != nullptr && (now == pane || pane->isAncestorOf(now));
    };
    const std::array<QWidget*, 5> panes = {m_list, m_arrange, m_pictures->currentWidget(), m_terms,
                                           m_factsRoom};
    const auto now = std::find_if(panes.begin(), panes.end(), holdsFocus);
    auto next =
        now == panes.end() ? panes.size() - 1 : static_cast<std::size_t>(now - panes.begin());
    for (std::size_t tried = 0; tried < panes.size(); ++tried) {
        next = (next + 1) % panes.size();
        if (panes[next]->isVisible() && panes[next]->isEnabled()) {
            return panes[next]->setFocus(Qt::TabFocusReason);
        }
    }
}

void GlueUpView::choose(const PanelName& name) {
    m_name = name;
    m_showsBefore = false;
    m_canvas->setSelected(std::nullopt);
    showPanel();
}

bool GlueUpView::holdsSelection() const {
    const std::optional<BlankId> blank = m_session.selection().blank;
    const auto isIt = [&blank](const auto& piece) { return blank == piece.blank; };
    if (m_block) {
        const auto& plies = m_blocks[*m_block].plies;
        return std::any_of(plies.begin(), plies.end(), isIt);
    }
    const panels::Panel* panel = shown();
    return panel != nullptr && std::any_of(panel->staves.begin(), panel->staves.end(), isIt);
}

void GlueUpView::pickFromSelection() {
    if (m_stale || !isVisible()) {
        return;
    }
    const std::optional<BlankId> blank = m_session.selection().blank;
    for (std::size_t i = 0; blank && i < m_panels.size(); ++i) {
        const panels::Panel& panel = m_panels[i];
        for (std::size_t place = 0; place < panel.order.size(); ++place) {
            if (panel.staveAt(place).blank != *blank) {
                continue;
            }
            if (m_name != panel.name || m_block) {
                m_block.reset();
                m_name = panel.name;
                m_filling = true;
                m_list->setCurrentRow(static_cast<int>(i));
                m_filling = false;
                showPanel();
            }
            if (m_canvas->selected() != place) {
                m_canvas->setSelected(place);
                fillFacts();
            }
            return;
        }
    }
    for (std::size_t i = 0; blank && i < m_blocks.size(); ++i) {
        for (std::size_t ply = 0; ply < m_blocks[i].plies.size(); ++ply) {
            if (m_blocks[i].plies[ply].blank != *blank) {
                continue;
            }
            if (m_block != i) {
                m_block = i;
                m_filling = true;
                m_list->setCurrentRow(static_cast<int>(m_panels.size() + i));
                m_filling = false;
                showPanel();
            }
            m_blockCanvas->setSelected(ply);
            return;
        }
    }
}

void GlueUpView::showPanel() {
    refreshTools();
    refreshPicture();
    m_terms->setVisible(shown() != nullptr);
    if (shown() != nullptr) {
        showScores(now());
    } else {
        m_total->clear();
    }
    fillFacts();
}

GlueUpView::Stand GlueUpView::before() const {
    const panels::Panel* panel = shown();
    return panel != nullptr ? before(*panel) : Stand{};
}

GlueUpView::Stand GlueUpView::before(const panels::Panel& panel) const {
    const auto found = m_before.find(panel.name);
    if (found != m_before.end() && found->second.staves.size() == panel.staves.size() &&
        stillStands(found->second, m_panels)) {
        return {&found->second, found->second.order};
    }
    return {&panel, asTheyCome(panel)};
}

const panels::Panel* GlueUpView::partner() const {
    const panels::Panel* panel = shown();
    return panel != nullptr ? panels::partnerOf(m_panels, *panel) : nullptr;
}

GlueUpView::Stand GlueUpView::now() const {
    const panels::Panel* panel = shown();
    return m_showsBefore ? before()
                         : Stand{panel, panel != nullptr ? panel->order : glueup::Order{}};
}

/// By what is weighed and wished now; with the panel that it matches, as that stands or stood.
glueup::Score GlueUpView::scoreOf(const Stand& stand, bool partnerIsBefore) const {
    const auto standing = [](const Stand& each, const panels::Panel& present) {
        panels::Panel panel = *each.panel;
        panel.order = each.order;
        panel.chosen = present.chosen;
        panel.problem.settings = present.problem.settings;
        panel.problem.panels = present.problem.panels;
        return panel;
    };
    const panels::Panel one = standing(stand, *shown());
    const panels::Panel* present = partner();
    if (present == nullptr) {
        return panels::scoreOf(one, nullptr);
    }
    const panels::Panel two =
        standing(partnerIsBefore ? before(*present) : Stand{present, present->order}, *present);
    return panels::scoreOf(one, &two);
}

void GlueUpView::showScores(const Stand& stand) {
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return;
    }
    const glueup::Score now = scoreOf(stand, m_showsBefore);
    const glueup::Score then = scoreOf(before(), true);
    m_terms->setScores(now, then, m_session.document().info);
    const auto proved = m_proved.find(panel->name);
    const bool isAsFound = proved != m_proved.end() && !m_showsBefore && stand.panel == panel &&
                           stand.order == panel->order;
    const QString points = words(panels::pointsText(now.total));
    const QString earlier = words(panels::pointsText(then.total));
    QString total =
        partner() != nullptr
            ? tr("%1 points with %2, %3 before").arg(points, words(partner()->label), earlier)
            : tr("%1 points, %2 before").arg(points, earlier);
    if (isAsFound) {
        total += tr(" (%1)").arg(words(panels::nameOf(proved->second)));
    }
    m_total->setText(total);
}

void GlueUpView::refreshPicture() {
    const panels::Panel* panel = shown();
    const bool isBlock = m_block && *m_block < m_blocks.size();
    m_blockCanvas->setBlock(isBlock ? std::optional(m_blocks[*m_block]) : std::nullopt);
    m_laysOut = m_laysOut && panel != nullptr;
    m_pictures->setCurrentWidget(isBlock     ? static_cast<QWidget*>(m_blockCanvas)
                                 : m_laysOut ? static_cast<QWidget*>(m_laid)
                                             : m_canvas);
    m_laid->refresh();
    setFocusProxy(m_pictures->currentWidget());
    m_hint->setText(
        isBlock ? tr("Up, Down pick · Ctrl+Up, Down swap · E end for end · F face over "
                     "· X exchange with another block · right button: all of these · A pair all · "
                     "PgUp, PgDn other block · Enter to its board · F6 other pane")
        : m_laysOut
            ? tr("C corners: 1 to 4 pick, arrows move · J joints: Tab picks, Up, Down "
                 "move, Left, Right lean, + − gap, F find · V other face · Shift+Del "
                 "remove · R taken from the other side · Esc to the panel")
            : tr("Drag a stave onto another to swap them; right button: its menu · Up, Down pick · "
                 "Ctrl+Up, Down move · E end for end · F face over · L lock · X exchange · A "
                 "arrange · B before, Shift+B by turns · V back · P photograph · PgUp, PgDn "
                 "other panel · Enter to its board · F6 other pane"));
    if (panel == nullptr) {
        m_canvas->setPicture({});
        m_canvas->setBadge({});
        return;
    }
    const bool back = m_back->isChecked();
    const Stand stand = now();
    PanelPicture picture = pictureOf(m_session.document(), *stand.panel, stand.order, back);
    if (const panels::Panel* other = partner()) {
        const Stand beside = m_showsBefore ? before(*other) : Stand{other, other->order};
        picture = withBeside(std::move(picture),
                             pictureOf(m_session.document(), *beside.panel, beside.order, back),
                             panel->name < other->name);
    }
    m_canvas->setPicture(std::move(picture));
    QStringList badge;
    if (m_showsBefore) {
        badge << tr("before");
    }
    if (back) {
        badge << tr("back");
    }
    m_canvas->setBadge(badge.join(QStringLiteral(", ")));
}

void GlueUpView::refreshTools() {
    m_filling = true;
    const panels::Panel* panel = shown();
    const bool isBlock = m_block && *m_block < m_blocks.size();
    m_arrange->setEnabled(isBlock || (panel != nullptr && !panel->isGlued));
    m_arrange->setText(isBlock         ? tr("P&air plies")
                       : isArranging() ? tr("&Stop and keep")
                                       : tr("&Arrange"));
    for (QWidget* tool : std::initializer_list<QWidget*>{m_blink, m_back, m_photograph, m_rings,
                                                         m_matches, m_noCentreSeam}) {
        tool->setEnabled(panel != nullptr);
    }
    const QSignalBlocker quiet(m_blink);
    const QSignalBlocker still(m_photograph);
    m_photograph->setChecked(m_laysOut);
    m_blink->setChecked(m_showsBefore);
    m_matches->clear();
    m_matches->addItem(tr("Matches no other panel"));
    if (panel != nullptr) {
        const auto wish = std::find(ringWishes.begin(), ringWishes.end(), panel->chosen.rings);
        m_rings->setCurrentIndex(static_cast<int>(wish - ringWishes.begin()));
        m_noCentreSeam->setChecked(panel->chosen.noCentreSeam);
        for (const panels::Panel& other : m_panels) {
            if (other.name != panel->name) {
                m_matches->addItem(tr("Matches %1 %2").arg(words(other.label), words(other.title)),
                                   QVariant::fromValue(&other - m_panels.data()));
                if (panel->chosen.matches == other.name) {
                    m_matches->setCurrentIndex(m_matches->count() - 1);
                }
            }
        }
    }
    m_filling = false;
}

} // namespace stavewright::ui
