#include "ui/photo/PhotoFile.h"

#include <QBuffer>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QTransform>

#include <algorithm>
#include <cmath>

#include "core/photo/PictureFacts.h"
#include "ui/photo/HeicFile.h"

namespace stavewright::ui {

namespace {

Error unreadable(const QString& path, std::string sentence) {
    return {ErrorCode::CannotRead, std::move(sentence), path.toStdString()};
}

photo::Bytes bytesOf(const QByteArray& file) {
    return {reinterpret_cast<const std::uint8_t*>(file.constData()),
            static_cast<std::size_t>(file.size())};
}

QByteArray formatName(photo::PictureFormat format) {
    switch (format) {
    case photo::PictureFormat::Jpeg:
        return "jpeg";
    case photo::PictureFormat::Png:
        return "png";
    case photo::PictureFormat::Tiff:
        return "tiff";
    case photo::PictureFormat::WebP:
        return "webp";
    case photo::PictureFormat::Heic:
        return "heic";
    }
    return {};
}

/// EXIF orientation 1 to 8; mirrored ones are rare but legal.
QImage upright(const QImage& picture, int orientation) {
    const bool mirrored =
        orientation == 2 || orientation == 4 || orientation == 5 || orientation == 7;
    const QImage straight = mirrored ? picture.mirrored(true, false) : picture;
    switch (orientation) {
    case 3:
    case 4:
        return straight.transformed(QTransform().rotate(180));
    case 6:
    case 7:
        return straight.transformed(QTransform().rotate(90));
    case 5:
    case 8:
        return straight.transformed(QTransform().rotate(270));
    default:
        return straight;
    }
}

} // namespace

Result<QByteArray> readPhotoFile(const QString& path) {
    const QFileInfo info(path);
    if (!info.exists()) {
        return unreadable(path, "There is no such file.");
    }
    if (!info.isFile()) {
        return unreadable(path, "This is not a file but a folder or a device.");
    }
    if (static_cast<std::uint64_t>(info.size()) > photo::mostBytes) {
        return unreadable(path, "The file has " + std::to_string(info.size() >> 20) +
                                    " MiB; a photograph may have at most " +
                                    std::to_string(photo::mostBytes >> 20) + " MiB.");
    }
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return unreadable(path,
                          "The file cannot be opened: " + file.errorString().toStdString() + '.');
    }
    return file.readAll();
}

Result<QImage> decodePhoto(const QByteArray& file, const QString& place) {
    return decodePhotoSmall(file, place, 0);
}

Result<QImage> decodePhotoSmall(const QByteArray& file, const QString& place, double mostPixels) {
    const auto wrong = [&](std::string sentence) {
        return Error{ErrorCode::BadInput, std::move(sentence), place.toStdString()};
    };
    const Result<photo::PictureFacts> facts = photo::factsOf(bytesOf(file));
    if (!facts) {
        return wrong(facts.error().message);
    }
    if (const Status status = photo::usable(facts.value()); !status) {
        return wrong(status.error().message);
    }
    if (facts.value().format == photo::PictureFormat::Heic) {
        Result<QImage> heic = decodeHeic(file);
        return heic ? heic : wrong(heic.error().message);
    }
    QBuffer buffer;
    buffer.setData(file);
    buffer.open(QIODevice::ReadOnly);
    // Qt's own limit is less than a 50-megapixel photograph; ours is in PictureFacts.h.
    QImageReader::setAllocationLimit(static_cast<int>(photo::mostPixels * 8 >> 20));
    QImageReader reader(&buffer, formatName(facts.value().format));
    reader.setAutoTransform(false);
    const double pixels =
        static_cast<double>(facts.value().width) * static_cast<double>(facts.value().height);
    if (facts.value().format == photo::PictureFormat::Jpeg && mostPixels > 0 &&
        pixels > mostPixels) {
        const double scale = std::sqrt(mostPixels / pixels);
        reader.setScaledSize({std::max(1, static_cast<int>(facts.value().width * scale)),
                              std::max(1, static_cast<int>(facts.value().height * scale))});
    }
    const QImage picture = reader.read();
    if (picture.isNull()) {
        return wrong("The " + photo::nameOf(facts.value().format) +
                     " cannot be decoded: " + reader.errorString().toStdString() + '.');
    }
    return upright(picture, facts.value().orientation);
}

photo::Image pixelsOf(const QImage& picture) {
    const QImage rgb = picture.convertToFormat(QImage::Format_RGB888);
    photo::Image image(rgb.width(), rgb.height());
    for (int y = 0; y < rgb.height(); ++y) {
        std::copy_n(rgb.constScanLine(y), image.stride(), image.at(0, y));
    }
    return image;
}

} // namespace stavewright::ui
