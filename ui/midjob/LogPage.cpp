#include "ui/midjob/LogPage.h"

#include <QDateTime>
#include <QDialogButtonBox>
#include <QHeaderView>
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
    table->horizontalHeader()->resizeSection(2, 180);
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
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(table);
    layout->addWidget(buttons);
    resize(760, 480);
    table->resizeRowsToContents();
}

} // namespace stavewright::ui
