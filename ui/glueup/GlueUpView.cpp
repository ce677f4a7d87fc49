#include "ui/glueup/GlueUpView.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

#include "core/panels/PanelEdits.h"
#include "core/panels/TermWords.h"
#include "ui/glueup/ArrangeRun.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/TermTable.h"
#include "ui/layout/FactSheet.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/EmptyState.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr std::array ringWishes = {RingWish::Alternate, RingWish::HeartUp, RingWish::BestFaceUp};

/// An order that fits the panel as it is now.
bool fits(const glueup::Order& order, const panels::Panel& panel) {
    return order.size() == panel.order.size() &&
           std::is_permutation(
               order.begin(), order.end(), panel.order.begin(),
               [](const glueup::Placed& a, const glueup::Placed& b) { return a.stave == b.stave; });
}

} // namespace

GlueUpView::GlueUpView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_banner(new Banner(this))
    , m_stack(new QStackedWidget(this))
    , m_list(new QListWidget(this))
    , m_canvas(new PanelCanvas(this))
    , m_terms(new TermTable(this))
    , m_facts(new FactSheet(this))
    , m_total(new QLabel(this))
    , m_run(new ArrangeRun(this)) {
    setObjectName("glueUpPlace");
    setFocusProxy(m_canvas);
    build();
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_run->discard();
        m_before.clear();
        m_proved.clear();
        m_name.reset();
        m_block.reset();
        markStale();
    });
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.boards || scope.parts || scope.plan || scope.shop || scope.info || scope.glueUp) {
            if (m_run->isRunning()) {
                m_run->discard();
                m_banner->showMessage(Sign::Triangle,
                                      tr("The job changed while the panel was being arranged; what "
                                         "was found is left out."));
            }
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
        m_showsBefore = false;
        if (index < m_panels.size()) {
            m_block.reset();
            choose(m_panels[index].name);
        } else {
            m_block = index - m_panels.size();
            showPanel();
        }
    });
}

GlueUpView::~GlueUpView() = default;

const panels::Panel* GlueUpView::shown() const {
    return m_name && !m_block ? findPanel(m_panels, *m_name) : nullptr;
}

bool GlueUpView::isArranging() const { return m_run->isRunning(); }

void GlueUpView::setPhotos(PhotoOfFace photo, panels::ColoursOnBoard colours) {
    m_photo = std::move(photo);
    m_colours = std::move(colours);
    m_canvas->setPhotos(m_photo);
    markStale();
}

// ---- what the place is made of ------------------------------------------------------------------

