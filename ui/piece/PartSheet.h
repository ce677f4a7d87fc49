#pragma once
// One finished part to scale: face A above, face B below as it is seen when the part is turned over
// its long axis, with its zones and those of its joints hatched and named. A click selects the zone
// under it; a click on bare wood or near an end tells where a new zone may go.

#include <QPolygonF>
#include <QWidget>

#include <optional>
#include <vector>

#include "core/document/Document.h"

namespace stavewright::ui {

/// A zone as it is painted; a joint's zone has no place in the list of zones.
struct PaintedZone {
    QString name;
    ZoneRole role = ZoneRole::ShowFace;
    ZoneArea area;
    std::optional<int> row; ///< in the list of zones
    bool joint = false;
};

struct PartPicture {
    QString title;
    Length length;
    Length width;
    Length thickness;
    std::vector<PaintedZone> zones;
};

class PartSheet : public QWidget {
    Q_OBJECT
  public:
    explicit PartSheet(QWidget* parent = nullptr);
    void setPart(std::optional<PartPicture> picture, const LengthStyle& style);
    void setSelectedZone(int row);
    /// The zone of the list under a point: the smallest there.
    [[nodiscard]] std::optional<int> zoneAt(QPointF at) const;
    [[nodiscard]] QRectF faceBox(BoardFace face) const;

  signals:
    void zoneClicked(int row);
    /// A double click: the whole face, or the end that is near.
    void placeChosen(const stavewright::ZoneArea& area);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;

  private:
    [[nodiscard]] QRectF boxOf(const ZoneArea& area, BoardFace face) const;
    void paintFace(QPainter& painter, BoardFace face) const;
    void paintZone(QPainter& painter, const PaintedZone& zone, const QRectF& box) const;
    void paintName(QPainter& painter, const PaintedZone& zone, const QRectF& box) const;

    std::optional<PartPicture> m_picture;
    LengthStyle m_style;
    int m_selected = -1;
};

} // namespace stavewright::ui
