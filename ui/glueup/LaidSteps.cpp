// The photograph of the staves laid out: read, kept, marked and taken away.

#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMimeData>
#include <QUrl>

#include <algorithm>
#include <utility>

#include "core/glueup/LaidPlace.h"
#include "core/panels/LaidEdits.h"
#include "core/photo/CornerOrder.h"
#include "core/photo/JointSearch.h"
#include "ui/entry/EntryModel.h"
#include "ui/glueup/JointCanvas.h"
#include "ui/glueup/LaidDesk.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/CanvasPicture.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/photo/FaceWork.h"
#include "ui/photo/PhotoFile.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
/// Joints are looked for no farther from where the widths put them.
constexpr Length jointReach = Length::millimetres(12);
} // namespace

void LaidDesk::addPhoto() {
    const QString path = QFileDialog::getOpenFileName(
        this, tr("Photograph of the staves laid out"), {},
        tr("Photographs (*.jpg *.jpeg *.png *.tif *.tiff *.webp *.heic *.heif);;All files (*)"));
    if (!path.isEmpty()) {
        addFile(path);
    }
}

void LaidDesk::dragEnterEvent(QDragEnterEvent* event) {
    if (!event->mimeData()->urls().isEmpty() && event->mimeData()->urls().front().isLocalFile()) {
        event->acceptProposedAction();
    }
}

void LaidDesk::dropEvent(QDropEvent* event) {
    addFile(event->mimeData()->urls().front().toLocalFile());
    event->acceptProposedAction();
}

void LaidDesk::addFile(const QString& path) {
    const panels::Panel* panel = m_panel();
    if (panel == nullptr) {
        return;
    }
    ++m_reading;
    say();
    m_worker.start([this, path, face = m_face, name = panel->name, size = panels::laidSize(*panel),
                    stop = m_stop.get_token()] {
        if (stop.stop_requested()) {
            return;
        }
        const QString file = QFileInfo(path).fileName();
        const Result<QByteArray> bytes = readPhotoFile(path);
        Result<BoardPhoto> photo = bytes ? photoFromFile(bytes.value(), file, face, size)
                                         : Result<BoardPhoto>(bytes.error());
        // The destructor waits for this thread, so the object is there to be told.
        QMetaObject::invokeMethod(
            this, [this, name, photo = std::move(photo)] { take(name, photo); },
            Qt::QueuedConnection);
    });
}

void LaidDesk::take(const PanelName& name, const Result<BoardPhoto>& read) {
    --m_reading;
    const panels::Panel* panel = m_panel();
    if (!read) {
        emit said(words(describe(read.error())), true);
    } else if (panel == nullptr || panel->name != name) {
        emit said(tr("Another panel is shown by now; the photograph was left out."), true);
    } else {
        m_face = read.value().face;
        if (change(tr("Photograph of the staves of %1").arg(label()),
                   panels::laidAsItStands(*panel, read.value()))) {
            setStage(Stage::Corners);
        }
    }
    say();
}

bool LaidDesk::change(const QString& step, LaidOut laid, std::optional<int> nudged) {
    const auto photo = laid.photo.id.value;
    const Edit edit = panels::withLaidOut(m_session.document(), std::move(laid));
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        emit said(words(fits.error().message), true);
        refresh();
        return false;
    }
    if (!nudged) {
        return m_session.edit(step, edit);
    }
    const int key = static_cast<int>((photo * 1'000 + *nudged) % 100'000'000) + 800'000'000;
    return m_session.edit(step, edit, key);
}

void LaidDesk::takeMarks(const QString& step, const photo::PhotoControls& controls, bool nudge) {
    const LaidOut* now = shown();
    if (now == nullptr) {
        return;
    }
    if (!controls.tape.empty() || !controls.spots.empty()) {
        emit said(tr("Only the corners (1 to 4) and places on the long edges (N, F) are marked in "
                     "a photograph of staves laid out."),
                  true);
        return refresh();
    }
    LaidOut laid = *now;
    laid.photo.controls = controls;
    std::optional<int> nudged;
    if (nudge && m_corners->picked()) { // of one mark: one step
        const PhotoMark mark = *m_corners->picked();
        nudged = static_cast<int>(mark.of) * 200 + static_cast<int>(mark.index);
    }
    change(step, std::move(laid), nudged);
}

void LaidDesk::takeSize(Length length, Length width) {
    const LaidOut* now = shown();
    if (now != nullptr &&
        (length != now->photo.size.length || width != now->photo.size.widthAtDatum)) {
        change(tr("Size of the staves of %1 laid out").arg(label()),
               panels::measuredAs(*now, length, width));
    }
}

void LaidDesk::asItStands() {
    const LaidOut* now = shown();
    const panels::Panel* panel = m_panel();
    if (now != nullptr && panel != nullptr) {
        change(tr("Staves of %1 lie as the panel stands").arg(label()),
               panels::laidAsItStands(*panel, now->photo));
    }
}

void LaidDesk::turnRound() {
    if (const LaidOut* now = shown()) {
        change(tr("Turn the photograph of %1 round").arg(label()),
               panels::seenFromOtherSide(*now, photo::seenFromOtherSide(now->photo.controls)));
    }
}

void LaidDesk::findJoints() {
    const LaidOut* now = shown();
    if (now == nullptr || now->joints.empty()) {
        return;
    }
    setStage(Stage::Joints);
    const Board board = glueup::asBoard(*now);
    const FacePhoto* picture =
        FacePictures::of(m_session).find(board, m_face, FacePictures::Detail::Sheet);
    if (picture == nullptr) {
        emit said(m_fit ? tr("The photograph is being straightened; look for the joints again in a "
                             "moment.")
                        : tr("Mark the four corners first; then the joints can be looked for."),
                  true);
        return;
    }
    const photo::Image pixels = pixelsOf(picture->image);
    const std::vector<photo::FoundJoint> found = photo::jointsNear(
        pixels.view(), {Length(), Length(), now->photo.size.length, now->photo.size.widthAtDatum},
        panels::predictedJoints(*now), jointReach);
    LaidOut laid = *now;
    int plain = 0;
    for (std::size_t i = 0; i < found.size(); ++i) {
        laid = panels::withJoint(std::move(laid), i, found[i].at,
                                 {std::clamp(found[i].lean, -mostJointLean, mostJointLean),
                                  std::clamp(found[i].gap, Length(), mostJointGap)});
        plain += found[i].isPlain ? 1 : 0;
    }
    const int all = static_cast<int>(found.size());
    change(tr("Find the joints of %1").arg(label()), std::move(laid));
    const QString sentence =
        plain == all ? tr("All %1 joints were found; look whether they are right.").arg(all)
        : plain == 0 ? tr("No joint stands out in the photograph; all stand where the widths put "
                          "them.")
                     : tr("%1 of %2 joints were found; the others stand where the widths put them.")
                           .arg(plain)
                           .arg(all);
    emit said(sentence, plain != all);
}

void LaidDesk::removeShown() {
    const LaidOut* now = shown();
    if (now != nullptr) {
        m_session.edit(tr("Remove the photograph of the staves of %1").arg(label()),
                       panels::withoutLaidOut(m_session.document(), now->panel, m_face));
    }
}

void LaidDesk::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    load(); // pictures are decoded only while somebody looks
}

void LaidDesk::load() {
    const LaidOut* laid = shown();
    if (laid == nullptr) {
        m_picture->clear(tr("No photograph of this face of the staves yet. Add one (Ctrl+Shift+I), "
                            "or drop a file here."));
    } else if (isVisible()) {
        m_picture->show(laid->photo);
    }
}

} // namespace stavewright::ui
