#pragma once
// A laminated block in the middle of the place Glue-up, seen from its end: its plies are picked,
// turned, rolled over and exchanged by keys. It changes nothing itself; it says what is wanted.

#include <QWidget>

#include <optional>

#include "core/panels/PlyPairs.h"

namespace stavewright::ui {

class BlockCanvas : public QWidget {
    Q_OBJECT
  public:
    explicit BlockCanvas(QWidget* parent = nullptr);

    void setBlock(std::optional<panels::Block> block);
    [[nodiscard]] std::optional<std::size_t> selected() const { return m_selected; }
    void setSelected(std::optional<std::size_t> ply);
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 200}; }
    /// Of a ply, in the widget.
    [[nodiscard]] QRectF boxOf(std::size_t ply) const;

  signals:
    void picked(std::size_t ply);
    void faceOverWanted(std::size_t ply);
    void endForEndWanted(std::size_t ply);
    void swapWanted(std::size_t from, std::size_t to); ///< within the block
    void exchangeWanted(std::size_t ply);              ///< with a ply of another block
    void pairWanted();
    void nextPanelWanted(int by); ///< of the list
    void layoutWanted();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void pick(std::size_t ply);
    void step(int downwards, bool take);

    std::optional<panels::Block> m_block;
    std::optional<std::size_t> m_selected;
};

} // namespace stavewright::ui
