#include "ui/widgets/ReadingPrompt.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>

#include "ui/widgets/LengthEdit.h"

namespace stavewright::ui {

ReadingPrompt::ReadingPrompt(const QString& question, Length now, const LengthStyle& style,
                             QWidget* parent)
    : QFrame(parent)
    , m_edit(new LengthEdit(this)) {
    setObjectName("readingPrompt");
    setFrameShape(QFrame::StyledPanel);
    setAutoFillBackground(true);
    auto* label = new QLabel(question, this);
    label->setBuddy(m_edit->field());
    m_edit->setStyleOfLength(style);
    m_edit->setValue(now);
    m_edit->field()->setAccessibleName(question);
    m_edit->field()->installEventFilter(this);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(12, 8, 12, 8);
    row->addWidget(label, 0, Qt::AlignTop);
    row->addWidget(m_edit);
    label->setFixedHeight(m_edit->field()->sizeHint().height());
    m_edit->setFixedWidth(200);
    m_edit->keepReadingRoom();
    adjustSize();
    // A sentence on what was typed may need more lines than the reading.
    connect(m_edit->field(), &QLineEdit::textEdited, this, [this] {
        layout()->activate();
        adjustSize();
    });
}

void ReadingPrompt::begin() {
    m_edit->field()->setFocus();
    m_edit->field()->selectAll();
}

bool ReadingPrompt::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Escape) {
            emit dropped();
            deleteLater();
            return true;
        }
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            if (m_edit->isAcceptable()) { // else the field says what is wrong with it
                emit given(m_edit->value());
                deleteLater();
            }
            return true;
        }
    }
    return QFrame::eventFilter(watched, event);
}

} // namespace stavewright::ui
