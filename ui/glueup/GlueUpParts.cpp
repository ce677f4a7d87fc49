// How the place Glue-up is built, and what its parts tell it.

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/panels/PanelEdits.h"
#include "core/panels/TermWords.h"
#include "ui/glueup/BlockCanvas.h"
#include "ui/glueup/GlueUpView.h"
#include "ui/glueup/LaidDesk.h"
#include "ui/glueup/PanelCanvas.h"
#include "ui/glueup/RingWishes.h"
#include "ui/glueup/TermTable.h"
#include "ui/layout/FactSheet.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/EmptyState.h"
#include "ui/widgets/Words.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

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
    m_pictures->addWidget(m_canvas);
    m_pictures->addWidget(m_blockCanvas);
    m_pictures->addWidget(m_laid);
    column->addWidget(m_pictures, 1);
    m_hint = new QLabel(middle);
    m_hint->setObjectName("glueUpHint");
    m_hint->setFont(sized(font(), TextSize::Caption));
    m_hint->setWordWrap(true);
    m_hint->setContentsMargins(12, 6, 12, 6);
    column->addWidget(m_hint);

    auto* side = new QWidget(page);
    side->setMinimumWidth(350);
    auto* sideColumn = new QVBoxLayout(side);
    sideColumn->setContentsMargins(0, 0, 0, 0);
    sideColumn->setSpacing(0);
    m_total->setObjectName("glueUpTotal");
    m_total->setToolTip(tr("The sum of the points of all terms; fewer are better"));
    m_total->setFont(sized(font(), TextSize::Lead, QFont::DemiBold));
    m_total->setContentsMargins(12, 10, 12, 6);
    m_terms->setFrameShape(QFrame::NoFrame);
    m_terms->setFixedHeight(m_terms->sizeHint().height());
    m_factsRoom = new QScrollArea(side); // holds the facts alone, so that their lines may wrap
    m_factsRoom->setObjectName("glueUpFacts");
    m_factsRoom->setAccessibleName(tr("The stave, the panel and the bench"));
    m_factsRoom->setWidgetResizable(true);
    m_factsRoom->setFrameShape(QFrame::NoFrame);
    m_factsRoom->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_factsRoom->setWidget(m_facts);
    sideColumn->addWidget(m_total);
    sideColumn->addWidget(m_terms);
    sideColumn->addWidget(m_factsRoom, 1);

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
    layout->addWidget(m_stack, 1);
    m_banner->floatOver(m_stack);

    auto* nextPane = new QAction(this);
    nextPane->setObjectName("glueUpNextPane");
    nextPane->setShortcut(QKeySequence("F6"));
    nextPane->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    connect(nextPane, &QAction::triggered, this, &GlueUpView::focusNextPane);
    addAction(nextPane);
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
            showScores({panel, order});
        }
    });
    connect(m_canvas, &PanelCanvas::tryEnded, this, [this] { showScores(now()); });
    connect(m_canvas, &PanelCanvas::exchangeWanted, this, &GlueUpView::exchangeStave);
    connect(m_canvas, &PanelCanvas::arrangeWanted, m_arrange, &QPushButton::click);
    connect(m_canvas, &PanelCanvas::blinkWanted, m_blink, &QToolButton::toggle);
    m_blinking = new QTimer(this);
    m_blinking->setInterval(900); // slow enough to look at each
    connect(m_blinking, &QTimer::timeout, m_blink, &QToolButton::toggle);
    connect(m_canvas, &PanelCanvas::blinkAlternatelyWanted, this, &GlueUpView::blinkAlternately);
    connect(m_canvas, &PanelCanvas::nextPanelWanted, this, &GlueUpView::showNextPanel);
    connect(m_blockCanvas, &BlockCanvas::nextPanelWanted, this, &GlueUpView::showNextPanel);
    connect(m_canvas, &PanelCanvas::besideWanted, this, [this] {
        if (const panels::Panel* other = partner()) {
            m_list->setCurrentRow(static_cast<int>(other - m_panels.data()));
        }
    });
    connect(m_canvas, &PanelCanvas::backWanted, m_back, &QToolButton::toggle);
    connect(m_canvas, &PanelCanvas::photographWanted, this, [this] { layOut(true); });
    connect(m_laid, &LaidDesk::leaveWanted, this, [this] { layOut(false); });
    connect(m_laid, &LaidDesk::said, this, [this](const QString& sentence, bool wrong) {
        m_banner->showMessage(wrong ? Sign::Triangle : Sign::Tick, sentence);
    });
    connect(m_canvas, &PanelCanvas::layoutWanted, this, &GlueUpView::layoutWanted);
}

QWidget* GlueUpView::buildTools() {
    auto* bar = new QWidget(this);
    auto* rows = new QVBoxLayout(bar);
    rows->setContentsMargins(12, 8, 12, 8);
    rows->setSpacing(6);
    auto* first = new WrapLayout;
    auto* second = new WrapLayout;
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
                        "change; again to come back (B; Shift+B shows both by turns)"));
    m_back = toggle("glueUpBack", tr("Back"), tr("Look at the face that does not show (V)"));
    m_photograph =
        toggle("glueUpPhotograph", tr("Photograph"),
               tr("A photograph of the milled staves laid out, which replaces those of the boards "
                  "(P)"));
    connect(m_photograph, &QToolButton::toggled, this, &GlueUpView::layOut);
    connect(m_blink, &QToolButton::toggled, this, [this](bool on) {
        m_showsBefore = on;
        refreshPicture();
        showScores(now());
    });
    connect(m_back, &QToolButton::toggled, this, [this] {
        refreshPicture();
        fillFacts(); // of the picture on that face
    });
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
    m_matches->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    m_matches->setAccessibleName(tr("Match with"));
    m_matches->setToolTip(
        tr("A panel that is seen beside this one, such as the other door; both are "
           "arranged together"));
    m_noCentreSeam = new QCheckBox(tr("No seam on the centre line"), bar);
    m_noCentreSeam->setObjectName("glueUpCentre");
    second->addWidget(m_rings);
    second->addWidget(m_matches);
    second->addWidget(m_noCentreSeam);
    connect(m_rings, &QComboBox::activated, this, &GlueUpView::setWishes);
    connect(m_matches, &QComboBox::activated, this, &GlueUpView::setWishes);
    connect(m_noCentreSeam, &QCheckBox::clicked, this, &GlueUpView::setWishes);
    rows->addLayout(first);
    rows->addLayout(second);
    return bar;
}

} // namespace stavewright::ui
