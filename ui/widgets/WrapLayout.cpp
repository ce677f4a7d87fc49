#include "ui/widgets/WrapLayout.h"

#include <algorithm>

namespace stavewright::ui {

WrapLayout::~WrapLayout() {
    for (QLayoutItem* item : m_items) {
        delete item;
    }
}

void WrapLayout::addItem(QLayoutItem* item) { m_items.push_back(item); }

QLayoutItem* WrapLayout::itemAt(int index) const {
    return index >= 0 && index < count() ? m_items[static_cast<std::size_t>(index)] : nullptr;
}

QLayoutItem* WrapLayout::takeAt(int index) {
    QLayoutItem* item = itemAt(index);
    if (item != nullptr) {
        m_items.erase(m_items.begin() + index);
    }
    return item;
}

int WrapLayout::heightForWidth(int width) const { return lay({0, 0, width, 0}, false); }

QSize WrapLayout::sizeHint() const {
    QSize size;
    bool isFirst = true;
    for (const QLayoutItem* item : m_items) {
        if (!item->isEmpty()) {
            const QSize wanted = item->sizeHint();
            size.rwidth() += wanted.width() + (isFirst ? 0 : spacing());
            size.setHeight(std::max(size.height(), wanted.height()));
            isFirst = false;
        }
    }
    const QMargins around = contentsMargins();
    return size + QSize(around.left() + around.right(), around.top() + around.bottom());
}

QSize WrapLayout::minimumSize() const {
    QSize size;
    for (const QLayoutItem* item : m_items) {
        if (!item->isEmpty()) {
            size = size.expandedTo(item->minimumSize());
        }
    }
    const QMargins around = contentsMargins();
    return size + QSize(around.left() + around.right(), around.top() + around.bottom());
}

void WrapLayout::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    lay(rect, true);
}

int WrapLayout::lay(const QRect& rect, bool moves) const {
    const QMargins around = contentsMargins();
    const QRect room = rect.marginsRemoved(around);
    int y = room.y();
    for (std::size_t first = 0; first < m_items.size();) {
        int wide = 0;
        int high = 0;
        std::size_t end = first;
        for (; end < m_items.size(); ++end) {
            if (m_items[end]->isEmpty()) {
                continue;
            }
            const QSize wanted = m_items[end]->sizeHint();
            const int further = wide == 0 ? wanted.width() : wide + spacing() + wanted.width();
            if (wide > 0 && further > room.width()) {
                break;
            }
            wide = further;
            high = std::max(high, wanted.height());
        }
        int x = room.x();
        for (; first < end; ++first) {
            if (!moves || m_items[first]->isEmpty()) {
                continue;
            }
            const QSize wanted = m_items[first]->sizeHint();
            const int own = std::min(wanted.width(), room.width());
            m_items[first]->setGeometry(
                {x, y + (high - wanted.height()) / 2, own, wanted.height()});
            x += own + spacing();
        }
        y += high + (end < m_items.size() ? spacing() : 0);
    }
    return y - rect.y() + around.bottom();
}

} // namespace stavewright::ui
