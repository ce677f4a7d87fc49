#include "ui/layout/RackView.h"

#include <utility>

#include "ui/layout/BoardItem.h"
#include "ui/layout/FacePictures.h"
#include "ui/layout/TapeRuler.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {
constexpr int rimMilliseconds = 25; // from step to step of a drag that scrolls at the rim
} // namespace

RackView::RackView(DocumentSession& session, QWidget* parent)
    : QGraphicsView(parent)
    , m_session(session)
    , m_scene(this)
    , m_hand(session, m_scene)
    , m_cuts(session, m_scene)
    , m_tape(new TapeRuler(this)) {
    setObjectName("rack");
    setAccessibleName(tr("Boards of this job"));
    setAccessibleDescription(tr("All boards to scale. Tab and the arrow keys go from blank to "
                                "blank; the list beside it holds "
                                "the same blanks."));
    setScene(&m_scene);
    FacePictures& photos = FacePictures::of(m_session);
    m_scene.setPhotos([&photos](const Board& board, BoardFace face) {
        return photos.find(board, face, FacePictures::Detail::Row);
    });
    connect(&photos, &FacePictures::ready, this, [this](BoardId board) {
        if (BoardItem* item = m_scene.itemOf(board)) {
            item->paintAnew();
        }
    });
    setFrameShape(QFrame::NoFrame);
    setViewportMargins(0, TapeRuler::tapeHeight, 0, 0);
    setAlignment(Qt::AlignLeft | Qt::AlignTop);
    setTransformationAnchor(QGraphicsView::NoAnchor);
    setResizeAnchor(QGraphicsView::NoAnchor);
    // Headers and readings hold their place on the screen while the boards move under them.
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    // Always there: a bar that came and went would change the width that the rack is fitted to.
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    connect(&m_session, &DocumentSession::selectionChanged, this, &RackView::showSelection);
    connect(&m_hand, &HandTool::words, this, &RackView::say);
    connect(&m_hand, &HandTool::changed, this, [this] {
        showBracket();
        viewport()->update();
    });
    connect(&m_cuts, &CutTool::words, this, &RackView::say);
    connect(&m_scene, &RackScene::looksChanged, this, &RackView::forgetInStill);
    connect(&m_scene, &RackScene::hungAnew, this, &RackView::forgetStill);
    m_rim.setInterval(rimMilliseconds);
    connect(&m_rim, &QTimer::timeout, this, &RackView::scrollAtRim);
    connect(&m_cuts, &CutTool::changed, this, [this] { viewport()->update(); });
}

void RackView::setPictures(std::vector<BoardPicture> pictures) {
    m_scene.setPictures(std::move(pictures));
    m_scene.setSelection(m_session.selection());
    viewport()->update();
    applyFit();
    showBracket();
}

void RackView::setPlanIsOwn(bool own, const QString& shownAgain) {
    m_planIsOwn = own;
    if (!own) {
        m_shownAgain = shownAgain;
    }
}

bool RackView::isOnOwnPlan() {
    const auto lies = [this](const std::optional<BlankId>& id) {
        const BoardItem* item = id ? m_scene.itemOf(*id) : nullptr;
        QPolygonF outline;
        for (const BlankPicture& each :
             item != nullptr ? item->picture().blanks : std::vector<BlankPicture>()) {
            outline = each.id == *id ? each.outline : outline;
        }
        return std::pair(item != nullptr ? item->picture().board.id : BoardId(), outline);
    };
    const Selection selection = m_session.selection();
    const auto before = lies(selection.blank);
    const bool wasOwn = m_planIsOwn;
    if (!wasOwn && !m_session.document().plan) {
        say(tr("The job has no plan of its own yet. %1").arg(m_shownAgain));
        return false;
    }
    emit ownPlanWanted(); // nor does one come up under the hand
    if (wasOwn) {
        return true;
    }
    const QString away =
        tr("The plan that was only shown is put away; the boards show the job's own. %1")
            .arg(m_shownAgain);
    if (!selection.blank || lies(selection.blank) == before) {
        say(away);
        return true;
    }
    if (lies(selection.blank).second.isEmpty()) {
        m_session.select({});
        say(tr("%1 What was picked is not in it.").arg(away));
    } else {
        reveal();
        say(tr("%1 What was picked lies in another place in it, where it is marked now.")
                .arg(away));
    }
    return false;
}

void RackView::setUnits(const LengthStyle& style) { m_tape->setUnits(style); }

void RackView::setFace(BoardFace face) {
    if (face != m_scene.face()) {
        m_scene.setFace(face);
        emit faceChanged();
    }
}

} // namespace stavewright::ui
