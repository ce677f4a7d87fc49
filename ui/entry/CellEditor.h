#pragma once
// The line a cell is typed into. Below it stands how the text is read, or why it cannot be taken;
// a text that cannot be taken stays until it is mended or given up with Esc.

#include <QLineEdit>
#include <QPointer>

#include <functional>

namespace stavewright::ui {

class FractionLabel;

class CellEditor : public QLineEdit {
    Q_OBJECT
  public:
    struct Word {
        QString text;
        bool wrong = false;
    };
    using Comment = std::function<Word(const QString& typed)>;

    CellEditor(Comment comment, const QStringList& choices, QWidget* parent);
    ~CellEditor() override;

    void object(const QString& sentence); ///< shows why the text cannot be taken
    [[nodiscard]] QString objection() const { return m_objection; }
    void placeNote();

  protected:
    void moveEvent(QMoveEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void comment(const QString& typed);
    void showNote(const Word& word);

    Comment m_comment;
    QString m_objection;
    QPointer<QWidget> m_note;
    FractionLabel* m_words;
};

} // namespace stavewright::ui
