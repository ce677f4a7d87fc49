#pragma once
// A field for a length, typed as the trade writes it: "27 1/2", "27-1/2", "2' 3 1/2\"", "880 mm",
// "=(27 1/2 + 1/8)*2". The reading stands under the field while it is typed; a text that cannot be
// read stays and is marked with words, the last good value is kept, Esc takes the typing back. Up
// and Down step by the shown unit, with Shift ten times that.

#include <QWidget>

#include <optional>

#include "core/units/LengthText.h"

class QLineEdit;

namespace stavewright::ui {

class FractionLabel;

class LengthEdit : public QWidget {
    Q_OBJECT
  public:
    explicit LengthEdit(QWidget* parent = nullptr);

    [[nodiscard]] Length value() const { return m_value; }
    [[nodiscard]] bool isAcceptable() const { return m_acceptable; }
    /// Shows the value; does not emit.
    void setValue(Length value);
    void setStyleOfLength(const LengthStyle& style);
    /// Smallest and largest allowed; named in the words when a typed value is outside.
    /// Room for the line that reads back what is typed, also while there is nothing to read: what
    /// stands below does not move when it comes and goes.
    void keepReadingRoom();
    void setRange(std::optional<Length> least, std::optional<Length> most);
    [[nodiscard]] QLineEdit* field() { return m_field; }

  signals:
    void edited(stavewright::Length value); ///< on each good new reading while typing or stepping
    void committed(stavewright::Length value); ///< Enter, or leaving the field with a changed value

    void acceptableChanged(bool isAcceptable); ///< what is typed can be read now, or no longer

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void readText();
    void step(int steps);
    void showValue();
    void setAcceptable(bool isAcceptable);
    void commit();

    QLineEdit* m_field;
    FractionLabel* m_reading;
    LengthStyle m_style;
    Length m_value;
    Length m_atFocus; ///< what Esc goes back to
    std::optional<Length> m_least;
    std::optional<Length> m_most;
    bool m_acceptable = true;
};

} // namespace stavewright::ui
