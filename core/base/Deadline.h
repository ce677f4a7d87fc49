#pragma once
// A stop that comes by itself after some seconds, or when the caller's own stop is asked for.
//
//   const Deadline deadline(limits.seconds, stop);
//   search(problem, deadline.stop());

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

namespace stavewright {

class Deadline {
  public:
    /// Without seconds only the caller's stop counts.
    Deadline(std::optional<double> seconds, const std::stop_token& caller)
        : m_forward(caller, Forward{&m_source}) {
        if (seconds) {
            m_clock = std::jthread([this, span = std::chrono::duration<double>(*seconds)](
                                       const std::stop_token& done) {
                std::unique_lock lock(m_mutex);
                m_wake.wait_for(lock, done, span, [] { return false; });
                if (!done.stop_requested()) {
                    m_source.request_stop();
                }
            });
        }
    }

    [[nodiscard]] std::stop_token stop() const { return m_source.get_token(); }

  private:
    struct Forward {
        std::stop_source* source;
        void operator()() const { source->request_stop(); }
    };
    std::stop_source m_source;
    std::stop_callback<Forward> m_forward;
    std::mutex m_mutex;
    std::condition_variable_any m_wake;
    std::jthread m_clock; ///< last, so that it ends first
};

} // namespace stavewright
