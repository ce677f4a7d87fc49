#include "ui/shoprack/RackDesk.h"

#include <QDateTime>
#include <QSettings>
#include <QStandardPaths>

#include <algorithm>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr const char* fileSetting = "rack/file";
} // namespace

struct RackDesk::Shelf {
    explicit Shelf(rack::Rack opened)
        : rack(std::move(opened)) {}
    rack::Rack rack;
    std::vector<std::int64_t> made;  ///< changes of the present job that stand, in order
    std::vector<std::int64_t> saved; ///< the same when it was saved last
};

/// One change of the rack that goes with an edit of the job.
class RackDesk::Step : public Companion {
  public:
    Step(RackDesk& desk, std::shared_ptr<Shelf> shelf, std::int64_t change)
        : m_desk(desk)
        , m_shelf(std::move(shelf))
        , m_change(change) {}
    Status takeBack() override {
        Status done = m_shelf->rack.takeBack(m_change);
        if (done) {
            std::erase(m_shelf->made, m_change);
            emit m_desk.changed();
        }
        return done;
    }
    Status makeAgain() override {
        Status done = m_shelf->rack.makeAgain(m_change);
        if (done) {
            m_shelf->made.push_back(m_change);
            emit m_desk.changed();
        }
        return done;
    }

  private:
    RackDesk& m_desk; // outlives the undo stack's steps: the window holds both
    std::shared_ptr<Shelf> m_shelf;
    std::int64_t m_change;
};

RackDesk::RackDesk(DocumentSession& session, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_file(usualFile()) {
    connect(&session, &DocumentSession::leaving, this, &RackDesk::settle);
    connect(&session.undoStack(), &QUndoStack::cleanChanged, this, [this](bool clean) {
        if (clean && m_shelf) {
            m_shelf->saved = m_shelf->made;
        }
    });
}

RackDesk::~RackDesk() = default;

QString RackDesk::usualFile() {
    const QString chosen = QSettings().value(fileSetting).toString();
    return chosen.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) +
                                  "/shop.staverack"
                            : chosen;
}

void RackDesk::rememberFile(const QString& file) { QSettings().setValue(fileSetting, file); }

void RackDesk::setFile(const QString& file) {
    if (file != m_file) {
        m_file = file;
        m_shelf.reset(); // steps made with the other rack keep it
        m_lastAlone = 0;
        emit changed();
    }
}

RackDesk::Shelf* RackDesk::shelf() {
    if (!m_shelf) {
        Result<rack::Rack> opened = rack::Rack::open(m_file.toStdString());
        if (!opened) {
            refuse(opened.error());
            return nullptr;
        }
        m_shelf = std::make_shared<Shelf>(std::move(opened).value());
    }
    return m_shelf.get();
}

rack::Visit RackDesk::visit() const {
    return {m_session.document().info.title, QDateTime::currentSecsSinceEpoch()};
}

bool RackDesk::refuse(const Error& error) {
    emit failed(words(describe(error)));
    return false;
}

std::vector<rack::Piece> RackDesk::find(const rack::Search& search) {
    if (shelf() == nullptr) {
        return {};
    }
    Result<std::vector<rack::Piece>> found = m_shelf->rack.find(search);
    if (!found) {
        refuse(found.error());
        return {};
    }
    return std::move(found).value();
}

bool RackDesk::carryOut(const QString& step, const Result<rack::Brought>& brought) {
    if (!brought) {
        return refuse(brought.error());
    }
    const std::int64_t change = brought.value().change;
    m_shelf->made.push_back(change);
    if (!m_session.edit(step, brought.value().edit,
                        std::make_shared<Step>(*this, m_shelf, change))) {
        std::erase(m_shelf->made, change);
        if (const Status back = m_shelf->rack.takeBack(change); !back) {
            refuse(back.error());
        }
        return false;
    }
    emit changed();
    QStringList remarks;
    for (const std::string& remark : brought.value().remarks) {
        remarks << words(remark);
    }
    if (!remarks.isEmpty()) {
        emit remarked(remarks.join(' '));
    }
    return true;
}

