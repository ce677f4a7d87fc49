#include "ui/entry/PlaceParts.h"

#include "ui/widgets/Theme.h"

namespace stavewright::ui {

QLabel* heading(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setFont(sized(label->font(), TextSize::Body, QFont::DemiBold));
    label->setContentsMargins(4, 8, 4, 2);
    return label;
}

QPushButton* smallButton(const QString& objectName, const QString& text, const QString& tip,
                         QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(objectName);
    button->setToolTip(tip);
    button->setAutoDefault(false);
    return button;
}

SideColumn::SideColumn(const QString& objectName, const QString& accessibleName, QWidget* parent)
    : QScrollArea(parent)
    , m_sheet(new QWidget(this))
    , m_column(new QVBoxLayout(m_sheet)) {
    setObjectName(objectName);
    setAccessibleName(accessibleName);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_column->setContentsMargins(8, 4, 8, 12);
    m_column->setSpacing(2);
    setWidget(m_sheet);
}

} // namespace stavewright::ui
