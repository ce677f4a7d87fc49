#pragma once
// The rack: one item per board, hung one under another with the datum ends in line at the left.
// Scene units are millimetres; headers keep their size in pixels, so the scene is laid out anew at
// each change of scale.

#include <QGraphicsScene>

#include <vector>

#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

class BoardItem;
struct Selection;

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
    void setSelection(const Selection& selection);
    void setFace(BoardFace face);
    [[nodiscard]] BoardFace face() const { return m_face; }

    /// Pixels for each millimetre; lays the rack out.
    void setScale(double pixelsPerMm);
    [[nodiscard]] double scale() const { return m_scale; }
    /// The scale at which the longest board fills `width` pixels, and that at which all boards also
    /// fit into `height` pixels.
    [[nodiscard]] double scaleForWidth(double width) const;
    [[nodiscard]] double scaleForAll(QSizeF room) const;

    [[nodiscard]] RackHit hitAt(QPointF scenePoint) const;
    [[nodiscard]] const std::vector<BoardItem*>& boards() const { return m_items; }
    [[nodiscard]] BoardItem* itemOf(BoardId id) const;
    /// Board item that holds the blank, and the blank's box in the scene.
    [[nodiscard]] BoardItem* itemOf(BlankId id) const;
    [[nodiscard]] QRectF boxOf(BlankId id) const;
    [[nodiscard]] QRectF boxOf(BoardId id) const;
    [[nodiscard]] QRectF boxOf(BoardId board, DefectId defect) const;

  private:
    void layOut();

    std::vector<BoardItem*> m_items; ///< owned by the scene
    BoardFace m_face = BoardFace::A;
    double m_scale = 0.2;
};

} // namespace stavewright::ui
