#include "ui/lumber/CanvasPicture.h"

#include <QThreadPool>

#include "core/lumber/BoardPhoto.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/lumber/PhotoLevels.h"
#include "ui/photo/PhotoFile.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

CanvasPicture::CanvasPicture(PhotoCanvas& canvas, QThreadPool& worker, QObject* parent)
    : QObject(parent)
    , m_canvas(canvas)
    , m_worker(worker) {}

void CanvasPicture::clear(const QString& sentence) {
    m_wanted.clear();
    m_canvas.setMarks({}, {}, std::nullopt);
    m_canvas.setPicture({}, sentence);
}

void CanvasPicture::show(const BoardPhoto& photo) {
    const std::string wanted = photo.file.sha256();
    if (wanted == m_wanted) {
        return;
    }
    m_wanted = wanted;
    m_canvas.setPicture({}, tr("Reading the photograph..."));
    m_worker.start([this, wanted, file = photo.file, name = words(photo.name)] {
        std::vector<QImage> levels;
        QString trouble;
        if (const auto bytes = file.read()) {
            const Result<QImage> decoded =
                decodePhoto(QByteArray::fromRawData(bytes.value()->data(),
                                                    static_cast<qsizetype>(bytes.value()->size())),
                            name);
            if (decoded) {
                levels = photoLevels(decoded.value());
            } else {
                trouble = words(describe(decoded.error()));
            }
        } else {
            trouble = words(bytes.error().message);
        }
        QMetaObject::invokeMethod(
            this,
            [this, wanted, levels = std::move(levels), trouble] {
                if (wanted == m_wanted) {
                    m_canvas.setPicture(levels, trouble);
                }
            },
            Qt::QueuedConnection);
    });
}

} // namespace stavewright::ui
