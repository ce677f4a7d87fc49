#pragma once
// The shop rack on disk: boards and offcuts with their true outline and defects, where each came
// from, and which job has it. Every change is one transaction and stands in a journal, so that it
// can be taken back; a program that is killed at any moment leaves a rack with all of a change or
// nothing of it. Several programs may use one rack. Reads no clock: whoever changes something says
// when.
//
//   Result<Rack> rack = Rack::open("/home/anna/rack.staverack");
//   Result<RackChange> lent = rack.value().change({rack::Take{12}}, {"Hall table", now});
//   rack.value().takeBack(lent.value().number);

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/lumber/Board.h"
#include "core/rack/Database.h"

namespace stavewright::rack {

enum class PieceKind { Board, Offcut };
enum class PieceState { OnRack, InJob, UsedUp, ThrownOut };

struct Piece {
    std::int64_t number = 0; ///< on this rack, never used again
    PieceKind kind = PieceKind::Board;
    PieceState state = PieceState::OnRack;
    Board board;                        ///< ids are of no job; photographs are found by Rack::piece
    std::int64_t putIn = 0;             ///< when it came to the rack, seconds since 1970-01-01 UTC
    std::string sourceBoard;            ///< mark of the board it was cut from; empty for boards
    std::string sourceJob;              ///< the job that put it on the rack
    std::optional<std::int64_t> parent; ///< number of the board it was cut from
    std::string job;        ///< that has it, used it up or threw it out; empty on the rack
    std::int64_t since = 0; ///< when it came to where it is
    std::int64_t loan = 0;  ///< while it is in a job
};

/// What is looked for; what is left empty does not matter.
struct Search {
    std::string text = {}; ///< every word must occur in mark, species, notes, source or job
    std::string species = {};
    std::optional<Quarter> quarter = {};
    Length leastLength = {};
    Length leastWidth = {}; ///< with a length: of a straight strip that long, defects not counted
    bool alsoAway = false;  ///< in jobs, used up and thrown out as well
};

// What can happen to pieces.
struct PutNew {
    Board board;
    PieceKind kind = PieceKind::Board;
    PieceState state = PieceState::OnRack; ///< or UsedUp, for a board whose offcuts follow
    std::string sourceBoard = {};
    std::optional<std::int64_t> parent = {};
    /// In place of `parent`: which move of the same change put the parent on the rack.
    std::optional<std::size_t> parentMove = {};
};
struct Take {
    std::int64_t piece = 0;
};
/// From the job that has it, as that job knows it now.
struct PutBack {
    std::int64_t piece = 0;
    std::int64_t loan = 0;
    Board board;
};
/// The job that has it has cut it up.
struct UseUp {
    std::int64_t piece = 0;
    std::int64_t loan = 0;
    Board board;
};
/// Without the job that has it: its file is lost, or never was saved.
struct Release {
    std::int64_t piece = 0;
};
struct ThrowOut {
    std::int64_t piece = 0;
};
using Move = std::variant<PutNew, Take, PutBack, UseUp, Release, ThrowOut>;

/// Who changes the rack, and when.
struct Visit {
    std::string job;       ///< title, for people
    std::int64_t time = 0; ///< seconds since 1970-01-01 UTC
};

struct RackChange {
    std::int64_t number = 0;          ///< also the number of the loan of what was taken
    std::vector<std::int64_t> pieces; ///< of each move
};

class Rack {
  public:
    /// Opens the file, or makes one with its folder.
    static Result<Rack> open(const std::string& path);

    /// 32 hexadecimal digits that tell this rack from all others.
    [[nodiscard]] const std::string& name() const { return m_name; }
    [[nodiscard]] const std::string& path() const { return m_database.path(); }

    /// By species, thickness, and the longest first.
    Result<std::vector<Piece>> find(const Search& search);
    /// With its photographs.
    Result<Piece> piece(std::int64_t number);

    /// All moves or none; refused with the sentence of the first that cannot be made.
    Result<RackChange> change(const std::vector<Move>& moves, const Visit& visit);
    /// Puts back what was there before the change. Refused when one of its pieces has been changed
    /// since.
    Status takeBack(std::int64_t change);
    /// Makes a change that was taken back again, with the same numbers.
    Status makeAgain(std::int64_t change);

    /// Whether the file is whole; reads all of it.
    Status check();

  private:
    Rack(Database database, std::string name)
        : m_database(std::move(database))
        , m_name(std::move(name)) {}
    Status swing(std::int64_t change, bool back);

    Database m_database;
    std::string m_name;
};

/// A board as the rack keeps it: its ids run from 1, and nothing in it belongs to a job.
[[nodiscard]] Board asKept(Board board);
/// "2026-03-09", of the day in UTC.
[[nodiscard]] std::string dayText(std::int64_t time);
/// "board 7 (no. 12)"
[[nodiscard]] std::string nameOf(const Piece& piece);
/// Whether a straight rectangle lies in the outline, along the grain; defects do not count. Tried
/// at the corners and at 64 places between.
[[nodiscard]] bool holdsRectangle(const Polygon& outline, Length length, Length width);

} // namespace stavewright::rack
