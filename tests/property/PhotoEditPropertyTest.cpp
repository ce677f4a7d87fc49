// Photographs through random runs of edits, undo, redo and saving: the job is what it was, and
// every photograph that any state of it names can still be read, byte for byte.

#include <filesystem>
#include <gtest/gtest.h>
#include <map>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "core/document/Edit.h"
#include "core/geometry/PolygonOps.h"
#include "core/job/JobFile.h"
#include "core/shop/Presets.h"
#include "tests/property/Generators.h"
#include "tests/property/PhotoEdits.h"

namespace stavewright {
namespace {

using namespace property;

class OneFile {
  public:
    OneFile()
        : m_folder(std::filesystem::temp_directory_path() /
                   ("stavewright-photos-" + std::to_string(*rc::gen::arbitrary<std::uint32_t>()))) {
        std::filesystem::create_directories(m_folder);
    }
    ~OneFile() {
        std::error_code code;
        std::filesystem::remove_all(m_folder, code);
    }
    OneFile(const OneFile&) = delete;
    OneFile& operator=(const OneFile&) = delete;
    [[nodiscard]] std::string path() const { return (m_folder / "job.stavejob").string(); }

  private:
    std::filesystem::path m_folder;
};

using Bytes = std::map<std::string, std::string>; ///< by SHA-256

void remember(const Document& document, Bytes& bytes) {
    for (const Board& board : document.boards) {
        for (const BoardPhoto& photo : board.photos) {
            if (!bytes.contains(photo.file.sha256())) {
                bytes[photo.file.sha256()] = *photo.file.read().value();
            }
        }
    }
}

void expectReadable(const Document& document, const Bytes& bytes) {
    for (const Board& board : document.boards) {
        for (const BoardPhoto& photo : board.photos) {
            const auto read = photo.file.read();
            RC_ASSERT(read.ok());
            RC_ASSERT(*read.value() == bytes.at(photo.file.sha256()));
        }
    }
}

RC_GTEST_PROP(PhotoEdits, KeepTheirBytesThroughUndoRedoAndSaving, ()) {
    const OneFile file;
    Document document;
    document.shop = inchShop();
    document.nextId = presetRules::last + 1;
    for (int i = 0; i < 2; ++i) {
        Board board = *property::board();
        board.id = document.takeId<BoardId>();
        board.mark = std::to_string(i + 1);
        board.species = "white_oak";
        const Length near = boundingBox(board.outline).y0;
        for (Point& corner : board.outline) {
            corner.y -= near; // measured from its near edge, as photographs are
        }
        document.boards.push_back(board);
    }
    RC_ASSERT(validate(document).ok());
    // states[i] is before the edit that back[i] takes back; `now` of them are done.
    std::vector<Document> states = {document};
    std::vector<Edit> back;
    std::vector<Edit> forth;
    std::size_t now = 0;
    Bytes bytes;
    int saves = 0;
    int undone = 0;
    const int steps = *rc::gen::inRange(4, 20);
    for (int i = 0; i < steps; ++i) {
        const int choice = *rc::gen::inRange(0, 8);
        if (choice == 0 && saves < 3) {
            ++saves;
            RC_ASSERT(writeJob(document, file.path()).ok());
            restPhotosOn(document, file.path());
            const Result<Document> opened = readJob(file.path());
            RC_ASSERT(opened.ok());
            RC_ASSERT(opened.value() == document);
            expectReadable(opened.value(), bytes);
        } else if (choice == 1 && now > 0) {
            Result<Edit> again = apply(document, back[now - 1]);
            RC_ASSERT(again.ok());
            forth[now - 1] = std::move(again).value();
            --now;
            ++undone;
        } else if (choice == 2 && now < back.size()) {
            Result<Edit> inverse = apply(document, forth[now]);
            RC_ASSERT(inverse.ok());
            back[now] = std::move(inverse).value();
            ++now;
        } else {
            const Board& board = document.boards[*rc::gen::inRange<std::size_t>(0, 2)];
            const Edit edit = anyPhotoEdit(document, board);
            states.resize(now + 1);
            back.resize(now);
            forth.resize(now);
            Result<Edit> inverse = apply(document, edit);
            RC_ASSERT(inverse.ok());
            RC_ASSERT(validate(document).ok());
            back.push_back(std::move(inverse).value());
            forth.push_back(edit);
            states.push_back(document);
            ++now;
            remember(document, bytes);
        }
        RC_ASSERT(document == states[now]);
        expectReadable(document, bytes);
    }
    RC_TAG(saves > 0 && undone > 0 ? "saved and undone" : "one of them");
    for (; now > 0; --now) { // all the way back
        RC_ASSERT(apply(document, back[now - 1]).ok());
        RC_ASSERT(document == states[now - 1]);
        expectReadable(document, bytes);
    }
}

} // namespace
} // namespace stavewright
