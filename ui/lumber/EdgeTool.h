#pragma once
// Changes the outline by its corners: drag one, drag an edge to give it one more, Del takes the
// picked one away. The two ends stay square to the tape.

#include "ui/lumber/SheetTool.h"

namespace stavewright::ui {

class EdgeTool : public SheetTool {
  public:
    using SheetTool::SheetTool;

    void press(const SheetPoint& point) override;
    void move(const SheetPoint& point) override;
    void release(const SheetPoint& point) override;
    bool key(QKeyEvent* event) override;
    void paint(QPainter& painter, BoardFace face, const Colours& colours) const override;
    bool cancel() override;
    [[nodiscard]] QString hint() const override;

  private:
    [[nodiscard]] std::optional<std::size_t> cornerAt(const SheetPoint& point) const;
    [[nodiscard]] std::optional<std::size_t> edgeAt(const SheetPoint& point) const;
    void place(Polygon& outline, std::size_t corner, Point at) const;
    void take(const Polygon& outline, const QString& step);

    bool m_dragging = false;
    bool m_moved = false;
    Polygon m_outline; ///< while dragging
    std::size_t m_corner = 0;
    bool m_picked = false;
};

} // namespace stavewright::ui
