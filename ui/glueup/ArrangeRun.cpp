#include "ui/glueup/ArrangeRun.h"

namespace stavewright::ui {

namespace {
constexpr int lookEveryMilliseconds = 40;
/// Nobody waits longer than 2 s, however slow or busy the machine; the best so far is handed over.
constexpr glueup::ArrangeLimits limits{.moves = 4'200'000, .seconds = 1.8};
} // namespace

ArrangeRun::ArrangeRun(QObject* parent)
    : QObject(parent) {
    connect(&m_timer, &QTimer::timeout, this, &ArrangeRun::look);
}

ArrangeRun::~ArrangeRun() { discard(); } // the jthread joins

void ArrangeRun::start(panels::Panel panel, std::optional<panels::Panel> partner) {
    discard();
    m_work = std::make_shared<Work>();
    m_thread = std::jthread([work = m_work, panel = std::move(panel),
                             partner = std::move(partner)](const std::stop_token& stop) {
        panels::Proposal found =
            panels::propose(panel, partner ? &*partner : nullptr, limits, stop);
        const std::scoped_lock lock(work->mutex);
        work->answer = std::move(found);
    });
    m_timer.start(lookEveryMilliseconds);
}

void ArrangeRun::stop() { m_thread.request_stop(); }

void ArrangeRun::discard() {
    m_thread.request_stop();
    m_work.reset();
    m_timer.stop();
}

void ArrangeRun::look() {
    if (!m_work) {
        return;
    }
    std::optional<panels::Proposal> answer;
    {
        const std::scoped_lock lock(m_work->mutex);
        answer = std::move(m_work->answer);
    }
    if (answer) {
        m_timer.stop();
        m_work.reset();
        emit finished(*answer);
    }
}

} // namespace stavewright::ui
