#include "ui/paint/PageFont.h"

#include <QFontDatabase>
#include <QFontMetricsF>
#include <QStringList>

#include <array>

#include "core/papers/FractionText.h"
#include "core/papers/PaperUnits.h"
#include "ui/paint/PagePainter.h"

// Resources of a static library are registered only when asked for; the macro must stand outside
// namespaces.
static void registerFontResource() { Q_INIT_RESOURCE(fonts); }

namespace stavewright::ui {

namespace {

struct BundledFace {
    QString family;
    QFont::Weight weight = QFont::Normal;
};

/// The family names as Qt registered them: on some platforms each weight is a family of its own.
std::array<BundledFace, 3>& bundledFaces() {
    static std::array<BundledFace, 3> faces;
    return faces;
}

BundledFace registerFace(const QString& file, QFont::Weight weight) {
    const int id = QFontDatabase::addApplicationFont(QStringLiteral(":/fonts/") + file);
    const QStringList families = QFontDatabase::applicationFontFamilies(id);
    return {families.isEmpty() ? QString() : families.first(), weight};
}

} // namespace

void loadBundledFont() {
    registerFontResource();
    bundledFaces() = {registerFace(QStringLiteral("Inter-Regular.otf"), QFont::Normal),
                      registerFace(QStringLiteral("Inter-Medium.otf"), QFont::Medium),
                      registerFace(QStringLiteral("Inter-SemiBold.otf"), QFont::DemiBold)};
}

QFont pageFont(papers::Weight weight) {
    const BundledFace& face = bundledFaces()[static_cast<std::size_t>(weight)];
    QFont font(face.family);
    font.setWeight(face.weight);
    font.setPixelSize(pageFontPixels);
    font.setHintingPreference(QFont::PreferNoHinting);
    font.setStyleStrategy(QFont::StyleStrategy(QFont::PreferOutline | QFont::ForceOutline));
    return font;
}

Length plainWidthOf(const std::string& utf8, double points, papers::Weight weight) {
    const QFontMetricsF metrics(pageFont(weight));
    const double ems = metrics.horizontalAdvance(QString::fromStdString(utf8)) / pageFontPixels;
    return papers::points(points * ems);
}

Length FontMeasure::widthOf(const std::string& utf8, double points, papers::Weight weight) const {
    return papers::widthOfRuns(papers::runsOf(utf8, points), points,
                               [weight](const std::string& plain, double size) {
                                   return plainWidthOf(plain, size, weight);
                               });
}

} // namespace stavewright::ui
