// Photographs as they come in: from files, dropped, or pasted; read and looked at on a worker
// thread.

#include "ui/lumber/PhotoDesk.h"

#include <QBuffer>
#include <QFileDialog>
#include <QFileInfo>
#include <QMimeData>
#include <QUrl>

#include <algorithm>

#include "ui/entry/EntryModel.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/photo/FaceWork.h"
#include "ui/photo/PhotoFile.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

void PhotoDesk::addPhotos(BoardFace face) {
    const QStringList paths = QFileDialog::getOpenFileNames(
        this, tr("Photographs of face %1").arg(face == BoardFace::A ? "A" : "B"), {},
        tr("Photographs (*.jpg *.jpeg *.png *.tif *.tiff *.webp *.heic *.heif);;All files (*)"));
    addFiles(paths, face);
}

void PhotoDesk::addFiles(const QStringList& paths, BoardFace face) {
    std::vector<Source> sources;
    for (const QString& path : paths) {
        sources.push_back({QFileInfo(path).fileName(), path, {}, {}});
    }
    read(std::move(sources), face);
}

void PhotoDesk::addPicture(const QImage& picture, BoardFace face) {
    read({{tr("pasted picture"), {}, {}, picture}}, face);
}

bool PhotoDesk::holdsPhotos(const QMimeData& given) {
    static const QStringList endings = {"jpg",  "jpeg", "png",  "tif",
                                        "tiff", "webp", "heic", "heif"};
    const QList<QUrl> urls = given.urls();
    return given.hasImage() || std::any_of(urls.begin(), urls.end(), [](const QUrl& url) {
               return url.isLocalFile() &&
                      endings.contains(QFileInfo(url.toLocalFile()).suffix().toLower());
           });
}

void PhotoDesk::addFrom(const QMimeData& given, BoardFace face) {
    QStringList paths;
    for (const QUrl& url : given.urls()) {
        if (url.isLocalFile()) {
            paths << url.toLocalFile();
        }
    }
    if (!paths.isEmpty()) {
        addFiles(paths, face);
    } else if (given.hasImage()) {
        addPicture(qvariant_cast<QImage>(given.imageData()), face);
    }
}

void PhotoDesk::read(std::vector<Source> sources, BoardFace face) {
    const Board* board = m_board();
    if (sources.empty() || board == nullptr) {
        return;
    }
    ++m_reading;
    say();
    m_worker.start([this, sources = std::move(sources), face, id = board->id,
                    size = measuredSize(*board), stop = m_stop.get_token()] {
        std::vector<BoardPhoto> photos;
        QStringList refusals;
        for (const Source& source : sources) {
            if (stop.stop_requested()) {
                return;
            }
            QByteArray bytes = source.bytes;
            if (!source.path.isEmpty()) {
                const Result<QByteArray> file = readPhotoFile(source.path);
                if (!file) {
                    refusals << source.name + ": " + QString::fromStdString(file.error().message);
                    continue;
                }
                bytes = file.value();
            } else if (!source.picture.isNull()) {
                QBuffer buffer(&bytes);
                buffer.open(QIODevice::WriteOnly);
                source.picture.save(&buffer, "png");
            }
            Result<BoardPhoto> photo = photoFromFile(bytes, source.name, face, size);
            if (photo) {
                photos.push_back(std::move(photo).value());
            } else {
                refusals << QString::fromStdString(describe(photo.error()));
            }
        }
        // The destructor waits for this thread, so the object is there to be told.
        QMetaObject::invokeMethod(
            this, [this, id, photos = std::move(photos), refusals] { take(id, photos, refusals); },
            Qt::QueuedConnection);
    });
}

void PhotoDesk::take(BoardId id, std::vector<BoardPhoto> photos, QStringList refusals) {
    --m_reading;
    const Document& document = m_session.document();
    const Board* board = findBoard(document, id);
    if (board != nullptr && !photos.empty()) {
        const int count = static_cast<int>(photos.size());
        // A second photograph of a face shows a stretch: it is straightened by the tape, and
        // corners that were only guessed would contradict it.
        for (std::size_t i = 0; i < photos.size(); ++i) {
            const bool another = i > 0 || std::any_of(board->photos.begin(), board->photos.end(),
                                                      [&](const BoardPhoto& old) {
                                                          return old.face == photos[i].face;
                                                      });
            if (another || count > 1) {
                photos[i].controls.corners.clear();
                photos[i].controls.edges.clear();
            }
        }
        const PhotoId first{document.nextId};
        const QString step =
            count == 1 ? tr("Add a photograph to board %1").arg(words(board->mark))
                       : tr("Add %1 photographs to board %2").arg(count).arg(words(board->mark));
        const Edit edit = addingPhotos(document, *board, std::move(photos));
        if (const Status fits = allowed(document, edit); !fits) {
            refusals << QString::fromStdString(fits.error().message);
        } else if (m_session.edit(step, edit)) {
            if (m_board() != nullptr && m_board()->id == id) {
                showPhoto(first);
            }
            emit added(first);
        }
    }
    if (!refusals.isEmpty()) {
        QString sentence = refusals.front();
        if (refusals.size() > 1) {
            sentence += ' ' + tr("And %n more cannot be used.", nullptr,
                                 static_cast<int>(refusals.size()) - 1)
                                  .replace("%n", QString::number(refusals.size() - 1));
        }
        emit said(sentence, true);
    }
    say();
}

} // namespace stavewright::ui
