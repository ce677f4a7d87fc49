#include "ui/widgets/Banner.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QPushButton>

#include <algorithm>

#include "ui/widgets/FractionLabel.h"

namespace stavewright::ui {

Banner::Banner(QWidget* parent)
    : QFrame(parent)
    , m_words(new FractionLabel({}, this))
    , m_buttonRow(new QHBoxLayout) {
    setObjectName("banner");
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(12, 6, 12, 6);
    row->setSpacing(12);
    m_words->setWrapped(true);
    row->addWidget(m_words, 1);
    m_buttonRow->setSpacing(8);
    row->addLayout(m_buttonRow);
    hide();
}

void Banner::showMessage(Sign sign, const QString& sentence, std::vector<Button> buttons) {
    m_sign = sign;
    m_words->setSign(sign);
    m_words->setText(sentence);
    while (QLayoutItem* item = m_buttonRow->takeAt(0)) {
        if (item->widget() != nullptr) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
    buttons.push_back({tr("Close"), {}});
    for (const Button& button : buttons) {
        auto* widget = new QPushButton(button.text, this);
        m_buttonRow->addWidget(widget);
        widget->show(); // the height that is needed is asked for now
        connect(widget, &QPushButton::clicked, this, [this, action = button.action] {
            dismiss(); // first, because the action may show the next message
            if (action) {
                action();
            }
        });
    }
    lieAtFoot();
    show();
    update();
    emit roomTaken(m_over != nullptr ? height() : 0);
}

void Banner::floatOver(QWidget* place) {
    m_over = place;
    place->installEventFilter(this);
    lieAtFoot();
}

void Banner::lieAtFoot() {
    if (m_over == nullptr) {
        return;
    }
    layout()->activate();
    const QRect room = m_over->geometry();
    const int high = std::max(heightForWidth(room.width()), minimumSizeHint().height());
    setGeometry(room.left(), room.bottom() + 1 - high, room.width(), high);
    raise();
}

bool Banner::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_over && (event->type() == QEvent::Resize || event->type() == QEvent::Move)) {
        lieAtFoot();
        emit roomTaken(isHidden() ? 0 : height());
    }
    return QFrame::eventFilter(watched, event);
}

void Banner::dismiss() {
    hide();
    emit roomTaken(0);
}

QString Banner::sentence() const { return isHidden() ? QString() : m_words->text(); }

void Banner::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    const Colours& colours = coloursOf(palette());
    const QColor colour = m_sign == Sign::None ? colours.accent : colourOf(m_sign, colours);
    QColor tint = colour;
    tint.setAlpha(colours.dark ? 40 : 26);
    painter.fillRect(rect(), colours.panel); // it may lie over something
    painter.fillRect(rect(), tint);
    painter.fillRect(QRect(0, 0, 4, height()), colour);
    painter.setPen(colours.hairline);
    painter.drawLine(0, height() - 1, width(), height() - 1);
    painter.drawLine(0, 0, width(), 0);
}

void Banner::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        dismiss();
        return;
    }
    QFrame::keyPressEvent(event);
}

} // namespace stavewright::ui
