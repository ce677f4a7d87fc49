#include "ui/lumber/TallyGrid.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <QMimeData>

#include <algorithm>
#include <set>

#include "core/tally/TextTable.h"
#include "ui/entry/CellEditor.h"
#include "ui/entry/EntryDelegate.h"
#include "ui/lumber/TallyModel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// As the other tables draw their cells; the line that is typed into speaks of the tally.
class TallyDelegate : public EntryDelegate {
  public:
    using EntryDelegate::EntryDelegate;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& /*option*/,
                          const QModelIndex& index) const override {
        const auto* model = qobject_cast<const TallyModel*>(index.model());
        const QPersistentModelIndex where(index);
        const auto comment = [model, where](const QString& typed) -> CellEditor::Word {
            const TallyModel::Comment said = model->commentOn(where, typed);
            return {said.text, said.wrong};
        };
        auto* editor = new CellEditor(comment, {}, parent);
        editor->setAlignment(Qt::Alignment(index.data(Qt::TextAlignmentRole).toInt()));
        editor->setAccessibleName(
            model->headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString());
        return editor;
    }
    void setModelData(QWidget* editor, QAbstractItemModel* model,
                      const QModelIndex& index) const override {
        model->setData(index, qobject_cast<CellEditor*>(editor)->text(), Qt::EditRole);
    }
};

} // namespace

TallyGrid::TallyGrid(TallyModel* model, QWidget* parent)
    : QTableView(parent)
    , m_model(model) {
    setObjectName("tallyGrid");
    setAccessibleName(tr("The tally being typed"));
    setModel(model);
    setItemDelegate(new TallyDelegate(this));
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(QAbstractItemView::ContiguousSelection);
    setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked |
                    QAbstractItemView::EditKeyPressed);
    setTabKeyNavigation(true);
    setWordWrap(false);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(28);
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    setCurrentIndex(model->index(0, 0));
}

void TallyGrid::fitColumns() {
    const int columns = m_model->columnCount();
    int given = 0;
    for (int column = 0; column < columns; ++column) {
        const bool wordy = TallyModel::fieldOf(column) == TallyField::Species;
        const int least = std::max(wordy ? 104 : 64, horizontalHeader()->sectionSizeHint(column));
        const int wide = std::clamp(sizeHintForColumn(column) + 8, least, 220);
        setColumnWidth(column, wide);
        given += column + 1 < columns ? wide : 0;
    }
    setColumnWidth(columns - 1, std::max(90, viewport()->width() - given)); // notes
}

void TallyGrid::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fitColumns();
}

void TallyGrid::finishEntry() {
    auto* editor = viewport()->findChild<CellEditor*>();
    if (editor != nullptr && !editor->isHidden()) {
        commitData(editor);
        closeEditor(editor, QAbstractItemDelegate::NoHint);
    }
}

void TallyGrid::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
    const bool entered = hint == QAbstractItemDelegate::SubmitModelCache;
    QTableView::closeEditor(editor, entered ? QAbstractItemDelegate::NoHint : hint);
    if (entered) {
        beginNextRow();
    }
}

void TallyGrid::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    if (current.isValid() && current.row() != m_rowOfStart) {
        m_rowOfStart = current.row();
        m_start = current.column();
    }
}

void TallyGrid::beginNextRow() {
    const int row = std::min(currentIndex().row() + 1, m_model->rowCount() - 1);
    const int start = m_start;
    setCurrentIndex(m_model->index(row, start));
    m_rowOfStart = row;
    m_start = start;
    scrollTo(currentIndex());
}

void TallyGrid::goToNextWrong() {
    const int columns = m_model->columnCount();
    const int cells = columns * static_cast<int>(m_model->rows().size());
    const int from =
        currentIndex().isValid() ? currentIndex().row() * columns + currentIndex().column() : -1;
    for (int step = 1; step <= cells; ++step) {
        const int at = (from + step) % cells;
        const auto row = static_cast<std::size_t>(at / columns);
        if (!m_model->read().rows[row].at(TallyModel::fieldOf(at % columns)).wrong.empty()) {
            setFocus();
            setCurrentIndex(m_model->index(at / columns, at % columns));
            return;
        }
    }
}

