#include "ui/session/ChoicesRun.h"

#include <exception>
#include <utility>

namespace stavewright::ui {

namespace {
constexpr int lookEveryMilliseconds = 250;
constexpr int lookWhenStopping = 20;
} // namespace

ChoicesRun::ChoicesRun(QObject* parent)
    : QObject(parent) {
    connect(&m_timer, &QTimer::timeout, this, &ChoicesRun::look);
}

ChoicesRun::~ChoicesRun() { discard(); } // the jthreads join

void ChoicesRun::start(ChoicesQuestion question) {
    discard();
    // Threads of discarded runs were asked to stop and answer within a fraction of a second.
    m_threads.clear();
    m_work = std::make_shared<Work>();
    m_clock.start();
    m_threads.emplace_back([work = m_work, question = std::move(question)] {
        Progress progress;
        progress.stop = work->stop.get_token();
        progress.report = [&work](const ProgressReport& report) {
            const std::scoped_lock lock(work->mutex);
            work->report = report;
        };
        std::optional<ChoicesAnswer> answer;
        std::string fault;
        try {
            answer = question(progress);
        } catch (const std::exception& error) {
            fault = error.what();
        }
        const std::scoped_lock lock(work->mutex);
        work->answer = std::move(answer);
        work->fault = std::move(fault);
        work->ended = true;
    });
    m_timer.start(lookEveryMilliseconds);
}

void ChoicesRun::stop() {
    if (m_work) {
        m_work->stop.request_stop();
        m_timer.start(lookWhenStopping);
    }
}

void ChoicesRun::discard() {
    if (m_work) {
        m_work->stop.request_stop();
        m_work.reset();
    }
    m_timer.stop();
}

void ChoicesRun::look() {
    if (!m_work) {
        return;
    }
    std::optional<ProgressReport> report;
    bool ended = false;
    {
        const std::scoped_lock lock(m_work->mutex);
        ended = m_work->ended;
        report = m_work->report;
    }
    if (!ended) {
        ProgressReport shown = report.value_or(ProgressReport{});
        shown.seconds = static_cast<double>(m_clock.elapsed()) / 1000.0;
        emit progressed(shown);
        return;
    }
    const std::shared_ptr<Work> work = m_work;
    m_timer.stop();
    m_work.reset();
    m_threads.clear(); // the worker has nothing left to do but return
    if (work->answer) {
        emit finished(*work->answer);
    } else {
        emit failed(tr("It stopped because of a fault of the program: %1.")
                        .arg(QString::fromStdString(work->fault)));
    }
}

} // namespace stavewright::ui
