#pragma once
// When the search must end at once: a stop from outside, or the limit in seconds. Once true it
// stays true, so whoever gets half a result from interrupted work sees it too and throws the result
// away.

#include <chrono>

#include "core/base/Progress.h"

namespace stavewright::cutting {

class Interrupt {
  public:
    Interrupt(std::stop_token stop, double seconds)
        : m_stop(std::move(stop))
        , m_start(std::chrono::steady_clock::now())
        , m_seconds(seconds) {}

    [[nodiscard]] bool isCalled() const {
        return m_stop.stop_requested() || (m_seconds > 0 && secondsSpent() >= m_seconds);
    }
    [[nodiscard]] double secondsSpent() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - m_start).count();
    }

  private:
    std::stop_token m_stop;
    std::chrono::steady_clock::time_point m_start;
    double m_seconds = 0; ///< 0: no limit
};

} // namespace stavewright::cutting
