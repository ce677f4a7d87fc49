#include "ui/entry/EntryDelegate.h"

#include <QAbstractItemView>
#include <QPainter>

#include <algorithm>

#include "ui/entry/CellEditor.h"
#include "ui/entry/EntryModel.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

void EntryDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    const bool current = option.state.testFlag(QStyle::State_HasFocus);
    item.state &= ~QStyle::State_HasFocus;
    FractionDelegate::paint(painter, item, index);
    if (current) {
        painter->save();
        const Colours& colours = coloursOf(option.palette);
        painter->setPen(QPen(colours.panel, 1));
        painter->drawRect(option.rect.adjusted(2, 2, -3, -3));
        painter->setPen(QPen(colours.accent, 2));
        painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
        painter->restore();
    }
}

QWidget* EntryDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem& /*option*/,
                                     const QModelIndex& index) const {
    const auto* model = qobject_cast<const EntryModel*>(index.model());
    if (model == nullptr) {
        return nullptr;
    }
    const QPersistentModelIndex where(index);
    const auto comment = [model, where](const QString& typed) -> CellEditor::Word {
        const QString wrong = model->objection(where, typed, EntryModel::Judge::Text);
        if (!wrong.isEmpty()) {
            return {wrong, true};
        }
        const EntryCell cell = model->cellAt(where);
        return {cell.reading ? cell.reading(typed) : QString(), false};
    };
    auto* editor = new CellEditor(comment, model->cellAt(index).choices, parent);
    editor->setAlignment(Qt::Alignment(index.data(Qt::TextAlignmentRole).toInt()));
    editor->setAccessibleName(model->headerData(index.column(), Qt::Horizontal, Qt::DisplayRole)
                                  .toString()
                                  .replace('\n', ' '));
    return editor;
}

void EntryDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    auto* line = qobject_cast<CellEditor*>(editor);
    if (line == nullptr || line->isModified()) {
        return; // what is being typed stays
    }
    line->setText(index.data(Qt::EditRole).toString());
    line->selectAll();
}

void EntryDelegate::setModelData(QWidget* editor, QAbstractItemModel* model,
                                 const QModelIndex& index) const {
    auto* line = qobject_cast<CellEditor*>(editor);
    const auto* entries = qobject_cast<const EntryModel*>(model);
    if (line == nullptr || entries == nullptr) {
        return;
    }
    const QString wrong = entries->objection(index, line->text(), EntryModel::Judge::Job);
    if (!wrong.isEmpty()) {
        line->object(wrong);
        return;
    }
    line->object({});
    model->setData(index, line->text(), Qt::EditRole);
}

void EntryDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                         const QModelIndex& index) const {
    // Wide enough to type in, whatever the column shows.
    QRect where = option.rect;
    const QString text = index.data(Qt::EditRole).toString();
    const int wanted = option.fontMetrics.horizontalAdvance(text) + 40;
    if (const QWidget* room = editor->parentWidget(); room != nullptr && wanted > where.width()) {
        where.setWidth(std::min(wanted, std::max(where.width(), room->width() - where.left())));
    }
    editor->setGeometry(where);
}

} // namespace stavewright::ui
