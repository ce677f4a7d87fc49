// Changes of the rack: each is one transaction that writes what was there before and after beside
// the pieces themselves.

#include <algorithm>

#include "core/job/BoardText.h"
#include "core/rack/Pieces.h"

namespace stavewright::rack {

namespace {

std::string quoted(const std::string& title) { return "“" + title + "”"; }

/// "is in the job “Hall table” since 2026-03-09"
std::string whereabouts(const Piece& piece) {
    const std::string day = dayText(piece.since);
    switch (piece.state) {
    case PieceState::OnRack:
        return "has been on the shop rack since " + day;
    case PieceState::InJob:
        return "has been in the job " + quoted(piece.job) + " since " + day;
    case PieceState::UsedUp:
        return "was used up on " + day + " by the job " + quoted(piece.job);
    case PieceState::ThrownOut:
        return "was thrown out on " + day;
    }
    return {};
}

std::string capital(std::string text) {
    text[0] = static_cast<char>(text[0] - ('a' - 'A')); // "board" or "offcut"
    return text;
}

class Changer {
  public:
    Changer(Database& database, const Visit& visit)
        : m_database(database)
        , m_visit(visit) {
        Query(database, "INSERT INTO change (time, job) VALUES (?, ?)")
            .with(visit.time)
            .with(visit.job)
            .run();
        m_change.number = database.lastInsertedId();
    }

    void operator()(const PutNew& move) {
        Piece piece;
        piece.kind = move.kind;
        piece.state = move.state;
        piece.board = move.board;
        piece.putIn = m_visit.time;
        piece.sourceBoard = move.sourceBoard;
        piece.sourceJob = m_visit.job;
        piece.parent = move.parentMove ? m_change.pieces.at(*move.parentMove) : move.parent;
        piece.job = move.state == PieceState::OnRack ? "" : m_visit.job;
        piece.since = m_visit.time;
        write(piece);
    }
    void operator()(const Take& move) {
        std::optional<Piece> piece = findPiece(m_database, move.piece);
        if (!piece) {
            return;
        }
        if (piece->state != PieceState::OnRack) {
            return refuse(capital(nameOf(*piece)) + ' ' + whereabouts(*piece) +
                          (piece->state == PieceState::InJob
                               ? "; it must come back from there before another job has it."
                               : "; it cannot be taken."));
        }
        piece->state = PieceState::InJob;
        piece->job = m_visit.job;
        piece->loan = m_change.number;
        moved(*piece);
    }
    void operator()(const PutBack& move) {
        if (std::optional<Piece> piece = lent(move.piece, move.loan)) {
            piece->board = move.board;
            toRack(*piece);
        }
    }
    void operator()(const UseUp& move) {
        if (std::optional<Piece> piece = lent(move.piece, move.loan)) {
            piece->board = move.board;
            piece->state = PieceState::UsedUp;
            piece->job = m_visit.job;
            piece->loan = 0;
            moved(*piece);
        }
    }
    void operator()(const Release& move) {
        std::optional<Piece> piece = findPiece(m_database, move.piece);
        if (piece && piece->state != PieceState::InJob) {
            refuse(capital(nameOf(*piece)) + ' ' + whereabouts(*piece) +
                   "; only what is in a job can be called back.");
        } else if (piece) {
            toRack(*piece);
        }
    }
    void operator()(const ThrowOut& move) {
        std::optional<Piece> piece = findPiece(m_database, move.piece);
        if (piece && piece->state != PieceState::OnRack) {
            refuse(capital(nameOf(*piece)) + ' ' + whereabouts(*piece) +
                   "; only what is on the shop rack can be thrown out.");
        } else if (piece) {
            piece->state = PieceState::ThrownOut;
            moved(*piece);
        }
    }

    [[nodiscard]] RackChange take() { return std::move(m_change); }

  private:
    void refuse(std::string sentence) {
        m_database.fail({ErrorCode::BadInput, std::move(sentence), {}});
    }

    /// The piece if it is out on that loan.
    std::optional<Piece> lent(std::int64_t number, std::int64_t loan) {
        std::optional<Piece> piece = findPiece(m_database, number);
        if (piece && (piece->state != PieceState::InJob || piece->loan != loan)) {
            refuse(capital(nameOf(*piece)) + " is no longer lent to this job: it " +
                   whereabouts(*piece) + '.');
            return std::nullopt;
        }
        return piece;
    }

