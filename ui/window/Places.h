#pragma once
// The places beside Layout.

#include <functional>

#include "ui/window/Commands.h"

class QWidget;

namespace stavewright::ui {

class DocumentSession;

using AddPlace = std::function<void(CommandId, QWidget*)>;

void addOtherPlaces(DocumentSession& session, QWidget* parent, const AddPlace& add);

} // namespace stavewright::ui
