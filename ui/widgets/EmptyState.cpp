#include "ui/widgets/EmptyState.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/widgets/Theme.h"

namespace stavewright::ui {

EmptyState::EmptyState(const QString& objectName, const QString& sentence, const QString& button,
                       const QString& key, QWidget* parent)
    : QWidget(parent) {
    setObjectName(objectName);
    auto* layout = new QVBoxLayout(this);
    auto* words = new QLabel(sentence, this);
    words->setWordWrap(true);
    words->setAlignment(Qt::AlignCenter);
    words->setFont(sized(words->font(), TextSize::Lead));
    words->setObjectName(objectName + "Words");
    auto* push = new QPushButton(tr("%1  (%2)").arg(button, key), this);
    push->setObjectName(objectName + "Button");
    layout->addStretch(2);
    layout->addWidget(words);
    layout->addSpacing(12);
    layout->addWidget(push, 0, Qt::AlignHCenter);
    layout->addStretch(3);
    connect(push, &QPushButton::clicked, this, &EmptyState::begun);
}

} // namespace stavewright::ui
