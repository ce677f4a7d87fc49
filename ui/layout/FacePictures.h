#pragma once
// The straightened photographs of all boards, made on a worker thread when somebody wants to see
// one, and kept as long as there is room. One for each open job; places ask it while they paint.
//
//   if (const FacePhoto* photo = FacePictures::of(session).find(board, face, Detail::Row)) { ... }
//   connect(&FacePictures::of(session), &FacePictures::ready, this, ...); // paint again

#include <QObject>
#include <QStringList>
#include <QThreadPool>

#include <deque>
#include <list>
#include <map>
#include <stop_token>
#include <string>

#include "ui/layout/FacePhoto.h"
#include "ui/photo/FaceWork.h"

namespace stavewright::ui {

class DocumentSession;

class FacePictures : public QObject {
    Q_OBJECT
  public:
    enum class Detail { Row, Grain, Sheet }; ///< a board among many, its figure, or large

    [[nodiscard]] static FacePictures& of(DocumentSession& session);
    ~FacePictures() override; ///< asks the worker to stop and waits for it

    /// The picture, or nothing while it is being made and where there is none to make. What was
    /// asked for last is made first; what nobody asks for again is left out when many wait. The
    /// picture stays where it is until the event loop runs again.
    [[nodiscard]] const FacePhoto* find(const Board& board, BoardFace face, Detail detail);
    /// The large one, or the small one until that is made.
    [[nodiscard]] const FacePhoto* findBest(const Board& board, BoardFace face);
    /// Likely to be wanted soon: made when nothing else is to do.
    void prepare(const Board& board, BoardFace face, Detail detail);
    /// Why photographs of the face cannot be shown, one sentence each; empty while nobody has
    /// looked.
    [[nodiscard]] QStringList troubles(const Board& board, BoardFace face) const;
    /// While one is being made.
    [[nodiscard]] bool isAtWork() const { return m_running.has_value() || !m_waiting.empty(); }

  signals:
    void ready(stavewright::BoardId board);

  private:
    explicit FacePictures(DocumentSession& session);

    struct Kept {
        FacePhoto photo; ///< a null image: none can be made
        QStringList troubles;
        std::list<std::string>::iterator use;
    };
    struct Wish {
        std::string key;
        FaceOrder order;
        BoardId board;
        Detail detail = Detail::Row;
    };
    [[nodiscard]] const Kept* kept(const std::string& key);
    enum class Hurry { Soon, Now };
    void want(const std::string& key, const Board& board, BoardFace face, Detail detail,
              Hurry hurry);
    void startNext();
    void keep(const std::string& key, FacePhoto photo, const QStringList& troubles);

    std::map<std::string, Kept> m_kept;
    std::list<std::string> m_uses; ///< the latest first
    std::deque<Wish> m_waiting;    ///< the next one first
    std::optional<std::string> m_running;
    qint64 m_bytes = 0;
    std::stop_source m_stop;
    QThreadPool m_worker;
};

} // namespace stavewright::ui
