#pragma once
// The tape along the top of the rack, zero at the datum end. Ticks thin out with the zoom so that
// it stays readable; a bracket shows the stretch of what is selected, a line where the pointer is.

#include <QWidget>

#include <optional>
#include <vector>

#include "core/units/LengthText.h"

namespace stavewright::ui {

class TapeRuler : public QWidget {
    Q_OBJECT
  public:
    explicit TapeRuler(QWidget* parent = nullptr);

    static constexpr int tapeHeight = 30;

    /// One tape for each column of boards; `columnPixels` from one to the next, 0 with one column.
    void setScaleAndOrigins(double pixelsPerMm, std::vector<double> originPixels,
                            double columnPixels);
    void setUnits(const LengthStyle& style);
    [[nodiscard]] std::optional<std::pair<double, double>> bracket() const { return m_bracket; }
    void setBracket(std::optional<std::pair<double, double>> millimetres);
    void setPointer(std::optional<double> millimetres);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    void paintTape(QPainter& painter, double origin, double end) const;

    double m_scale = 0.2;
    std::vector<double> m_origins = {0};
    double m_columnPixels = 0;
    LengthStyle m_style;
    std::optional<std::pair<double, double>> m_bracket;
    std::optional<double> m_pointer;
};

} // namespace stavewright::ui
