#pragma once
// Draws cells with fractions set as fractions and the current cell framed, and opens the line they
// are typed into.

#include "ui/widgets/FractionDelegate.h"

namespace stavewright::ui {

class EntryDelegate : public FractionDelegate {
    Q_OBJECT
  public:
    using FractionDelegate::FractionDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model,
                      const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
};

} // namespace stavewright::ui
