#include "ui/session/PlanRun.h"

#include <exception>

namespace stavewright::ui {

namespace {
constexpr int lookEveryMilliseconds = 250; // improvements shown at most four times a second
constexpr int lookWhenWaited = 20;         // for the first answer, or for the end
} // namespace

PlanRun::PlanRun(QObject* parent)
    : QObject(parent) {
    connect(&m_timer, &QTimer::timeout, this, &PlanRun::look);
}

PlanRun::~PlanRun() { discard(); } // the jthreads join

void PlanRun::start(Document snapshot, const PlanOptions& options,
                    std::optional<midjob::RestMode> rest) {
    discard();
    // Threads of discarded runs were asked to stop and answer within a fraction of a second.
    m_threads.clear();
    m_work = std::make_shared<Work>();
    m_stopping = false;
    m_clock.start();
    m_threads.emplace_back([work = m_work, document = std::move(snapshot), options, rest] {
        Progress progress;
        progress.stop = work->stop.get_token();
        progress.report = [&work](const ProgressReport& report) {
            const std::scoped_lock lock(work->mutex);
            work->report = report;
        };
        const OnBetterPlan better = [&work](const Plan& plan) {
            const std::scoped_lock lock(work->mutex);
            work->best = plan;
            work->bestIsNews = true;
        };
        Result<PlanOutcome> outcome = [&]() -> Result<PlanOutcome> {
            try {
                if (!rest) {
                    return planJob(document, options, progress, better);
                }
                Result<midjob::RestOutcome> planned =
                    midjob::planRest(document, *rest, options, progress, better);
                if (!planned) {
                    return planned.error();
                }
                const std::scoped_lock lock(work->mutex);
                work->conflict = planned.value().conflict;
                return std::move(planned).value().outcome;
            } catch (const std::exception& fault) {
                return Error{ErrorCode::Internal,
                             std::string("Planning stopped because of a fault of the program: ") +
                                 fault.what() + ".",
                             {}};
            }
        }();
        const std::scoped_lock lock(work->mutex);
        work->outcome = std::move(outcome);
    });
    m_timer.start(lookWhenWaited);
}

void PlanRun::stopAndKeep() {
    if (m_work) {
        m_stopping = true;
        m_work->stop.request_stop();
        m_timer.start(lookWhenWaited);
    }
}

void PlanRun::discard() {
    if (m_work) {
        m_work->stop.request_stop();
        m_work.reset();
    }
    m_timer.stop();
    m_stopping = false;
}

std::optional<Plan> PlanRun::best() const {
    if (!m_work) {
        return std::nullopt;
    }
    const std::scoped_lock lock(m_work->mutex);
    return m_work->best;
}

void PlanRun::look() {
    if (!m_work) {
        return;
    }
    std::optional<Plan> better;
    std::optional<ProgressReport> report;
    bool ended = false;
    {
        const std::scoped_lock lock(m_work->mutex);
        ended = m_work->outcome.has_value();
        if (m_work->bestIsNews && !ended) {
            better = m_work->best;
            m_work->bestIsNews = false;
        }
        report = m_work->report;
    }
    if (ended) {
        finish();
        return;
    }
    if (better) {
        if (!m_stopping) {
            m_timer.start(lookEveryMilliseconds);
        }
        emit improved(*better);
    }
    ProgressReport shown = report.value_or(ProgressReport{});
    shown.seconds = seconds();
    emit progressed(shown);
}

void PlanRun::finish() {
    const std::shared_ptr<Work> work = m_work;
    m_timer.stop();
    m_work.reset();
    m_stopping = false;
    m_conflict = work->conflict;
    m_threads.clear(); // the worker has nothing left to do but return
    emit finished(*work->outcome);
}

} // namespace stavewright::ui
