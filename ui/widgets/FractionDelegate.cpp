#include "ui/widgets/FractionDelegate.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "ui/widgets/FractionText.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

namespace {
constexpr int rowHeight = 28;
constexpr int padding = 4;
} // namespace

void FractionDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const QString text = item.text;
    item.text.clear();
    const QWidget* widget = option.widget;
    QStyle* style = widget != nullptr ? widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &item, painter, widget);

    painter->save();
    const Colours& colours = coloursOf(item.palette);
    const bool selected = item.state.testFlag(QStyle::State_Selected);
    QRectF room = QRectF(item.rect).adjusted(padding, 0, -padding, 0);
    const QString second = index.data(secondLineRole).toString();
    const QFontMetricsF metrics(item.font);
    QRectF first = room;
    if (!second.isEmpty()) {
        first = QRectF(room.left(), room.top() + padding, room.width(), metrics.height());
    }
    const Sign sign = static_cast<Sign>(index.data(signRole).toInt());
    if (sign != Sign::None) {
        const double side = metrics.ascent();
        const QRectF where(first.left(), first.center().y() - side / 2, side, side);
        Colours signColours = colours;
        if (selected) {
            signColours.good = signColours.caution = signColours.wrong =
                item.palette.color(QPalette::HighlightedText);
        }
        drawSign(*painter, where, sign, signColours);
        first.setLeft(first.left() + side + 6);
    }
    const QVariant foreground = index.data(Qt::ForegroundRole);
    QColor ink = foreground.isValid() ? foreground.value<QBrush>().color() : colours.ink;
    QColor quiet = colours.quietInk;
    if (selected) {
        ink = quiet = item.palette.color(QPalette::HighlightedText);
    }
    painter->setFont(item.font);
    painter->setPen(ink);
    if (item.features.testFlag(QStyleOptionViewItem::WrapText) &&
        fractionTextWidth(text, item.font) > first.width()) {
        const double high = wrappedFractionTextHeight(text, item.font, first.width());
        drawWrappedFractionText(
            *painter, first.adjusted(0, std::max(0.0, (first.height() - high) / 2), 0, 0), text);
    } else {
        drawFractionText(*painter, first, item.displayAlignment, text);
    }
    if (!second.isEmpty()) {
        painter->setFont(sized(item.font, TextSize::Caption, QFont::Normal));
        painter->setPen(quiet);
        drawWrappedFractionText(*painter, room.adjusted(0, padding + metrics.height() + 1, 0, 0),
                                second);
    }
    painter->restore();
}

QSize FractionDelegate::sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const QFontMetricsF metrics(item.font);
    const double wide = fractionTextWidth(item.text, item.font) + 2 * padding + 2 +
                        (index.data(signRole).toInt() != 0 ? metrics.ascent() + 6 : 0);
    const QString second = index.data(secondLineRole).toString();
    if (second.isEmpty() && item.features.testFlag(QStyleOptionViewItem::WrapText) &&
        option.rect.width() > 2 * padding) {
        const double high =
            wrappedFractionTextHeight(item.text, item.font, option.rect.width() - 2 * padding);
        return {static_cast<int>(std::ceil(wide)),
                std::max(rowHeight, static_cast<int>(std::ceil(high)) + 2 * padding)};
    }
    if (second.isEmpty()) {
        return {static_cast<int>(std::ceil(wide)), std::max(rowHeight, int(metrics.height()) + 8)};
    }
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    const double room = (view != nullptr ? view->viewport()->width() : 240) - 2 * padding;
    const double below = wrappedFractionTextHeight(
        second, sized(item.font, TextSize::Caption, QFont::Normal), std::max(40.0, room));
    return {static_cast<int>(std::min(wide, room)),
            static_cast<int>(std::ceil(metrics.height() + below)) + 3 * padding};
}

} // namespace stavewright::ui