    void toRack(Piece& piece) {
        piece.state = PieceState::OnRack;
        piece.job.clear();
        piece.loan = 0;
        moved(piece);
    }

    void moved(Piece& piece) {
        piece.since = m_visit.time;
        write(piece);
    }

    void write(Piece& piece) {
        if (const Status sound = validateBoard(piece.board); !sound) {
            return refuse(sound.error().message); // what could not be read again is not written
        }
        piece.board = asKept(std::move(piece.board));
        std::optional<std::string> before;
        if (piece.number != 0) {
            before = rowText(m_database, piece.number);
        }
        writePiece(m_database, piece);
        keepPhotographs(m_database, piece.board);
        Query(m_database, "INSERT INTO changed_piece VALUES (?, ?, ?, ?, ?)")
            .with(m_change.number)
            .with(static_cast<std::int64_t>(m_change.pieces.size()))
            .with(piece.number)
            .withMaybe(before)
            .withMaybe(rowText(m_database, piece.number))
            .run();
        m_change.pieces.push_back(piece.number);
    }

    Database& m_database;
    const Visit& m_visit;
    RackChange m_change;
};

struct ChangedPiece {
    std::int64_t piece = 0;
    std::optional<std::string> before;
    std::optional<std::string> after;
};

std::vector<ChangedPiece> changedBy(Database& database, std::int64_t change) {
    std::vector<ChangedPiece> pieces;
    Query row(database,
              "SELECT piece, before, after FROM changed_piece WHERE change = ? ORDER BY step");
    row.with(change);
    while (row.next()) {
        const auto maybe = [&](int column) {
            return row.isNothing(column) ? std::nullopt : std::optional(row.text(column));
        };
        pieces.push_back({row.integer(0), maybe(1), maybe(2)});
    }
    return pieces;
}

} // namespace

Result<RackChange> Rack::change(const std::vector<Move>& moves, const Visit& visit) {
    Transaction transaction(m_database);
    Changer changer(m_database, visit);
    for (const Move& move : moves) {
        if (!m_database.ok()) {
            break;
        }
        std::visit(changer, move);
    }
    if (const Status done = transaction.commit(); !done) {
        return done.error();
    }
    return changer.take();
}

Status Rack::takeBack(std::int64_t change) { return swing(change, true); }
Status Rack::makeAgain(std::int64_t change) { return swing(change, false); }

Status Rack::swing(std::int64_t change, bool back) {
    Transaction transaction(m_database);
    const auto refuse = [this](std::string sentence) {
        m_database.fail({ErrorCode::BadInput, std::move(sentence), {}});
    };
    {
        Query row(m_database, "SELECT taken_back FROM change WHERE id = ?");
        row.with(change);
        if (!row.next()) {
            refuse("The shop rack knows of no change no. " + std::to_string(change) + '.');
        } else if ((row.integer(0) == 1) == back) {
            refuse(std::string("Change no. ") + std::to_string(change) + " of the shop rack " +
                   (back ? "was taken back already." : "stands already."));
        }
    }
    std::vector<ChangedPiece> pieces = changedBy(m_database, change);
    if (back) {
        std::reverse(pieces.begin(), pieces.end());
    }
    for (const ChangedPiece& piece : pieces) {
        const auto& from = back ? piece.after : piece.before;
        const auto& to = back ? piece.before : piece.after;
        if (rowText(m_database, piece.piece) != from) {
            const std::optional<Piece> now = findPiece(m_database, piece.piece);
            refuse(now ? capital(nameOf(*now)) + ' ' + whereabouts(*now) +
                             "; this step is no longer the last one there and stays as it is."
                       : std::string());
            break;
        }
        if (to) {
            writeRowText(m_database, *to);
        } else {
            removePiece(m_database, piece.piece);
        }
    }
    Query(m_database, "UPDATE change SET taken_back = ? WHERE id = ?")
        .with(back ? 1 : 0)
        .with(change)
        .run();
    return transaction.commit();
}

} // namespace stavewright::rack
