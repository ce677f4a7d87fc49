#pragma once
// The hall shelf in its window, and what tests do there with the pointer.

#include <QString>

#include <optional>

#include "core/hand/Laying.h"
#include "tests/ui/PlannedWindow.h"

namespace stavewright::testing_ui {

class HandWindow : public PlannedWindow {
  protected:
    void openShelf();

    Rect boxOf(BlankId id); ///< on its board
    BoardId boardOf(BlankId id);
    QPoint pixelOf(BoardId board, QPointF onBoard);
    void pointerTo(QPoint to, Qt::KeyboardModifiers with = Qt::NoModifier);
    /// A legal place on this board that is well away from where the blank lies.
    std::optional<hand::Laying> elsewhere(BlankId id);

    QString m_hint; ///< as the rack said it last
};

} // namespace stavewright::testing_ui
