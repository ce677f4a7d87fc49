#pragma once
// "These come from one board": said of a blank on the rack, of its part and of others with it.

#include <QString>

#include <functional>

#include "core/base/Id.h"

class QMenu;

namespace stavewright::ui {

class DocumentSession;

/// Adds a menu of the parts that can come from one board with this one, ticked where it is wanted.
/// `say` is told what a choice comes to.
void addOneBoardMenu(QMenu& menu, DocumentSession& session, PartId part,
                     const std::function<void(const QString&)>& say);

} // namespace stavewright::ui
