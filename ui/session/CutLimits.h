#pragma once
// How far the cuts of each board may land off, worked out on a worker thread for the job as it is,
// and kept until the job changes. The side panel asks for one board, the papers for all.
//
//   CutLimits& limits = CutLimits::of(session);
//   limits.want({board});
//   if (const hand::BoardLimits* known = limits.find(board)) ...

#include <QObject>

#include <map>
#include <stop_token>
#include <thread>
#include <vector>

#include "core/hand/BoardLimits.h"

namespace stavewright::ui {

class DocumentSession;

class CutLimits : public QObject {
    Q_OBJECT
  public:
    /// The one of this session; it goes with it.
    static CutLimits& of(DocumentSession& session);
    ~CutLimits() override; ///< asks the worker to stop and waits for it

    /// Nothing yet where it is still worked out, or was not asked for.
    [[nodiscard]] const hand::BoardLimits* find(BoardId board) const;
    /// These boards come next, in this order.
    void want(const std::vector<BoardId>& boards);
    [[nodiscard]] std::size_t known() const { return m_known.size(); }
    [[nodiscard]] std::vector<hand::BoardLimits> all() const; ///< that are known, in rack order
    [[nodiscard]] bool isWorking() const { return m_isWorking; }

  signals:
    void ready(stavewright::BoardId board);
    void ended(); ///< everything that was asked for is known

  private:
    explicit CutLimits(DocumentSession& session);
    void forget();
    void start();
    void take(std::int64_t run, hand::BoardLimits limits);
    void end(std::int64_t run);

    DocumentSession& m_session;
    std::map<BoardId, hand::BoardLimits> m_known;
    std::vector<BoardId> m_wanted; ///< that are not known yet
    std::stop_source m_stop;
    std::vector<std::jthread> m_threads; ///< the running one, and stopped ones that wind down
    std::int64_t m_run = 0;
    bool m_isWorking = false;
};

} // namespace stavewright::ui
