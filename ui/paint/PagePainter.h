#pragma once
// Pages of the page model on any QPainter, and as a PDF.

#include <QImage>
#include <QString>

#include <functional>
#include <vector>

#include "core/papers/PageModel.h"

class QPainter;

namespace stavewright::ui {

/// Registers the bundled font with Qt; call once after the application object exists.
void loadBundledFont();

/// Measures text with the bundled font, fractions as the painter sets them.
class FontMeasure : public papers::TextMeasure {
  public:
    [[nodiscard]] Length widthOf(const std::string& utf8, double points,
                                 papers::Weight weight) const override;
};

/// The picture of a stretch of a board, upright as it lies on paper; a null image while there is
/// none, and the drawn figure is painted.
using PhotoOnPage = std::function<QImage(const papers::Photo&)>;

/// Paints one page; the painter's unit must be one millimetre of paper, origin top left.
void paintPage(QPainter& painter, const papers::Page& page, const PhotoOnPage& photos = {});

/// Writes all pages as one PDF with title, bookmarks where possible and the embedded font;
/// atomically.
Status writePdf(const std::vector<papers::Page>& pages, const QString& path, const QString& title,
                const PhotoOnPage& photos = {});

} // namespace stavewright::ui
