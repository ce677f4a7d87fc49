#include "app/Rack.h"

#include <QCoreApplication>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <iostream>

#include "app/Headless.h"
#include "core/job/JobFile.h"
#include "core/rack/JobWood.h"
#include "core/units/QuantityText.h"
#include "core/units/SaidLength.h"
#include "core/wood/Species.h"
#include "ui/shoprack/RackDesk.h"

namespace stavewright::app {

namespace {

using rack::Piece;
using rack::Rack;

int fail(const Error& error) {
    std::cerr << describe(error) << '\n';
    return exitCodeOf(error);
}

Error wrong(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

std::int64_t now() {
    using namespace std::chrono;
    return duration_cast<seconds>(system_clock::now().time_since_epoch()).count();
}

std::string lowerCase(std::string_view text) {
    std::string lower(text);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return lower;
}

Result<std::string> speciesKey(const std::string& typed) {
    for (const Species& species : allSpecies()) {
        if (lowerCase(typed) == species.key || lowerCase(typed) == lowerCase(species.name)) {
            return std::string(species.key);
        }
    }
    return wrong("There is no species “" + typed +
                 "” in the program's table; a name like White "
                 "oak or a key like white_oak is due.");
}

Result<rack::Search> searchOf(const RackCommand& command) {
    rack::Search search;
    search.text = command.text;
    search.alsoAway = command.all;
    if (!command.species.empty()) {
        Result<std::string> key = speciesKey(command.species);
        if (!key) {
            return key.error();
        }
        search.species = std::move(key).value();
    }
    if (command.quarters != 0) {
        search.quarter = Quarter{command.quarters};
    }
    for (const auto& [typed, target] : {std::pair(&command.length, &search.leastLength),
                                        std::pair(&command.width, &search.leastWidth)}) {
        if (typed->empty()) {
            continue;
        }
        const Result<Length> read = parseLength(*typed, command.units);
        if (!read) {
            return read.error();
        }
        *target = read.value();
    }
    return search;
}

std::string_view stateKey(rack::PieceState state) {
    switch (state) {
    case rack::PieceState::OnRack:
        return "on rack";
    case rack::PieceState::InJob:
        return "in job";
    case rack::PieceState::UsedUp:
        return "used up";
    case rack::PieceState::ThrownOut:
        return "thrown out";
    }
    return {};
}

/// For programs; lengths in nanometres, keys are permanent.
nlohmann::json reportOf(const std::vector<Piece>& pieces) {
    nlohmann::json list = nlohmann::json::array();
    for (const Piece& piece : pieces) {
        list.push_back({{"number", piece.number},
                        {"kind", piece.kind == rack::PieceKind::Offcut ? "offcut" : "board"},
                        {"state", stateKey(piece.state)},
                        {"mark", piece.board.mark},
                        {"species", piece.board.species},
                        {"quarters", piece.board.quarter.quarters},
                        {"length", lengthOf(piece.board).inNanometres()},
                        {"width", widthOf(piece.board).inNanometres()},
                        {"board_feet", exactBoardFeet(piece.board).toDouble()},
                        {"cost", costOf(piece.board).toDouble()},
                        {"put_in", rack::dayText(piece.putIn)},
                        {"source_board", piece.sourceBoard},
                        {"source_job", piece.sourceJob},
                        {"job", piece.job}});
    }
    return list;
}

void print(const std::vector<Piece>& pieces, UnitSystem units) {
    const LengthStyle style{units, 16, true};
    BoardFeet sum;
    for (const Piece& piece : pieces) {
        const Species* species = findSpecies(piece.board.species);
        std::cout << piece.number << "  "
                  << (piece.kind == rack::PieceKind::Offcut ? "offcut " : "board ")
                  << piece.board.mark << ", " << piece.board.quarter.quarters << "/4 "
                  << (species ? species->name : piece.board.species) << ", "
                  << saidLength(widthOf(piece.board), style) << " x "
                  << saidLength(lengthOf(piece.board), style) << ", "
                  << lumberText(exactBoardFeet(piece.board), units) << ", since "
                  << rack::dayText(piece.putIn);
        if (!piece.sourceBoard.empty()) {
            std::cout << ", from board " << piece.sourceBoard << " of " << piece.sourceJob;
        }
        if (piece.state != rack::PieceState::OnRack) {
            std::cout << ", " << stateKey(piece.state)
                      << (piece.job.empty() ? "" : " (" + piece.job + ')');
        }
        std::cout << '\n';
        sum += exactBoardFeet(piece.board);
    }
    std::cout << pieces.size() << (pieces.size() == 1 ? " piece, " : " pieces, ")
              << lumberText(sum, units) << ".\n";
}

int runList(const RackCommand& command, Rack& rack) {
    const Result<rack::Search> search = searchOf(command);
    if (!search) {
        return fail(search.error());
    }
    const Result<std::vector<Piece>> found = rack.find(search.value());
    if (!found) {
        return fail(found.error());
    }
    if (command.json) {
        std::cout << reportOf(found.value()).dump(2) << '\n';
    } else {
        print(found.value(), command.units);
    }
    return exitGood;
}

Result<std::vector<BoardId>> boardsMeant(const Document& document,
                                         const std::vector<std::string>& marks) {
    if (marks.empty()) {
        return rack::boardsToReturn(document);
    }
    std::vector<BoardId> boards;
    for (const std::string& mark : marks) {
        const auto found = std::find_if(document.boards.begin(), document.boards.end(),
                                        [&](const Board& board) { return board.mark == mark; });
        if (found == document.boards.end()) {
            return wrong("There is no board “" + mark + "” in the job.");
        }
        boards.push_back(found->id);
    }
    return boards;
}

/// The rack first: should the program end here, the rack says that the job has the wood, and
/// nothing is anywhere twice. A job that cannot be written gives the rack back what it was.
int writeAfter(Document document, Rack& rack, const Result<rack::Brought>& brought,
               const std::string& out) {
    if (!brought) {
        return fail(brought.error());
    }
    Status done = Done{};
    if (const Result<Edit> inverse = apply(document, brought.value().edit); !inverse) {
        done = inverse.error();
    } else {
        done = writeJob(document, out);
    }
    if (!done) {
        if (const Status back = rack.takeBack(brought.value().change); !back) {
            std::cerr << describe(back.error()) << '\n';
        }
        return fail(done.error());
    }
    for (const std::int64_t number : brought.value().pieces) {
        if (const Result<Piece> piece = rack.piece(number)) {
            std::cout << rack::nameOf(piece.value()) << ": " << stateKey(piece.value().state)
                      << ".\n";
        }
    }
    for (const std::string& remark : brought.value().remarks) {
        std::cout << remark << '\n';
    }
    return exitGood;
}

int runCallBack(const RackCommand& command, Rack& rack) {
    std::vector<rack::Move> moves;
    for (const std::int64_t piece : command.pieces) {
        moves.emplace_back(rack::Release{piece});
    }
    const Result<rack::RackChange> done = rack.change(moves, {{}, now()});
    if (!done) {
        return fail(done.error());
    }
    return exitGood;
}

} // namespace

int runRack(const RackCommand& command) {
    QCoreApplication::setOrganizationName("Stavewright"); // whose data folder it lies in
    QCoreApplication::setApplicationName("Stavewright");
    Result<Rack> opened =
        Rack::open(command.file.empty() ? ui::RackDesk::usualFile().toStdString() : command.file);
    if (!opened) {
        return fail(opened.error());
    }
    Rack& rack = opened.value();
    if (command.action == RackCommand::Action::List) {
        return runList(command, rack);
    }
    if (command.action == RackCommand::Action::CallBack) {
        return runCallBack(command, rack);
    }
    Result<Document> read = readJob(command.job);
    if (!read) {
        return fail(read.error());
    }
    const Document& document = read.value();
    const rack::Visit visit{document.info.title, now()};
    if (command.action == RackCommand::Action::Take) {
        return writeAfter(document, rack, rack::takeIntoJob(document, rack, command.pieces, visit),
                          command.out);
    }
    const Result<std::vector<BoardId>> boards = boardsMeant(document, command.boards);
    if (!boards) {
        return fail(boards.error());
    }
    if (boards.value().empty()) {
        return fail(
            wrong("Nothing of this job goes to the shop rack: its plan cuts no board, and none "
                  "came from there."));
    }
    return writeAfter(document, rack, rack::putOnRack(document, rack, boards.value(), visit),
                      command.out);
}

} // namespace stavewright::app
