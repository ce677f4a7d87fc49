#pragma once
// A few fields about something that happened in the shop, and under them, while they are typed,
// what it comes to. The job changes only when it is taken.

#include <QDialog>
#include <QTimer>

#include <functional>

#include "core/document/Edit.h"
#include "core/units/LengthText.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace stavewright::ui {

class FractionLabel;
class LengthEdit;

class ShopDialog : public QDialog {
    Q_OBJECT
  public:
    /// What taking it does.
    struct Made {
        Edit edit;
        QString sentence;
        QStringList remedies; ///< ways out for what has no place any more
        bool loses = false;   ///< something that was cut, or its place
    };
    /// What the maker says beside the facts.
    struct Said {
        std::string why;
        bool unlock = false; ///< what is locked and in the way may be unlocked
    };
    /// Made from the fields as they stand; called again at every change of one of them.
    using Make = std::function<Result<Made>(const Said& said)>;

    ShopDialog(const QString& title, const LengthStyle& style, QWidget* parent);

    void say(const QString& text); ///< a sentence over the fields
    LengthEdit* length(const QString& name, const QString& label, Length value);
    QComboBox* choice(const QString& name, const QString& label, const QStringList& texts);
    QCheckBox* tick(const QString& name, const QString& text);
    void begin(Make make, const QString& takeText); ///< shows it; it deletes itself
    /// Without a field for the reason.
    void leaveOutWhy();

  signals:
    void taken(const stavewright::Edit& edit, const QString& sentence, const QStringList& remedies);

  private:
    void changed();
    void look();
    [[nodiscard]] Said said() const;
    void take();

    LengthStyle m_style;
    QVBoxLayout* m_column;
    QFormLayout* m_form;
    QLineEdit* m_why;
    QCheckBox* m_unlock; ///< shown where a lock is all that is in the way
    FractionLabel* m_outcome;
    QVBoxLayout* m_ways;
    QPushButton* m_take;
    QTimer m_wait;
    Make m_make;
};

} // namespace stavewright::ui
