#pragma once
// One board on the rack: a picture, the strokes cached for it, and where it hangs.

#include <QGraphicsItem>

#include <functional>

#include "ui/layout/BoardPainter.h"
#include "ui/layout/BoardPicture.h"
#include "ui/layout/PictureChange.h"

namespace stavewright::ui {

struct RackHit;
struct Selection;

class BoardItem : public QGraphicsItem {
  public:
    explicit BoardItem(BoardPicture picture);

    [[nodiscard]] const BoardPicture& picture() const { return m_picture; }
    void setPicture(BoardPicture picture);
    void setFace(BoardFace face);
    /// Which blank or defect is selected, if it lies here, or whether the board itself is.
    void setSelection(const Selection& selection);
    /// Pixels for each millimetre, and how far right a header may reach.
    void setScaleAndReach(double pixelsPerMm, double reachMm);
    /// One row among many: the mark at the left and the yield at the right, no lines above.
    void setCompact(bool compact);
    /// Where its photograph comes from; nothing: the wood is drawn.
    using Photos = std::function<const FacePhoto*(const Board&, BoardFace)>;
    void setPhotos(Photos photos) { m_photos = std::move(photos); }
    /// What it shows has changed.
    void paintAnew();

    /// Height on the rack in millimetres at the present scale, header and readings included.
    [[nodiscard]] double height() const;
    /// The same with its lines above, one board under another, at this scale.
    [[nodiscard]] double heightInRow(double pixelsPerMm) const;
    /// Pixels above the board for the header line and the tape readings.
    [[nodiscard]] double headerPixels() const;
    /// Board frame to this item's coordinates.
    [[nodiscard]] QTransform boardToItem() const;
    [[nodiscard]] RackHit hitAt(QPointF itemPoint) const;
    [[nodiscard]] QRectF boardBox() const; ///< of the wood, in item coordinates

    [[nodiscard]] QRectF boundingRect() const override;
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;
    /// Marks the blanks of this part, but for the selected one; `toDevice` maps this item's
    /// coordinates.
    void paintRelated(QPainter& painter, PartId part, const QTransform& toDevice,
                      const Colours& colours) const;

  private:
    [[nodiscard]] double linesAbove() const; ///< pixels
    void paintAnew(const PictureChange& change);
    [[nodiscard]] QRectF wordsBox() const; ///< of the lines above the wood, or the words behind it

    BoardPicture m_picture;
    StrokeCache m_cache;
    BoardFace m_face = BoardFace::A;
    Photos m_photos;
    double m_scale = 0.2;
    double m_reach = 1000;
    bool m_compact = false;
    std::optional<BlankId> m_blank;
    std::optional<DefectId> m_defect;
    bool m_boardSelected = false;
};

} // namespace stavewright::ui
