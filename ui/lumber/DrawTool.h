#pragma once
// Draws marks: an ellipse or a stretch from press to release, a line or a ring as the hand goes, a
// ring corner by corner.

#include "ui/lumber/SheetTool.h"

namespace stavewright::ui {

class DrawTool : public SheetTool {
  public:
    DrawTool(SheetHost& host, ToolId tool);

    void press(const SheetPoint& point) override;
    void move(const SheetPoint& point) override;
    void release(const SheetPoint& point) override;
    void hover(const SheetPoint& point) override;
    bool key(QKeyEvent* event) override;
    void paint(QPainter& painter, BoardFace face, const Colours& colours) const override;
    bool cancel() override;
    [[nodiscard]] QString hint() const override;

  private:
    [[nodiscard]] bool byTwoPoints() const;
    [[nodiscard]] Result<FaceMark> mark() const;
    [[nodiscard]] Stretch stretch() const;
    void finish();
    void finishLook();

    ToolId m_tool;
    bool m_drawing = false;
    BoardFace m_face = BoardFace::A;
    Polygon m_points;
    Point m_last; ///< where the pointer is, for what is still open
};

} // namespace stavewright::ui
