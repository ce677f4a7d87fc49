#include "ui/lumber/MarkBar.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

#include "ui/lumber/DefectCells.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

MarkBar::MarkBar(BoardSheet& sheet, QWidget* parent)
    : QWidget(parent)
    , m_sheet(sheet)
    , m_kinds(new QComboBox(this))
    , m_face(new QToolButton(this)) {
    setObjectName("markBar");
    auto* layout = new WrapLayout(this);
    layout->setContentsMargins(8, 4, 8, 4);
    layout->setSpacing(2);
    for (const ToolId tool : allTools) {
        auto* button = new QToolButton(this);
        button->setObjectName(QString("tool%1").arg(QChar::fromLatin1(keyOf(tool))));
        button->setText(nameOf(tool));
        button->setToolTip(tipOf(tool));
        button->setCheckable(true);
        button->setAutoRaise(true);
        button->setFocusPolicy(Qt::NoFocus); // the keys stay with the drawing
        connect(button, &QToolButton::clicked, this, [this, tool] {
            m_sheet.setTool(tool);
            m_sheet.setFocus();
        });
        m_tools[static_cast<std::size_t>(tool)] = button;
        layout->addWidget(button);
    }
    m_kinds->setObjectName("markKind");
    m_kinds->setAccessibleName(tr("Kind of defect that is drawn"));
    m_kinds->setToolTip(tr("The kind that is drawn; its letter does the same"));
    for (const DefectKind kind : allDefectKinds) {
        m_kinds->addItem(kindText(kind));
    }
    connect(m_kinds, &QComboBox::activated, this, [this](int kind) {
        m_sheet.setKind(static_cast<DefectKind>(kind));
        m_sheet.setFocus();
    });
    m_face->setObjectName("markFace");
    m_face->setToolTip(tr("The face that keys and typed marks go to (F)"));
    m_face->setFocusPolicy(Qt::NoFocus);
    m_face->setAutoRaise(true);
    connect(m_face, &QToolButton::clicked, this,
            [this] { m_sheet.setFace(other(m_sheet.face())); });
    auto* photos = new QToolButton(this);
    photos->setObjectName("photosOfBoard");
    photos->setText(tr("Photos"));
    photos->setToolTip(tr("Photographs of the board: add, straighten by their marks (I)"));
    photos->setFocusPolicy(Qt::NoFocus);
    photos->setAutoRaise(true);
    connect(photos, &QToolButton::clicked, &m_sheet, &BoardSheet::photosWanted);
    auto* large = new QToolButton(this);
    large->setObjectName("largeBoard");
    large->setText(tr("Large"));
    large->setToolTip(tr("The board alone, without the tables at its sides, and back (Z)"));
    large->setFocusPolicy(Qt::NoFocus);
    large->setAutoRaise(true);
    connect(large, &QToolButton::clicked, &m_sheet, &BoardSheet::largeWanted);
    auto* kinds = new QWidget(this); // label and list stay on one line
    auto* kindsRow = new QHBoxLayout(kinds);
    kindsRow->setContentsMargins(6, 0, 0, 0);
    kindsRow->setSpacing(6);
    kindsRow->addWidget(new QLabel(tr("Draws:"), kinds));
    kindsRow->addWidget(m_kinds);
    for (QWidget* each : std::initializer_list<QWidget*>{kinds, m_face, photos, large}) {
        layout->addWidget(each);
    }
    connect(&m_sheet, &BoardSheet::lookChanged, this, &MarkBar::refresh);
    refresh();
}

void MarkBar::refresh() {
    for (const ToolId tool : allTools) {
        m_tools[static_cast<std::size_t>(tool)]->setChecked(m_sheet.tool() == tool);
    }
    m_kinds->setCurrentIndex(static_cast<int>(m_sheet.kind()));
    m_face->setText(m_sheet.face() == BoardFace::A ? tr("on face A") : tr("on face B"));
}

} // namespace stavewright::ui
