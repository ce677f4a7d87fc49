#pragma once
// A column of facts: headings, label-and-value rows, sentences, links. The side panel is filled
// anew with it at each selection.

#include <QWidget>

#include <functional>
#include <vector>

#include "ui/widgets/Theme.h"

class QGridLayout;
class QVBoxLayout;

namespace stavewright::ui {

class FractionLabel;

class FactSheet : public QWidget {
    Q_OBJECT
  public:
    explicit FactSheet(QWidget* parent = nullptr);

    void clear();
    void heading(const QString& text, const QString& second = {});
    void section(const QString& text);
    void fact(const QString& label, const QString& value, Sign sign = Sign::None);
    void tipOfLast(const QString& tip); ///< over the value of the fact last added
    void factLink(const QString& label, const QString& value, std::function<void()> action);
    void sentence(const QString& text, Sign sign = Sign::None);
    void link(const QString& text, Sign sign, std::function<void()> action);
    /// A button that shows and hides what follows until endFold().
    void beginFold(const QString& closedText, const QString& openText, bool open,
                   std::function<void(bool)> toggled);
    void endFold();
    /// A line of a sum: what it adds, the running value, and why.
    void sumLine(const QString& text, const QString& amount, const QString& after, bool strong);
    void finish(); ///< pushes everything to the top

  protected:
    bool event(QEvent* event) override;

  private:
    [[nodiscard]] QVBoxLayout* target() const { return m_fold != nullptr ? m_fold : m_column; }

    FractionLabel* nameLabel(const QString& text);

    QVBoxLayout* m_column;
    QVBoxLayout* m_fold = nullptr;
    QWidget* m_lastValue = nullptr;
    std::vector<FractionLabel*> m_names; ///< of the facts
};

} // namespace stavewright::ui
