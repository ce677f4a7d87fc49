#include "ui/entry/EntryView.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QScopedValueRollback>
#include <QScrollBar>

#include <algorithm>

#include "ui/entry/CellEditor.h"
#include "ui/entry/EntryDelegate.h"
#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

namespace {
constexpr int rowPixels = 28;
constexpr int slack = 2; // beside what the cell itself keeps free
constexpr int narrowest = 34;
constexpr int widest = 190;
constexpr int leastWords = 52; // a column of words stays readable
constexpr int nameWide = 112;  // most names stay whole
constexpr int otherWide = 76;  // a species of two short words
} // namespace

EntryView::EntryView(const QString& objectName, const QString& accessibleName, EntryModel* model,
                     QWidget* parent)
    : QTableView(parent)
    , m_model(model) {
    setObjectName(objectName);
    setAccessibleName(accessibleName);
    model->refresh();
    setModel(model);
    setItemDelegate(new EntryDelegate(this));
    setFrameShape(QFrame::NoFrame);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    // Not on a second click: while Qt waits whether it becomes a double click, it refuses to open
    // the cell for a key, and what is typed at once after the click would be lost.
    setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked |
                    QAbstractItemView::EditKeyPressed);
    setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    setShowGrid(true);
    setWordWrap(false);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(rowPixels);
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setMinimumSectionSize(narrowest);
    connect(horizontalHeader(), &QHeaderView::sectionResized, this, [this] {
        if (!m_settingWidths) {
            m_fitsColumns = false;
        }
    });
    connect(model, &QAbstractItemModel::rowsInserted, this, [this] { updateGeometry(); });
    connect(model, &QAbstractItemModel::rowsRemoved, this, [this] { updateGeometry(); });
}

void EntryView::showAsFacts() {
    m_facts = true;
    horizontalHeader()->hide();
    horizontalHeader()->setStretchLastSection(true);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void EntryView::wrapWords() {
    setWordWrap(true);
    verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    connect(verticalHeader(), &QHeaderView::sectionResized, this, [this] { updateGeometry(); });
}

void EntryView::fitColumns() {
    m_fitsColumns = true;
    setWidths();
}

int EntryView::headWidth(int column) const {
    return horizontalHeader()->isHidden() ? 0 : horizontalHeader()->sectionSizeHint(column) + 1;
}

int EntryView::widthFor(int column) const {
    return std::max(sizeHintForColumn(column) + slack, headWidth(column));
}

void EntryView::setWidths() {
    m_awaitsWidths = !isVisible();
    if (m_awaitsWidths) {
        return; // every row is measured for it: not while another place is shown
    }
    const QScopedValueRollback guard(m_settingWidths, true);
    std::vector<int> widths;
    std::vector<int> spare; // what a column of words can give up
    std::vector<int> names; // that keeps names whole
    int wanted = 0;
    int most = 0; // of what they can give up
    for (int column = 0; column < m_model->columnCount(); ++column) {
        if (isColumnHidden(column)) {
            widths.push_back(0);
            spare.push_back(0);
            names.push_back(0);
            continue;
        }
        const int head = headWidth(column);
        const int wide = std::clamp(widthFor(column), narrowest, widest);
        const bool holdsWords =
            column < m_mustSee && m_model->rowCount() > 0 &&
            m_model->cellAt(m_model->index(0, column)).kind == EntryCell::Kind::Text;
        widths.push_back(wide);
        spare.push_back(holdsWords ? std::max(0, wide - std::max(head, leastWords)) : 0);
        const int kept = most == 0 ? nameWide : otherWide; // the first that is long names the row
        names.push_back(std::min(spare.back(), std::max(0, wide - std::max(head, kept))));
        most += spare.back();
        wanted += column < m_mustSee ? wide : 0;
    }
    if (!wordWrap() && wanted - viewport()->width() > most) {
        spare = names; // it is scrolled all the same: words are not cut off for nothing
    }
    // The widest column of words gives first: short words stay whole.
    for (int over = wanted - viewport()->width(); over > 0; --over) {
        std::size_t giver = widths.size();
        for (std::size_t column = 0; column < widths.size(); ++column) {
            if (spare[column] > 0 && (giver == widths.size() || widths[column] > widths[giver])) {
                giver = column;
            }
        }
        if (giver == widths.size()) {
            break;
        }
        --widths[giver];
        --spare[giver];
    }
    for (std::size_t column = 0; column < widths.size(); ++column) {
        if (!isColumnHidden(static_cast<int>(column))) {
            setColumnWidth(static_cast<int>(column), widths[column]);
        }
    }
}

void EntryView::showRow(int row) {
    if (row == currentIndex().row()) {
        return;
    }
    const QScopedValueRollback guard(m_showing, true);
    if (row < 0 || row >= m_model->rowCount()) {
        setCurrentIndex({});
        clearSelection();
        return;
    }
    setCurrentIndex(m_model->index(row, std::max(0, currentIndex().column())));
}

void EntryView::openRow(int row, int column) {
    for (; column < m_model->columnCount(); ++column) {
        const QModelIndex index = m_model->index(row, column);
        if (canOpen(index)) {
            setFocus();
            setCurrentIndex(index);
            edit(index);
            return;
        }
    }
}

QSize EntryView::sizeHint() const {
    const int rows = m_model->rowCount();
    const int head = horizontalHeader()->isHidden() ? 0 : horizontalHeader()->sizeHint().height();
    const int bar = m_facts ? 0 : horizontalScrollBar()->sizeHint().height();
    const int high = wordWrap() ? verticalHeader()->length() : rows * rowPixels;
    return {240, head + high + bar + 2 * frameWidth() + 1};
}

QSize EntryView::minimumSizeHint() const {
    return m_facts ? QSize(160, sizeHint().height()) : QSize(160, 3 * rowPixels);
}

bool EntryView::finishEntry() {
    auto* editor = viewport()->findChild<CellEditor*>();
    if (editor == nullptr || editor->isHidden()) { // hidden: taken already, on its way out
        return true;
    }
    commitData(editor);
    if (!editor->objection().isEmpty()) {
        editor->setFocus();
        return false;
    }
    closeEditor(editor, QAbstractItemDelegate::NoHint);
    return true;
}

void EntryView::commitData(QWidget* editor) {
    QTableView::commitData(editor); // the delegate asks the model and keeps the objection
}

void EntryView::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
    const auto* line = qobject_cast<CellEditor*>(editor);
    if (line != nullptr && !line->objection().isEmpty() &&
        hint != QAbstractItemDelegate::RevertModelCache) {
        if (hint != QAbstractItemDelegate::NoHint || hasFocus()) {
            editor->setFocus();
        }
        return;
    }
    QTableView::closeEditor(editor, hint);
    if (hint == QAbstractItemDelegate::SubmitModelCache) {
        emit entered();
    }
}

