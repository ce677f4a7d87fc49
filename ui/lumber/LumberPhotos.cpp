// Photographs in the place Lumber: in by dialog, drop or paste, under the drawing of the board, and
// as what the drawing suggests.

#include <QClipboard>
#include <QDragEnterEvent>
#include <QGuiApplication>
#include <QMimeData>
#include <QStackedWidget>
#include <QUrl>

#include <algorithm>

#include "ui/entry/EntryView.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/LumberView.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/SuggestionBar.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"

namespace stavewright::ui {

bool LumberView::showsPhotos() const { return m_drawingOrPhotos->currentIndex() == 1; }

void LumberView::connectPhotos() {
    setAcceptDrops(true);
    connect(m_sheet, &BoardSheet::photosWanted, this, [this] { showPhotos(true); });
    connect(m_photos, &PhotoDesk::leaveWanted, this, [this] { showPhotos(false); });
    connect(m_photos, &PhotoDesk::added, this, [this] { showPhotos(true); });
    const auto tell = [this](const QString& sentence, bool wrong) {
        banner().showMessage(wrong ? Sign::Triangle : Sign::None, sentence);
    };
    connect(m_photos, &PhotoDesk::said, this, tell);
    connect(m_suggestions, &SuggestionBar::said, this, tell);
    connect(&FacePictures::of(m_session), &FacePictures::ready, this, [this](BoardId id) {
        if (board() != nullptr && board()->id == id) {
            refreshPhotos();
        }
    });
    addKey("addPhotosKey", {QKeySequence("Ctrl+Shift+I")}, [this] { addPhotos(); });
}

void LumberView::addPhotos() {
    if (board() != nullptr && !isCovered()) {
        m_photos->addPhotos(m_sheet->face());
    }
}

void LumberView::showPhotos(bool shown) {
    if (shown && board() == nullptr) {
        return;
    }
    if (!m_photos->marks().finishEntry() || !m_photos->facts().finishEntry()) {
        return;
    }
    m_drawingOrPhotos->setCurrentIndex(shown ? 1 : 0);
    findChild<QWidget*>("defectsBox")->setVisible(!shown); // marks go into the drawing
    if (shown) {
        m_photos->refresh();
        m_photos->canvas().setFocus();
    } else {
        refreshPhotos();
        m_sheet->setFocus();
    }
}

void LumberView::refreshPhotos() {
    const Board* shown = board();
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        if (showsPhotos()) {
            break; // nobody sees the drawing, and every nudge would straighten them anew
        }
        const FacePhoto* photo =
            shown != nullptr ? FacePictures::of(m_session).findBest(*shown, face) : nullptr;
        const bool none =
            shown == nullptr ||
            std::none_of(shown->photos.begin(), shown->photos.end(),
                         [face](const BoardPhoto& each) { return each.face == face; });
        if (photo != nullptr) {
            m_sheet->setPhoto(face, *photo);
        } else if (none || !FacePictures::of(m_session).troubles(*shown, face).isEmpty()) {
            m_sheet->setPhoto(face, std::nullopt);
        } // else the one before stays until the new one is made
    }
    if (!showsPhotos()) {
        prepareNeighbours();
    }
    m_photos->refresh();
    m_suggestions->refresh();
}

/// The boards before and behind are likely to be picked next.
void LumberView::prepareNeighbours() {
    const std::vector<Board>& boards = m_session.document().boards;
    const int row = boardRow();
    for (const int next : {row + 1, row - 1}) {
        if (row >= 0 && next >= 0 && next < static_cast<int>(boards.size())) {
            for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
                FacePictures::of(m_session).prepare(boards[static_cast<std::size_t>(next)], face,
                                                    FacePictures::Detail::Sheet);
            }
        }
    }
}

bool LumberView::pastePhotos() {
    const QMimeData* held = QGuiApplication::clipboard()->mimeData();
    if (held == nullptr || board() == nullptr || !PhotoDesk::holdsPhotos(*held)) {
        return false;
    }
    if (held->hasText() && !held->hasUrls()) {
        return false; // a spreadsheet puts a picture of its cells beside the text
    }
    m_photos->addFrom(*held, m_sheet->face());
    return true;
}

void LumberView::dragEnterEvent(QDragEnterEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    const bool job = std::any_of(urls.begin(), urls.end(), [](const QUrl& url) {
        return url.path().endsWith(".stavejob", Qt::CaseInsensitive) ||
               url.path().endsWith(".json", Qt::CaseInsensitive);
    });
    const bool something = !urls.isEmpty() || event->mimeData()->hasImage();
    if (board() != nullptr && !isCovered() && something && !job) { // a job is the window's
        event->acceptProposedAction();
    } else {
        event->ignore();
    }
}

void LumberView::dropEvent(QDropEvent* event) {
    BoardFace face = m_sheet->face();
    const QPoint at = m_sheet->mapFrom(this, event->position().toPoint());
    if (!showsPhotos() && m_sheet->rect().contains(at)) { // onto the face it shows
        face = at.y() < m_sheet->height() / 2 ? BoardFace::A : BoardFace::B;
    }
    m_photos->addFrom(*event->mimeData(), face);
    event->acceptProposedAction();
}

} // namespace stavewright::ui
