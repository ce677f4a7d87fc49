#include "ui/midjob/LogPage.h"

#include <QDateTime>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QTableWidget>
#include <QVBoxLayout>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

LogPage::LogPage(const DocumentSession& session, QWidget* parent)
    : QDialog(parent) {
    setObjectName("logPage");
    setWindowTitle(tr("Log of the job"));
    setAttribute(Qt::WA_DeleteOnClose);
    const std::vector<LogEntry>& log = session.document().log;
    auto* table = new QTableWidget(static_cast<int>(log.size()), 3, this);
    table->setObjectName("logTable");
    table->setAccessibleName(tr("What was changed and why"));
    table->setHorizontalHeaderLabels({tr("When"), tr("What"), tr("Why")});
    table->verticalHeader()->hide();
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setShowGrid(false);
    table->setWordWrap(true);
    table->setAlternatingRowColors(false);
    table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::ResizeToContents);
    table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    table->horizontalHeader()->resizeSection(2, 200);
    table->setItemDelegate(new FractionDelegate(table));
    table->setVerticalScrollMode(
        QAbstractItemView::ScrollPerPixel); // an entry may be several lines
    for (int column = 0; column < table->columnCount(); ++column) {
        table->horizontalHeaderItem(column)->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    }
    int row = 0;
    for (auto entry = log.rbegin(); entry != log.rend(); ++entry, ++row) {
        const QString when = entry->time == 0
                                 ? QString()
                                 : QLocale().toString(QDateTime::fromSecsSinceEpoch(entry->time),
                                                      QLocale::ShortFormat);
        table->setItem(row, 0, new QTableWidgetItem(when));
        table->setItem(row, 1, new QTableWidgetItem(words(entry->what)));
        table->setItem(row, 2, new QTableWidgetItem(words(entry->why)));
        table->item(row, 1)->setToolTip(words(entry->what));
    }
    // Texts wrap, so rows follow from the widths that the window gives the columns.
    connect(table->horizontalHeader(), &QHeaderView::sectionResized, table,
            &QTableWidget::resizeRowsToContents, Qt::QueuedConnection);
    auto* empty =
        new QLabel(tr("Nothing is in the log yet. What is reported from the shop (menu "
                      "Bench) is kept here: cuts made, knots found, what was lost and why."),
                   this);
    empty->setWordWrap(true);
    empty->setVisible(log.empty());
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(empty);
    layout->addWidget(table);
    layout->addWidget(buttons);
    resize(860, 480);
    table->resizeRowsToContents();
}

} // namespace stavewright::ui
