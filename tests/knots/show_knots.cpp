// Pictures with what is true (green: counts, grey: counts neither way, white: no knot) and what the
// program suggests (red: knots, blue: checks, each with its confidence; yellow: the board), to be
// looked at:
//   show_knots FOLDER made|other|real [HOW MANY] [FIRST SEED]

#include <QGuiApplication>
#include <QImage>
#include <QPainter>

#include <cstdio>
#include <cstdlib>

#include "core/photo/SuggestedMarks.h"
#include "tests/knots/MadePictures.h"
#include "tests/knots/OtherPictures.h"
#include "tests/knots/RealPhotos.h"
#include "tests/knots/Training.h"

namespace {

using namespace stavewright;
using namespace stavewright::knots;

QPolygonF ringOf(const std::vector<photo::Pixels>& outline) {
    QPolygonF ring;
    for (const photo::Pixels& p : outline) {
        ring << QPointF(p.x, p.y);
    }
    return ring;
}

void show(const KnotPicture& picture, const QString& path) {
    const photo::ImageView view = picture.image.view();
    QImage image = QImage(view.data, view.width, view.height, view.stride, QImage::Format_RGB888)
                       .convertToFormat(QImage::Format_RGB32);
    const int thick = std::max(1, image.width() / 800);
    QPainter painter(&image);
    QFont font;
    font.setPixelSize(10 * thick + 4);
    painter.setFont(font);
    for (const TrueMark& mark : picture.marks) {
        painter.setPen(QPen(mark.counts == TrueMark::Counts::Knot      ? Qt::green
                            : mark.counts == TrueMark::Counts::Neither ? Qt::gray
                                                                       : Qt::white,
                            2 * thick));
        painter.drawRect(
            QRectF(QPointF(mark.box.x0, mark.box.y0), QPointF(mark.box.x1, mark.box.y1)));
    }
    const photo::Suggestions suggestions = photo::suggestMarks(view, {picture.fillsPicture, 0.2});
    painter.setPen(QPen(Qt::yellow, thick));
    painter.drawPolygon(ringOf(suggestions.board));
    for (const photo::SuggestedMark& mark : suggestions.marks) {
        painter.setPen(QPen(photo::isKnot(mark.kind) ? Qt::red : Qt::blue, thick));
        const QPolygonF ring = ringOf(mark.outline);
        painter.drawPolygon(ring);
        painter.drawText(ring.boundingRect().topLeft(),
                         QString("%1%2")
                             .arg(std::lround(100 * mark.confidence))
                             .arg(QString::fromUtf8(nameOf(mark.kind).data(), 1)));
    }
    painter.end();
    image.save(path);
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    if (argc < 3) {
        std::fputs("show_knots FOLDER made|other|real [HOW MANY] [FIRST SEED]\n", stderr);
        return 2;
    }
    const QString folder = argv[1];
    const std::string what = argv[2];
    const int count = argc > 3 ? std::atoi(argv[3]) : 12;
    const auto first = argc > 4 ? static_cast<std::uint64_t>(std::atoll(argv[4])) : firstUnseenSeed;
    if (what == "real") {
        for (const KnotPicture& picture : realPhotos()) {
            show(picture, folder + "/" + QString::fromStdString(picture.name) + ".png");
        }
        return 0;
    }
    for (int i = 0; i < count; ++i) {
        const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
        const KnotPicture picture = what == "made" ? madePicture(seed) : otherPicture(seed);
        show(picture,
             folder + "/" + QString::fromStdString(picture.name).replace(' ', '-') + ".png");
    }
    return 0;
}
