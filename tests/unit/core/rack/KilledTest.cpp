// A program that writes the rack is killed 200 times, each time at another moment. Whatever it was
// told had been written is there, nothing is there twice, and no change is there in part.

#include <gtest/gtest.h>

#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <iostream>
#include <map>
#include <random>

#include "tests/unit/core/rack/RackWood.h"

namespace stavewright::rack {
namespace {

using namespace rack_wood;
using stavewright::testing::TemporaryFolder;

constexpr int kills = 200;
constexpr int killsOfAFile =
    20; ///< then another rack is begun, which is killed at its beginning too
constexpr int offcutsOfABoard = 3;

/// One acknowledged step of the child: which board, and how far it has come.
struct Told {
    std::int32_t board = 0;
    std::int32_t step = 0; ///< 1 put on the rack, 2 taken, 3 used up with its offcuts
};

/// What the child does until it is killed: boards marked `first`, `first` + 1, ... go onto the
/// rack, into a job and back as offcuts. It tells each step once the rack has said that it is done.
[[noreturn]] void writeUntilKilled(const std::string& path, std::int32_t first, int tell) {
    Result<Rack> opened = Rack::open(path);
    if (!opened) {
        _exit(1);
    }
    Rack& rack = opened.value();
    for (std::int32_t number = first;; ++number) {
        const std::string mark = std::to_string(number);
        const Board wood = board(mark, Length::inches(96), Length::inches(8));
        const auto said = [&](std::int32_t step) {
            const Told told{number, step};
            if (write(tell, &told, sizeof told) != sizeof told) {
                _exit(2);
            }
        };
        const Visit visit{"Job of " + mark, aDay};
        const Result<RackChange> put = rack.change({PutNew{wood}}, visit);
        if (!put) {
            _exit(3);
        }
        said(1);
        const std::int64_t piece = put.value().pieces.front();
        const Result<RackChange> taken = rack.change({Take{piece}}, visit);
        if (!taken) {
            _exit(4);
        }
        said(2);
        std::vector<Move> moves = {UseUp{piece, taken.value().number, wood}};
        for (int i = 1; i <= offcutsOfABoard; ++i) {
            PutNew offcut{
                board(mark + "-" + std::to_string(i), Length::inches(20), Length::inches(8)),
                PieceKind::Offcut, PieceState::OnRack, mark};
            offcut.parentMove = 0;
            moves.emplace_back(offcut);
        }
        if (!rack.change(moves, visit)) {
            _exit(5);
        }
        said(3);
    }
}

/// Everything that the child told before it died.
std::map<std::int32_t, std::int32_t> killedAfter(const std::string& path, std::int32_t first,
                                                 std::size_t steps, unsigned microseconds) {
    int ends[2] = {-1, -1};
    EXPECT_EQ(pipe(ends), 0);
    const pid_t child = fork();
    if (child == 0) {
        close(ends[0]);
        writeUntilKilled(path, first, ends[1]);
    }
    close(ends[1]);
    std::map<std::int32_t, std::int32_t> told;
    Told each;
    const auto hear = [&] {
        if (read(ends[0], &each, sizeof each) != sizeof each) {
            return false;
        }
        told[each.board] = each.step;
        return true;
    };
    for (std::size_t i = 0; i < steps && hear(); ++i) {
    }
    usleep(microseconds);
    kill(child, SIGKILL);
    int how = 0;
    waitpid(child, &how, 0);
    EXPECT_TRUE(WIFSIGNALED(how)) << "the child ended by itself with " << WEXITSTATUS(how);
    while (hear()) { // what it told on its last breath
    }
    close(ends[0]);
    return told;
}

/// How far each board has come by what stands on the rack; fails where a step stands in part.
std::map<std::int32_t, std::int32_t> stepsOnRack(Rack& rack) {
    std::map<std::int32_t, std::int32_t> steps;
    std::map<std::int64_t, std::int32_t> boardOfPiece;
    std::map<std::int32_t, int> offcuts;
    const Result<std::vector<Piece>> pieces = rack.find({.alsoAway = true});
    EXPECT_TRUE(pieces) << describe(pieces.error());
    for (const Piece& piece : pieces.value()) {
        if (piece.kind == PieceKind::Board) {
            const auto number = static_cast<std::int32_t>(std::stoi(piece.board.mark));
            EXPECT_FALSE(steps.contains(number)) << "board " << number << " is there twice";
            steps[number] = piece.state == PieceState::OnRack  ? 1
                            : piece.state == PieceState::InJob ? 2
                                                               : 3;
            boardOfPiece[piece.number] = number;
        }
    }
    for (const Piece& piece : pieces.value()) {
        if (piece.kind == PieceKind::Offcut) {
            EXPECT_TRUE(boardOfPiece.contains(piece.parent.value_or(0)));
            ++offcuts[boardOfPiece[piece.parent.value_or(0)]];
        }
    }
    for (const auto& [number, step] : steps) {
        EXPECT_EQ(offcuts[number], step == 3 ? offcutsOfABoard : 0) << "board " << number;
    }
    return steps;
}

/// In memory where the system has that: killing a program leaves what it wrote to any file, so the
/// disk only makes it slow.
class FastFolder {
  public:
    FastFolder() {
        std::string name = "/dev/shm/stavewright-test-XXXXXX";
        m_inMemory = mkdtemp(name.data()) != nullptr;
        m_path = m_inMemory ? name : m_slow.file("rack");
        std::filesystem::create_directories(m_path);
    }
    FastFolder(const FastFolder&) = delete;
    FastFolder& operator=(const FastFolder&) = delete;
    ~FastFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(m_path, ignored);
    }
    [[nodiscard]] std::string file(const std::string& name) const { return m_path + '/' + name; }