void GlueUpView::build() {
    auto* page = new QSplitter(Qt::Horizontal, m_stack);
    page->setObjectName("glueUpSplit");
    page->setChildrenCollapsible(false);
    m_list->setObjectName("glueUpPanels");
    m_list->setAccessibleName(tr("Panels and blocks"));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setMinimumWidth(150);
    m_list->setSpacing(1);

    auto* middle = new QWidget(page);
    auto* column = new QVBoxLayout(middle);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(buildTools());
    column->addWidget(m_canvas, 1);
    auto* hint =
        new QLabel(tr("Up, Down pick · Ctrl+Up, Down move · E end for end · F face over · L "
                      "lock · A arrange · B before · V back · Enter to its board"),
                   middle);
    hint->setObjectName("glueUpHint");
    hint->setFont(sized(font(), TextSize::Caption));
    hint->setWordWrap(true);
    hint->setContentsMargins(12, 6, 12, 6);
    column->addWidget(hint);

    auto* side = new QWidget(page);
    side->setMinimumWidth(350);
    auto* sideColumn = new QVBoxLayout(side);
    sideColumn->setContentsMargins(0, 0, 0, 0);
    sideColumn->setSpacing(0);
    m_total->setObjectName("glueUpTotal");
    m_total->setFont(sized(font(), TextSize::Lead, QFont::DemiBold));
    m_total->setContentsMargins(12, 10, 12, 6);
    m_terms->setFrameShape(QFrame::NoFrame);
    m_terms->setFixedHeight(m_terms->sizeHint().height());
    auto* scroll = new QScrollArea(side); // holds the facts alone, so that their lines may wrap
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_facts);
    sideColumn->addWidget(m_total);
    sideColumn->addWidget(m_terms);
    sideColumn->addWidget(scroll, 1);

    page->addWidget(m_list);
    page->addWidget(middle);
    page->addWidget(side);
    page->setStretchFactor(0, 0);
    page->setStretchFactor(1, 1);
    page->setStretchFactor(2, 0);
    page->setSizes({170, 720, 380});
    m_stack->addWidget(page);
    auto* empty = new EmptyState("glueUpEmpty",
                                 tr("No panel has its staves yet. Plan the job; the panels are "
                                    "assembled here from the blanks of the plan."),
                                 tr("Plan"), tr("F9"), m_stack);
    connect(empty, &EmptyState::begun, this, &GlueUpView::planWanted);
    m_stack->addWidget(empty);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(m_stack, 1);

    connect(m_terms, &TermTable::weightTyped, this, &GlueUpView::setWeight);
    connect(m_terms, &TermTable::refused, this, [this](const QString& sentence) {
        m_banner->showMessage(Sign::Cross, sentence);
        showPanel();
    });
    const auto edit = [this](auto&& make, const QString& step) {
        return [this, make, step](std::size_t place) {
            if (const panels::Panel* panel = shown()) {
                changeOrder(step.arg(labelAt(place)), make(*panel, place));
            }
        };
    };
    connect(m_canvas, &PanelCanvas::picked, this, &GlueUpView::selectStave);
    connect(m_canvas, &PanelCanvas::endForEndWanted, this,
            edit(
                [this](const panels::Panel& panel, std::size_t place) {
                    return turned(m_session.document(), panel, place, panels::Turn::EndForEnd);
                },
                tr("Turn %1 end for end")));
    connect(m_canvas, &PanelCanvas::faceOverWanted, this,
            edit(
                [this](const panels::Panel& panel, std::size_t place) {
                    return turned(m_session.document(), panel, place, panels::Turn::FaceOver);
                },
                tr("Roll %1 over")));
    connect(m_canvas, &PanelCanvas::lockWanted, this, [this](std::size_t place) {
        if (const panels::Panel* panel = shown()) {
            const bool isLocked = panel->problem.panels.front().locked[place].has_value();
            change((isLocked ? tr("Unlock %1") : tr("Lock %1")).arg(labelAt(place)),
                   locked(m_session.document(), *panel, place, !isLocked));
        }
    });
    connect(m_canvas, &PanelCanvas::swapWanted, this, [this](std::size_t from, std::size_t to) {
        if (const panels::Panel* panel = shown()) {
            if (changeOrder(tr("Swap %1 and %2").arg(labelAt(from), labelAt(to)),
                            swapped(m_session.document(), *panel, from, to))) {
                m_canvas->setSelected(to);
            }
        }
    });
    connect(m_canvas, &PanelCanvas::moveWanted, this, [this](std::size_t from, std::size_t to) {
        if (const panels::Panel* panel = shown()) {
            if (changeOrder(tr("Move %1").arg(labelAt(from)),
                            moved(m_session.document(), *panel, from, to))) {
                m_canvas->setSelected(to);
            }
        }
    });
    connect(m_canvas, &PanelCanvas::swapTried, this, [this](std::size_t from, std::size_t to) {
        if (const panels::Panel* panel = shown()) {
            glueup::Order order = panel->order;
            std::swap(order[from], order[to]);
            showScores(order);
        }
    });
    connect(m_canvas, &PanelCanvas::tryEnded, this, [this] {
        if (const panels::Panel* panel = shown()) {
            showScores(panel->order);
        }
    });
    connect(m_canvas, &PanelCanvas::arrangeWanted, m_arrange, &QPushButton::click);
    connect(m_canvas, &PanelCanvas::blinkWanted, m_blink, &QToolButton::toggle);
    connect(m_canvas, &PanelCanvas::backWanted, m_back, &QToolButton::toggle);
    connect(m_canvas, &PanelCanvas::layoutWanted, this, &GlueUpView::layoutWanted);
}

