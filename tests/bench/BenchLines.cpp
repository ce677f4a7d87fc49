// Which way the lines of the figure run along both edges of the annotated photographs beside the
// project, and how plainly. Nobody measured them by hand, so it is printed to be looked at; how far
// off the method is on lines that are known stands in tests/unit/core/photo/EdgeLinesTest.cpp.

#include <QGuiApplication>

#include <cstdio>

#include "core/photo/EdgeLines.h"
#include "tests/knots/RealPhotos.h"

namespace {

using namespace stavewright;

/// The boards are about so wide; nobody knows exactly.
constexpr Length width = Length::millimetres(150);

void print(const knots::KnotPicture& picture) {
    const photo::ImageView view = picture.image.view();
    const Length length = width * view.width / view.height;
    const Rect shown{Length(), Length(), length, width};
    std::printf("%-24s", picture.name.c_str());
    constexpr Length clear = Length::millimetres(3);
    constexpr Length strip = Length::millimetres(25);
    for (const bool near : {true, false}) {
        const Rect edge = near ? Rect{Length(), clear, length, strip}
                               : Rect{Length(), width - strip, length, width - clear};
        const auto lines = photo::linesIn(view, shown, edge, [](Point at) { return at; });
        if (lines) {
            std::printf("   %6.1f deg %4d %% sure", lines->angleTenths / 10.0,
                        static_cast<int>(lines->surePercent));
        } else {
            std::printf("   %24s", "not shown");
        }
    }
    std::printf("\n");
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    const std::vector<knots::KnotPicture> pictures = knots::realPhotos();
    if (pictures.empty()) {
        std::printf("The annotated photographs are not beside the project: left out.\n");
        return 0;
    }
    std::printf("%-24s   %-24s   %s\n", "", "near edge", "far edge");
    for (const knots::KnotPicture& picture : pictures) {
        print(picture);
    }
    return 0;
}
