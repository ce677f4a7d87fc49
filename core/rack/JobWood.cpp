#include "core/rack/JobWood.h"

#include <algorithm>

#include "core/document/Ids.h"
#include "core/rack/OffcutWood.h"

namespace stavewright::rack {

namespace {

bool hasMark(const Document& document, const std::vector<Board>& also, const std::string& mark) {
    const auto isMarked = [&](const Board& board) { return board.mark == mark; };
    return std::any_of(document.boards.begin(), document.boards.end(), isMarked) ||
           std::any_of(also.begin(), also.end(), isMarked);
}

const BoardLayout* layoutOf(const Document& document, BoardId board) {
    if (document.plan) {
        for (const BoardLayout& layout : document.plan->boards) {
            if (layout.board == board) {
                return &layout;
            }
        }
    }
    return nullptr;
}

/// What goes to the rack, and what is to be done in the job once it is known under which numbers.
class Bringing {
  public:
    Bringing(const Document& document, Rack& rack)
        : m_document(document)
        , m_rack(rack)
        , m_plan(document.plan) {}

    Status add(BoardId id) {
        const Board* board = findBoard(m_document, id);
        if (board == nullptr) {
            return Error{ErrorCode::BadInput,
                         "There is no board with id " + std::to_string(id.value) + " in the job.",
                         {}};
        }
        if (board->rackLink && board->rackLink->rack != m_rack.name()) {
            return Error{ErrorCode::BadInput,
                         "Board " + board->mark +
                             " came from another shop rack; it must go back to that one.",
                         {}};
        }
        switch (wayToRack(m_document, *board)) {
        case WayToRack::Done:
            return Error{ErrorCode::BadInput,
                         "Board " + board->mark +
                             " is used up, and its offcuts went to the shop rack before.",
                         {}};
        case WayToRack::Whole:
            addWhole(*board);
            return Done{};
        case WayToRack::Offcuts:
            addOffcuts(*board);
            return Done{};
        }
        return Done{};
    }

    Result<Brought> finish(const Visit& visit) {
        Result<RackChange> change = m_rack.change(m_moves, visit);
        if (!change) {
            return change.error();
        }
        Brought brought;
        brought.change = change.value().number;
        EditSequence edits;
        // The plan first: a board that it still cuts could not go.
        if (m_plan != m_document.plan) {
            edits.edits.push_back({ReplacePlan{m_plan}});
        }
        for (const BoardId id : m_gone) {
            edits.edits.push_back({RemoveBoard{id}});
        }
        for (const Cut& cut : m_cut) {
            Board board = *findBoard(m_document, cut.board);
            board.rackLink = RackLink{m_rack.name(), change.value().pieces.at(cut.move), 0};
            edits.edits.push_back({ReplaceBoard{std::move(board)}});
        }
        edits.edits.push_back({AppendLog{{visit.time, logLine(change.value()), {}}}});
        for (std::size_t move = 0; move < m_moves.size(); ++move) {
            const bool isUsedUp = std::any_of(m_cut.begin(), m_cut.end(),
                                              [move](const Cut& cut) { return cut.move == move; });
            if (!isUsedUp) {
                brought.pieces.push_back(change.value().pieces[move]);
            }
        }
        brought.edit = Edit{std::move(edits)};
        return brought;
    }

  private:
    struct Cut {
        BoardId board;
        std::size_t move = 0;
        std::size_t offcuts = 0;
    };

    void addWhole(const Board& board) {
        if (board.rackLink) {
            m_moves.push_back(PutBack{board.rackLink->piece, board.rackLink->loan, board});
        } else {
            m_moves.push_back(PutNew{board});
        }
        if (m_plan) { // a layout without a cut would only hold the board
            std::erase_if(m_plan->boards,
                          [&](const BoardLayout& layout) { return layout.board == board.id; });
        }
        m_gone.push_back(board.id);
        m_wholeMarks += (m_wholeMarks.empty() ? "" : ", ") + board.mark;
    }

    void addOffcuts(const Board& board) {
        Cut cut{board.id, m_moves.size(), 0};
        if (board.rackLink) {
            m_moves.push_back(UseUp{board.rackLink->piece, board.rackLink->loan, board});
        } else {
            m_moves.push_back(PutNew{board, PieceKind::Board, PieceState::UsedUp});
        }
        for (OffcutBoard& offcut : offcutBoards(m_document, board.id)) {
            PutNew put{std::move(offcut.board), PieceKind::Offcut, PieceState::OnRack, board.mark};
            put.parentMove = cut.move;
            m_moves.push_back(std::move(put));
            ++cut.offcuts;
        }
        for (BoardLayout& layout : m_plan->boards) { // nothing more is cut there
            layout.locked = layout.locked || layout.board == board.id;
        }
        m_cut.push_back(cut);
    }

