#pragma once
// The picture of one piece of the shop rack: its true outline with what lies on it, face A above
// and face B, turned over, below.

#include <QWidget>

#include <optional>

#include "ui/layout/BoardPainter.h"

namespace stavewright::ui {

class PieceSheet : public QWidget {
    Q_OBJECT
  public:
    explicit PieceSheet(QWidget* parent = nullptr);
    /// Without a board it is empty.
    void show(const std::optional<Board>& board, const QString& title, const LengthStyle& style);
    [[nodiscard]] QSize sizeHint() const override { return {600, 170}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, 130}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::optional<BoardPicture> m_picture;
    StrokeCache m_strokes[2];
};

} // namespace stavewright::ui
