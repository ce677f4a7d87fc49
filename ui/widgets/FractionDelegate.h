#pragma once
// Item views whose texts set fractions as fractions. Two roles add to the ordinary ones: a sign
// before the text, and a second line in second ink.

#include <QStyledItemDelegate>

namespace stavewright::ui {

inline constexpr int signRole = Qt::UserRole + 1;       ///< int of Sign
inline constexpr int secondLineRole = Qt::UserRole + 2; ///< QString, wrapped

class FractionDelegate : public QStyledItemDelegate {
    Q_OBJECT
  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
};

} // namespace stavewright::ui
