#include "ui/entry/PlaceView.h"

#include <QAction>
#include <QApplication>
#include <QSplitter>
#include <QStackedWidget>

#include <algorithm>

#include "ui/entry/EntryModel.h"
#include "ui/entry/PlaceParts.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/EmptyState.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

bool holdsFocus(const QWidget* widget) {
    const QWidget* focus = QApplication::focusWidget();
    return focus != nullptr && (focus == widget || widget->isAncestorOf(focus));
}

PlaceView::PlaceView(DocumentSession& session, const QString& name, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_name(name)
    , m_split(new QSplitter(Qt::Horizontal))
    , m_stack(new QStackedWidget(this))
    , m_banner(new Banner(this)) {
    setObjectName(name + "Place");
    m_split->setObjectName(name + "Split");
    m_split->setChildrenCollapsible(false);
    m_stack->addWidget(m_split);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(m_stack, 1);
}

void PlaceView::setPanes(QWidget* left, QWidget* middle, QWidget* right, PaneWidth leftWidth,
                         PaneWidth rightWidth) {
    m_left = leftWidth;
    m_right = rightWidth;
    for (QWidget* pane : {left, middle, right}) {
        m_split->addWidget(pane);
    }
    m_split->setStretchFactor(1, 1);
    connect(m_split, &QSplitter::splitterMoved, this, [this] { m_widthsAreChosen = true; });
}

void PlaceView::setEmptyWords(const QString& sentence, const QString& button,
                              std::function<void()> begin, const QString& key) {
    auto* empty = new EmptyState(m_name + "Empty", sentence, button,
                                 key.isEmpty() ? tr("Insert") : key, m_stack);
    connect(empty, &EmptyState::begun, this, std::move(begin));
    m_stack->addWidget(empty);
}

void PlaceView::showEmpty(bool empty) {
    m_empty = empty;
    if (!isCovered()) {
        m_stack->setCurrentIndex(empty ? 1 : 0);
    }
}

void PlaceView::showSides(bool shown) {
    m_split->widget(0)->setVisible(shown);
    m_split->widget(2)->setVisible(shown);
}

bool PlaceView::showsSides() const { return !m_split->widget(0)->isHidden(); }

void PlaceView::setCover(QWidget* cover) {
    m_cover = cover;
    m_stack->addWidget(cover);
}

void PlaceView::showCover(bool shown) {
    if (shown) {
        m_stack->setCurrentWidget(m_cover);
    } else {
        m_stack->setCurrentIndex(m_empty ? 1 : 0);
    }
    focusFirst();
}

bool PlaceView::isCovered() const {
    return m_cover != nullptr && m_stack->currentWidget() == m_cover;
}

void PlaceView::addKey(const char* name, const QList<QKeySequence>& keys,
                       std::function<void()> action) {
    auto* key = new QAction(this);
    key->setObjectName(name);
    key->setShortcuts(keys);
    key->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    connect(key, &QAction::triggered, this, std::move(action));
    addAction(key);
}

void PlaceView::addRowKeys() {
    addKey("addRow", {QKeySequence("Ctrl+Return"), QKeySequence("Ctrl+Enter"), QKeySequence("Ins")},
           [this] { addRow(); });
    addKey("duplicateRow", {QKeySequence("Ctrl+D")}, [this] { duplicateRow(); });
    addKey("removeRow", {QKeySequence("Del")}, [this] { removeRow(); });
    addKey("nextPane", {QKeySequence("F6")}, [this] { focusNextPane(); });
}

void PlaceView::focusNextPane() {
    const std::vector<QWidget*> all = panes();
    const auto now = std::find_if(all.begin(), all.end(), holdsFocus);
    const std::size_t next = now == all.end() ? 0 : static_cast<std::size_t>(now - all.begin()) + 1;
    all[next % all.size()]->setFocus();
}

bool PlaceView::change(const QString& step, const Edit& edit) {
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        m_banner->showMessage(Sign::Cross, words(fits.error().message));
        return false;
    }
    return m_session.edit(step, edit);
}

void PlaceView::focusFirst() {
    if (isCovered()) {
        m_cover->setFocus();
    } else if (m_stack->currentIndex() == 1) {
        findChild<QPushButton*>(m_name + "EmptyButton")->setFocus();
    } else {
        panes().front()->setFocus();
    }
}

void PlaceView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    focusFirst(); // the place itself has nothing to type into
}

void PlaceView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    focusFirst(); // the keys of the place work as soon as it is shown
    fitColumns();
}

void PlaceView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const auto wide = [this](const PaneWidth& pane) {
        return std::clamp(width() * pane.hundredths / 100, pane.least, pane.most);
    };
    if (!m_widthsAreChosen) {
        m_split->setSizes({wide(m_left), width() - wide(m_left) - wide(m_right), wide(m_right)});
    }
    fitColumns();
}

} // namespace stavewright::ui
