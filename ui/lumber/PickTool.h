#pragma once
// Picks marks, moves them, stretches them by the corners of their box. Works on the mark of one
// face; the other end of a knot stays where it is.

#include "ui/lumber/SheetTool.h"

namespace stavewright::ui {

class PickTool : public SheetTool {
  public:
    using SheetTool::SheetTool;

    [[nodiscard]] bool wants(const SheetPoint& point) const override;
    void press(const SheetPoint& point) override;
    void move(const SheetPoint& point) override;
    void release(const SheetPoint& point) override;
    bool key(QKeyEvent* event) override;
    void paint(QPainter& painter, BoardFace face, const Colours& colours) const override;
    bool cancel() override;
    [[nodiscard]] QString hint() const override;

  private:
    /// A corner or side of the box: -1 low, 0 between, 1 high, along and across.
    struct Grip {
        int along = 0;
        int across = 0;
    };
    [[nodiscard]] const FaceMark* shownMark(BoardFace face) const;
    [[nodiscard]] std::optional<Grip> gripAt(const SheetPoint& point) const;
    [[nodiscard]] Rect changedBox() const;
    void put(const QString& step, BoardFace face, const FaceMark& mark);
    void pickNext(int by);

    bool m_pressed = false;
    bool m_moving = false;
    std::optional<Grip> m_grip;
    BoardFace m_face = BoardFace::A;
    Point m_from;
    Point m_to;
};

} // namespace stavewright::ui
