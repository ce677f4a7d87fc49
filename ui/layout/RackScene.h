#pragma once
// The rack: one item per board, hung one under another with the datum ends in line at the left.
// Scene units are millimetres; headers keep their size in pixels, so the scene is laid out anew at
// each change of scale.

#include <QGraphicsScene>

#include <vector>

#include "ui/layout/BoardItem.h"
#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

class BoardItem;
struct Selection;
struct Colours;

/// What lies under a point of the rack.
struct RackHit {
    std::optional<BoardId> board;
    std::optional<BlankId> blank;
    std::optional<DefectId> defect;
};

class RackScene : public QGraphicsScene {
    Q_OBJECT
  public:
    explicit RackScene(QObject* parent = nullptr);

    /// Takes new pictures; boards that are still there keep their caches.
    void setPictures(std::vector<BoardPicture> pictures);
    /// Where photographs of boards come from; before the first pictures.
    void setPhotos(BoardItem::Photos photos) { m_photos = std::move(photos); }
    void setSelection(const Selection& selection);
    /// Marks over the boards: the other blanks of the selected part. `toDevice` maps the scene.
    void paintRelated(QPainter& painter, const QTransform& toDevice, const Colours& colours) const;
    void setFace(BoardFace face);
    [[nodiscard]] BoardFace face() const { return m_face; }

    /// Pixels for each millimetre; hangs the boards one under another, each with its lines above.
    void setScale(double pixelsPerMm);
    /// All boards into the room, in rows and columns at the largest scale that holds them.
    void setRoom(QSizeF pixels);
    [[nodiscard]] double scale() const { return m_scale; }
    /// The scale at which the longest board fills `width` pixels.
    [[nodiscard]] double scaleForWidth(double width) const;
    /// The scale that setRoom() would come to.
    [[nodiscard]] double scaleOfAll(QSizeF pixels) const;
    /// Of all boards one under another at that scale, in millimetres.
    [[nodiscard]] double heightInRows(double scale) const;
    /// Where the datum ends of the columns stand in the scene; one column unless all boards hang in
    /// one room. Second: pixels from there to the next column.
    [[nodiscard]] const std::vector<double>& datumLines() const { return m_datumLines; }
    [[nodiscard]] double columnWidth() const { return m_columnWidth; }
    [[nodiscard]] bool isCompact() const { return m_compact; }

    [[nodiscard]] RackHit hitAt(QPointF scenePoint) const;
    /// The board whose row the point is in, or the one before it.
    [[nodiscard]] BoardItem* itemNear(QPointF scenePoint) const;
    [[nodiscard]] const std::vector<BoardItem*>& boards() const { return m_items; }
    [[nodiscard]] BoardItem* itemOf(BoardId id) const;
    /// Board item that holds the blank, and the blank's box in the scene.
    [[nodiscard]] BoardItem* itemOf(BlankId id) const;
    [[nodiscard]] QRectF boxOf(BlankId id) const;
    [[nodiscard]] QRectF boxOf(BoardId id) const;
    [[nodiscard]] QRectF boxOf(BoardId board, DefectId defect) const;

  signals:
    /// This part of the scene looks different from now on. Said at once, where the scene's own
    /// signal comes late.
    void looksChanged(const QRectF& part);
    /// The boards hang elsewhere from now on.
    void hungAnew();

  private:
    void layOut();
    void hang();
    /// All that says where the boards hang.
    struct Hung {
        const BoardItem* board;
        QRectF box; ///< on the scene
        QPointF datum;
        friend bool operator==(const Hung&, const Hung&) = default;
    };
    [[nodiscard]] std::vector<Hung> hung() const;
    [[nodiscard]] double longest() const;
    [[nodiscard]] std::vector<double> heights() const; ///< of the boards alone, in millimetres

    std::vector<BoardItem*> m_items; ///< owned by the scene
    BoardItem::Photos m_photos;
    BoardFace m_face = BoardFace::A;
    std::optional<PartId> m_part; ///< selected
    double m_scale = 0.2;
    bool m_compact = false;
    QSizeF m_room;
    double m_columnWidth = 0;
    std::vector<Hung> m_hung; ///< when the boards were last said to hang elsewhere
    double m_hungScale = 0;
    std::vector<double> m_datumLines = {0};
};

} // namespace stavewright::ui
