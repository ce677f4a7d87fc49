#pragma once
// One length asked for on top of a drawing: Enter gives it, Esc or leaving drops the question. It
// deletes itself then.

#include <QFrame>

#include "core/units/LengthText.h"

namespace stavewright::ui {

class LengthEdit;

class ReadingPrompt : public QFrame {
    Q_OBJECT
  public:
    ReadingPrompt(const QString& question, Length now, const LengthStyle& style,
                  QWidget* parent = nullptr);

    void begin(); ///< takes the keyboard
    [[nodiscard]] LengthEdit& edit() { return *m_edit; }

  signals:
    void given(stavewright::Length reading);
    void dropped();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    LengthEdit* m_edit;
};

} // namespace stavewright::ui