bool RackDesk::take(const std::vector<std::int64_t>& pieces) {
    if (pieces.empty() || shelf() == nullptr) {
        return false;
    }
    const QString step =
        tr("Take %1 from the shop rack")
            .arg(counted(static_cast<qint64>(pieces.size()), tr("board"), tr("boards")));
    return carryOut(step, rack::takeIntoJob(m_session.document(), m_shelf->rack, pieces, visit()));
}

bool RackDesk::putOnRack(const std::vector<BoardId>& boards) {
    if (boards.empty() || shelf() == nullptr) {
        return false;
    }
    return carryOut(tr("Put wood on the shop rack"),
                    rack::putOnRack(m_session.document(), m_shelf->rack, boards, visit()));
}

bool RackDesk::alone(const std::vector<rack::Move>& moves, const QString& sentence) {
    if (moves.empty() || shelf() == nullptr) {
        return false;
    }
    const Result<rack::RackChange> change = m_shelf->rack.change(moves, visit());
    if (!change) {
        return refuse(change.error());
    }
    m_lastAlone = change.value().number;
    emit changed();
    emit changedAlone(sentence);
    return true;
}

bool RackDesk::throwOut(const std::vector<std::int64_t>& pieces) {
    std::vector<rack::Move> moves;
    for (const std::int64_t piece : pieces) {
        moves.emplace_back(rack::ThrowOut{piece});
    }
    return alone(moves,
                 counted(static_cast<qint64>(pieces.size()), tr("piece is off the shop rack."),
                         tr("pieces are off the shop rack.")));
}

bool RackDesk::callBack(const std::vector<std::int64_t>& pieces) {
    std::vector<rack::Move> moves;
    for (const std::int64_t piece : pieces) {
        moves.emplace_back(rack::Release{piece});
    }
    return alone(moves,
                 counted(static_cast<qint64>(pieces.size()),
                         tr("piece is on the shop rack again, without the job that had it."),
                         tr("pieces are on the shop rack again, without the job that had them.")));
}

bool RackDesk::takeBackLast() {
    if (m_lastAlone == 0 || shelf() == nullptr) {
        return false;
    }
    const Status back = m_shelf->rack.takeBack(m_lastAlone);
    m_lastAlone = 0;
    emit changed();
    return back ? true : refuse(back.error());
}

void RackDesk::noteSaveBegun() {
    m_beingSaved.emplace_back(m_shelf ? m_shelf->made : std::vector<std::int64_t>());
}

void RackDesk::noteSaveEnded(bool written) {
    if (m_beingSaved.empty()) {
        return;
    }
    const std::optional<std::vector<std::int64_t>> stood = m_beingSaved.front();
    m_beingSaved.pop_front();
    if (written && stood && m_shelf) {
        m_shelf->saved = *stood;
    }
}

void RackDesk::settle() {
    emit settling();
    for (auto& another : m_beingSaved) {
        another.reset(); // of the job that goes
    }
    if (!m_shelf) {
        return;
    }
    const auto standsIn = [](const std::vector<std::int64_t>& changes, std::int64_t change) {
        return std::find(changes.begin(), changes.end(), change) != changes.end();
    };
    std::vector<Status> all;
    for (auto change = m_shelf->made.rbegin(); change != m_shelf->made.rend(); ++change) {
        if (!standsIn(m_shelf->saved, *change)) {
            all.push_back(m_shelf->rack.takeBack(*change));
        }
    }
    for (const std::int64_t change : m_shelf->saved) {
        if (!standsIn(m_shelf->made, change)) { // undone since, but the file has it
            all.push_back(m_shelf->rack.makeAgain(change));
        }
    }
    m_shelf->made.clear();
    m_shelf->saved.clear();
    m_lastAlone = 0;
    for (const Status& each : all) {
        if (!each) {
            refuse(each.error());
        }
    }
    if (!all.empty()) {
        emit changed();
    }
}

} // namespace stavewright::ui
