#pragma once
// A message about a step goes when the step is taken back: it has not happened then.

class QUndoStack;

namespace stavewright::ui {

class Banner;

/// What the banner shows now is about the last step of the stack.
void goesWithUndo(Banner& banner, QUndoStack& stack);

} // namespace stavewright::ui
