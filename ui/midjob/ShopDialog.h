#pragma once
// A few fields about something that happened in the shop, and under them, while they are typed,
// what it comes to, worked out beside the window. The job changes only when it is taken.

#include <QDialog>
#include <QTimer>

#include <functional>
#include <vector>

#include "core/document/Edit.h"
#include "ui/midjob/Workout.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace stavewright::ui {

class DocumentSession;
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
    /// What it comes to on this job; runs on another thread, so it owns all else that it reads.
    using Work = std::function<Result<Made>(const Document& document)>;
    /// Made from the fields as they stand; called again at every change of one of them.
    using Make = std::function<Work(const Said& said)>;
    /// Sentences about this job; runs on another thread as well.
    using Later = std::function<QStringList(const Document& document)>;

    ShopDialog(const QString& title, DocumentSession& session, QWidget* parent);

    void say(const QString& text); ///< a sentence over the fields
    void sayLater(Later later);    ///< under what it comes to, as soon as they are known
    LengthEdit* length(const QString& name, const QString& label, Length value);
    QComboBox* choice(const QString& name, const QString& label, const QStringList& texts);
    QCheckBox* tick(const QString& name, const QString& text);
    void startAt(LengthEdit* edit) { m_startAt = edit; } ///< else in the first field
    void begin(Make make, const QString& takeText);      ///< shows it; it deletes itself
    /// Without a field for the reason.
    void leaveOutWhy();

  signals:
    void taken(const stavewright::Edit& edit, const QString& sentence, const QStringList& remedies);

  private:
    struct Answer {
        Result<Made> made;
        bool isLocked = false; ///< a lock is all that is in the way
    };
    void changed();
    /// Every field says something that can be worked with.
    [[nodiscard]] bool isReadable() const;
    void clearWays();
    void look();
    void show(const Answer& answer);
    void fit();
    [[nodiscard]] Said said() const;
    void take();

    DocumentSession& m_session;
    QVBoxLayout* m_column;
    QFormLayout* m_form;
    QLineEdit* m_why;
    QCheckBox* m_unlock; ///< shown where a lock is all that is in the way
    FractionLabel* m_outcome;
    QVBoxLayout* m_ways;
    QVBoxLayout* m_asides; ///< what was said later
    std::vector<LengthEdit*> m_lengths;
    LengthEdit* m_startAt = nullptr;
    QPushButton* m_take;
    QTimer m_wait;
    Make m_make;
    Workout m_workout;
    Workout m_later;
    bool m_isTaken = false; ///< waits only for what it comes to
};

} // namespace stavewright::ui
