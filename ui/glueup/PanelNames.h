#pragma once
// What is written on a painted panel: each stave's name, where it comes from, its planing arrow,
// and what its knots are called. Names make way for knots and letters for names, where there is
// room elsewhere.

#include <QPainter>

#include <vector>

#include "ui/glueup/PanelPainter.h"

namespace stavewright::ui {

class PanelNames {
  public:
    PanelNames(QPainter& painter, const PanelPicture& picture, const QTransform& toPixels,
               const PanelLook& look);
    void write();

    /// What each label covers, of knots and names, in pixels.
    [[nodiscard]] const std::vector<QRectF>& covered() const { return m_texts; }

  private:
    struct Knot {
        QRectF box; ///< what of it lies on its stave
        QRectF stave;
        QString text;
    };
    void writeStave(const StavePicture& stave, std::size_t number);
    void writeKnot(const Knot& knot);
    void letter(const QRectF& room, const QString& text);
    QRectF text(QPointF leftMiddle, const QString& text);
    [[nodiscard]] bool isFree(const QRectF& box, const QRectF& butFor = {}) const;
    /// How much of names and knots a box would hide, in square pixels.
    [[nodiscard]] double hidden(const QRectF& box) const;
    /// The nearest free place for a box, by steps towards `end` and up to `aside` up or down; where
    /// it hides least when none is.
    [[nodiscard]] QRectF freePlace(const QRectF& box, double end, double aside) const;

    QPainter& m_painter;
    const PanelPicture& m_picture;
    QTransform m_toPixels;
    const PanelLook& m_look;
    std::vector<Knot> m_knots;
    std::vector<QRectF> m_texts;
};

} // namespace stavewright::ui
