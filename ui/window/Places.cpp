#include "ui/window/Places.h"

#include "ui/glueup/GlueUpView.h"
#include "ui/lumber/LumberView.h"
#include "ui/papers/PapersView.h"
#include "ui/piece/PieceView.h"
#include "ui/shop/ShopView.h"

namespace stavewright::ui {

void addOtherPlaces(DocumentSession& session, QWidget* parent, const AddPlace& add) {
    add(CommandId::PlaceLumber, new LumberView(session, parent));
    add(CommandId::PlacePiece, new PieceView(session, parent));
    add(CommandId::PlaceShop, new ShopView(session, parent));
    add(CommandId::PlaceGlueUp, new GlueUpView(session, parent));
    auto* papers = new PapersView(session, parent);
    papers->setObjectName("papersPlace");
    add(CommandId::PlacePapers, papers);
}

} // namespace stavewright::ui
