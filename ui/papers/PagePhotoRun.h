#pragma once
// The photographs of the pages made on a worker thread; they are handed over on the GUI thread.

#include <QObject>
#include <QTimer>

#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "ui/photo/PagePhotos.h"

namespace stavewright::ui {

class PagePhotoRun : public QObject {
    Q_OBJECT
  public:
    explicit PagePhotoRun(QObject* parent = nullptr);
    ~PagePhotoRun() override; ///< asks the worker to stop and waits for it

    /// Another run under way is given up; what is made already is kept.
    void start(std::vector<Board> boards, std::vector<papers::Page> pages);
    void discard();
    [[nodiscard]] bool isRunning() const { return m_work != nullptr; }
    [[nodiscard]] const PagePhotos& photos() const { return m_photos; }

  signals:
    void finished();

  private:
    struct Work {
        std::mutex mutex;
        std::optional<PagePhotos> answer;
    };
    void look();

    PagePhotos m_photos;
    std::shared_ptr<Work> m_work;
    std::jthread m_thread;
    QTimer m_timer;
};

} // namespace stavewright::ui
