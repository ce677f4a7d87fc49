#include "ui/papers/PagePhotoRun.h"

namespace stavewright::ui {

namespace {
constexpr int lookEveryMilliseconds = 40;
} // namespace

PagePhotoRun::PagePhotoRun(QObject* parent)
    : QObject(parent) {
    connect(&m_timer, &QTimer::timeout, this, &PagePhotoRun::look);
}

PagePhotoRun::~PagePhotoRun() { discard(); } // the jthread joins

void PagePhotoRun::start(std::vector<Board> boards, std::vector<papers::Page> pages) {
    discard();
    m_work = std::make_shared<Work>();
    m_thread = std::jthread([work = m_work, known = m_photos, boards = std::move(boards),
                             pages = std::move(pages)](const std::stop_token& stop) {
        PagePhotos made = PagePhotos::of(boards, pages, known, stop);
        const std::scoped_lock lock(work->mutex);
        work->answer = std::move(made);
    });
    m_timer.start(lookEveryMilliseconds);
}

void PagePhotoRun::discard() {
    m_thread.request_stop();
    m_work.reset();
    m_timer.stop();
}

void PagePhotoRun::look() {
    if (!m_work) {
        return;
    }
    std::optional<PagePhotos> answer;
    {
        const std::scoped_lock lock(m_work->mutex);
        answer = std::move(m_work->answer);
    }
    if (answer) {
        m_timer.stop();
        m_work.reset();
        m_photos = std::move(*answer);
        emit finished();
    }
}

} // namespace stavewright::ui
