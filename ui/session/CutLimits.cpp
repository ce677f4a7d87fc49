#include "ui/session/CutLimits.h"

#include <algorithm>
#include <exception>

#include "core/hand/PlanTree.h"
#include "core/midjob/Standby.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

CutLimits& CutLimits::of(DocumentSession& session) {
    auto* found = session.findChild<CutLimits*>(QString(), Qt::FindDirectChildrenOnly);
    return found != nullptr ? *found : *new CutLimits(session);
}

CutLimits::CutLimits(DocumentSession& session)
    : QObject(&session)
    , m_session(session) {
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.plan || scope.boards || scope.parts || scope.shop) {
            forget();
        }
    });
    connect(&m_session, &DocumentSession::adopted, this, &CutLimits::forget);
}

CutLimits::~CutLimits() { m_stop.request_stop(); } // the jthreads join

const hand::BoardLimits* CutLimits::find(BoardId board) const {
    const auto found = m_known.find(board);
    return found == m_known.end() ? nullptr : &found->second;
}

std::vector<hand::BoardLimits> CutLimits::all() const {
    std::vector<hand::BoardLimits> all;
    for (const Board& board : m_session.document().boards) {
        if (const hand::BoardLimits* known = find(board.id)) {
            all.push_back(*known);
        }
    }
    return all;
}

void CutLimits::forget() {
    m_stop.request_stop();
    ++m_run; // what the stopped worker still sends is of another state of the job
    m_known.clear();
    m_wanted.clear();
    m_isWorking = false;
}

void CutLimits::want(const std::vector<BoardId>& boards) {
    const std::optional<Plan>& plan = m_session.document().plan;
    if (!plan) {
        return;
    }
    std::vector<BoardId> first;
    for (const BoardId board : boards) {
        if (find(board) == nullptr && hand::layoutOf(*plan, board) != nullptr) {
            first.push_back(board);
        }
    }
    const bool isNext = std::equal(
        first.begin(), first.end(), m_wanted.begin(),
        m_wanted.begin() + static_cast<std::ptrdiff_t>(std::min(first.size(), m_wanted.size())));
    if (first.empty() || (m_isWorking && isNext)) {
        return;
    }
    for (const BoardId board : m_wanted) {
        if (std::find(first.begin(), first.end(), board) == first.end()) {
            first.push_back(board);
        }
    }
    m_wanted = std::move(first);
    start();
}

void CutLimits::start() {
    m_stop.request_stop();
    m_stop = std::stop_source();
    m_isWorking = true;
    const std::int64_t run = ++m_run;
    m_threads.emplace_back(
        [this, run, document = m_session.document(), boards = m_wanted, stop = m_stop.get_token()] {
            try {
                const hand::SafeWindows windows(document);
                for (const BoardId board : boards) {
                    hand::BoardLimits limits = midjob::limitsOf(document, windows, board, stop);
                    if (stop.stop_requested()) {
                        return;
                    }
                    QMetaObject::invokeMethod(
                        this, [this, run, limits = std::move(limits)] { take(run, limits); },
                        Qt::QueuedConnection);
                }
            } catch (const std::exception& fault) { // a fault of the program; the sheets do without
                qWarning("Safe windows were not worked out: %s", fault.what());
            }
            QMetaObject::invokeMethod(
                this, [this, run] { end(run); }, Qt::QueuedConnection);
        });
}

void CutLimits::take(std::int64_t run, hand::BoardLimits limits) {
    if (run != m_run) {
        return;
    }
    const BoardId board = limits.board;
    std::erase(m_wanted, board);
    m_known.insert_or_assign(board, std::move(limits));
    emit ready(board);
}

void CutLimits::end(std::int64_t run) {
    if (run != m_run) {
        return;
    }
    m_isWorking = false;
    m_threads.clear(); // the stopped ones have ended long ago, this one has nothing left to do
    emit ended();
}

} // namespace stavewright::ui
