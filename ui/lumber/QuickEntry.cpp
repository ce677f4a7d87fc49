#include "ui/lumber/QuickEntry.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScopedValueRollback>
#include <QSpinBox>
#include <QStringDecoder>

#include <algorithm>

#include "core/tally/TextTable.h"
#include "core/units/QuantityText.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/PlaceParts.h"
#include "ui/lumber/ColumnBar.h"
#include "ui/lumber/TallyGrid.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr qint64 largestTable = 16LL * 1024 * 1024;

/// UTF-8 or, by its byte order mark, UTF-16; else the old one-byte sets, which differ in letters
/// only.
QString decoded(const QByteArray& bytes) {
    if (const auto encoding = QStringConverter::encodingForData(bytes)) {
        return QStringDecoder(*encoding).decode(bytes);
    }
    QStringDecoder utf8(QStringConverter::Utf8);
    QString text = utf8.decode(bytes);
    return utf8.hasError() ? QString::fromLatin1(bytes) : text;
}

} // namespace

QuickEntry::QuickEntry(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_model(new TallyModel(session, this))
    , m_grid(new TallyGrid(m_model, this))
    , m_columns(new ColumnBar(this))
    , m_banner(new Banner(this)) {
    setObjectName("quickEntry");
    setAccessibleName(tr("Quick entry of boards"));
    m_banner->hide();
    auto* middle = new QHBoxLayout;
    middle->setContentsMargins(0, 0, 0, 0);
    middle->setSpacing(0);
    middle->addWidget(m_grid, 1);
    middle->addWidget(makeSide());
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(makeButtons());
    layout->addWidget(m_banner);
    layout->addWidget(m_columns);
    layout->addLayout(middle, 1);
    connect(m_grid, &TallyGrid::pasteWanted, this, &QuickEntry::pasteFromClipboard);
    connect(m_columns, &ColumnBar::mapChanged, this, [this] { takeTable(m_pastedAt); });
    connect(m_model, &TallyModel::reread, this, &QuickEntry::refresh);
    connect(&m_session, &DocumentSession::changed, m_model, &TallyModel::readAgain);
    connect(&m_session, &DocumentSession::adopted, m_model, &TallyModel::readAgain);
    refresh();
}

QWidget* QuickEntry::makeButtons() {
    auto* bar = new QWidget(this);
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(12, 6, 12, 6);
    row->addWidget(heading(tr("Tally"), bar));
    auto* like = smallButton("moreLikeThis", tr("More like this..."),
                             tr("Ctrl+D: as many more rows like the current one as you say"), bar);
    auto* paste = smallButton("pasteTally", tr("Paste"),
                              tr("Ctrl+V: rows from a spreadsheet, columns in any order"), bar);
    auto* read = smallButton("readTable", tr("Open a table..."), tr("Rows from a CSV file"), bar);
    m_put = smallButton("putInJob", tr("Put into the job"),
                        tr("Ctrl+Return: one step, undone by "
                           "one Ctrl+Z"),
                        bar);
    auto* close = smallButton("closeTally", tr("Back to the boards"),
                              tr("Esc: what is typed here stays"), bar);
    m_howMany = new QWidget(bar);
    auto* many = new QHBoxLayout(m_howMany);
    many->setContentsMargins(0, 0, 0, 0);
    auto* count = new QSpinBox(m_howMany);
    count->setObjectName("howMany");
    count->setRange(1, 500);
    count->setAccessibleName(tr("How many more rows like this one"));
    count->setSuffix(tr(" more"));
    many->addWidget(count);
    m_howMany->hide();
    auto* keys = new QLabel(tr("Tab: next cell   Enter: next board   F8: next wrong cell"), bar);
    keys->setForegroundRole(QPalette::PlaceholderText);
    row->addSpacing(8);
    for (QWidget* widget : {static_cast<QWidget*>(like), m_howMany, static_cast<QWidget*>(paste),
                            static_cast<QWidget*>(read)}) {
        row->addWidget(widget);
    }
    row->addWidget(keys, 1, Qt::AlignCenter);
    row->addWidget(m_put);
    row->addWidget(close);
    connect(like, &QPushButton::clicked, this, &QuickEntry::askHowMany);
    connect(paste, &QPushButton::clicked, this, &QuickEntry::pasteFromClipboard);
    connect(read, &QPushButton::clicked, this, &QuickEntry::chooseTable);
    connect(m_put, &QPushButton::clicked, this, &QuickEntry::putInJob);
    connect(close, &QPushButton::clicked, this, &QuickEntry::closeWanted);
    return bar;
}

QWidget* QuickEntry::makeSide() {
    auto* side = new QWidget(this);
    side->setFixedWidth(270);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(12, 8, 12, 8);
    column->addWidget(heading(tr("What it comes to"), side));
    m_sums = new QLabel(side);
    m_sums->setObjectName("tallySums");
    m_sums->setWordWrap(true);
    column->addWidget(m_sums);
    column->addSpacing(8);
    m_wrongTitle = heading({}, side);
    m_wrongTitle->setObjectName("tallyWrongTitle");
    m_wrongTitle->setWordWrap(true);
    column->addWidget(m_wrongTitle);
    m_wrong = new QListWidget(side);
    m_wrong->setObjectName("tallyWrong");
    m_wrong->setAccessibleName(tr("Cells that cannot be read"));
    m_wrong->setFrameShape(QFrame::NoFrame);
    m_wrong->setWordWrap(true);
    m_wrong->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    const auto go = [this](const QListWidgetItem* item) {
        const QPoint at = item->data(Qt::UserRole).toPoint();
        m_grid->setFocus();
        m_grid->setCurrentIndex(m_model->index(at.y(), at.x()));
    };
    connect(m_wrong, &QListWidget::itemActivated, this, go);
    connect(m_wrong, &QListWidget::itemClicked, this, go);
    column->addWidget(m_wrong, 1);
    return side;
}

// ---- what the keys and buttons do --------------------------------------------------------------

void QuickEntry::paste(const QString& text) {
    m_grid->finishEntry();
    const TextTable table = tableOf(text.toStdString());
    if (table.rows.empty()) {
        m_banner->showMessage(Sign::Triangle, tr("There is no text to paste."));
        return;
    }
    if (table.rows.size() == 1 && table.columns() == 1) {
        m_model->setData(m_grid->currentIndex(), words(table.rows[0][0]), Qt::EditRole);
        return;
    }
    m_beforePaste = m_model->rows();
    // Into the empty row where the cursor stands, else at the end.
    const auto row = static_cast<std::size_t>(std::max(0, m_grid->currentIndex().row()));
    m_pastedAt =
        row < m_beforePaste.size() && m_beforePaste[row].isEmpty() ? row : m_beforePaste.size();
    m_columns->showTable(table, guessColumns(table, m_session.document().info.units));
    takeTable(m_pastedAt);
}

void QuickEntry::takeTable(std::size_t at) {
    std::vector<TallyRow> rows = m_beforePaste;
    const std::vector<TallyRow> pasted = rowsOf(m_columns->table(), m_columns->map());
    const auto place = rows.begin() + static_cast<std::ptrdiff_t>(std::min(at, rows.size()));
    rows.insert(place, pasted.begin(), pasted.end());
    const QScopedValueRollback guard(m_pasting, true);
    m_model->change(tr("Paste %1 rows").arg(pasted.size()), std::move(rows));
    m_grid->fitColumns();
    m_grid->setFocus();
    m_grid->setCurrentIndex(m_model->index(static_cast<int>(at), 0));
}

void QuickEntry::pasteFromClipboard() { paste(QApplication::clipboard()->text()); }

QString QuickEntry::readTable(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return tr("%1 cannot be read: %2.").arg(path, file.errorString());
    }
    if (file.size() > largestTable) {
        return tr("%1 has %2 MB; a table of boards may have at most 16.")
            .arg(path)
            .arg(file.size() / 1024 / 1024);
    }
    const QString text = decoded(file.readAll());
    if (text.contains(QChar(0))) {
        return tr("%1 is no text; save the table as CSV in the spreadsheet and open that.")
            .arg(path);
    }
    if (tableOf(text.toStdString()).rows.empty()) {
        return tr("%1 holds no rows.").arg(path);
    }
    paste(text);
    return {};
}