QWidget* GlueUpView::buildTools() {
    auto* bar = new QWidget(this);
    auto* rows = new QVBoxLayout(bar);
    rows->setContentsMargins(12, 8, 12, 8);
    rows->setSpacing(6);
    auto* first = new QHBoxLayout;
    auto* second = new QHBoxLayout;
    first->setSpacing(8);
    second->setSpacing(8);
    m_arrange = new QPushButton(tr("&Arrange"), bar);
    m_arrange->setObjectName("glueUpArrange");
    m_arrange->setToolTip(tr("Find the best order, ends and faces for the staves that are not "
                             "locked (A)"));
    connect(m_arrange, &QPushButton::clicked, this, &GlueUpView::arrange);
    const auto toggle = [&](const char* name, const QString& text, const QString& tip) {
        auto* button = new QToolButton(bar);
        button->setObjectName(name);
        button->setText(text);
        button->setToolTip(tip);
        button->setCheckable(true);
        button->setFocusPolicy(Qt::TabFocus);
        first->addWidget(button);
        return button;
    };
    first->addWidget(m_arrange);
    m_blink = toggle("glueUpBefore", tr("Before"),
                     tr("Show the panel as it was before the last "
                        "change; again to come back (B)"));
    m_back = toggle("glueUpBack", tr("Back"), tr("Look at the face that does not show (V)"));
    connect(m_blink, &QToolButton::toggled, this, [this](bool on) {
        m_showsBefore = on;
        refreshPicture();
        if (const panels::Panel* panel = shown()) {
            showScores(on ? before() : panel->order);
        }
    });
    connect(m_back, &QToolButton::toggled, this, &GlueUpView::refreshPicture);
    first->addStretch(1);
    m_rings = new QComboBox(bar);
    m_rings->setObjectName("glueUpRings");
    m_rings->setAccessibleName(tr("Rings"));
    m_rings->setToolTip(
        tr("Alternate for a free panel (door, leaf, lid); heart side or best face up "
           "for a top that a base holds flat. Practice disagrees, so it is yours to "
           "choose."));
    for (const RingWish wish : ringWishes) {
        m_rings->addItem(tr("Rings: %1").arg(words(panels::nameOf(wish))));
    }
    m_matches = new QComboBox(bar);
    m_matches->setObjectName("glueUpMatches");
    m_matches->setAccessibleName(tr("Match with"));
    m_matches->setToolTip(
        tr("A panel that is seen beside this one, such as the other door; both are "
           "arranged together"));
    m_noCentreSeam = new QCheckBox(tr("No seam on the centre line"), bar);
    m_noCentreSeam->setObjectName("glueUpCentre");
    second->addWidget(m_rings);
    second->addWidget(m_matches);
    second->addWidget(m_noCentreSeam);
    second->addStretch(1);
    connect(m_rings, &QComboBox::activated, this, &GlueUpView::setWishes);
    connect(m_matches, &QComboBox::activated, this, &GlueUpView::setWishes);
    connect(m_noCentreSeam, &QCheckBox::clicked, this, &GlueUpView::setWishes);
    rows->addLayout(first);
    rows->addLayout(second);
    return bar;
}

// ---- what is shown ------------------------------------------------------------------------------

void GlueUpView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) {
        rebuild();
    } else {
        pickFromSelection(); // something else may have been picked in another place
    }
}

void GlueUpView::markStale() {
    m_stale = true;
    if (isVisible()) {
        rebuild();
    }
}

