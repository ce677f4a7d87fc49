#include "tests/knots/RealPhotos.h"

#include <QImageReader>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>

#include "core/photo/Resample.h"
#include "core/photo/Straighten.h"
#include "tests/SourceFolder.h"

namespace stavewright::knots {

namespace {

using nlohmann::json;
using photo::Pixels;

std::string folder() { return sourceFolder() + "/../shared/photos"; }

/// Scans of one board share the digits before the last five of their number.
std::string boardOf(const json& entry) {
    const json& sources = entry.at("source_images");
    if (sources.empty()) {
        return entry.at("file").get<std::string>();
    }
    const std::string first = sources.front().get<std::string>();
    const std::string number = first.substr(0, first.find('.'));
    return number.size() > 5 ? number.substr(0, number.size() - 5) : number;
}

/// What the collection's classes are in the words of a job; a dead knot is one that is loose or
/// will be. Those that say nothing of the kind: nothing.
std::optional<DefectKind> kindOf(const std::string& name) {
    if (name == "live_knot") {
        return DefectKind::SoundKnot;
    }
    if (name == "dead_knot") {
        return DefectKind::LooseKnot;
    }
    if (name == "knot_missing") {
        return DefectKind::KnotHole;
    }
    return name == "crack" ? std::optional(DefectKind::Check) : std::nullopt;
}

/// Straightens by `board_quad` (corners from the top left, clockwise); boxes become the boxes round
/// their corners.
void straightenPicture(KnotPicture& picture, const json& quad) {
    photo::PhotoControls controls{picture.image.width(), picture.image.height(), {}, {}, {}, {}};
    std::array<Pixels, 4> corner{};
    for (std::size_t i = 0; i < 4; ++i) {
        corner[i] = {quad[i][0].get<double>(), quad[i][1].get<double>()};
    }
    const auto side = [&](std::size_t a, std::size_t b) {
        return std::hypot(corner[a].x - corner[b].x, corner[a].y - corner[b].y);
    };
    const int width = static_cast<int>((side(0, 1) + side(3, 2)) / 2);
    const int height = static_cast<int>((side(0, 3) + side(1, 2)) / 2);
    // One pixel is taken as a millimetre.
    const photo::BoardSize board{Length::millimetres(width), Length::millimetres(height),
                                 Length::millimetres(height)};
    using photo::Corner;
    controls.corners = {{Corner::DatumFar, photo::PhotoPoint::at(corner[0])},
                        {Corner::EndFar, photo::PhotoPoint::at(corner[1])},
                        {Corner::EndNear, photo::PhotoPoint::at(corner[2])},
                        {Corner::DatumNear, photo::PhotoPoint::at(corner[3])}};
    const auto fit = photo::straighten(controls, board);
    if (!fit) {
        return;
    }
    const Rect shown{Length(), Length(), board.length, board.widthAtDatum};
    photo::Image straight =
        photo::resampled(picture.image.view(), fit.value().map, shown, width, height);
    for (TrueMark& mark : picture.marks) {
        Box box{1e9, 1e9, -1e9, -1e9};
        for (const Pixels at :
             {Pixels{mark.box.x0, mark.box.y0}, Pixels{mark.box.x1, mark.box.y0},
              Pixels{mark.box.x0, mark.box.y1}, Pixels{mark.box.x1, mark.box.y1}}) {
            const auto place = fit.value().map.toBoard(at);
            const double x = place ? place->x.toMillimetres() : 0;
            const double y = place ? height - place->y.toMillimetres() : 0;
            box = {std::min(box.x0, x), std::min(box.y0, y), std::max(box.x1, x),
                   std::max(box.y1, y)};
        }
        mark.box = box;
    }
    picture.image = std::move(straight);
    picture.fillsPicture = true;
}

} // namespace

std::optional<photo::Image> decoded(const std::string& path) {
    QImageReader reader(QString::fromStdString(path));
    reader.setAutoTransform(true);
    const QImage read = reader.read().convertToFormat(QImage::Format_RGB888);
    if (read.isNull()) {
        return std::nullopt;
    }
    photo::Image image(read.width(), read.height());
    for (int y = 0; y < read.height(); ++y) {
        std::copy_n(read.constScanLine(y), image.stride(), image.at(0, y));
    }
    return image;
}

std::vector<KnotPicture> realPhotos(bool straightened) {
    std::vector<KnotPicture> pictures;
    std::ifstream file(folder() + "/annotations.json");
    if (!file) {
        return pictures;
    }
    const json annotations = json::parse(file);
    for (const json& entry : annotations.at("images")) {
        KnotPicture picture;
        picture.name = entry.at("file").get<std::string>();
        picture.board = boardOf(entry);
        picture.kind = entry.at("kind").get<std::string>();
        picture.credit = entry.at("licence").get<std::string>() + ": " +
                         entry.at("attribution").get<std::string>();
        std::optional<photo::Image> image = decoded(folder() + "/" + picture.name);
        if (!image) {
            continue;
        }
        picture.image = std::move(*image);
        for (const json& box : entry.at("boxes")) {
            TrueMark mark;
            mark.box = {box.at("x0").get<double>(), box.at("y0").get<double>(),
                        box.at("x1").get<double>(), box.at("y1").get<double>()};
            mark.counts = box.at("knot").get<bool>()    ? TrueMark::Counts::Knot
                          : box.at("class") == "ignore" ? TrueMark::Counts::Neither
                                                        : TrueMark::Counts::NoKnot;
            mark.kind = kindOf(box.at("class").get<std::string>());
            picture.marks.push_back(mark);
        }
        if (straightened && entry.contains("board_quad")) {
            straightenPicture(picture, entry.at("board_quad"));
        }
        const double across =
            entry.at("grain") == "vertical" ? picture.image.width() : picture.image.height();
        for (TrueMark& mark : picture.marks) {
            if (mark.counts == TrueMark::Counts::Knot && mark.box.longer() < 0.05 * across) {
                mark.counts = TrueMark::Counts::Neither;
            }
        }
        pictures.push_back(std::move(picture));
    }
    return pictures;
}

} // namespace stavewright::knots
