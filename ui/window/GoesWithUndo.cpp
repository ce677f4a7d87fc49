#include "ui/window/GoesWithUndo.h"

#include <QUndoStack>

#include "ui/widgets/Banner.h"

namespace stavewright::ui {

void goesWithUndo(Banner& banner, QUndoStack& stack) {
    auto* watch = new QObject(&banner); // as long as the message is shown
    QObject::connect(
        &stack, &QUndoStack::indexChanged, watch,
        [&banner, watch, sentence = banner.sentence(), after = stack.index()](int now) {
            const bool isShown = banner.sentence() == sentence;
            if (isShown && now >= after) {
                return;
            }
            if (isShown) {
                banner.dismiss();
            }
            watch->deleteLater();
        });
}

} // namespace stavewright::ui
