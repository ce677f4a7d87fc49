#include <QFileInfo>
#include <QMarginsF>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QSaveFile>

#include "ui/paint/PagePainter.h"

namespace stavewright::ui {

namespace {

constexpr int dotsPerInch = 1200;

QPageLayout layoutOf(const papers::Page& page) {
    const bool landscape = page.width > page.height;
    const QSizeF upright = landscape
                               ? QSizeF(page.height.toMillimetres(), page.width.toMillimetres())
                               : QSizeF(page.width.toMillimetres(), page.height.toMillimetres());
    return {QPageSize(upright, QPageSize::Millimeter, QString(), QPageSize::FuzzyMatch),
            landscape ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF()};
}

Error cannotWrite(const QString& path, const QString& why) {
    return {ErrorCode::CannotWrite,
            QStringLiteral("The papers cannot be written: %1.").arg(why).toStdString(),
            path.toStdString()};
}

void paintAll(QPdfWriter& writer, const std::vector<papers::Page>& pages,
              const PhotoOnPage& photos) {
    QPainter painter(&writer);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (i > 0) {
            writer.setPageLayout(layoutOf(pages[i]));
            writer.newPage();
        }
        painter.save();
        painter.scale(dotsPerInch / 25.4, dotsPerInch / 25.4);
        paintPage(painter, pages[i], photos);
        painter.restore();
    }
}

} // namespace

Status writePdf(const std::vector<papers::Page>& pages, const QString& path, const QString& title,
                const PhotoOnPage& photos) {
    if (pages.empty()) {
        return Error{ErrorCode::BadInput, "There is no page to write.", path.toStdString()};
    }
    // QSaveFile writes beside the target and renames, so that a failed write leaves the old file
    // whole.
    QSaveFile file(path);
    const QFileInfo target(path);
    if (target.isDir()) {
        return cannotWrite(path, QStringLiteral("it is a folder"));
    }
    if (target.exists() && !target.isFile()) {
        // Renaming over a device would put a file in its place.
        return cannotWrite(path, QStringLiteral("it is not a file but a device"));
    }
    if (!file.open(QIODevice::WriteOnly)) {
        return cannotWrite(path, file.errorString());
    }
    {
        QPdfWriter writer(&file);
        writer.setResolution(dotsPerInch);
        writer.setTitle(title);
        writer.setCreator(QStringLiteral("Stavewright"));
        writer.setPageLayout(layoutOf(pages.front()));
        paintAll(writer, pages, photos);
    }
    if (file.error() != QFileDevice::NoError || !file.commit()) {
        return cannotWrite(path, file.errorString());
    }
    return Done{};
}

} // namespace stavewright::ui
