#pragma once
// Something worked out beside the window, which stays awake meanwhile. The newest question counts:
// an older one that is still worked on is let run out and its answer dropped.

#include <QObject>
#include <QTimer>

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>

namespace stavewright::ui {

class Workout : public QObject {
    Q_OBJECT
  public:
    /// Tells the answer, on the window's thread.
    using Tell = std::function<void()>;
    /// Runs on another thread; owns all that it reads.
    using Work = std::function<Tell()>;

    explicit Workout(QObject* parent);

    /// An answer that comes within a blink is told before this returns.
    void ask(Work work);
    void drop(); ///< nothing that was asked is told any more
    [[nodiscard]] bool isWorking() const { return m_running != nullptr; }

  private:
    struct Shared {
        std::mutex mutex;
        std::condition_variable ended;
        bool isDone = false;
        Tell tell;
    };
    void start(Work work);
    void look();

    QTimer m_look;
    std::shared_ptr<Shared> m_running;
    Work m_next;            ///< waits for the one that runs
    bool m_isWanted = true; ///< the answer of the one that runs
};

} // namespace stavewright::ui