  private:
    TemporaryFolder m_slow;
    std::string m_path;
    bool m_inMemory = false;
};

TEST(KilledTest, NothingToldIsLostAndNothingIsThereTwice) {
    const FastFolder folder;
    std::string path;
    std::mt19937 random(20261126);
    std::map<std::int32_t, std::int32_t> due; // as of all children so far
    std::size_t inMidChange = 0;
    std::size_t boards = 0;
    std::int32_t first = 1;
    for (int round = 0; round < kills && !HasFailure(); ++round) {
        if (round % killsOfAFile == 0) {
            path = folder.file("shop-" + std::to_string(round) + ".staverack");
            boards += due.size();
            due.clear();
            first = 1;
        }
        const std::size_t steps = random() % 5;
        const auto told = killedAfter(path, first, steps, static_cast<unsigned>(random() % 2'000));
        // What was under way stands in the journal beside the file, to be rolled back.
        inMidChange += std::filesystem::exists(path + "-journal") ? 1U : 0U;
        Result<Rack> rack = Rack::open(path);
        ASSERT_TRUE(rack) << describe(rack.error());
        ASSERT_TRUE(rack.value().check());
        const auto there = stepsOnRack(rack.value());
        for (const auto& [number, step] : told) {
            due[number] = step;
        }
        // At most the one step that was under way may have been done without being told.
        std::size_t untold = 0;
        for (const auto& [number, step] : there) {
            const auto known = due.find(number);
            const std::int32_t least = known == due.end() ? 0 : known->second;
            EXPECT_GE(step, least) << "board " << number;
            untold += static_cast<std::size_t>(step - least);
        }
        EXPECT_LE(untold, 1U);
        for (const auto& each : due) {
            EXPECT_TRUE(there.contains(each.first)) << "board " << each.first << " is lost";
        }
        due = there;
        first = there.empty() ? 1 : there.rbegin()->first + 1;
    }
    // The kills did come in the midst of writing, not only between.
    EXPECT_GT(inMidChange, static_cast<std::size_t>(kills / 20));
    EXPECT_GT(boards + due.size(), static_cast<std::size_t>(kills / 4));
    std::cout << kills << " kills, " << inMidChange << " of them in the midst of a change\n";
}

} // namespace
} // namespace stavewright::rack
