#pragma once
// One line of words beside the plan's buttons. What does not fit into one line is set smaller in
// two: the end of it, where to move a blank or which key to press, is what the maker needs.

#include "ui/widgets/FractionLabel.h"

namespace stavewright::ui {

class HintLine : public FractionLabel {
    Q_OBJECT
  public:
    explicit HintLine(QWidget* parent);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;
};

} // namespace stavewright::ui
