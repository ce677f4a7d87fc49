#include "ui/photo/PhotoFile.h"

#include <gtest/gtest.h>

#include <QTransform>

#include <libheif/heif.h>

#include "core/photo/Location.h"
#include "core/photo/PictureFacts.h"
#include "tests/cli/PhotoFixtures.h"

namespace stavewright::testing {
namespace {

/// Every corner of another colour, so that no turn goes unnoticed.
QImage scene() {
    QImage image(96, 64, QImage::Format_RGB888);
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            image.setPixel(x, y, qRgb(x * 2, y * 3, (x + y) % 200));
        }
    }
    return image;
}

bool alike(const QImage& a, const QImage& b, int off) {
    if (a.size() != b.size()) {
        return false;
    }
    for (int y = 0; y < a.height(); ++y) {
        for (int x = 0; x < a.width(); ++x) {
            const QRgb p = a.pixel(x, y);
            const QRgb q = b.pixel(x, y);
            if (std::abs(qRed(p) - qRed(q)) > off || std::abs(qGreen(p) - qGreen(q)) > off) {
                return false;
            }
        }
    }
    return true;
}

TEST(PhotoFile, EveryFormatIsReadUpright) {
    for (const char* format : {"jpeg", "png", "tiff", "webp"}) {
        const Result<QImage> picture = ui::decodePhoto(encoded(scene(), format, 100), "photo");
        ASSERT_TRUE(picture.ok()) << format << picture.error().message;
        EXPECT_TRUE(alike(picture.value(), scene(), 24)) << format;
    }
}

/// As a phone writes it; without an encoder on this machine there is nothing to read either.
QByteArray heicOf(const QImage& picture) {
    heif_context* context = heif_context_alloc();
    heif_encoder* encoder = nullptr;
    QByteArray file;
    if (heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder).code ==
        heif_error_Ok) {
        heif_encoder_set_lossy_quality(encoder, 95);
        heif_image* image = nullptr;
        heif_image_create(picture.width(), picture.height(), heif_colorspace_RGB,
                          heif_chroma_interleaved_RGB, &image);
        heif_image_add_plane(image, heif_channel_interleaved, picture.width(), picture.height(), 8);
        int stride = 0;
        std::uint8_t* to = heif_image_get_plane(image, heif_channel_interleaved, &stride);
        for (int y = 0; y < picture.height(); ++y) {
            std::copy_n(picture.constScanLine(y), picture.width() * 3,
                        to + static_cast<std::ptrdiff_t>(y) * stride);
        }
        heif_image_handle* handle = nullptr;
        heif_context_encode_image(context, image, encoder, nullptr, &handle);
        heif_writer writer{1, [](heif_context*, const void* data, size_t size, void* user) {
                               static_cast<QByteArray*>(user)->append(
                                   static_cast<const char*>(data), static_cast<qsizetype>(size));
                               return heif_error{heif_error_Ok, heif_suberror_Unspecified, ""};
                           }};
        heif_context_write(context, &writer, &file);
        heif_image_handle_release(handle);
        heif_image_release(image);
        heif_encoder_release(encoder);
    }
    heif_context_free(context);
    return file;
}

TEST(PhotoFile, AHeicIsOpened) {
    const QByteArray file = heicOf(scene());
    if (file.isEmpty()) {
        GTEST_SKIP() << "No encoder for HEIC is installed, so none can be made to be read.";
    }
    const Result<QImage> picture = ui::decodePhoto(file, "photo");
    ASSERT_TRUE(picture.ok()) << picture.error().message;
    EXPECT_TRUE(alike(picture.value(), scene(), 40));
    const Result<QImage> half = ui::decodePhoto(file.left(file.size() / 2), "photo");
    ASSERT_FALSE(half.ok());
    EXPECT_NE(half.error().message.find("JPEG"), std::string::npos);
}

TEST(PhotoFile, AllEightOrientationsComeOutUpright) {
    const QImage upright = scene();
    const auto stored = [&](int orientation) -> QImage {
        switch (orientation) {
        case 2:
            return upright.mirrored(true, false);
        case 3:
            return upright.transformed(QTransform().rotate(180));
        case 4:
            return upright.mirrored(false, true);
        case 5:
            return upright.transformed(QTransform().rotate(90)).mirrored(true, false);
        case 6:
            return upright.transformed(QTransform().rotate(-90));
        case 7:
            return upright.transformed(QTransform().rotate(-90)).mirrored(true, false);
        case 8:
            return upright.transformed(QTransform().rotate(90));
        default:
            return upright;
        }
    };
    for (int orientation = 1; orientation <= 8; ++orientation) {
        const QByteArray file = withExif(encoded(stored(orientation), "jpeg", 100), orientation);
        const Result<QImage> picture = ui::decodePhoto(file, "photo");
        ASSERT_TRUE(picture.ok());
        EXPECT_TRUE(alike(picture.value(), upright, 24)) << orientation;
    }
}

photo::Bytes bytesOf(const QByteArray& file) {
    return {reinterpret_cast<const std::uint8_t*>(file.constData()),
            static_cast<std::size_t>(file.size())};
}

TEST(PhotoFile, WithoutItsLocationTheDecodedPictureIsTheSame) {
    for (const char* format : {"jpeg", "png", "tiff", "webp"}) {
        for (const int orientation : {1, 6}) {
            QByteArray file = encoded(scene(), format, 90);
            if (orientation != 1) {
                if (QByteArray(format) != "jpeg") {
                    continue;
                }
                file = withExif(file, orientation);
            }
            const Result<photo::ByteBuffer> clean = photo::withoutLocation(bytesOf(file));
            ASSERT_TRUE(clean.ok()) << format;
            const QByteArray cleaned(reinterpret_cast<const char*>(clean.value().data()),
                                     static_cast<qsizetype>(clean.value().size()));
            const Result<QImage> before = ui::decodePhoto(file, "photo");
            const Result<QImage> after = ui::decodePhoto(cleaned, "photo");
            ASSERT_TRUE(before.ok() && after.ok()) << format;
            EXPECT_EQ(before.value(), after.value()) << format;
        }
    }
}

TEST(PhotoFile, PixelsForTheCoreAreThoseOfThePicture) {
    const photo::Image image = ui::pixelsOf(scene());
    ASSERT_EQ(image.width(), 96);
    ASSERT_EQ(image.height(), 64);
    EXPECT_EQ(image.view().at(40, 20)[0], 80);
    EXPECT_EQ(image.view().at(40, 20)[1], 60);
    EXPECT_EQ(image.view().at(40, 20)[2], 60);
}

} // namespace
} // namespace stavewright::testing
