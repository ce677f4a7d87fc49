#pragma once
// "1 board", "16 boards": both words in full, so that each can be translated and none is built from
// pieces.

#include <QString>

namespace stavewright::ui {

[[nodiscard]] inline QString counted(qint64 count, const QString& one, const QString& many) {
    return QString("%1 %2").arg(count).arg(count == 1 ? one : many);
}

} // namespace stavewright::ui
