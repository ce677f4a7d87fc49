#pragma once
// The panel in the middle of the place Glue-up: staves are picked, dragged onto one another, and
// turned, rolled over, moved and locked by keys. It changes nothing itself; it says what is wanted.

#include <QWidget>

#include <optional>

#include "ui/glueup/PanelPainter.h"

namespace stavewright::ui {

class PanelCanvas : public QWidget {
    Q_OBJECT
  public:
    explicit PanelCanvas(QWidget* parent = nullptr);

    void setPicture(PanelPicture picture);
    void setPhotos(PhotoOfFace photo);
    void setBadge(const QString& badge); ///< words in the corner: "before", "back"
    void setSelected(std::optional<std::size_t> place);
    [[nodiscard]] std::optional<std::size_t> selected() const { return m_selected; }
    [[nodiscard]] QSize sizeHint() const override { return {700, 420}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 200}; }
    /// Of a place, in the widget.
    [[nodiscard]] QRectF boxOf(std::size_t place) const;

  signals:
    void picked(std::size_t place);
    void swapTried(std::size_t from, std::size_t to); ///< while a stave hangs over another
    void tryEnded();
    void swapWanted(std::size_t from, std::size_t to);
    void moveWanted(std::size_t from, std::size_t to);
    void endForEndWanted(std::size_t place);
    void faceOverWanted(std::size_t place);
    void lockWanted(std::size_t place);
    void exchangeWanted(std::size_t place); ///< for a stave of the panel that this one matches
    void arrangeWanted();
    void blinkWanted();
    void blinkAlternatelyWanted(); ///< before and now by turns, until it is asked again
    void besideWanted();           ///< the panel that this one matches
    void nextPanelWanted(int by);  ///< of the list
    void backWanted();
    void photographWanted(); ///< of the staves laid out
    void layoutWanted();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    [[nodiscard]] QTransform toPixels() const;
    [[nodiscard]] std::optional<std::size_t> placeAt(QPointF spot) const;
    [[nodiscard]] std::size_t last() const { return m_picture.staves.size() - 1; }
    /// One place towards the upper edge of the view, or the lower one.
    void step(int upwards, bool take);
    void pick(std::size_t place);
    void endDrag();

    PanelPicture m_picture;
    PhotoOfFace m_photo;
    QString m_badge;
    std::optional<std::size_t> m_selected;
    std::optional<std::size_t> m_target;
    std::optional<QPointF> m_pressed;
    bool m_dragging = false;
};

} // namespace stavewright::ui