void GlueUpView::rebuild() {
    m_stale = false;
    Result<std::vector<panels::Panel>> panels = panels::panelsOf(m_session.document(), m_colours);
    if (!panels) {
        m_banner->showMessage(Sign::Cross, words(describe(panels.error())));
    }
    m_panels = panels ? std::move(panels).value() : std::vector<panels::Panel>{};
    m_blocks = panels::blocksOf(m_session.document());
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
    pickFromSelection();
    showPanel();
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

void GlueUpView::choose(const PanelName& name) {
    m_name = name;
    m_showsBefore = false;
    m_canvas->setSelected(std::nullopt);
    showPanel();
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
}

void GlueUpView::showPanel() {
    refreshTools();
    refreshPicture();
    m_terms->setVisible(shown() != nullptr);
    if (const panels::Panel* panel = shown()) {
        showScores(m_showsBefore ? before() : panel->order);
    } else {
        m_total->clear();
    }
    fillFacts();
}

glueup::Order GlueUpView::before() const {
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return {};
    }
    const auto found = m_before.find(panel->name);
    return found != m_before.end() && fits(found->second, *panel) ? found->second
                                                                  : asTheyCome(*panel);
}

void GlueUpView::showScores(const glueup::Order& order) {
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return;
    }
    const glueup::Scoring scoring(panel->problem);
    const glueup::Score now = scoring.score(order);
    const glueup::Score then = scoring.score(before());
    m_terms->setScores(now, then, m_session.document().info);
    const auto proved = m_proved.find(panel->name);
    const bool isAsFound = proved != m_proved.end() && order == panel->order;
    QString total =
        tr("%1 points, %2 before")
            .arg(words(panels::pointsText(now.total)), words(panels::pointsText(then.total)));
    if (isAsFound) {
        total += tr(" (%1)").arg(words(panels::nameOf(proved->second)));
    }
    m_total->setText(total);
}

void GlueUpView::refreshPicture() {
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        m_canvas->setPicture({});
        m_canvas->setBadge(m_block ? tr("A block: see at the right which plies meet") : QString());
        return;
    }
    const bool back = m_back->isChecked();
    m_canvas->setPicture(
        pictureOf(m_session.document(), *panel, m_showsBefore ? before() : panel->order, back));
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
    m_arrange->setEnabled(panel != nullptr && !panel->isGlued);
    m_arrange->setText(m_run->isRunning() ? tr("&Stop and keep") : tr("&Arrange"));
    for (QWidget* tool :
         std::initializer_list<QWidget*>{m_blink, m_back, m_rings, m_matches, m_noCentreSeam}) {
        tool->setEnabled(panel != nullptr);
    }
    const QSignalBlocker quiet(m_blink);
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

// ---- what the maker does ------------------------------------------------------------------------

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
    m_before[panel->name] = panel->order;
    m_proved.erase(panel->name);
    m_showsBefore = false;
    if (!change(step, edit)) {
        m_before = formerly;
        return false;
    }
    return true;
}

void GlueUpView::arrange() {
    if (m_run->isRunning()) {
        return m_run->stop();
    }
    const panels::Panel* panel = shown();
    if (panel == nullptr) {
        return;
    }
    const panels::Panel* partner = panels::partnerOf(m_panels, *panel);
    m_run->start(*panel, partner != nullptr ? std::optional(*partner) : std::nullopt);
    refreshTools();
}

void GlueUpView::take(const panels::Proposal& proposal) {
    for (const PanelName& name : proposal.panels) {
        m_proved[name] = proposal.proved;
    }
    const JobInfo info = m_session.document().info;
    if (!proposal.isBetter) {
        m_banner->showMessage(
            Sign::Tick, proposal.proved == glueup::Proved::Best
                            ? tr("Nothing is better than the panel as it stands: proved best.")
                            : tr("Nothing better was found; the panel stays as it is."));
        refreshTools();
        showPanel();
        return;
    }
    for (const PanelName& name : proposal.panels) {
        if (const panels::Panel* panel = findPanel(m_panels, name)) {
            m_before[name] = panel->order;
        }
    }
    m_showsBefore = false;
    if (change(tr("Arrange panel"), panels::editFor(m_session.document(), m_panels, proposal))) {
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
    m_proved.erase(panel->name);
    change(tr("Change what is wished of %1").arg(words(panel->label)),
           panels::wished(m_session.document(), *panel, wishes));
}

void GlueUpView::setWeight(GlueTerm term, int hundredths) {
    GlueUp glueUp = m_session.document().glueUp;
    glueUp.settings.weights.hundredths[static_cast<std::size_t>(term)] = hundredths;
    m_proved.clear();
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