bool TallyGrid::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        // The tally has its own undo; the job's is for what is on the rack.
        const auto* key = static_cast<QKeyEvent*>(event);
        if ((key->matches(QKeySequence::Undo) && m_model->undoStack().canUndo()) ||
            (key->matches(QKeySequence::Redo) && m_model->undoStack().canRedo()) ||
            key->matches(QKeySequence::Copy) || key->matches(QKeySequence::Paste) ||
            key->matches(QKeySequence::Cut) || key->key() == Qt::Key_Delete ||
            key->key() == Qt::Key_Insert) {
            event->accept();
            return true;
        }
    }
    return QTableView::event(event);
}

void TallyGrid::keyPressEvent(QKeyEvent* event) {
    if (state() == EditingState) {
        QTableView::keyPressEvent(event);
        return;
    }
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (event->matches(QKeySequence::Undo)) {
        m_model->undoStack().undo();
    } else if (event->matches(QKeySequence::Redo)) {
        m_model->undoStack().redo();
    } else if (event->matches(QKeySequence::Paste)) {
        emit pasteWanted();
    } else if (event->matches(QKeySequence::Copy)) {
        copyCells();
    } else if (event->matches(QKeySequence::Cut)) {
        copyCells();
        clearCells();
    } else if (event->key() == Qt::Key_Delete && event->modifiers() == Qt::ShiftModifier) {
        removeRows();
    } else if (event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace) {
        clearCells();
    } else if (event->key() == Qt::Key_Insert && event->modifiers() == Qt::NoModifier) {
        setCurrentIndex(m_model->index(m_model->rowCount() - 1, 0));
    } else if (enter && event->modifiers() == Qt::NoModifier) {
        beginNextRow();
    } else if (event->modifiers().testFlag(Qt::ControlModifier) || event->key() == Qt::Key_Escape) {
        event->ignore(); // keys of the page around
    } else {
        QTableView::keyPressEvent(event);
    }
}

void TallyGrid::clearCells() {
    std::vector<TallyRow> rows = m_model->rows();
    for (const QModelIndex& index : selectionModel()->selectedIndexes()) {
        if (static_cast<std::size_t>(index.row()) < rows.size()) {
            rows[static_cast<std::size_t>(index.row())]
                .at(TallyModel::fieldOf(index.column()))
                .clear();
        }
    }
    m_model->change(tr("Clear cells"), std::move(rows));
}

void TallyGrid::removeRows() {
    std::set<std::size_t> gone;
    for (const QModelIndex& index : selectionModel()->selectedIndexes()) {
        gone.insert(static_cast<std::size_t>(index.row()));
    }
    std::vector<TallyRow> rows;
    for (std::size_t i = 0; i < m_model->rows().size(); ++i) {
        if (gone.count(i) == 0) {
            rows.push_back(m_model->rows()[i]);
        }
    }
    const QModelIndex at = currentIndex();
    m_model->change(tr("Remove rows"), std::move(rows));
    setCurrentIndex(
        m_model->index(std::min(at.row(), m_model->rowCount() - 1), std::max(0, at.column())));
}

void TallyGrid::copyCells() {
    int top = m_model->rowCount();
    int low = -1;
    int left = m_model->columnCount();
    int right = -1;
    for (const QModelIndex& index : selectionModel()->selectedIndexes()) {
        top = std::min(top, index.row());
        low = std::max(low, index.row());
        left = std::min(left, index.column());
        right = std::max(right, index.column());
    }
    std::vector<std::vector<std::string>> cells;
    for (int row = top; row <= low; ++row) {
        cells.emplace_back();
        for (int column = left; column <= right; ++column) {
            cells.back().push_back(
                m_model->index(row, column).data(Qt::DisplayRole).toString().toStdString());
        }
    }
    QApplication::clipboard()->setText(words(textOf(cells, '\t')));
}

} // namespace stavewright::ui
