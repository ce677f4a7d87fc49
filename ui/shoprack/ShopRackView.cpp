#include "ui/shoprack/ShopRackView.h"

#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHeaderView>
#include <QLineEdit>
#include <QSplitter>

#include "core/rack/JobWood.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/PlaceParts.h"
#include "ui/entry/PlaceView.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/shoprack/PieceSheet.h"
#include "ui/shoprack/RackCells.h"
#include "ui/shoprack/RackDesk.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

ShopRackView::ShopRackView(DocumentSession& session, RackDesk& desk, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_desk(desk)
    , m_banner(new Banner(this)) {
    setObjectName("shopRackPlace");
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->setObjectName("shopRackSplit");
    split->setChildrenCollapsible(false);
    split->addWidget(makeRackSide());
    split->addWidget(makeJobSide());
    split->setStretchFactor(0, 1);
    split->setSizes({960, 320});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(split, 1);
    addKey("rackEnter", {QKeySequence("Return"), QKeySequence("Enter")}, &ShopRackView::enter);
    addKey("rackRemove", {QKeySequence("Del")}, &ShopRackView::remove);
    addKey("rackNextPane", {QKeySequence("F6")}, &ShopRackView::nextPane);
    auto* find = new QAction(this);
    find->setObjectName("rackFind");
    find->setShortcut(QKeySequence("Ctrl+F"));
    find->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    connect(find, &QAction::triggered, this, [this] {
        m_text->setFocus();
        m_text->selectAll();
    });
    addAction(find);
    connect(&m_desk, &RackDesk::changed, this, &ShopRackView::search);
    connect(&m_desk, &RackDesk::failed, this,
            [this](const QString& sentence) { m_banner->showMessage(Sign::Cross, sentence); });
    connect(&m_desk, &RackDesk::remarked, this,
            [this](const QString& sentence) { m_banner->showMessage(Sign::Triangle, sentence); });
    connect(&m_desk, &RackDesk::changedAlone, this, [this](const QString& sentence) {
        m_banner->showMessage(Sign::Tick, sentence, {{tr("Take that back"), [this] {
                                                          m_banner->dismiss();
                                                          m_desk.takeBackLast();
                                                      }}});
    });
    connect(&m_session, &DocumentSession::changed, this, &ShopRackView::refresh);
    connect(&m_session, &DocumentSession::adopted, this, &ShopRackView::refresh);
    refresh();
}

void ShopRackView::addKey(const char* name, const QList<QKeySequence>& keys,
                          void (ShopRackView::*action)()) {
    auto* key = new QAction(this);
    key->setObjectName(name);
    key->setShortcuts(keys);
    key->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    connect(key, &QAction::triggered, this, action);
    addAction(key);
}

QWidget* ShopRackView::makeSearch(QWidget* parent) {
    auto* box = new QWidget(parent);
    auto* row = new WrapLayout(box);
    row->setContentsMargins(12, 6, 12, 6);
    row->setSpacing(8);
    const auto field = [&](const char* name, const QString& hint, const QString& tip) {
        auto* line = new QLineEdit(box);
        line->setObjectName(name);
        line->setPlaceholderText(hint);
        line->setToolTip(tip);
        line->setAccessibleName(hint);
        line->setClearButtonEnabled(true);
        connect(line, &QLineEdit::textChanged, this, &ShopRackView::search);
        return line;
    };
    m_text = field("rackText", tr("Search"),
                   tr("Words in mark, species, notes, source or job (Ctrl+F)"));
    m_species = new QComboBox(box);
    m_species->setObjectName("rackSpecies");
    m_species->setAccessibleName(tr("Species"));
    m_species->addItem(tr("All species"), QString());
    for (const Species& species : allSpecies()) {
        m_species->addItem(words(species.name), words(species.key));
    }
    m_quarter = new QComboBox(box);
    m_quarter->setObjectName("rackQuarter");
    m_quarter->setAccessibleName(tr("Thickness"));
    m_quarter->addItem(tr("All thicknesses"), 0);
    for (const Quarter& quarter : tradeQuarters) {
        m_quarter->addItem(QString("%1/4").arg(quarter.quarters), quarter.quarters);
    }
    m_length = field("rackLength", tr("At least long"),
                     tr("Least length; with a width, of a straight strip in the wood"));
    m_width = field("rackWidth", tr("At least wide"),
                    tr("Least width; with a length, of a straight strip in the wood"));
    m_away = new QCheckBox(tr("Also what is &away"), box);
    m_away->setObjectName("rackAway");
    m_away->setToolTip(tr("What is in jobs, used up or thrown out"));
    row->addWidget(m_text);
    row->addWidget(m_species);
    row->addWidget(m_quarter);
    row->addWidget(m_length);
    row->addWidget(m_width);
    row->addWidget(m_away);
    for (QComboBox* combo : {m_species, m_quarter}) {
        connect(combo, &QComboBox::currentIndexChanged, this, &ShopRackView::search);
    }
    connect(m_away, &QCheckBox::toggled, this, &ShopRackView::search);
    return box;
}

QWidget* ShopRackView::makeRackSide() {
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(makeSearch(side));
    m_model = new EntryModel(
        m_session, pieceTitles(m_session.document().info.units), [this] { return m_pieces.size(); },
        [this](int row, int at) {
            return pieceCell(m_session, m_pieces[static_cast<std::size_t>(row)], at);
        },
        this);
    m_table = new EntryView("rackPieces", tr("Boards and offcuts of the shop rack"), m_model, side);
    m_table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_table->horizontalHeader()->setStretchLastSection(true);
    connect(m_table->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ShopRackView::refreshChoice);
    connect(m_table, &QTableView::doubleClicked, this, &ShopRackView::takeChosen);
    m_sum = new FractionLabel({}, side);
    m_sum->setObjectName("rackSum");
    m_sum->setQuiet(true);
    m_sum->setWrapped(true);
    m_sheet = new PieceSheet(side);
    auto* row = new WrapLayout;
    row->setContentsMargins(12, 6, 12, 6);
    row->setSpacing(8);
    m_take = smallButton("rackTake", tr("&Take into this job"),
                         tr("Enter, in the list; the job gets a copy of its own"), side);
    m_throwOut = smallButton("rackThrowOut", tr("Throw &out"),
                             tr("Del, in the list; for wood that went another way"), side);
    m_callBack =
        smallButton("rackCallBack", tr("&Call back"),
                    tr("Back on the shop rack without the job that had it, when that was lost "
                       "or never saved"),
                    side);
    row->addWidget(m_take);
    row->addWidget(m_throwOut);
    row->addWidget(m_callBack);
    auto* sumRow = new QHBoxLayout;
    sumRow->setContentsMargins(12, 0, 12, 6);
    sumRow->addWidget(m_sum);
    connect(m_take, &QPushButton::clicked, this, &ShopRackView::takeChosen);
    connect(m_throwOut, &QPushButton::clicked, this, &ShopRackView::throwOutChosen);
    connect(m_callBack, &QPushButton::clicked, this, &ShopRackView::callBackChosen);
    column->addWidget(m_table, 1);
    column->addLayout(row);
    column->addLayout(sumRow);
    column->addWidget(m_sheet);
    return side;
}

QWidget* ShopRackView::makeJobSide() {
    auto* side = new QWidget(this);
    side->setMinimumWidth(260);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(8, 6, 8, 8);
    m_jobModel = new EntryModel(
        m_session, jobBoardTitles(), [this] { return m_session.document().boards.size(); },
        [this](int row, int at) {
            return jobBoardCell(m_session,
                                m_session.document().boards[static_cast<std::size_t>(row)], at);
        },
        this);
    m_jobTable = new EntryView("rackJobBoards", tr("Boards of this job"), m_jobModel, side);
    m_jobTable->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_jobTable->horizontalHeader()->setStretchLastSection(true);
    connect(m_jobTable->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ShopRackView::refreshChoice);
    m_put =
        smallButton("rackPut", tr("&Put on the shop rack"),
                    tr("Enter, in this list; a board that the plan cuts gives its offcuts"), side);
    m_return = smallButton("rackReturn", tr("The job is &done"),
                           tr("All offcuts that the plan keeps, and boards of the shop rack that "
                              "were not needed, go there"),
                           side);
    connect(m_put, &QPushButton::clicked, this, &ShopRackView::putChosenOnRack);
    connect(m_return, &QPushButton::clicked, this, &ShopRackView::returnAll);
    m_file = new QLabel(side);
    m_file->setObjectName("rackFile");
    m_file->setWordWrap(true);
    auto* other = smallButton("rackOther", tr("Another shop &rack..."),
                              tr("Open or begin another file for the shop rack"), side);
    connect(other, &QPushButton::clicked, this, &ShopRackView::chooseFile);
    column->addWidget(heading(tr("This job"), side));
    column->addWidget(m_jobTable, 1);
    column->addWidget(m_put);
    column->addWidget(m_return);
    column->addSpacing(8);
    column->addWidget(m_file);
    column->addWidget(other);
    return side;
}

// ---- keys --------------------------------------------------------------------------------------

void ShopRackView::enter() {
    if (auto* button = qobject_cast<QPushButton*>(QApplication::focusWidget())) {
        button->click();
    } else if (holdsFocus(m_jobTable)) {
        putChosenOnRack();
    } else if (holdsFocus(m_table)) {
        takeChosen();
    } else {
        m_table->setFocus(); // from the search to what was found
    }
}

void ShopRackView::remove() {
    if (auto* line = qobject_cast<QLineEdit*>(QApplication::focusWidget())) {
        line->del();
    } else if (holdsFocus(m_table)) {
        throwOutChosen();
    }
}

void ShopRackView::nextPane() {
    if (holdsFocus(m_table)) {
        m_jobTable->setFocus();
    } else if (holdsFocus(m_jobTable)) {
        m_text->setFocus();
    } else {
        m_table->setFocus();
    }
}

// ---- what the buttons do -----------------------------------------------------------------------

std::vector<std::int64_t> ShopRackView::chosen() const {
    std::vector<std::int64_t> pieces;
    for (const QModelIndex& row : m_table->selectionModel()->selectedRows()) {
        if (static_cast<std::size_t>(row.row()) < m_pieces.size()) {
            pieces.push_back(m_pieces[static_cast<std::size_t>(row.row())].number);
        }
    }
    std::sort(pieces.begin(), pieces.end());
    return pieces;
}

void ShopRackView::searchAgainUnless(bool isDone) {
    if (!isDone) { // another window may have changed the rack meanwhile
        search();
    }
}

void ShopRackView::takeChosen() {
    m_banner->dismiss();
    searchAgainUnless(m_desk.take(chosen()));
}

void ShopRackView::throwOutChosen() {
    m_banner->dismiss();
    searchAgainUnless(m_desk.throwOut(chosen()));
}

void ShopRackView::callBackChosen() {
    m_banner->dismiss();
    searchAgainUnless(m_desk.callBack(chosen()));
}

void ShopRackView::putChosenOnRack() {
    m_banner->dismiss();
    const Document& document = m_session.document();
    std::vector<BoardId> boards;
    for (const QModelIndex& row : m_jobTable->selectionModel()->selectedRows()) {
        boards.push_back(document.boards[static_cast<std::size_t>(row.row())].id);
    }
    searchAgainUnless(m_desk.putOnRack(boards));
}

void ShopRackView::returnAll() {
    m_banner->dismiss();
    searchAgainUnless(m_desk.putOnRack(rack::boardsToReturn(m_session.document())));
}

void ShopRackView::chooseFile() {
    QString path = QFileDialog::getSaveFileName(this, tr("Open or begin a shop rack"),
                                                m_desk.file(), tr("Shop racks (*.staverack)"),
                                                nullptr, QFileDialog::DontConfirmOverwrite);
    if (path.isEmpty()) {
        return;
    }
    if (QFileInfo(path).suffix().isEmpty()) {
        path += ".staverack";
    }
    RackDesk::rememberFile(path);
    m_desk.setFile(path);
    refresh();
}

// ---- what is shown -----------------------------------------------------------------------------

void ShopRackView::search() {
    if (!isVisible()) {
        return; // read when the place is shown
    }
    rack::Search wanted;
    wanted.text = m_text->text().toStdString();
    wanted.species = m_species->currentData().toString().toStdString();
    if (const int quarters = m_quarter->currentData().toInt(); quarters > 0) {
        wanted.quarter = Quarter{quarters};
    }
    const LengthStyle style = m_session.lengthStyle();
    QString unread;
    const auto least = [&](const QLineEdit* line, Length& target) {
        const Result<std::optional<Length>> read = readMaybe(line->text(), style);
        if (!read) {
            unread = words(read.error().message);
        } else if (read.value()) {
            target = *read.value();
        }
    };
    least(m_length, wanted.leastLength);
    least(m_width, wanted.leastWidth);
    wanted.alsoAway = m_away->isChecked();
    const std::vector<std::int64_t> before = chosen();
    m_pieces = m_desk.find(wanted);
    m_table->clearSelection();
    m_model->refresh();
    // Where everything is on the rack, no column needs to say so.
    m_table->setColumnHidden(whereColumn, !m_away->isChecked());
    m_table->fitColumns();
    for (std::size_t row = 0; row < m_pieces.size(); ++row) {
        if (std::find(before.begin(), before.end(), m_pieces[row].number) != before.end()) {
            m_table->selectionModel()->select(m_model->index(static_cast<int>(row), 0),
                                              QItemSelectionModel::Select |
                                                  QItemSelectionModel::Rows);
        }
    }
    if (chosen().empty() && !m_pieces.empty()) {
        m_table->selectRow(0);
    }
    BoardFeet sum;
    for (const rack::Piece& piece : m_pieces) {
        sum += exactBoardFeet(piece.board);
    }
    const bool isAnything = wanted.text.empty() && wanted.species.empty() && !wanted.quarter &&
                            wanted.leastLength == Length() && wanted.leastWidth == Length();
    m_sum->setText(!unread.isEmpty() ? unread
                   : m_pieces.empty()
                       ? isAnything
                             ? tr("Nothing is on the shop rack. Boards of the job go there from "
                                  "the list beside it.")
                             : tr("Nothing on the shop rack is like that.")
                       : tr("%1, %2").arg(counted(static_cast<qint64>(m_pieces.size()), tr("piece"),
                                                  tr("pieces")),
                                          words(lumberText(sum, style.units))));
    refreshChoice();
}

void ShopRackView::refresh() {
    m_model->setTitles(pieceTitles(m_session.document().info.units));
    m_jobModel->refresh();
    m_jobTable->fitColumns();
    m_file->setText(tr("The shop rack is kept in %1").arg(m_desk.file()));
    search();
    refreshChoice();
}

void ShopRackView::refreshChoice() {
    const rack::Piece* one = nullptr;
    const rack::Piece* away = nullptr; ///< the first that is not on the rack
    bool allHere = true;
    bool allOut = true;
    const QModelIndexList rows = m_table->selectionModel()->selectedRows();
    for (const QModelIndex& row : rows) {
        if (static_cast<std::size_t>(row.row()) >= m_pieces.size()) {
            continue;
        }
        const rack::Piece& piece = m_pieces[static_cast<std::size_t>(row.row())];
        one = one == nullptr ? &piece : one;
        allHere = allHere && piece.state == rack::PieceState::OnRack;
        away = allHere || away != nullptr ? away : &piece;
        allOut = allOut && piece.state == rack::PieceState::InJob;
    }
    m_take->setEnabled(one != nullptr && allHere);
    m_take->setToolTip(away != nullptr
                           ? tr("Only what is on the shop rack can be taken; no. %1 is %2.")
                                 .arg(away->number)
                                 .arg(whereText(*away))
                           : tr("Enter, in the list; the job gets a copy of its own"));
    m_throwOut->setEnabled(one != nullptr && allHere);
    m_callBack->setEnabled(one != nullptr && allOut);
    m_put->setEnabled(m_jobTable->selectionModel()->hasSelection());
    m_return->setEnabled(!rack::boardsToReturn(m_session.document()).empty());
    m_sheet->show(one != nullptr ? std::optional(one->board) : std::nullopt,
                  one != nullptr ? pieceName(*one) + ", " + whereText(*one) : QString(),
                  m_session.lengthStyle());
}

void ShopRackView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
    m_table->setFocus();
}

bool ShopRackView::event(QEvent* event) {
    if (event->type() == QEvent::WindowActivate) {
        search(); // another window may have been at the rack
    }
    return QWidget::event(event);
}

void ShopRackView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    m_table->setFocus(); // the place itself has nothing to type into
}

} // namespace stavewright::ui
