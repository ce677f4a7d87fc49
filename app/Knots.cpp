#include <QCoreApplication>

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdio>
#include <iostream>
#include <optional>

#include "app/Headless.h"
#include "core/geometry/PolygonOps.h"
#include "core/photo/CornerOrder.h"
#include "core/photo/EdgeSearch.h"
#include "core/photo/Resample.h"
#include "core/photo/Straighten.h"
#include "core/photo/SuggestedMarks.h"
#include "core/units/LengthText.h"
#include "ui/photo/PhotoFile.h"

namespace stavewright::app {

namespace {

/// More would only be slower: knots show long before.
constexpr double mostPixels = 12e6;

struct BoardMark {
    DefectKind kind;
    double confidence;
    Polygon outline;
};
struct Found {
    std::vector<BoardMark> marks;
    bool boardFound = false;
    std::optional<Length> expectedError; ///< of the corners
};

Result<Length> lengthOf(const std::string& text, const char* option) {
    Result<Length> length = parseLength(text, UnitSystem::Millimetres);
    if (!length) {
        return Error{ErrorCode::BadInput, length.error().message, option};
    }
    if (length.value() <= Length()) {
        return Error{ErrorCode::BadInput, "It is " + text + "; it must be more than 0.", option};
    }
    return length;
}

Result<photo::BoardSize> sizeOf(const KnotsCommand& command) {
    const Result<Length> length = lengthOf(command.length, "--length");
    const Result<Length> width = lengthOf(command.width, "--width");
    if (!length) {
        return length.error();
    }
    if (!width) {
        return width.error();
    }
    photo::BoardSize size{length.value(), width.value(), width.value()};
    if (!command.farWidth.empty()) {
        const Result<Length> far = lengthOf(command.farWidth, "--far-width");
        if (!far) {
            return far.error();
        }
        size.widthAtFar = far.value();
    }
    return size;
}

Found suggested(const photo::ImageView& picture, const Rect& shown, bool fills,
                double leastConfidence) {
    const photo::Suggestions suggestions = photo::suggestMarks(picture, {fills, leastConfidence});
    const photo::PhotoMap map =
        photo::PhotoMap::ofStraightened(shown, picture.width, picture.height);
    Found found;
    found.boardFound = suggestions.boardFound;
    for (const photo::SuggestedMark& mark : suggestions.marks) {
        Polygon outline = photo::outlineOnBoard(mark.outline, map);
        if (outline.size() >= 3) {
            found.marks.push_back({mark.kind, mark.confidence, std::move(outline)});
        }
    }
    return found;
}

Result<Found> foundIn(const photo::Image& picture, const photo::BoardSize& size,
                      const KnotsCommand& command) {
    const Rect shown{Length(), Length(), size.length, std::max(size.widthAtDatum, size.widthAtFar)};
    if (command.corners.empty()) {
        return suggested(picture.view(), shown, false, command.leastConfidence);
    }
    std::array<photo::Pixels, 4> corners{};
    for (std::size_t i = 0; i < 4; ++i) {
        corners[i] = {command.corners[2 * i], command.corners[2 * i + 1]};
    }
    const Result<std::vector<photo::CornerMark>> marks = photo::cornersInAnyOrder(corners, size);
    if (!marks) {
        return Error{ErrorCode::BadInput, marks.error().message, "--corners"};
    }
    photo::PhotoControls controls{picture.width(), picture.height(), marks.value(), {}, {}, {}};
    controls.edges = photo::edgesFound(picture.view(), controls, size);
    const Result<photo::Straightening> fit = photo::straighten(controls, size);
    if (!fit) {
        return Error{ErrorCode::BadInput, fit.error().message, "--corners"};
    }
    const photo::PictureSize pixels = photo::naturalSize(fit.value().map, shown, mostPixels);
    const photo::Image straight =
        photo::resampled(picture.view(), fit.value().map, shown, pixels.width, pixels.height);
    Found found = suggested(straight.view(), shown, true, command.leastConfidence);
    found.expectedError = fit.value().worstExpected;
    return found;
}

double millimetres(Length length) { return std::round(length.toMillimetres() * 100) / 100; }

nlohmann::json reportOf(const Found& found) {
    nlohmann::json knots = nlohmann::json::array();
    for (const BoardMark& mark : found.marks) {
        if (!photo::isKnot(mark.kind)) {
            continue;
        }
        const Rect box = boundingBox(mark.outline);
        nlohmann::json outline = nlohmann::json::array();
        for (const Point& point : mark.outline) {
            outline.push_back({millimetres(point.x), millimetres(point.y)});
        }
        knots.push_back(
            {{"kind", nameOf(mark.kind)},
             {"confidence", std::round(mark.confidence * 1000) / 1000},
             {"box_mm",
              {millimetres(box.x0), millimetres(box.y0), millimetres(box.x1), millimetres(box.y1)}},
             {"outline_mm", outline}});
    }
    return {{"knots", knots}};
}

void printTable(const Found& found) {
    const auto text = [](Length length) {
        return nearestText(length, {UnitSystem::Inches, 8, true}) + " (" +
               std::to_string(std::llround(length.toMillimetres())) + " mm)";
    };
    if (found.expectedError) {
        std::cout << "Places may be off by about " << text(*found.expectedError)
                  << ": only the corners are known.\n";
    } else if (found.boardFound) {
        std::cout << "The board was found against its background.\n";
    }
    if (found.marks.empty()) {
        std::cout << "No knots found. Look for yourself all the same.\n";
        return;
    }
    const auto line = [](const std::string& kind, const std::string& sure, const std::string& x,
                         const std::string& y, const std::string& along,
                         const std::string& across) {
        std::printf("%-12s %5s  %-20s %-20s %-20s %s\n", kind.c_str(), sure.c_str(), x.c_str(),
                    y.c_str(), along.c_str(), across.c_str());
    };
    std::cout.flush();
    line("kind", "sure", "from datum end", "from near edge", "along", "across");
    for (const BoardMark& mark : found.marks) {
        const Rect box = boundingBox(mark.outline);
        line(std::string(nameOf(mark.kind)),
             std::to_string(std::llround(100 * mark.confidence)) + '%', text((box.x0 + box.x1) / 2),
             text((box.y0 + box.y1) / 2), text(box.length()), text(box.width()));
    }
    std::printf("These are suggestions: check each on the board before you cut.\n");
}

int fail(const Error& error) {
    std::cerr << describe(error) << '\n';
    return exitCodeOf(error);
}

} // namespace

int runKnots(const KnotsCommand& command) {
    const Result<photo::BoardSize> size = sizeOf(command);
    if (!size) {
        return fail(size.error());
    }
    // Decoders are plug-ins, which need a Qt application, but no display. What they have to say
    // besides is no sentence for a maker.
    qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {});
    int argc = 1;
    char name[] = "stavewright";
    char* argv[] = {name, nullptr};
    const QCoreApplication application(argc, argv);

    const QString path = QString::fromStdString(command.photo);
    const Result<QByteArray> file = ui::readPhotoFile(path);
    if (!file) {
        return fail(file.error());
    }
    const Result<QImage> decoded = ui::decodePhoto(file.value(), path);
    if (!decoded) {
        return fail(decoded.error());
    }
    const Result<Found> found = foundIn(ui::pixelsOf(decoded.value()), size.value(), command);
    if (!found) {
        return fail(found.error());
    }
    if (command.json) {
        std::cout << reportOf(found.value()).dump(2) << '\n';
    } else {
        printTable(found.value());
    }
    return exitGood;
}

} // namespace stavewright::app
