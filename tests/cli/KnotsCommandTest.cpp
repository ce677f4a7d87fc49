#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <set>
#include <sstream>

#include "core/geometry/PolygonOps.h"
#include "core/photo/SuggestedMarks.h"
#include "tests/cli/PhotoFixtures.h"
#include "tests/cli/RunProgram.h"
#include "tests/knots/MadePictures.h"
#include "tests/knots/Score.h"

namespace stavewright::testing {
namespace {

QByteArray checksumOf(const QByteArray& chunk) {
    photo::ByteBuffer sum;
    photo::appendNumber(
        sum,
        photo::pngChecksum({reinterpret_cast<const std::uint8_t*>(chunk.constData()),
                            static_cast<std::size_t>(chunk.size())}),
        4, photo::ByteOrder::BigEndian);
    return {reinterpret_cast<const char*>(sum.data()), 4};
}

class KnotsCommand : public ::testing::Test {
  protected:
    std::string written(const std::string& name, const QByteArray& bytes) {
        writeText(m_folder.file(name), bytes.toStdString());
        return m_folder.file(name);
    }
    static const knots::KnotPicture& picture() {
        static const knots::KnotPicture one = knots::madePicture(2008, 1200);
        return one;
    }
    /// A pixel is a millimetre.
    std::string sized(const std::string& path) const {
        return "knots " + path + " --length " + std::to_string(picture().image.width()) +
               " --width " + std::to_string(picture().image.height());
    }
    /// One sentence that names the file; exit 2.
    void expectRefused(const std::string& path, const std::string& mustSay) {
        const Ran ran = runProgram("knots " + path + " --length 96in --width 8in --json");
        EXPECT_EQ(ran.exitCode, 2) << path << ran.out;
        EXPECT_EQ(ran.out, "");
        EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
        EXPECT_NE(ran.err.find(std::filesystem::path(path).filename().string()), std::string::npos)
            << ran.err;
        EXPECT_NE(ran.err.find(mustSay), std::string::npos) << ran.err;
    }
    TemporaryFolder m_folder;
};

TEST_F(KnotsCommand, PrintsKnotsInTheBoardFrame) {
    const std::string path = written("board.png", encoded(imageOf(picture().image), "png"));
    const Ran ran = runProgram(sized(path) + " --json");
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
    EXPECT_EQ(ran.err, "");
    const nlohmann::json report = nlohmann::json::parse(ran.out);
    ASSERT_EQ(report.size(), 1U);
    std::vector<knots::FoundBox> found;
    const double height = picture().image.height();
    for (const nlohmann::json& knot : report.at("knots")) {
        ASSERT_EQ(knot.size(), 4U);
        const std::set<std::string> kinds = {"sound knot", "loose knot", "knot hole"};
        EXPECT_TRUE(kinds.contains(knot.at("kind").get<std::string>()));
        const double confidence = knot.at("confidence").get<double>();
        EXPECT_GE(confidence, photo::usefulConfidence);
        EXPECT_LE(confidence, 1);
        const auto box = knot.at("box_mm").get<std::array<double, 4>>();
        EXPECT_LT(box[0], box[2]);
        EXPECT_LT(box[1], box[3]);
        for (const nlohmann::json& point : knot.at("outline_mm")) {
            EXPECT_GE(point.at(0).get<double>(), box[0]);
            EXPECT_LE(point.at(1).get<double>(), box[3]);
        }
        // y is up on the board, down in the picture.
        found.push_back({{box[0], height - box[3], box[2], height - box[1]}, confidence, 0, {}});
    }
    const knots::Score score = knots::scoreOf(found, picture().marks, 0.5);
    EXPECT_GE(score.knots, 3);
    EXPECT_GE(score.recall(), 0.75);
}

TEST_F(KnotsCommand, TheWayUpOfACameraIsHonoured) {
    const QImage upright = imageOf(picture().image);
    const std::string straight = written("a.jpg", encoded(upright, "jpeg"));
    // Lying on its side in the file; orientation 6 says: turn by 90 degrees clockwise to see it.
    const QImage lying = upright.transformed(QTransform().rotate(-90));
    const std::string turned = written("b.jpg", withExif(encoded(lying, "jpeg"), 6));
    const nlohmann::json a = nlohmann::json::parse(runProgram(sized(straight) + " --json").out);
    const nlohmann::json b = nlohmann::json::parse(runProgram(sized(turned) + " --json").out);
    ASSERT_FALSE(a.at("knots").empty());
    ASSERT_EQ(a.at("knots").size(), b.at("knots").size());
    for (std::size_t i = 0; i < a.at("knots").size(); ++i) {
        const auto boxOf = [&](const nlohmann::json& report) {
            return report.at("knots").at(i).at("box_mm").get<std::array<double, 4>>();
        };
        EXPECT_NEAR(boxOf(a)[0], boxOf(b)[0], 4);
        EXPECT_NEAR(boxOf(a)[3], boxOf(b)[3], 4);
    }
}

TEST_F(KnotsCommand, CornersInAnyOrderStraightenThePhotograph) {
    boards::MadeBoard board;
    const boards::MadePhoto photo = knots::madePhoto(2008, 1200, board);
    const std::string path = written("photo.jpg", encoded(imageOf(photo.image), "jpeg"));
    std::ostringstream corners;
    for (std::size_t i = 0; i < 4; ++i) {
        const photo::Pixels at = photo.controls.corners[i].at.pixels();
        corners << (i == 0 ? "" : ",") << at.x << ',' << at.y;
    }
    const std::string size = " --length " + std::to_string(photo.size.length.toMillimetres()) +
                             " --width " + std::to_string(photo.size.widthAtDatum.toMillimetres());
    const Ran ran = runProgram("knots " + path + size + " --corners " + corners.str() + " --json");
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
    const nlohmann::json report = nlohmann::json::parse(ran.out);
    std::vector<knots::FoundBox> found;
    for (const nlohmann::json& knot : report.at("knots")) {
        const auto box = knot.at("box_mm").get<std::array<double, 4>>();
        found.push_back({{box[0], box[1], box[2], box[3]}, 1, 0, {}});
    }
    std::vector<knots::TrueMark> truth;
    const Length near = boundingBox(board.board.outline).y0;
    for (const Defect& defect : board.board.defects) {
        const Rect at = boundingBox(defect.onA->outline);
        const bool knot = defect.kind != DefectKind::Check && defect.kind != DefectKind::Pith;
        truth.push_back({{at.x0.toMillimetres(), (at.y0 - near).toMillimetres(),
                          at.x1.toMillimetres(), (at.y1 - near).toMillimetres()},
                         knot ? knots::TrueMark::Counts::Knot : knots::TrueMark::Counts::NoKnot,
                         defect.kind});
    }
    EXPECT_GE(knots::scoreOf(found, truth, 0.5).recall(), 0.75);
}

TEST_F(KnotsCommand, WithoutJsonItIsATable) {
    const std::string path = written("board.png", encoded(imageOf(picture().image), "png"));
    const Ran ran = runProgram(sized(path));
    EXPECT_EQ(ran.exitCode, 0);
    EXPECT_NE(ran.out.find("from datum end"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("check each on the board"), std::string::npos) << ran.out;
}

TEST_F(KnotsCommand, SizesAndCornersAreChecked) {
    const std::string path = written("board.png", encoded(imageOf(picture().image), "png"));
    for (const auto& [options, says] :
         {std::pair(" --length 0 --width 8in", "--length: It is 0; it must be more than 0."),
          std::pair(" --length 96in --width many", "--width"),
          std::pair(" --length 96in", "--width is required"),
          std::pair(" --length 96in --width 8in --corners 1,2,3", "--corners"),
          std::pair(" --length 96in --width 8in --corners 1,1,1,1,5,5,9,9", "same place"),
          std::pair(" --length 96in --width 8in --corners 1,1,2,2,5,5,9,9", "--corners")}) {
        const Ran ran = runProgram("knots " + path + options);
        EXPECT_EQ(ran.exitCode, 2) << options;
        EXPECT_NE(ran.err.find(says), std::string::npos) << ran.err;
    }
}

TEST_F(KnotsCommand, BadFilesGetASentence) {
    const QImage image = imageOf(picture().image);
    const QByteArray jpeg = encoded(image, "jpeg");
    const QByteArray png = encoded(image, "png");
    expectRefused(m_folder.file("missing.jpg"), "no such file");
    expectRefused(m_folder.path().string(), "not a file but a folder");
    expectRefused(written("empty.jpg", {}), "empty");
    expectRefused(written("text.jpg", "A tally of boards."), "no photograph");
    expectRefused(written("half.jpg", jpeg.left(jpeg.size() / 2)), "cut off");
    expectRefused(written("half.png", png.left(png.size() / 2)), "cut off");
    const QByteArray webp = encoded(image, "webp");
    expectRefused(written("half.webp", webp.left(webp.size() / 2)), "cut off");
    const QByteArray tiff = encoded(image, "tiff");
    expectRefused(written("half.tif", tiff.left(tiff.size() / 2)), "cut off");

    // Pixels that are no pixels behind a sound head.
    QByteArray spoilt = png;
    spoilt.replace(60, 400, QByteArray(400, 'x'));
    expectRefused(written("spoilt.png", spoilt), "damaged");

    // 60000 x 60000 according to its head.
    QByteArray huge = png;
    huge.replace(16, 8, QByteArray("\0\0\xEA\x60\0\0\xEA\x60", 8));
    huge.replace(29, 4, checksumOf(huge.mid(12, 17)));
    expectRefused(written("huge.png", huge), "at most 110 million");

    QByteArray moving = png;
    const QByteArray frames("acTL\0\0\0\x05\0\0\0\0", 12);
    moving.insert(33, QByteArray("\0\0\0\x08", 4) + frames + checksumOf(frames));
    expectRefused(written("moving.png", moving), "animated");

    // A fourth colour in the frame's head.
    QByteArray printing = jpeg;
    qsizetype frame = printing.indexOf(QByteArray("\xFF\xC0", 2));
    ASSERT_GT(frame, 0);
    printing[frame + 9] = 4;
    expectRefused(written("printing.jpg", printing), "CMYK");

    expectRefused(written("phone.heic", QByteArray("\0\0\0\x18"
                                                   "ftypheic\0\0\0\0mif1heic",
                                                   24) +
                                            QByteArray(100, '\0')),
                  "share the photograph as a JPEG");
}

} // namespace
} // namespace stavewright::testing
