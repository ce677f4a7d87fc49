#pragma once
// A better arrangement looked for on a worker thread; answers on the GUI thread.

#include <QObject>
#include <QTimer>

#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

#include "core/panels/Proposal.h"

namespace stavewright::ui {

class ArrangeRun : public QObject {
    Q_OBJECT
  public:
    explicit ArrangeRun(QObject* parent = nullptr);
    ~ArrangeRun() override; ///< asks the worker to stop and waits for it

    void start(panels::Panel panel, std::optional<panels::Panel> partner);
    void stop(); ///< what was found so far comes through finished()
    void discard();
    [[nodiscard]] bool isRunning() const { return m_work != nullptr; }

  signals:
    void finished(const stavewright::panels::Proposal& proposal);

  private:
    struct Work {
        std::mutex mutex;
        std::optional<panels::Proposal> answer;
    };
    void look();

    std::shared_ptr<Work> m_work;
    std::jthread m_thread;
    QTimer m_timer;
};

} // namespace stavewright::ui