    [[nodiscard]] std::string logLine(const RackChange& change) const {
        std::string line;
        if (!m_wholeMarks.empty()) {
            line = "Put on the shop rack: board " + m_wholeMarks + '.';
        }
        for (const Cut& cut : m_cut) {
            line += (line.empty() ? "Board " : " Board ") + findBoard(m_document, cut.board)->mark +
                    " is used up; ";
            if (cut.offcuts == 0) {
                line += "no offcut is kept.";
                continue;
            }
            line += "on the shop rack:";
            for (std::size_t i = 1; i <= cut.offcuts; ++i) {
                line +=
                    (i == 1 ? " no. " : ", no. ") + std::to_string(change.pieces.at(cut.move + i));
            }
            line += '.';
        }
        return line;
    }

    const Document& m_document;
    Rack& m_rack;
    std::optional<Plan> m_plan;
    std::vector<Move> m_moves;
    std::vector<BoardId> m_gone;
    std::vector<Cut> m_cut;
    std::string m_wholeMarks;
};

} // namespace

Result<Brought> takeIntoJob(const Document& document, Rack& rack,
                            const std::vector<std::int64_t>& pieces, const Visit& visit) {
    if (document.boards.size() + pieces.size() > mostBoards) {
        return Error{ErrorCode::BadInput,
                     "The job would have " +
                         std::to_string(document.boards.size() + pieces.size()) +
                         " boards; at most " + std::to_string(mostBoards) + " are allowed.",
                     {}};
    }
    std::vector<Move> moves;
    for (const std::int64_t piece : pieces) {
        moves.emplace_back(Take{piece});
    }
    const Result<RackChange> change = rack.change(moves, visit);
    if (!change) {
        return change.error();
    }
    Brought brought;
    brought.change = change.value().number;
    brought.pieces = pieces;
    std::vector<Board> boards;
    std::int64_t nextId = document.nextId;
    for (const std::int64_t number : pieces) {
        Result<Piece> piece = rack.piece(number);
        if (!piece) {
            (void)rack.takeBack(
                change.value().number); // the piece was just there; say why it failed
            return piece.error();
        }
        Board board = std::move(piece.value().board);
        visitBoardIds(board, [&](auto& id) { id.value = nextId++; });
        board.rackLink = RackLink{rack.name(), number, change.value().number};
        const std::string mark = board.mark;
        for (int turn = 2; hasMark(document, boards, board.mark); ++turn) {
            board.mark =
                "R" + std::to_string(number) + (turn == 2 ? "" : "-" + std::to_string(turn));
        }
        if (board.mark != mark) {
            brought.remarks.push_back("The job has a board " + mark + " already, so no. " +
                                      std::to_string(number) + " is board " + board.mark +
                                      " here; chalk that on it.");
        }
        boards.push_back(std::move(board));
    }
    EditSequence edits;
    for (Board& board : boards) {
        edits.edits.push_back(
            {InsertBoard{document.boards.size() + edits.edits.size(), std::move(board)}});
    }
    brought.edit = Edit{std::move(edits)};
    return brought;
}

Result<Brought> putOnRack(const Document& document, Rack& rack, const std::vector<BoardId>& boards,
                          const Visit& visit) {
    Bringing bringing(document, rack);
    for (const BoardId id : boards) {
        if (const Status added = bringing.add(id); !added) {
            return added.error();
        }
    }
    return bringing.finish(visit);
}

WayToRack wayToRack(const Document& document, const Board& board) {
    if (board.rackLink && board.rackLink->loan == 0) {
        return WayToRack::Done;
    }
    const BoardLayout* layout = layoutOf(document, board.id);
    return layout != nullptr && !layout->sections.empty() ? WayToRack::Offcuts : WayToRack::Whole;
}

std::vector<BoardId> boardsToReturn(const Document& document) {
    std::vector<BoardId> boards;
    for (const Board& board : document.boards) {
        const WayToRack way = wayToRack(document, board);
        if (way == WayToRack::Offcuts || (way == WayToRack::Whole && board.rackLink)) {
            boards.push_back(board.id);
        }
    }
    return boards;
}

} // namespace stavewright::rack
