#pragma once
// The tape along the top of the rack, zero at the datum end. Ticks thin out with the zoom so that
// it stays readable; a bracket shows the stretch of what is selected, a line where the pointer is.

#include <QWidget>

#include <optional>

#include "core/units/LengthText.h"

namespace stavewright::ui {

class TapeRuler : public QWidget {
    Q_OBJECT
  public:
    explicit TapeRuler(QWidget* parent = nullptr);

    static constexpr int tapeHeight = 30;

    void setScaleAndOrigin(double pixelsPerMm, double originPixels);
    void setUnits(const LengthStyle& style);
    void setBracket(std::optional<std::pair<double, double>> millimetres);
    void setPointer(std::optional<double> millimetres);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    double m_scale = 0.2;
    double m_origin = 0;
    LengthStyle m_style;
    std::optional<std::pair<double, double>> m_bracket;
    std::optional<double> m_pointer;
};

} // namespace stavewright::ui
