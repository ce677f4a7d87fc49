#pragma once
// The panel in the middle of the place Glue-up: staves are picked, dragged onto one another, and
// turned, rolled over, moved and locked by keys. It changes nothing itself; it says what is wanted.

#include "ui/glueup/PanelPainter.h"
#include "ui/glueup/PieceCanvas.h"

namespace stavewright::ui {

class PanelCanvas : public PieceCanvas {
    Q_OBJECT
  public:
    explicit PanelCanvas(QWidget* parent = nullptr);

    void setPicture(PanelPicture picture);
    void setPhotos(PhotoOfFace photo);
    void setBadge(const QString& badge); ///< words in the corner: "before", "back"
    [[nodiscard]] QSize sizeHint() const override { return {700, 420}; }
    [[nodiscard]] QRectF boxOf(std::size_t place) const override;

  signals:
    void swapTried(std::size_t from, std::size_t to); ///< while a stave hangs over another
    void tryEnded();
    void swapWanted(std::size_t from, std::size_t to);
    void lockWanted(std::size_t place);
    void blinkWanted();
    void blinkAlternatelyWanted(); ///< before and now by turns, until it is asked again
    void besideWanted();           ///< the panel that this one matches
    void backWanted();
    void photographWanted(); ///< of the staves laid out

  protected:
    [[nodiscard]] std::size_t pieces() const override { return m_picture.staves.size(); }
    [[nodiscard]] QString described(std::size_t place) const override;
    /// The near edge lies below, in the view of the back above.
    [[nodiscard]] int upwards() const override { return m_picture.back ? -1 : 1; }
    void addToMenu(QMenu& menu, std::size_t place) override;
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

  private:
    [[nodiscard]] QTransform toPixels() const;
    void endDrag();

    PanelPicture m_picture;
    PhotoOfFace m_photo;
    QString m_badge;
    std::optional<std::size_t> m_target;
    std::optional<QPointF> m_pressed;
    bool m_dragging = false;
};

} // namespace stavewright::ui
