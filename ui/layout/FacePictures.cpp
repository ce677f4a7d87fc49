#include "ui/layout/FacePictures.h"

#include <algorithm>

#include "ui/photo/FaceKey.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

constexpr double sheetPixels = 2.5e6;
constexpr qint64 mostBytes = 400LL << 20;
constexpr std::size_t mostWaiting = 48; // more than one window shows at a time

double pixelsFor(FacePictures::Detail detail) {
    switch (detail) {
    case FacePictures::Detail::Row:
        return rowPixels;
    case FacePictures::Detail::Grain:
        return grainPixels;
    case FacePictures::Detail::Sheet:
        break;
    }
    return sheetPixels;
}

std::string keyOf(const Board& board, BoardFace face, FacePictures::Detail detail) {
    std::string key = photosKey(board, face);
    if (!key.empty()) {
        key += detail == FacePictures::Detail::Row     ? 'r'
               : detail == FacePictures::Detail::Grain ? 'g'
                                                       : 's';
    }
    return key;
}

qint64 bytesOf(const FacePhoto& photo) {
    qint64 bytes = photo.image.sizeInBytes();
    for (const QImage& level : photo.smaller) {
        bytes += level.sizeInBytes();
    }
    return bytes;
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
        m_waiting.clear();
        m_running.reset();
    });
}

FacePictures::~FacePictures() {
    m_stop.request_stop();
    m_worker.waitForDone();
}

const FacePictures::Kept* FacePictures::kept(const std::string& key) {
    const auto found = m_kept.find(key);
    if (found == m_kept.end()) {
        return nullptr;
    }
    m_uses.splice(m_uses.begin(), m_uses, found->second.use);
    return &found->second;
}

const FacePhoto* FacePictures::find(const Board& board, BoardFace face, Detail detail) {
    if (board.photos.empty()) {
        return nullptr;
    }
    const std::string key = keyOf(board, face, detail);
    if (key.empty()) {
        return nullptr;
    }
    if (const Kept* found = kept(key)) {
        return found->photo.image.isNull() ? nullptr : &found->photo;
    }
    want(key, board, face, detail, Hurry::Now);
    return nullptr;
}

const FacePhoto* FacePictures::findBest(const Board& board, BoardFace face) {
    const FacePhoto* large = find(board, face, Detail::Sheet);
    if (large != nullptr || board.photos.empty()) {
        return large;
    }
    const std::string key = keyOf(board, face, Detail::Row);
    const Kept* small = kept(key);
    if (small == nullptr && !key.empty()) {
        want(key, board, face, Detail::Row, Hurry::Now);
    }
    return small != nullptr && !small->photo.image.isNull() ? &small->photo : nullptr;
}

void FacePictures::prepare(const Board& board, BoardFace face, Detail detail) {
    const std::string key = keyOf(board, face, detail);
    if (!key.empty() && !m_kept.contains(key)) {
        want(key, board, face, detail, Hurry::Soon);
    }
}

void FacePictures::want(const std::string& key, const Board& board, BoardFace face, Detail detail,
                        Hurry hurry) {
    if (m_running == key) {
        return;
    }
    const auto waiting = std::find_if(m_waiting.begin(), m_waiting.end(),
                                      [&](const Wish& wish) { return wish.key == key; });
    Wish wish;
    if (waiting == m_waiting.end()) {
        wish = {key, faceOrder(board, face, pixelsFor(detail)), board.id, detail};
    } else if (hurry == Hurry::Now) {
        wish = std::move(*waiting);
        m_waiting.erase(waiting);
    } else {
        return;
    }
    if (hurry == Hurry::Soon) {
        m_waiting.push_back(std::move(wish));
    } else if (detail != Detail::Sheet) {
        m_waiting.push_front(std::move(wish));
    } else { // small ones are quickly made: something is seen of all before one is sharp
        const auto large = std::find_if(m_waiting.begin(), m_waiting.end(), [](const Wish& each) {
            return each.detail == Detail::Sheet;
        });
        m_waiting.insert(large, std::move(wish));
    }
    if (m_waiting.size() > mostWaiting) {
        m_waiting.pop_back(); // asked for again when it is painted again
    }
    startNext();
}

void FacePictures::startNext() {
    if (m_running || m_waiting.empty()) {
        return;
    }
    Wish wish = std::move(m_waiting.front());
    m_waiting.pop_front();
    m_running = wish.key;
    m_worker.start([this, wish = std::move(wish), stop = m_stop.get_token()] {
        if (stop.stop_requested()) {
            return;
        }
        const FacePicture made = straightenedFace(wish.order, stop);
        FacePhoto photo;
        if (!made.image.isNull()) {
            photo.image = made.image.convertToFormat(QImage::Format_RGB32);
            photo.makeSmaller();
        }
        photo.place = QRectF(QPointF(made.place.x0.toMillimetres(), made.place.y0.toMillimetres()),
                             QPointF(made.place.x1.toMillimetres(), made.place.y1.toMillimetres()));
        QStringList troubles;
        for (const Error& error : made.errors) {
            troubles << QString::fromStdString(describe(error));
        }
        // The destructor waits for this thread, so the object is there to be told.
        QMetaObject::invokeMethod(
            this,
            [this, key = wish.key, board = wish.board, stop, photo = std::move(photo), troubles] {
                if (stop.stop_requested()) {
                    return; // of a job that is no longer open
                }
                m_running.reset();
                keep(key, photo, troubles);
                startNext();
                emit ready(board);
            },
            Qt::QueuedConnection);
    });
}

void FacePictures::keep(const std::string& key, FacePhoto photo, const QStringList& troubles) {
    m_bytes += bytesOf(photo);
    m_uses.push_front(key);
    m_kept[key] = {std::move(photo), troubles, m_uses.begin()};
    while (m_bytes > mostBytes && m_uses.size() > 2) {
        const auto oldest = m_kept.find(m_uses.back());
        m_bytes -= bytesOf(oldest->second.photo);
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
