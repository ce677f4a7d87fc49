#pragma once
// The scrolling column of pages: Ctrl and the wheel zoom about the pointer; "fit width" follows the
// window until a zoom is chosen.

#include <QScrollArea>

namespace stavewright::ui {

class PageColumn;

class PageScroll : public QScrollArea {
    Q_OBJECT
  public:
    explicit PageScroll(QWidget* parent = nullptr);

    [[nodiscard]] PageColumn& column() { return *m_column; }
    [[nodiscard]] const PageColumn& column() const { return *m_column; }
    /// Other pages came: they fit the width where the last ones did.
    void pagesChanged();
    void fitWidth();
    /// Keeps the middle of the view where it is.
    void zoomBy(double factor);
    void showPage(std::size_t page);
    [[nodiscard]] std::size_t pageInView() const;

  signals:
    void zoomChanged(double zoom);
    void pageInViewChanged(int page);

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

  private:
    void zoomAbout(double zoom, const QPoint& inView);

    PageColumn* m_column;
    bool m_fitsWidth = true;
};

} // namespace stavewright::ui
