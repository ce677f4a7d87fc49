// The PDF that is written, measured from outside with poppler's tools: the check line has its
// printed length, fonts are embedded, the page has its size, and nothing needs a display, a system
// font or a locale.

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QGuiApplication>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <cmath>

#include "core/papers/Sheets.h"
#include "tests/unit/core/papers/PageChecks.h"
#include "tests/unit/core/papers/PaperJob.h"
#include "ui/paint/PagePainter.h"

namespace stavewright::papers {
namespace {

std::vector<Page> samplePages(const Document& document, Paper paper) {
    return pagesOf(document, sample::makeReport(document), sample::makeSpecs(),
                   {paper, "2026-11-25"}, ui::FontMeasure());
}

struct ToolOutput {
    bool ran = false;
    QByteArray text;
};
ToolOutput run(const QString& tool, const QStringList& arguments) {
    QProcess process;
    process.start(tool, arguments);
    ToolOutput output;
    output.ran = process.waitForFinished(60'000) && process.exitCode() == 0;
    output.text = process.readAllStandardOutput();
    return output;
}

class PapersPdf : public testing::Test {
  protected:
    void SetUp() override { ASSERT_TRUE(m_folder.isValid()); }
    QString write(const std::vector<Page>& pages) {
        QString path = m_folder.filePath("papers.pdf");
        const Status written = ui::writePdf(pages, path, "Washstand");
        EXPECT_TRUE(written.ok());
        return path;
    }
    QTemporaryDir m_folder;
};

/// Distance in millimetres between the ticks at the ends of the check line on the first page:
/// rendered at 1200 dpi, one row of pixels just under the line, where only the ticks are black.
double measureCheckLine(const QString& pdf, const QString& folder, const Page& page) {
    constexpr double dotsPerMillimetre = 1200 / 25.4;
    const double y = page.height.toMillimetres() - 10 - 12 + 2 + 8.5 + 0.8;
    const auto dots = [](double millimetres) {
        return QString::number(static_cast<int>(std::lround(millimetres * dotsPerMillimetre)));
    };
    const ToolOutput output =
        run("pdftoppm", {"-r", "1200", "-gray", "-singlefile", "-f", "1", "-l", "1", "-x", dots(5),
                         "-y", dots(y), "-W", dots(112), "-H", "1", pdf, folder + "/line"});
    if (!output.ran) {
        return -1;
    }
    QFile file(folder + "/line.pgm");
    if (!file.open(QIODevice::ReadOnly)) {
        return -1;
    }
    const QByteArray pixels = file.readAll().right(dots(112).toInt());
    std::vector<double> middles;
    for (qsizetype i = 0; i < pixels.size(); ++i) {
        if (static_cast<unsigned char>(pixels[i]) >= 128) {
            continue;
        }
        const qsizetype from = i;
        while (i < pixels.size() && static_cast<unsigned char>(pixels[i]) < 128) {
            ++i;
        }
        middles.push_back((static_cast<double>(from) + static_cast<double>(i)) / 2);
    }
    return middles.size() == 2 ? (middles[1] - middles[0]) / dotsPerMillimetre : -1;
}

TEST_F(PapersPdf, theCheckLineHasItsLengthWithinATwentiethOfAMillimetre) {
    const Document inches = sample::makeJob();
    const std::vector<Page> letter = samplePages(inches, Paper::Letter);
    EXPECT_NEAR(measureCheckLine(write(letter), m_folder.path(), letter.front()), 101.6, 0.05);

    Document metric = sample::makeJob();
    metric.info.units = UnitSystem::Millimetres;
    const std::vector<Page> a4 = samplePages(metric, Paper::A4);
    EXPECT_NEAR(measureCheckLine(write(a4), m_folder.path(), a4.front()), 100.0, 0.05);
}

TEST_F(PapersPdf, fontsAreEmbeddedAndTextCanBeSearched) {
    const QString pdf = write(samplePages(sample::makeJob(), Paper::Letter));
    const ToolOutput fonts = run("pdffonts", {pdf});
    ASSERT_TRUE(fonts.ran);
    const QList<QByteArray> rows = fonts.text.trimmed().split('\n').mid(2);
    ASSERT_FALSE(rows.isEmpty());
    for (const QByteArray& row : rows) {
        EXPECT_TRUE(row.contains("Inter")) << row.toStdString();
        EXPECT_TRUE(QString(row).contains(QRegularExpression("\\syes\\s"))) << row.toStdString();
    }
    const ToolOutput text = run("pdftotext", {"-layout", pdf, "-"});
    ASSERT_TRUE(text.ran);
    EXPECT_TRUE(text.text.contains("Washstand in white oak"));
    EXPECT_TRUE(text.text.contains("Audit clean"));
}

TEST_F(PapersPdf, pagesHaveThePapersSizeUprightAndLandscape) {
    const std::vector<Page> pages = samplePages(sample::makeJob(), Paper::A4);
    const ToolOutput info =
        run("pdfinfo", {"-f", "1", "-l", QString::number(pages.size()), write(pages)});
    ASSERT_TRUE(info.ran);
    const QRegularExpression line("Page +(\\d+) size: +([\\d.]+) x ([\\d.]+)");
    auto matches = line.globalMatch(QString(info.text));
    std::size_t seen = 0;
    while (matches.hasNext()) {
        const QRegularExpressionMatch match = matches.next();
        const Page& page = pages[seen++];
        // Qt writes whole points: half a point of slack.
        EXPECT_NEAR(match.captured(2).toDouble(), page.width.toInches() * 72, 0.51);
        EXPECT_NEAR(match.captured(3).toDouble(), page.height.toInches() * 72, 0.51);
    }
    EXPECT_EQ(seen, pages.size());
}

TEST_F(PapersPdf, withTheBundledFontNoTextLiesOnAnother) {
    const ui::FontMeasure measure;
    for (const Paper paper : {Paper::Letter, Paper::A4}) {
        for (const Page& page : samplePages(sample::makeJob(), paper)) {
            const std::vector<std::string> clashes = checks::clashesOf(page, measure);
            EXPECT_TRUE(clashes.empty()) << clashes.size() << ", first: " << clashes.front();
        }
    }
}

TEST_F(PapersPdf, whatIsMeasuredIsProportionalToTheTypeSize) {
    const ui::FontMeasure measure;
    const Length ten = measure.widthOf("Board 27 1/2", 10, Weight::SemiBold);
    const Length twenty = measure.widthOf("Board 27 1/2", 20, Weight::SemiBold);
    EXPECT_GT(ten, 15_mm);
    EXPECT_LE(abs(twenty - ten * 2), 1_mm / 1000);
    // Each weight is a face of its own.
    EXPECT_NE(ten, measure.widthOf("Board 27 1/2", 10, Weight::Regular));
}

TEST_F(PapersPdf, anUnwritableTargetIsNamedAndTheOldFileStays) {
    const std::vector<Page> pages = samplePages(sample::makeJob(), Paper::Letter);
    const Status intoFolder = ui::writePdf(pages, m_folder.path(), "t");
    ASSERT_FALSE(intoFolder);
    EXPECT_EQ(intoFolder.error().code, ErrorCode::CannotWrite);
    const Status nowhere = ui::writePdf(pages, m_folder.filePath("no/such/folder/out.pdf"), "t");
    ASSERT_FALSE(nowhere);
    EXPECT_EQ(nowhere.error().code, ErrorCode::CannotWrite);
    EXPECT_NE(describe(nowhere.error()).find("no/such/folder"), std::string::npos);
    EXPECT_TRUE(QDir(m_folder.path()).entryList(QDir::Files).isEmpty());
}

TEST_F(PapersPdf, aDeviceIsRefusedAndStaysADevice) {
    // Never a real device here: a named pipe is just as little a file.
    const QString pipe = m_folder.filePath("pipe");
    ASSERT_EQ(QProcess::execute("mkfifo", {pipe}), 0);
    const Status written = ui::writePdf(samplePages(sample::makeJob(), Paper::Letter), pipe, "t");
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, ErrorCode::CannotWrite);
    EXPECT_FALSE(QFileInfo(pipe).isFile());
}

} // namespace
} // namespace stavewright::papers

int main(int argc, char** argv) {
    // As on a bare machine: no display, the C locale, no fonts but the bundled one.
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qputenv("LC_ALL", "C");
    const QGuiApplication application(argc, argv);
    stavewright::ui::loadBundledFont();
    testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
