#pragma once
// One board, large: face A above, face B below as it is seen when the board is turned over its long
// axis. The wheel zooms, dragging moves, a click on a mark selects the defect.

#include <QWidget>

#include <optional>

#include "ui/layout/BoardPainter.h"

namespace stavewright::ui {

class BoardSheet : public QWidget {
    Q_OBJECT
  public:
    explicit BoardSheet(QWidget* parent = nullptr);

    void setBoard(std::optional<BoardPicture> picture, const LengthStyle& style);
    void setSelectedDefect(std::optional<DefectId> defect);
    [[nodiscard]] std::optional<DefectId> defectAt(QPointF at) const;
    /// Where the middle of a defect is drawn on face A or, when it does not show there, on B.
    [[nodiscard]] QPointF spotOf(DefectId defect) const;
    void fit();

  signals:
    void defectClicked(stavewright::DefectId defect);
    void woodClicked();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    [[nodiscard]] double fittingScale() const;
    [[nodiscard]] QRectF roomOf(BoardFace face) const;
    [[nodiscard]] QTransform toPixels(BoardFace face) const;
    void zoom(double factor, QPointF about);
    void keepInSight();
    void paintTape(QPainter& painter, const Colours& colours) const;
    void paintFace(QPainter& painter, BoardFace face, const Colours& colours);

    std::optional<BoardPicture> m_picture;
    LengthStyle m_style;
    StrokeCache m_cacheA;
    StrokeCache m_cacheB;
    std::optional<DefectId> m_defect;
    double m_zoom = 1;
    QPointF m_offset; ///< px the drawing is moved from where it fits
    QPointF m_pressed;
    QPointF m_offsetAtPress;
    bool m_dragging = false;
};

} // namespace stavewright::ui
