#pragma once
// A laminated block in the middle of the place Glue-up, seen from its end: its plies are picked,
// turned, rolled over and exchanged by keys. It changes nothing itself; it says what is wanted.

#include "core/panels/PlyPairs.h"
#include "ui/glueup/PieceCanvas.h"

namespace stavewright::ui {

class BlockCanvas : public PieceCanvas {
    Q_OBJECT
  public:
    explicit BlockCanvas(QWidget* parent = nullptr);

    void setBlock(std::optional<panels::Block> block);
    [[nodiscard]] QRectF boxOf(std::size_t ply) const override;

  protected:
    [[nodiscard]] std::size_t pieces() const override {
        return m_block ? m_block->plies.size() : 0;
    }
    [[nodiscard]] QString described(std::size_t ply) const override;
    [[nodiscard]] int upwards() const override { return -1; } ///< face A, the first ply, is above
    void paintEvent(QPaintEvent* event) override;

  private:
    std::optional<panels::Block> m_block;
};

} // namespace stavewright::ui
