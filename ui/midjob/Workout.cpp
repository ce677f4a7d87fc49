#include "ui/midjob/Workout.h"

#include <QThreadPool>

#include <chrono>
#include <utility>

namespace stavewright::ui {

namespace {
constexpr std::chrono::milliseconds blink{30};
constexpr int lookEveryMilliseconds = 10;
} // namespace

Workout::Workout(QObject* parent)
    : QObject(parent) {
    connect(&m_look, &QTimer::timeout, this, &Workout::look);
}

void Workout::ask(Work work) {
    if (m_running) { // one at a time: what was asked before is near its end
        m_next = std::move(work);
        m_isWanted = false;
        return;
    }
    start(std::move(work));
    std::unique_lock lock(m_running->mutex);
    if (m_running->ended.wait_for(lock, blink, [this] { return m_running->isDone; })) {
        lock.unlock();
        look();
    }
}

void Workout::drop() {
    m_next = nullptr;
    m_isWanted = false;
}

void Workout::start(Work work) {
    m_running = std::make_shared<Shared>();
    m_isWanted = true;
    // The pool is waited for when the program ends, not when whoever asked goes.
    QThreadPool::globalInstance()->start([shared = m_running, work = std::move(work)] {
        Tell tell = work();
        const std::scoped_lock lock(shared->mutex);
        shared->tell = std::move(tell);
        shared->isDone = true;
        shared->ended.notify_all();
    });
    m_look.start(lookEveryMilliseconds);
}

void Workout::look() {
    Tell tell;
    {
        const std::scoped_lock lock(m_running->mutex);
        if (!m_running->isDone) {
            return;
        }
        tell = std::move(m_running->tell);
    }
    m_look.stop();
    m_running.reset();
    const bool isWanted = m_isWanted;
    if (Work next = std::exchange(m_next, nullptr)) {
        start(std::move(next));
    } else if (isWanted) {
        tell();
    }
}

} // namespace stavewright::ui