void EntryView::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    if (!m_showing && current.isValid()) {
        emit rowChosen(current.row());
    }
}

bool EntryView::canOpen(const QModelIndex& index) const {
    return index.isValid() && m_model->flags(index).testFlag(Qt::ItemIsEditable);
}

QModelIndex EntryView::moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers) {
    if (action != MoveNext && action != MovePrevious) {
        return QTableView::moveCursor(action, modifiers);
    }
    // Tab goes through the cells that can be typed into, row by row.
    const int step = action == MoveNext ? 1 : -1;
    const int columns = m_model->columnCount();
    const int cells = columns * m_model->rowCount();
    const int start = currentIndex().isValid()
                          ? currentIndex().row() * columns + currentIndex().column()
                          : (step > 0 ? -1 : cells);
    for (int at = start + step; at >= 0 && at < cells; at += step) {
        const QModelIndex index = m_model->index(at / columns, at % columns);
        if (canOpen(index) && !isColumnHidden(index.column())) {
            return index;
        }
    }
    return currentIndex();
}

void EntryView::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier && state() != EditingState) {
        if (canOpen(currentIndex())) {
            edit(currentIndex());
        } else if (m_model->flags(currentIndex()).testFlag(Qt::ItemIsUserCheckable)) {
            const bool ticked =
                currentIndex().data(Qt::CheckStateRole).toInt() == static_cast<int>(Qt::Checked);
            m_model->setData(currentIndex(), static_cast<int>(ticked ? Qt::Unchecked : Qt::Checked),
                             Qt::CheckStateRole);
        }
        return;
    }
    if (event->key() == Qt::Key_Delete || event->modifiers().testFlag(Qt::ControlModifier)) {
        event->ignore(); // keys of the place, not the beginning of an entry
        return;
    }
    QTableView::keyPressEvent(event);
}

void EntryView::showEvent(QShowEvent* event) {
    QTableView::showEvent(event);
    if (m_awaitsWidths) {
        setWidths();
    }
}

void EntryView::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    if (m_facts) {
        setColumnWidth(0, viewport()->width() * 11 / 20);
    } else if (m_fitsColumns) {
        setWidths();
    }
}

} // namespace stavewright::ui
