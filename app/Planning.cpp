#include "app/Planning.h"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <stop_token>
#include <thread>

namespace stavewright::app {

namespace {

volatile std::sig_atomic_t stopSignal = 0;

void rememberSignal(int signal) { stopSignal = signal; }

/// Turns a signal into a stop request while it lives. A signal handler may only set a flag, so a
/// small thread watches the flag.
class SignalStop {
  public:
    explicit SignalStop(const std::stop_source& source)
        : m_oldInterrupt(std::signal(SIGINT, rememberSignal))
        , m_oldTerminate(std::signal(SIGTERM, rememberSignal))
        , m_watch([source](const std::stop_token& ended) mutable {
            while (!ended.stop_requested()) {
                if (stopSignal != 0) {
                    source.request_stop();
                    return;
                }
                std::this_thread::sleep_for(std::chrono::milliseconds(20));
            }
        }) {}
    ~SignalStop() {
        m_watch.request_stop();
        m_watch.join();
        std::signal(SIGINT, m_oldInterrupt);
        std::signal(SIGTERM, m_oldTerminate);
    }
    SignalStop(const SignalStop&) = delete;
    SignalStop& operator=(const SignalStop&) = delete;

  private:
    using Handler = void (*)(int);
    Handler m_oldInterrupt;
    Handler m_oldTerminate;
    std::jthread m_watch;
};

} // namespace

Result<PlannedJob> planDocument(Document document, const PlanOptions& options) {
    std::optional<Result<PlanOutcome>> outcome;
    withSignals([&](const Progress& progress) { outcome = planJob(document, options, progress); });
    if (!*outcome) {
        return outcome->error();
    }
    PlannedJob job;
    job.outcome = std::move(*outcome).value();
    job.document = std::move(document);
    job.document.plan = job.outcome.plan;
    job.document.nextId = std::max(job.document.nextId, largestId(job.outcome.plan) + 1);
    job.audit = audit(job.document);
    return job;
}

void withSignals(const std::function<void(const Progress&)>& work) {
    std::stop_source source;
    Progress progress;
    progress.stop = source.get_token();
    const SignalStop onSignal(source);
    work(progress);
}

} // namespace stavewright::app
