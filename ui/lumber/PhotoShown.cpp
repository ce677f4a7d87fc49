// The photograph that is shown: how it is straightened, its picture, and changes of its marks.

#include <QComboBox>
#include <QToolButton>

#include <algorithm>

#include "core/photo/TiedPhotos.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/CanvasPicture.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

const BoardPhoto* PhotoDesk::photo() const {
    const Board* board = m_board();
    return board != nullptr && m_shown ? findPhoto(*board, *m_shown) : nullptr;
}

void PhotoDesk::showPhoto(std::optional<PhotoId> id) {
    if (id != m_shown) {
        m_shown = id;
        m_canvas->setPicked(std::nullopt);
        m_canvas->setTool(PhotoCanvas::Tool::Pick);
    }
    refresh();
}

void PhotoDesk::refresh() {
    if (!isVisible()) {
        m_stale = true; // nobody looks; fitting takes a while
        return;
    }
    m_stale = false;
    const Board* board = m_board();
    if (photo() == nullptr) { // gone, or another board: its first one
        m_shown.reset();
        if (board != nullptr && !board->photos.empty()) {
            m_shown = board->photos.front().id;
        }
    }
    m_list->clear();
    if (board != nullptr) {
        int number = 1;
        for (const BoardPhoto& each : board->photos) {
            m_list->addItem(tr("%1: face %2, %3")
                                .arg(number++)
                                .arg(each.face == BoardFace::A ? "A" : "B", words(each.name)));
            if (m_shown == each.id) {
                m_list->setCurrentIndex(m_list->count() - 1);
            }
        }
    }
    const BoardPhoto* shown = photo();
    m_list->setEnabled(shown != nullptr);
    m_face->setEnabled(shown != nullptr);
    m_face->setText(shown != nullptr && shown->face == BoardFace::B ? tr("of face B")
                                                                    : tr("of face A"));
    findChild<QToolButton*>("photoRemove")->setEnabled(shown != nullptr);
    for (QToolButton* tool : m_tools) {
        tool->setEnabled(shown != nullptr);
    }
    m_fit.reset();
    m_trouble.clear();
    if (shown != nullptr) {
        fitWithOthers(*board, *shown);
        m_canvas->setReadingStep(m_session.lengthStyle().units == UnitSystem::Inches
                                     ? Length::inches(1)
                                     : Length::millimetres(10));
        m_canvas->setMarks(shown->controls, shown->size, m_fit);
    }
    m_markModel->refresh();
    m_factModel->refreshFacts();
    m_marks->fitColumns();
    m_facts->fitColumns();
    load();
    say();
}

namespace {

/// The photographs of the face that `shown` shows, `shown` itself first with these marks.
std::vector<photo::MarkedPhoto> ofSameFace(const Board& board, const BoardPhoto& shown,
                                           const photo::PhotoControls& controls) {
    std::vector<photo::MarkedPhoto> photos = {{&controls, shown.size}};
    for (const BoardPhoto& each : board.photos) {
        if (each.face == shown.face && each.id != shown.id) {
            photos.push_back({&each.controls, each.size});
        }
    }
    return photos;
}

} // namespace

void PhotoDesk::fitWithOthers(const Board& board, const BoardPhoto& shown) {
    const std::vector<photo::MarkedPhoto> photos = ofSameFace(board, shown, shown.controls);
    const photo::TiedPhotos face = photo::tiedPhotos(photos);
    if (!face.photos[0]) {
        m_trouble = QString::fromStdString(face.photos[0].error().message);
    } else {
        m_fit = face.photos[0].value();
    }
    if (!face.untied.empty()) {
        m_trouble = QString::fromStdString(face.untied.front().message);
    }
    std::vector<const photo::PhotoControls*> others;
    std::vector<SpotHint> hints;
    const auto isHere = [&](int number) {
        const auto& spots = shown.controls.spots;
        return std::any_of(spots.begin(), spots.end(),
                           [=](const photo::SpotMark& spot) { return spot.number == number; });
    };
    for (std::size_t i = 1; i < photos.size(); ++i) {
        others.push_back(photos[i].controls);
        for (const photo::SpotMark& spot : photos[i].controls->spots) {
            if (!m_fit || !face.photos[i] || isHere(spot.number)) {
                continue;
            }
            const auto place = face.photos[i].value().map.toBoard(spot.at.pixels());
            const auto at = place ? m_fit->map.toPhoto(*place) : std::nullopt;
            if (at && at->x >= 0 && at->y >= 0 && at->x <= shown.controls.width &&
                at->y <= shown.controls.height) {
                hints.push_back({spot.number, photo::PhotoPoint::at(*at)});
            }
        }
    }
    // Once it is known what this photograph shows, a spot elsewhere is one that no other has.
    const int next =
        m_fit ? photo::freeSpot(shown.controls, others) : photo::nextSpot(shown.controls, others);
    m_canvas->setSpots(next, std::move(hints));
}

std::optional<photo::Straightening> PhotoDesk::fitOf(const photo::PhotoControls& controls) const {
    const Board* board = m_board();
    const BoardPhoto* shown = photo();
    if (board == nullptr || shown == nullptr) {
        return std::nullopt;
    }
    photo::TiedPhotos face = photo::tiedPhotos(ofSameFace(*board, *shown, controls));
    return face.photos[0] ? std::optional(std::move(face.photos[0]).value()) : std::nullopt;
}

void PhotoDesk::showNext(int by) {
    const Board* board = m_board();
    if (board == nullptr || board->photos.empty()) {
        return;
    }
    const auto count = static_cast<std::ptrdiff_t>(board->photos.size());
    const auto now = photo() - board->photos.data();
    showPhoto(board->photos[static_cast<std::size_t>((now + by + count) % count)].id);
}

void PhotoDesk::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) {
        refresh();
    }
    load(); // pictures are decoded only while somebody looks
}

void PhotoDesk::load() {
    const BoardPhoto* shown = photo();
    if (shown == nullptr) {
        m_picture->clear(tr("No photograph of this board yet. Add one (Ctrl+Shift+I), drop a file "
                            "here, or paste a picture."));
        m_canvas->setSpots(1, {});
    } else if (isVisible()) {
        m_picture->show(*shown);
    }
}

void PhotoDesk::takeMarks(const QString& step, const photo::PhotoControls& controls, bool nudge) {
    const Board* board = m_board();
    const BoardPhoto* shown = photo();
    if (board == nullptr || shown == nullptr) {
        return;
    }
    BoardPhoto changed = *shown;
    changed.controls = controls;
    const Edit edit = replacingPhoto(*board, changed);
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        emit said(QString::fromStdString(fits.error().message), true);
        refresh();
        return;
    }
    if (nudge && m_canvas->picked()) { // of one mark of one photograph: one step
        const PhotoMark mark = *m_canvas->picked();
        const int key =
            static_cast<int>((changed.id.value * 1'000 + static_cast<std::int64_t>(mark.of) * 300 +
                              static_cast<std::int64_t>(mark.index)) %
                             1'000'000'000) +
            1'000'000'000;
        m_session.edit(step, edit, key);
    } else {
        m_session.edit(step, edit);
    }
    refresh();
}

void PhotoDesk::removeShown() {
    const Board* board = m_board();
    const BoardPhoto* shown = photo();
    if (board != nullptr && shown != nullptr) {
        m_session.edit(tr("Remove a photograph of board %1").arg(words(board->mark)),
                       removingPhoto(*board, shown->id));
    }
}

} // namespace stavewright::ui
