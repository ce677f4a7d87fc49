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
    QWidget* room = parentWidget();
    if (!m_note || room == nullptr || m_note->isHidden()) {
        return;
    }
    const auto wideIn = [&](const QWidget* in) {
        return std::min(std::max(noteWidth, width()), in->width() - 4);
    };
    const auto highIn = [&](const QWidget* in) {
        return m_words->heightForWidth(wideIn(in) - 14) + 10;
    };
    const auto fitsIn = [&](const QWidget* in) {
        const int top = mapTo(in, QPoint()).y();
        const int high = highIn(in) + 2;
        return top + height() + high <= in->height() || top >= high;
    };
    // A table of a row or two has no room for it, neither below the cell nor above.
    while (!fitsIn(room) && !room->isWindow() && room->parentWidget() != nullptr) {
        room = room->parentWidget();
    }
    if (m_note->parentWidget() != room) {
        m_note->setParent(room);
        m_note->show();
        m_note->raise();
    }
    const QPoint at = mapTo(room, QPoint());
    const int wide = wideIn(room);
    const int high = highIn(room);
    const int below = at.y() + height() + 1;
    const int x = std::min(at.x(), room->width() - wide - 2);
    const int y =
        below + high > room->height() && at.y() - high - 2 >= 0 ? at.y() - high - 2 : below;
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
