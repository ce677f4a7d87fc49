#include "ui/layout/FacePictures.h"

#include <algorithm>

#include "ui/photo/FaceWork.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

constexpr double rowPixels = 120e3; // about 1200 by 100
constexpr double sheetPixels = 2.5e6;
constexpr qint64 mostBytes = 400LL << 20;

void append(std::string& key, std::int64_t value) {
    key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

/// Everything the picture depends on.
std::string keyOf(const Board& board, BoardFace face, FacePictures::Detail detail) {
    std::string key;
    bool any = false;
    append(key, static_cast<std::int64_t>(face) * 2 + static_cast<std::int64_t>(detail));
    for (const BoardPhoto& photo : board.photos) {
        if (photo.face != face) {
            continue;
        }
        any = true;
        key += photo.file.sha256();
        for (const Length length :
             {photo.size.length, photo.size.widthAtDatum, photo.size.widthAtFar}) {
            append(key, length.inNanometres());
        }
        for (const photo::CornerMark& mark : photo.controls.corners) {
            append(key, static_cast<std::int64_t>(mark.corner));
            append(key, mark.at.x);
            append(key, mark.at.y);
        }
        append(key, -1);
        for (const photo::TapeReading& mark : photo.controls.tape) {
            append(key, mark.at.x);
            append(key, mark.at.y);
            append(key, mark.reading.inNanometres());
        }
        append(key, -1);
        for (const photo::EdgeMark& mark : photo.controls.edges) {
            append(key, static_cast<std::int64_t>(mark.edge));
            append(key, mark.at.x);
            append(key, mark.at.y);
        }
        append(key, -1);
    }
    if (!any) {
        return {};
    }
    for (const Point& corner : board.outline) {
        append(key, corner.x.inNanometres());
        append(key, corner.y.inNanometres());
    }
    return key;
}

} // namespace

FacePictures& FacePictures::of(DocumentSession& session) {
    auto* found = session.findChild<FacePictures*>(QString(), Qt::FindDirectChildrenOnly);
    return found != nullptr ? *found : *new FacePictures(session); // owned by the session
}

FacePictures::FacePictures(DocumentSession& session)
    : QObject(&session) {
    m_worker.setMaxThreadCount(1); // decoding takes memory; the window stays quick
    connect(&session, &DocumentSession::adopted, this, [this] {
        m_stop.request_stop();
        m_stop = std::stop_source();
        m_worker.clear();
        m_wanted.clear();
    });
}

FacePictures::~FacePictures() {
    m_stop.request_stop();
    m_worker.clear();
    m_worker.waitForDone();
}

const FacePhoto* FacePictures::find(const Board& board, BoardFace face, Detail detail) {
    if (board.photos.empty()) {
        return nullptr;
    }
    const std::string key = keyOf(board, face, detail);
    if (key.empty()) {
        return nullptr;
    }
    if (const auto found = m_kept.find(key); found != m_kept.end()) {
        m_uses.splice(m_uses.begin(), m_uses, found->second.use);
        return found->second.photo.image.isNull() ? nullptr : &found->second.photo;
    }
    if (!m_wanted.insert(key).second) {
        return nullptr;
    }
    const FaceOrder order = faceOrder(board, face, detail == Detail::Row ? rowPixels : sheetPixels);
    m_worker.start(
        [this, key, order, id = board.id, stop = m_stop.get_token()] {
            if (stop.stop_requested()) {
                return;
            }
            const FacePicture made = straightenedFace(order, stop);
            FacePhoto photo;
            photo.image =
                made.image.isNull() ? QImage() : made.image.convertToFormat(QImage::Format_RGB32);
            photo.place =
                QRectF(QPointF(made.place.x0.toMillimetres(), made.place.y0.toMillimetres()),
                       QPointF(made.place.x1.toMillimetres(), made.place.y1.toMillimetres()));
            QStringList troubles;
            for (const Error& error : made.errors) {
                troubles << QString::fromStdString(describe(error));
            }
            // The destructor waits for this thread, so the object is there to be told.
            QMetaObject::invokeMethod(
                this,
                [this, key, id, stop, photo = std::move(photo), troubles] {
                    if (!stop.stop_requested()) {
                        m_wanted.erase(key);
                        keep(key, photo, troubles);
                        emit ready(id);
                    }
                },
                Qt::QueuedConnection);
        },
        detail == Detail::Sheet ? 1 : 0);
    return nullptr;
}

void FacePictures::keep(const std::string& key, FacePhoto photo, const QStringList& troubles) {
    m_bytes += photo.image.sizeInBytes();
    m_uses.push_front(key);
    m_kept[key] = {std::move(photo), troubles, m_uses.begin()};
    while (m_bytes > mostBytes && m_uses.size() > 2) {
        const auto oldest = m_kept.find(m_uses.back());
        m_bytes -= oldest->second.photo.image.sizeInBytes();
        m_kept.erase(oldest);
        m_uses.pop_back();
    }
}

QStringList FacePictures::troubles(const Board& board, BoardFace face) const {
    for (const Detail detail : {Detail::Sheet, Detail::Row}) {
        const auto found = m_kept.find(keyOf(board, face, detail));
        if (found != m_kept.end()) {
            return found->second.troubles;
        }
    }
    return {};
}

} // namespace stavewright::ui