void QuickEntry::chooseTable() {
    const QString path = QFileDialog::getOpenFileName(
        this, tr("Open a table of boards"), {}, tr("Tables (*.csv *.tsv *.txt);;All files (*)"));
    if (path.isEmpty()) {
        return;
    }
    if (const QString wrong = readTable(path); !wrong.isEmpty()) {
        m_banner->showMessage(Sign::Cross, wrong);
    }
}

void QuickEntry::putInJob() {
    m_grid->finishEntry();
    const ReadTally& read = m_model->read();
    const int good = static_cast<int>(read.sums.boards);
    if (good == 0) {
        m_banner->showMessage(Sign::Triangle, holdsRows()
                                                  ? tr("No row is a board yet: mend the marked "
                                                       "cells (F8 goes to the next).")
                                                  : tr("Nothing is typed yet."));
        return;
    }
    std::vector<TallyRow> waiting;
    for (std::size_t i = 0; i < m_model->rows().size(); ++i) {
        if (!read.rows[i].board && !m_model->rows()[i].isEmpty()) {
            waiting.push_back(m_model->rows()[i]);
        }
    }
    const Edit edit = stavewright::putInJob(m_session.document(), read);
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        m_banner->showMessage(Sign::Cross, words(fits.error().message));
        return;
    }
    if (!m_session.edit(good == 1 ? tr("Put a board into the job")
                                  : tr("Put %1 boards into the job").arg(good),
                        edit)) {
        return;
    }
    const std::size_t left = waiting.size();
    m_columns->dismiss();
    m_model->change(tr("Put into the job"), std::move(waiting));
    if (left == 0) {
        m_banner->dismiss();
    } else {
        const QString there =
            good == 1 ? tr("1 board is in the job.") : tr("%1 boards are in the job.").arg(good);
        const QString waits =
            left == 1 ? tr("1 row waits until its marked cells can be read.")
                      : tr("%1 rows wait until their marked cells can be read.").arg(left);
        m_banner->showMessage(Sign::Triangle, there + ' ' + waits);
        m_grid->goToNextWrong();
    }
    emit placed(good);
}

