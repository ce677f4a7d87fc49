#include "ui/layout/FactSheet.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

#include "ui/widgets/FractionLabel.h"

namespace stavewright::ui {

namespace {

constexpr int widestLabel = 112;
constexpr int narrowestLabel = 92;

/// In a narrow panel the names give way, so that what is told does not break after every word.
int labelWidthIn(int panel) { return std::clamp(panel * 36 / 100, narrowestLabel, widestLabel); }

void clearLayout(QLayout* layout) {
    while (QLayoutItem* item = layout->takeAt(0)) {
        if (item->widget() != nullptr) {
            item->widget()->hide();
            item->widget()->deleteLater(); // it may be the sender of the signal that led here
        } else if (item->layout() != nullptr) {
            clearLayout(item->layout());
        }
        delete item;
    }
}

} // namespace

FactSheet::FactSheet(QWidget* parent)
    : QWidget(parent)
    , m_column(new QVBoxLayout(this)) {
    m_column->setContentsMargins(12, 12, 12, 12);
    m_column->setSpacing(4);
}

/// Sentences wrap, so the height follows from the width; without this a long sheet would be pressed
/// into what is seen of it instead of being scrolled.
bool FactSheet::event(QEvent* event) {
    const bool handled = QWidget::event(event);
    if (event->type() == QEvent::Resize) {
        for (FractionLabel* name : m_names) {
            name->setFixedWidth(labelWidthIn(width()));
        }
    }
    if (event->type() == QEvent::LayoutRequest || event->type() == QEvent::Resize) {
        const int high = m_column->heightForWidth(width());
        if (high > 0 && high != minimumHeight()) {
            setMinimumHeight(high);
        }
    }
    return handled;
}

void FactSheet::clear() {
    m_fold = nullptr;
    m_lastValue = nullptr;
    m_names.clear();
    clearLayout(m_column);
}

void FactSheet::heading(const QString& text, const QString& second) {
    auto* label = new FractionLabel(text, this);
    label->setFont(sized(font(), TextSize::Heading, QFont::DemiBold));
    label->setWrapped(true);
    target()->addWidget(label);
    if (!second.isEmpty()) {
        auto* below = new FractionLabel(second, this);
        below->setQuiet(true);
        below->setWrapped(true);
        target()->addWidget(below);
    }
    target()->addSpacing(4);
}

void FactSheet::section(const QString& text) {
    target()->addSpacing(8);
    auto* label = new FractionLabel(text, this);
    label->setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    target()->addWidget(label);
}

FractionLabel* FactSheet::nameLabel(const QString& text) {
    auto* name = new FractionLabel(text, this);
    name->setQuiet(true);
    name->setWrapped(true);
    name->setFixedWidth(labelWidthIn(width()));
    m_names.push_back(name);
    return name;
}

void FactSheet::fact(const QString& label, const QString& value, Sign sign) {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    FractionLabel* name = nameLabel(label);
    auto* text = new FractionLabel(value, this);
    text->setWrapped(true);
    text->setSign(sign);
    m_lastValue = text;
    row->addWidget(name, 0, Qt::AlignTop);
    row->addWidget(text, 1);
    target()->addLayout(row);
}

void FactSheet::tipOfLast(const QString& tip) {
    if (m_lastValue != nullptr) {
        m_lastValue->setToolTip(tip);
    }
}

void FactSheet::factLink(const QString& label, const QString& value, std::function<void()> action) {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    FractionLabel* name = nameLabel(label);
    auto* text = new FractionLabel(value, this);
    text->setLink(true);
    connect(text, &FractionLabel::clicked, this, [action = std::move(action)] { action(); });
    row->addWidget(name);
    row->addWidget(text, 1);
    target()->addLayout(row);
}

void FactSheet::sentence(const QString& text, Sign sign) {
    auto* label = new FractionLabel(text, this);
    label->setWrapped(true);
    label->setSign(sign);
    target()->addWidget(label);
}

void FactSheet::link(const QString& text, Sign sign, std::function<void()> action) {
    auto* label = new FractionLabel(text, this);
    label->setWrapped(true);
    label->setSign(sign);
    label->setLink(true);
    connect(label, &FractionLabel::clicked, this, [action = std::move(action)] { action(); });
    target()->addWidget(label);
}

void FactSheet::beginFold(const QString& closedText, const QString& openText, bool open,
                          std::function<void(bool)> toggled) {
    auto* button = new QToolButton(this);
    button->setText(open ? openText : closedText);
    button->setCheckable(true);
    button->setChecked(open);
    button->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
    button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    button->setAutoRaise(true);
    m_column->addWidget(button, 0, Qt::AlignLeft);
    auto* box = new QWidget(this);
    m_fold = new QVBoxLayout(box);
    m_fold->setContentsMargins(0, 0, 0, 0);
    m_fold->setSpacing(2);
    box->setVisible(open);
    m_column->addWidget(box);
    connect(button, &QToolButton::toggled, box,
            [button, box, closedText, openText, toggled = std::move(toggled)](bool on) {
                button->setText(on ? openText : closedText);
                button->setArrowType(on ? Qt::DownArrow : Qt::RightArrow);
                box->setVisible(on);
                toggled(on);
            });
}

void FactSheet::endFold() { m_fold = nullptr; }

void FactSheet::sumLine(const QString& text, const QString& amount, const QString& after,
                        bool strong) {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    const QFont small = sized(font(), TextSize::Caption, strong ? QFont::DemiBold : QFont::Normal);
    const auto column = [&](const QString& content, int width, bool quiet) {
        auto* label = new FractionLabel(content, this);
        label->setFont(small);
        label->setQuiet(quiet);
        label->setAlignment(Qt::AlignRight);
        label->setFixedWidth(width);
        return label;
    };
    auto* why = new FractionLabel(text, this);
    why->setFont(small);
    why->setWrapped(true);
    row->addWidget(why, 1);
    row->addWidget(column(amount, 54, true), 0, Qt::AlignTop);
    row->addWidget(column(after, 58, false), 0, Qt::AlignTop);
    target()->addLayout(row);
}

void FactSheet::finish() { m_column->addStretch(1); }

} // namespace stavewright::ui
