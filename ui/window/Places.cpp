#include "ui/window/Places.h"

namespace stavewright::ui {

void addOtherPlaces([[maybe_unused]] DocumentSession& session, [[maybe_unused]] QWidget* parent,
                    [[maybe_unused]] const AddPlace& add) {
    // One line for each place: add(CommandId::PlaceLumber, new LumberView(session, parent));
}

} // namespace stavewright::ui
