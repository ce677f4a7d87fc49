#include "ui/window/Places.h"

// CMakeLists.txt names the places whose libraries are there.
#ifdef STAVEWRIGHT_PLACE_LUMBER
#include "ui/lumber/LumberView.h"
#endif
#ifdef STAVEWRIGHT_PLACE_PIECE
#include "ui/piece/PieceView.h"
#endif
#ifdef STAVEWRIGHT_PLACE_SHOP
#include "ui/shop/ShopView.h"
#endif
#ifdef STAVEWRIGHT_PLACE_PAPERS
#include "ui/papers/PapersView.h"
#endif

namespace stavewright::ui {

void addOtherPlaces([[maybe_unused]] DocumentSession& session, [[maybe_unused]] QWidget* parent,
                    [[maybe_unused]] const AddPlace& add) {
#ifdef STAVEWRIGHT_PLACE_LUMBER
    add(CommandId::PlaceLumber, new LumberView(session, parent));
#endif
#ifdef STAVEWRIGHT_PLACE_PIECE
    add(CommandId::PlacePiece, new PieceView(session, parent));
#endif
#ifdef STAVEWRIGHT_PLACE_PAPERS
    add(CommandId::PlacePapers, new PapersView(session, parent));
#endif
#ifdef STAVEWRIGHT_PLACE_SHOP
    add(CommandId::PlaceShop, new ShopView(session, parent));
#endif
}

} // namespace stavewright::ui
