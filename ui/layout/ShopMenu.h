#pragma once
// What the shop reports, and what is asked of a board, for the menu of the rack.

class QMenu;

namespace stavewright::ui {

class DocumentSession;
class ShopEvents;

/// Adds what fits the blank or the board that is selected.
void fillShopMenu(QMenu& menu, const DocumentSession& session, ShopEvents& shop);

} // namespace stavewright::ui
