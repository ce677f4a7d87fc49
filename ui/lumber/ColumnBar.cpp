#include "ui/lumber/ColumnBar.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// The heading, else the first thing that stands in the column.
QString nameOfColumn(const TextTable& table, const ColumnMap& map, std::size_t column) {
    for (const std::vector<std::string>& row : table.rows) {
        if (column < row.size() && !row[column].empty()) {
            const QString text = words(row[column]);
            return map.hasHeadings ? text : QString::fromUtf8("“%1”").arg(text);
        }
        if (map.hasHeadings) {
            break;
        }
    }
    return ColumnBar::tr("column %1").arg(column + 1);
}

} // namespace

ColumnBar::ColumnBar(QWidget* parent)
    : QWidget(parent)
    , m_words(new QLabel(this)) {
    setObjectName("columnBar");
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(12, 6, 12, 6);
    layout->setSpacing(4);
    m_words->setObjectName("columnBarWords");
    layout->addWidget(m_words);
    hide();
}

void ColumnBar::showTable(const TextTable& table, const ColumnMap& map) {
    m_table = table;
    m_map = map;
    m_words->setText(map.hasHeadings
                         ? tr("The columns were read by their headings. Change what is not so:")
                         : tr("The columns were guessed by what stands in them. Change what is "
                              "not so:"));
    delete m_choices;
    auto* scroll = new QScrollArea(this);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* sheet = new QWidget;
    auto* grid = new QGridLayout(sheet);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(8);
    grid->setVerticalSpacing(2);
    for (std::size_t i = 0; i < m_map.columns.size(); ++i) {
        const int at = static_cast<int>(i);
        const QString name = nameOfColumn(table, map, i);
        auto* label = new QLabel(sheet);
        label->setText(label->fontMetrics().elidedText(name, Qt::ElideRight, 130));
        label->setToolTip(name);
        auto* choice = new QComboBox(sheet);
        choice->setObjectName(QString("columnChoice%1").arg(i));
        choice->setAccessibleName(tr("What %1 is").arg(name));
        for (const TallyField field : allTallyFields) {
            choice->addItem(words(nameOf(field)), static_cast<int>(field));
        }
        choice->setCurrentIndex(static_cast<int>(m_map.columns[i].field));
        connect(choice, &QComboBox::activated, this, [this, i, choice] {
            choose(i, static_cast<TallyField>(choice->currentData().toInt()));
        });
        grid->addWidget(label, 0, at);
        grid->addWidget(choice, 1, at);
    }
    auto* done = new QPushButton(tr("Use these columns"), sheet);
    done->setObjectName("columnsAreRight");
    connect(done, &QPushButton::clicked, this, &ColumnBar::dismiss);
    grid->addWidget(done, 1, static_cast<int>(m_map.columns.size()));
    grid->setColumnStretch(static_cast<int>(m_map.columns.size()) + 1, 1);
    scroll->setWidget(sheet);
    scroll->setFixedHeight(sheet->sizeHint().height() + 14);
    m_choices = scroll;
    layout()->addWidget(scroll);
    show();
}

void ColumnBar::choose(std::size_t column, TallyField field) {
    m_map.columns[column].field = field;
    // One column for each: the other one that was the same goes into the notes.
    for (std::size_t i = 0; i < m_map.columns.size(); ++i) {
        const bool same = i != column && m_map.columns[i].field == field;
        if (same && field != TallyField::Notes && field != TallyField::LeaveOut) {
            m_map.columns[i].field = TallyField::Notes;
            if (auto* other = findChild<QComboBox*>(QString("columnChoice%1").arg(i))) {
                other->setCurrentIndex(static_cast<int>(TallyField::Notes));
            }
        }
    }
    emit mapChanged();
}

void ColumnBar::dismiss() { hide(); }

} // namespace stavewright::ui
