#include "ui/photo/PagePhotos.h"

#include <QPainter>
#include <QTransform>

#include <algorithm>
#include <cmath>
#include <utility>

#include "ui/photo/FaceKey.h"
#include "ui/photo/FaceWork.h"

namespace stavewright::ui {

namespace {

/// Photographs print no finer; a page of them stays small.
constexpr double dotsPerInch = 150;
constexpr double mostFacePixels = 4e6;

/// Which stretch of which face, and how large.
std::string nameOf(const papers::Photo& photo) {
    std::string name = std::to_string(photo.board.value) +
                       (photo.face == BoardFace::A ? 'A' : 'B') +
                       std::to_string(photo.at.length().inNanometres());
    for (const Point& corner : photo.corners) {
        name += ',' + std::to_string(corner.x.inNanometres()) + ',' +
                std::to_string(corner.y.inNanometres());
    }
    return name;
}

const Board* boardOf(const std::vector<Board>& boards, const papers::Photo& photo) {
    const auto found = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& board) { return board.id == photo.board; });
    return found != boards.end() ? &*found : nullptr;
}

QPointF inMillimetres(Point point) { return {point.x.toMillimetres(), point.y.toMillimetres()}; }

/// Dots of the print for a millimetre of the board.
double dotsPerMillimetre(const papers::Photo& photo) {
    const QPointF along = inMillimetres(photo.corners[1]) - inMillimetres(photo.corners[0]);
    const double onBoard = std::max(1.0, std::hypot(along.x(), along.y()));
    return photo.at.length().toMillimetres() / onBoard * dotsPerInch / 25.4;
}

double pixelsFor(const Board& board, const papers::Photo& photo) {
    const double dots = dotsPerMillimetre(photo);
    return std::min(mostFacePixels,
                    lengthOf(board).toMillimetres() * widthOf(board).toMillimetres() * dots * dots);
}

QImage cutOut(const FacePicture& face, const papers::Photo& photo) {
    const auto dots = [](Length length) {
        return std::max(1, static_cast<int>(std::lround(length.toInches() * dotsPerInch)));
    };
    QImage image(dots(photo.at.length()), dots(photo.at.width()), QImage::Format_RGB32);
    image.fill(Qt::white);
    const QPointF corner = inMillimetres(photo.corners[0]);
    const QPointF along = (inMillimetres(photo.corners[1]) - corner) / image.width();
    const QPointF down = (inMillimetres(photo.corners[2]) - corner) / image.height();
    const QTransform toBoard(along.x(), along.y(), down.x(), down.y(), corner.x(), corner.y());
    QPainter painter(&image);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(toBoard.inverted());
    painter.translate(face.place.x0.toMillimetres(), face.place.y1.toMillimetres());
    painter.scale(1, -1); // pictures run downwards, boards upwards
    painter.drawImage(
        QRectF(0, 0, face.place.length().toMillimetres(), face.place.width().toMillimetres()),
        face.image);
    return image;
}

} // namespace

PagePhotos PagePhotos::of(const std::vector<Board>& boards, const std::vector<papers::Page>& pages,
                          const PagePhotos& known, const std::stop_token& stop) {
    PagePhotos result;
    // By face, so that one straightened picture at a time stands in memory.
    std::map<std::pair<BoardId, BoardFace>, std::vector<const papers::Photo*>> wanted;
    for (const papers::Page& page : pages) {
        for (const papers::Photo& photo : page.photos) {
            const Board* board = boardOf(boards, photo);
            if (board == nullptr) {
                continue;
            }
            const auto before = known.m_made.find(nameOf(photo));
            if (before != known.m_made.end() &&
                before->second.shows == photosKey(*board, photo.face)) {
                result.m_made.insert(*before);
            } else {
                wanted[{photo.board, photo.face}].push_back(&photo);
            }
        }
    }
    for (const auto& [key, photos] : wanted) {
        if (stop.stop_requested()) {
            break;
        }
        const Board& board = *boardOf(boards, *photos.front());
        double pixels = 0;
        for (const papers::Photo* photo : photos) {
            pixels = std::max(pixels, pixelsFor(board, *photo));
        }
        const FacePicture face = straightenedFace(faceOrder(board, key.second, pixels), stop);
        for (const papers::Photo* photo : photos) {
            result.m_made[nameOf(*photo)] = {photosKey(board, key.second),
                                             face.image.isNull() ? QImage() : cutOut(face, *photo)};
        }
    }
    return result;
}

bool PagePhotos::hasAllOf(const std::vector<Board>& boards,
                          const std::vector<papers::Page>& pages) const {
    return std::all_of(pages.begin(), pages.end(), [&](const papers::Page& page) {
        return std::all_of(page.photos.begin(), page.photos.end(), [&](const papers::Photo& photo) {
            const Board* board = boardOf(boards, photo);
            const auto made = m_made.find(nameOf(photo));
            return board == nullptr ||
                   (made != m_made.end() && made->second.shows == photosKey(*board, photo.face));
        });
    });
}

PhotoOnPage PagePhotos::onPage() const {
    return [made = m_made](const papers::Photo& photo) {
        const auto found = made.find(nameOf(photo));
        return found != made.end() ? found->second.image : QImage();
    };
}

} // namespace stavewright::ui