void QuickEntry::moreLikeThis(int count) {
    m_grid->finishEntry();
    const auto at = static_cast<std::size_t>(std::max(0, m_grid->currentIndex().row()));
    std::vector<TallyRow> rows = m_model->rows();
    if (at >= rows.size()) { // on the empty row below: like the last one
        if (rows.empty()) {
            return;
        }
    }
    const std::size_t source = std::min(at, rows.size() - 1);
    const std::vector<TallyRow> more =
        stavewright::moreLike(rows[source], static_cast<std::size_t>(count));
    rows.insert(rows.begin() + static_cast<std::ptrdiff_t>(source) + 1, more.begin(), more.end());
    m_model->change(tr("%1 more like this").arg(count), std::move(rows));
    m_grid->setFocus();
    m_grid->setCurrentIndex(m_model->index(static_cast<int>(source) + count + 1, 0));
}

void QuickEntry::askHowMany() {
    m_grid->finishEntry();
    auto* count = m_howMany->findChild<QSpinBox*>("howMany");
    m_howMany->show();
    count->setValue(1);
    count->setFocus();
    count->selectAll();
}

void QuickEntry::keyPressEvent(QKeyEvent* event) {
    auto* count = m_howMany->findChild<QSpinBox*>("howMany");
    const bool asking = m_howMany->isVisible() && count->hasFocus();
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    const bool control = event->modifiers().testFlag(Qt::ControlModifier);
    if (asking && (enter || event->key() == Qt::Key_Escape)) {
        m_howMany->hide();
        m_grid->setFocus();
        if (enter) {
            count->interpretText();
            moreLikeThis(count->value());
        }
    } else if (control && enter) {
        putInJob();
    } else if (control && event->key() == Qt::Key_D) {
        askHowMany();
    } else if (event->key() == Qt::Key_F8) {
        m_grid->goToNextWrong();
    } else if (event->key() == Qt::Key_Escape) {
        emit closeWanted();
    } else {
        QWidget::keyPressEvent(event);
    }
}

void QuickEntry::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    m_grid->setFocus();
}

// ---- what is shown -----------------------------------------------------------------------------

void QuickEntry::refresh() {
    if (!m_pasting) {
        m_columns->dismiss(); // rows have changed since: the choice would undo that
    }
    const ReadTally& read = m_model->read();
    const Document& document = m_session.document();
    const TallySums& sums = read.sums;
    const UnitSystem units = document.info.units;
    m_sums->setText((sums.boards == 1 ? tr("1 board") : tr("%1 boards").arg(sums.boards)) +
                    tr("\n%1 by the tally rule").arg(words(lumberText(sums.tallied, units))) +
                    tr("\n%1 by exact size").arg(words(lumberText(sums.exact, units))) +
                    tr("\n%1").arg(words(formatMoney(sums.cost, document.info.currency))));
    m_put->setText(sums.boards == 0   ? tr("Put into the job")
                   : sums.boards == 1 ? tr("Put 1 board into the job")
                                      : tr("Put %1 boards into the job").arg(sums.boards));
    m_wrong->clear();
    for (std::size_t row = 0; row < read.rows.size(); ++row) {
        for (int column = 0; column < m_model->columnCount(); ++column) {
            const std::string& why = read.rows[row].at(TallyModel::fieldOf(column)).wrong;
            if (!why.empty()) {
                auto* item =
                    new QListWidgetItem(tr("Row %1, %2").arg(row + 1).arg(words(why)), m_wrong);
                item->setData(Qt::UserRole, QPoint(column, static_cast<int>(row)));
            }
        }
    }
    m_wrong->setVisible(m_wrong->count() > 0);
    m_wrongTitle->setText(read.waiting == 0   ? QString()
                          : read.waiting == 1 ? tr("1 row cannot be read yet")
                                              : tr("%1 rows cannot be read yet").arg(read.waiting));
}

QString QuickEntry::rowsAsText() const {
    std::vector<std::vector<std::string>> rows;
    for (const TallyRow& row : m_model->rows()) {
        rows.emplace_back(row.cells.begin(), row.cells.end());
    }
    return rows.empty() ? QString() : QString::fromStdString(textOf(rows, '\t'));
}

void QuickEntry::takeRows(const QString& text) {
    std::vector<TallyRow> rows = m_model->rows();
    for (const std::vector<std::string>& cells : tableOf(text.toStdString()).rows) {
        TallyRow row;
        std::copy_n(cells.begin(), std::min(cells.size(), row.cells.size()), row.cells.begin());
        rows.push_back(std::move(row));
    }
    m_model->change(tr("Rows that were left"), std::move(rows));
}

} // namespace stavewright::ui
