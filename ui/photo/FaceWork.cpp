#include "ui/photo/FaceWork.h"

#include <QBuffer>

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "core/photo/BoardFinding.h"
#include "core/photo/CornerOrder.h"
#include "core/photo/EdgeSearch.h"
#include "core/photo/FacePhotos.h"
#include "core/photo/Location.h"
#include "core/photo/PictureFacts.h"
#include "core/photo/Resample.h"
#include "core/photo/SuggestedMarks.h"
#include "core/photo/TiedPhotos.h"
#include "ui/photo/PhotoFile.h"

namespace stavewright::ui {

namespace {

/// A photograph that its marks straighten, and the stretch of the face it stands for.
struct Straight {
    const BoardPhoto* photo = nullptr;
    photo::Straightening fit;
    Stretch along;
};

std::vector<Straight> straightOf(const FaceOrder& order, std::vector<Error>& errors) {
    std::vector<const BoardPhoto*> photos;
    std::vector<photo::Straightening> fits;
    std::vector<photo::MarkedPhoto> marked;
    for (const BoardPhoto& photo : order.photos) {
        marked.push_back({&photo.controls, photo.size});
    }
    photo::TiedPhotos tied = photo::tiedPhotos(marked);
    for (std::size_t i = 0; i < order.photos.size(); ++i) {
        const BoardPhoto& photo = order.photos[i];
        Result<photo::Straightening>& fit = tied.photos[i];
        if (fit) {
            photos.push_back(&photo);
            fits.push_back(std::move(fit).value());
        } else {
            errors.push_back({fit.error().code, fit.error().message, photo.name});
        }
    }
    errors.insert(errors.end(), tied.untied.begin(), tied.untied.end());
    std::vector<Straight> result;
    if (fits.size() == 1) { // shows what it shows, also where the board runs out of the picture
        result.push_back({photos[0], fits[0], {order.shown.x0, order.shown.x1}});
        return result;
    }
    for (const photo::FaceStretch& stretch : photo::arranged(fits, order.board).stretches) {
        result.push_back({photos[stretch.photo], fits[stretch.photo], stretch.along});
    }
    if (!result.empty()) {
        result.front().along.from = std::min(result.front().along.from, order.shown.x0);
        result.back().along.to = std::max(result.back().along.to, order.shown.x1);
    }
    return result;
}

Result<QImage> pictureOf(const BoardPhoto& photo, double mostPixels) {
    const auto bytes = photo.file.read();
    if (!bytes) {
        return Error{bytes.error().code, bytes.error().message, photo.name};
    }
    const QByteArray file = QByteArray::fromRawData(bytes.value()->data(),
                                                    static_cast<qsizetype>(bytes.value()->size()));
    return decodePhotoSmall(file, QString::fromStdString(photo.name), mostPixels);
}

/// The same map for the picture at another size.
photo::PhotoMap mapFor(const photo::PhotoMap& map, const QImage& picture) {
    photo::PhotoMap::Values values = map.values();
    values.width = picture.width();
    values.height = picture.height();
    return photo::PhotoMap(values);
}

} // namespace

FaceOrder faceOrder(const Board& board, BoardFace face, double mostPixels) {
    FaceOrder order;
    order.face = face;
    order.mostPixels = mostPixels;
    order.board = measuredSize(board);
    order.shown = boundingBox(board.outline);
    std::copy_if(board.photos.begin(), board.photos.end(), std::back_inserter(order.photos),
                 [face](const BoardPhoto& photo) { return photo.face == face; });
    return order;
}

FacePicture straightenedFace(const FaceOrder& order, const std::stop_token& stop) {
    FacePicture made;
    made.place = order.shown;
    const std::vector<Straight> parts = straightOf(order, made.errors);
    const double shape =
        order.shown.width().toMillimetres() / std::max(1e-3, order.shown.length().toMillimetres());
    const int wide =
        std::max(16, static_cast<int>(std::sqrt(order.mostPixels / std::max(shape, 1e-3))));
    const int high = std::max(4, static_cast<int>(std::lround(wide * shape)));
    const double whole = static_cast<double>(order.shown.length().inNanometres());
    const auto column = [&](Length x) {
        const double share = static_cast<double>((x - order.shown.x0).inNanometres()) / whole;
        return std::clamp(static_cast<int>(std::lround(share * wide)), 0, wide);
    };
    const auto lengthAt = [&](int at) {
        return order.shown.x0 + Length::nanometres(std::llround(whole * at / wide));
    };
    for (const Straight& part : parts) {
        const int from = column(part.along.from);
        const int to = column(part.along.to);
        if (stop.stop_requested() || to <= from) {
            continue;
        }
        // A little finer than the result, and no more: small pictures decode fast.
        const Result<QImage> picture = pictureOf(*part.photo, 6 * order.mostPixels);
        if (!picture) {
            made.errors.push_back(picture.error());
            continue;
        }
        if (made.image.isNull()) {
            made.image = QImage(wide, high, QImage::Format_RGB888);
            made.image.fill(Qt::black);
        }
        const photo::Image pixels = pixelsOf(picture.value());
        const Rect shown{lengthAt(from), order.shown.y0, lengthAt(to), order.shown.y1};
        const photo::Image strip = photo::resampled(
            pixels.view(), mapFor(part.fit.map, picture.value()), shown, to - from, high);
        for (int row = 0; row < high; ++row) {
            std::copy_n(strip.view().at(0, row), strip.stride(),
                        made.image.scanLine(row) + std::ptrdiff_t{from} * 3);
        }
    }
    return made;
}

namespace {

/// The ring round the board as an outline that a job can hold: from x = 0 on, few corners, each
/// edge running one way along.
std::optional<Polygon> asOutline(const Polygon& ring, const Rect& shown) {
    constexpr int stations = 48;
    const Rect box = boundingBox(ring);
    if (ring.size() < 3 || box.length() < shown.length() / 2) {
        return std::nullopt;
    }
    std::vector<Point> low;
    std::vector<Point> high;
    for (int i = 0; i <= stations; ++i) {
        const Length x = box.x0 + (box.length() * i) / stations;
        // The very ends are one point wide; a little inside is what the end is.
        const Length inside =
            std::clamp(x, box.x0 + box.length() / 400, box.x1 - box.length() / 400);
        if (const auto across = acrossAt(ring, inside)) {
            low.push_back({x - box.x0, across->from});
            high.push_back({x - box.x0, across->to});
        }
    }
    if (low.size() < 2) {
        return std::nullopt;
    }
    // Corners that lie on the line of their neighbours say nothing.
    const auto thinned = [](const std::vector<Point>& line) {
        constexpr double within = 1.5; // mm, as well as a rough edge can be measured
        std::vector<Point> kept = {line.front()};
        for (std::size_t i = 1; i + 1 < line.size(); ++i) {
            const Point& a = kept.back();
            bool straight = true;
            const Point& b = line[i + 1];
            for (std::size_t k = 0; k <= i && straight; ++k) {
                if (line[k].x <= a.x) {
                    continue;
                }
                const double share =
                    (line[k].x - a.x).toMillimetres() / (b.x - a.x).toMillimetres();
                const double expected = a.y.toMillimetres() + share * (b.y - a.y).toMillimetres();
                straight = std::abs(line[k].y.toMillimetres() - expected) <= within;
            }
            if (!straight) {
                kept.push_back(line[i]);
            }
        }
        kept.push_back(line.back());
        return kept;
    };
    Polygon outline = thinned(low);
    std::vector<Point> back = thinned(high);
    outline.insert(outline.end(), back.rbegin(), back.rend());
    for (Point& corner : outline) { // no finer than the photograph
        corner.x = Length::micrometres(corner.x.inNanometres() / 1'000);
        corner.y = Length::micrometres(corner.y.inNanometres() / 1'000);
    }
    return validatePolygon(outline) ? std::optional(outline) : std::nullopt;
}

void findIn(const Straight& part, const FaceOrder& order, bool whole, FoundOnFace& found) {
    constexpr double mostPixels = 12e6; // knots show long before
    const Result<QImage> picture = pictureOf(*part.photo, 4 * mostPixels);
    if (!picture) {
        found.errors.push_back(picture.error());
        return;
    }
    const photo::Image pixels = pixelsOf(picture.value());
    const photo::PhotoMap map = mapFor(part.fit.map, picture.value());
    // Beyond a joint, so that a knot on it is seen whole; beyond the edges, so that the board's own
    // outline shows against what it lies on.
    const Length beyond = Length::inches(3);
    const Length margin = order.shown.width() / 8;
    for (const bool withBackground : {true, false}) {
        Rect shown{part.along.from - beyond, order.shown.y0, part.along.to + beyond,
                   order.shown.y1};
        if (withBackground) {
            shown.y0 -= margin;
            shown.y1 += margin;
        } else {
            shown.x0 = std::max(shown.x0, order.shown.x0);
            shown.x1 = std::min(shown.x1, order.shown.x1);
        }
        const photo::PictureSize size = photo::naturalSize(map, shown, mostPixels);
        const photo::Image straight =
            photo::resampled(pixels.view(), map, shown, size.width, size.height);
        const photo::Suggestions seen =
            photo::suggestMarks(straight.view(), {!withBackground, photo::usefulConfidence});
        if (withBackground && !seen.boardFound) {
            continue; // on a ground like wood; the outline as measured holds
        }
        const auto straightMap = photo::PhotoMap::ofStraightened(shown, size.width, size.height);
        for (const photo::SuggestedMark& mark : seen.marks) {
            const Polygon outline = photo::outlineOnBoard(mark.outline, straightMap);
            if (outline.size() < 3 || !validatePolygon(outline)) {
                continue;
            }
            const Rect box = boundingBox(outline);
            const Point middle{box.x0 + box.length() / 2, box.y0 + box.width() / 2};
            if (middle.x < part.along.from || middle.x >= part.along.to ||
                middle.y < order.shown.y0 || middle.y > order.shown.y1) {
                continue;
            }
            found.marks.push_back({order.face, mark.kind, outline,
                                   static_cast<int>(std::lround(mark.confidence * 100))});
        }
        if (withBackground && whole) {
            found.outline = asOutline(photo::outlineOnBoard(seen.board, straightMap), order.shown);
        }
        return;
    }
}

} // namespace

FoundOnFace foundOnFace(const FaceOrder& order, const std::stop_token& stop) {
    FoundOnFace found;
    const std::vector<Straight> parts = straightOf(order, found.errors);
    for (const Straight& part : parts) {
        if (!stop.stop_requested()) {
            findIn(part, order, parts.size() == 1, found);
        }
    }
    std::stable_sort(found.marks.begin(), found.marks.end(),
                     [](const FoundMark& a, const FoundMark& b) {
                         return a.confidencePercent > b.confidencePercent;
                     });
    return found;
}

namespace {

/// The four corners of what stands out against the background; without one, a little inside the
/// picture, to be dragged.
std::vector<photo::CornerMark> guessedCorners(const QImage& picture, const photo::BoardSize& size) {
    constexpr int looked = 900; // px; a guess needs no more
    const QImage small =
        picture.scaled(looked, looked, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    const double scale = static_cast<double>(picture.width()) / small.width();
    const photo::FoundBoard board = photo::findBoard(pixelsOf(small).view());
    std::array<photo::Pixels, 4> corners{};
    if (board.fillsPicture || board.outline.size() < 4) {
        const double w = picture.width();
        const double h = picture.height();
        corners = {photo::Pixels{0.05 * w, 0.9 * h}, photo::Pixels{0.05 * w, 0.1 * h},
                   photo::Pixels{0.95 * w, 0.1 * h}, photo::Pixels{0.95 * w, 0.9 * h}};
    } else { // the places farthest out in the four slanting directions
        double farthest[4] = {-1e12, -1e12, -1e12, -1e12};
        for (const photo::Pixels& place : board.outline) {
            const double reach[4] = {-place.x + place.y, -place.x - place.y, place.x - place.y,
                                     place.x + place.y};
            for (std::size_t k = 0; k < 4; ++k) {
                if (reach[k] > farthest[k]) {
                    farthest[k] = reach[k];
                    corners[k] = {place.x * scale, place.y * scale};
                }
            }
        }
    }
    const Result<std::vector<photo::CornerMark>> marks = photo::cornersInAnyOrder(corners, size);
    return marks ? marks.value() : std::vector<photo::CornerMark>();
}

} // namespace

Result<BoardPhoto> photoFromFile(const QByteArray& bytes, const QString& name, BoardFace face,
                                 const photo::BoardSize& size) {
    Result<QImage> picture = decodePhoto(bytes, name);
    if (!picture) {
        return picture.error();
    }
    QByteArray kept = bytes;
    const auto asBytes = [](const QByteArray& file) {
        return photo::Bytes{reinterpret_cast<const std::uint8_t*>(file.constData()),
                            static_cast<std::size_t>(file.size())};
    };
    const Result<photo::PictureFacts> facts = photo::factsOf(asBytes(bytes));
    if (facts && facts.value().format == photo::PictureFormat::Heic) {
        constexpr int hardlyAnyLoss = 95;
        kept.clear();
        QBuffer buffer(&kept);
        buffer.open(QIODevice::WriteOnly);
        if (!picture.value().save(&buffer, "jpeg", hardlyAnyLoss)) {
            return Error{ErrorCode::Internal,
                         "The HEIC could not be turned into a JPEG; save it as one and add that.",
                         name.toStdString()};
        }
    }
    const Result<photo::ByteBuffer> clean = photo::withoutLocation(asBytes(kept));
    if (!clean) {
        return Error{clean.error().code, clean.error().message, name.toStdString()};
    }
    BoardPhoto photo;
    photo.face = face;
    photo.name = name.left(200).toStdString();
    photo.file = PhotoFile::of(std::string(clean.value().begin(), clean.value().end()));
    photo.size = size;
    photo.controls.width = picture.value().width();
    photo.controls.height = picture.value().height();
    photo.controls.corners = guessedCorners(picture.value(), size);
    if (face == BoardFace::B) {
        // Seen from its own side the near edge of face B lies above.
        for (photo::CornerMark& mark : photo.controls.corners) {
            mark.corner = photo::atOtherEdge(mark.corner);
        }
    }
    for (photo::CornerMark& mark : photo.controls.corners) {
        mark.at.x =
            std::clamp<std::int64_t>(mark.at.x, 0, std::int64_t{photo.controls.width} * 1000);
        mark.at.y =
            std::clamp<std::int64_t>(mark.at.y, 0, std::int64_t{photo.controls.height} * 1000);
    }
    photo.controls.edges =
        photo::edgesFound(pixelsOf(picture.value()).view(), photo.controls, size);
    return photo;
}

} // namespace stavewright::ui
