#pragma once
// An inline message along the top of a place, with a sign, one sentence and up to a few buttons. It
// takes the place of message boxes: nothing stops until the user has read it.

#include <QFrame>

#include <functional>
#include <vector>

#include "ui/widgets/Theme.h"

class QHBoxLayout;

namespace stavewright::ui {

class FractionLabel;

class Banner : public QFrame {
    Q_OBJECT
  public:
    struct Button {
        QString text;
        std::function<void()> action;
    };

    explicit Banner(QWidget* parent = nullptr);

    /// Replaces what is shown. "Close" is always there beside the given buttons.
    void showMessage(Sign sign, const QString& sentence, std::vector<Button> buttons = {});
    void dismiss();
    /// Lies over the foot of this widget instead of having room of its own, so that nothing moves
    /// when it comes and goes. Both have the same parent.
    void floatOver(QWidget* place);
    [[nodiscard]] QString sentence() const;

  signals:
    void roomTaken(int high); ///< at the foot of what it lies over; 0 when it is gone

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void lieAtFoot();

    FractionLabel* m_words;
    QHBoxLayout* m_buttonRow;
    Sign m_sign = Sign::None;
    QWidget* m_over = nullptr; ///< at whose foot it lies
};

} // namespace stavewright::ui
