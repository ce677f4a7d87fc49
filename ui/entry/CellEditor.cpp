#include "ui/entry/CellEditor.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QFrame>
#include <QVBoxLayout>

#include <algorithm>

#include "ui/widgets/FractionLabel.h"

namespace stavewright::ui {

namespace {
constexpr int noteWidth = 300;
}

CellEditor::CellEditor(Comment comment, const QStringList& choices, QWidget* parent)
    : QLineEdit(parent)
    , m_comment(std::move(comment))
    , m_note(new QFrame(parent))
    , m_words(new FractionLabel({}, m_note)) {
    setObjectName("cellEditor");
    setFrame(false);
    setAutoFillBackground(true);
    auto* note = qobject_cast<QFrame*>(m_note.data());
    note->setObjectName("cellNote");
    note->setFrameShape(QFrame::Box);
    note->setAutoFillBackground(true);
    auto* layout = new QVBoxLayout(note);
    layout->setContentsMargins(6, 4, 6, 4);
    layout->addWidget(m_words);
    m_words->setWrapped(true);
    m_words->setObjectName("cellNoteWords");
    note->hide();
    if (!choices.isEmpty()) {
        auto* completer = new QCompleter(choices, this);
        completer->setCaseSensitivity(Qt::CaseInsensitive);
        completer->setFilterMode(Qt::MatchContains);
        completer->setMaxVisibleItems(12);
        setCompleter(completer);
    }
    connect(this, &QLineEdit::textEdited, this, [this](const QString& typed) {
        m_objection.clear();
        this->comment(typed);
    });
}

CellEditor::~CellEditor() {
    if (m_note) {
        m_note->hide(); // its parent may be half gone when the view is
        m_note->deleteLater();
    }
}

void CellEditor::comment(const QString& typed) { showNote(m_comment(typed)); }

void CellEditor::object(const QString& sentence) {
    m_objection = sentence;
    showNote({sentence, true});
}

void CellEditor::showNote(const Word& word) {
    if (!m_note) {
        return;
    }
    if (word.text.isEmpty()) {
        m_note->hide();
        return;
    }
    m_words->setText(word.text);
    m_words->setSign(word.wrong ? Sign::Cross : Sign::None);
    m_words->setQuiet(!word.wrong);
    setAccessibleDescription(word.text);
    m_note->show();
    placeNote();
    m_note->raise();
}

void CellEditor::placeNote() {
    const QWidget* room = parentWidget();
    if (!m_note || room == nullptr || m_note->isHidden()) {
        return;
    }
    const int wide = std::min(std::max(noteWidth, width()), room->width() - 4);
    const int high = m_words->heightForWidth(wide - 14) + 10;
    int x = std::min(this->x(), room->width() - wide - 2);
    int y = geometry().bottom() + 2;
    if (y + high > room->height() && this->y() - high - 2 >= 0) {
        y = this->y() - high - 2;
    }
    m_note->setGeometry(std::max(0, x), y, wide, high);
}

void CellEditor::moveEvent(QMoveEvent* event) {
    QLineEdit::moveEvent(event);
    placeNote();
}

void CellEditor::resizeEvent(QResizeEvent* event) {
    QLineEdit::resizeEvent(event);
    placeNote();
}

} // namespace stavewright::ui
