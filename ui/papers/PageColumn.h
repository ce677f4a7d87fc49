#pragma once
// The pages one under the other, as they will print, at any zoom; only what is in view is painted.

#include <QPixmap>
#include <QWidget>

#include <map>
#include <vector>

#include "core/papers/PageModel.h"
#include "ui/paint/PagePainter.h"

namespace stavewright::ui {

class PageColumn : public QWidget {
    Q_OBJECT
  public:
    explicit PageColumn(QWidget* parent = nullptr);

    void setPages(std::vector<papers::Page> pages);
    [[nodiscard]] const std::vector<papers::Page>& pages() const { return m_pages; }

    /// Paints again with these.
    void setPhotos(PhotoOnPage photos);

    /// 1 shows a page at its printed size on a 96 dpi screen.
    void setZoom(double zoom);
    [[nodiscard]] double zoom() const { return m_zoom; }
    /// The zoom at which the widest page fills this width.
    [[nodiscard]] double zoomToFit(int width) const;

    [[nodiscard]] QRect pageRect(std::size_t page) const;
    /// The page that covers most of the rectangle; 0 when there is none.
    [[nodiscard]] std::size_t pageAt(const QRect& visible) const;

    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    const QPixmap& picture(std::size_t page);
    void layOut();

    std::vector<papers::Page> m_pages;
    PhotoOnPage m_photos;
    std::vector<QRect> m_rects;
    std::map<std::size_t, QPixmap> m_pictures; ///< of the pages painted last
    double m_zoom = 1;
};

} // namespace stavewright::ui
