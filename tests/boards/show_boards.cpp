// Writes made boards and photographs of them as PPM files, to be looked at: show_boards FOLDER [HOW
// MANY].

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "tests/boards/MadePhoto.h"

namespace {

void write(const std::string& path, const stavewright::photo::Image& image) {
    std::ofstream file(path, std::ios::binary);
    file << "P6\n" << image.width() << ' ' << image.height() << "\n255\n";
    file.write(reinterpret_cast<const char*>(image.view().data),
               static_cast<std::streamsize>(image.stride()) * image.height());
}

} // namespace

int main(int argc, char** argv) {
    using namespace stavewright::boards;
    if (argc < 2) {
        std::fputs("show_boards FOLDER [HOW MANY]\n", stderr);
        return 2;
    }
    const int count = argc > 2 ? std::atoi(argv[2]) : 4;
    for (int i = 1; i <= count; ++i) {
        BoardWish wish;
        wish.dark = i % 4 == 0;
        wish.inchesLong = 30 + 10 * (i % 5);
        wish.inchesWide = 6 + i % 4;
        const auto seed = static_cast<std::uint64_t>(i);
        const MadeBoard board = makeBoard(seed, wish);
        const std::string name = std::string(argv[1]) + "/board" + std::to_string(i);
        write(name + "-a.ppm", facePicture(board, stavewright::BoardFace::A, 30));
        write(name + "-b.ppm", facePicture(board, stavewright::BoardFace::B, 30));
        PhotoWish photo;
        photo.shadow = i % 2 == 0;
        photo.barrel = i % 3 == 0 ? 0.03 : 0;
        write(name + "-photo.ppm",
              photographOf(board, stavewright::BoardFace::A, seed, photo).image);
    }
    return 0;
}
