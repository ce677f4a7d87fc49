#include "ui/lumber/TallyModel.h"

#include <QApplication>
#include <QBrush>
#include <QPalette>
#include <QUndoCommand>

#include <algorithm>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionDelegate.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

/// The rows before and after: a tally is small, and so nothing can go astray.
class TallyStep : public QUndoCommand {
  public:
    TallyStep(TallyModel& model, const QString& text, std::vector<TallyRow> after)
        : QUndoCommand(text)
        , m_model(model)
        , m_before(model.rows())
        , m_after(std::move(after)) {}
    void undo() override { m_model.take(m_before); }
    void redo() override { m_model.take(m_after); }

  private:
    TallyModel& m_model;
    std::vector<TallyRow> m_before;
    std::vector<TallyRow> m_after;
};

namespace {

constexpr std::array<TallyField, tallyFields> asCalledOut = {
    TallyField::Mark,     TallyField::Rough,    TallyField::Length, TallyField::Width,
    TallyField::FarWidth, TallyField::Thinnest, TallyField::Price,  TallyField::Species,
    TallyField::Billed,   TallyField::Moisture, TallyField::Notes};

bool isNumber(TallyField field) {
    return field != TallyField::Mark && field != TallyField::Species && field != TallyField::Notes;
}

} // namespace

TallyModel::TallyModel(DocumentSession& session, QObject* parent)
    : QAbstractTableModel(parent)
    , m_session(session) {}

TallyField TallyModel::fieldOf(int column) { return asCalledOut[static_cast<std::size_t>(column)]; }

int TallyModel::columnOf(TallyField field) {
    for (int column = 0; column < static_cast<int>(asCalledOut.size()); ++column) {
        if (fieldOf(column) == field) {
            return column;
        }
    }
    return 0;
}

int TallyModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size()) + 1;
}

int TallyModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(tallyFields);
}

QVariant TallyModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const TallyField field = fieldOf(index.column());
    const auto row = static_cast<std::size_t>(index.row());
    if (role == Qt::TextAlignmentRole) {
        return static_cast<int>(Qt::AlignVCenter |
                                (isNumber(field) ? Qt::AlignRight : Qt::AlignLeft));
    }
    if (row >= m_rows.size()) {
        return role == Qt::DisplayRole || role == Qt::EditRole ? QVariant(QString()) : QVariant();
    }
    const QString text = words(m_rows[row].at(field));
    const ReadTallyCell& read = m_read.rows[row].at(field);
    switch (role) {
    case Qt::EditRole:
        return text;
    case Qt::DisplayRole:
        return text.trimmed().isEmpty() ? words(read.standsFor) : text;
    case Qt::ForegroundRole: {
        const Colours& colours = coloursOf(QApplication::palette());
        if (!read.wrong.empty()) {
            return QBrush(colours.wrong);
        }
        return text.trimmed().isEmpty() ? QVariant(QBrush(colours.quietInk)) : QVariant();
    }
    case signRole:
        return static_cast<int>(read.wrong.empty() ? Sign::None : Sign::Cross);
    case Qt::ToolTipRole:
    case Qt::AccessibleDescriptionRole: {
        if (!read.wrong.empty()) {
            return words(read.wrong);
        }
        if (text.trimmed().isEmpty() && !read.standsFor.empty()) {
            return tr("Left empty it stands for %1.").arg(words(read.standsFor));
        }
        return read.reading.empty() ? QVariant()
                                    : QVariant(tr("Read as %1.").arg(words(read.reading)));
    }
    default:
        return {};
    }
}

QVariant TallyModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Vertical) {
        return role == Qt::DisplayRole ? QVariant(section + 1) : QVariant();
    }
    const bool metric = m_session.document().info.units == UnitSystem::Millimetres;
    const TallyField field = fieldOf(section);
    if (role == Qt::DisplayRole) {
        switch (field) {
        case TallyField::Price:
            return metric ? tr("Price per m³") : tr("Price per bd ft");
        case TallyField::Billed:
            return metric ? tr("Billed m³") : tr("Billed bd ft");
        default:
            return words(nameOf(field)); // the words of the core's own tables
        }
    }
    if (role == Qt::ToolTipRole) {
        switch (field) {
        case TallyField::Mark:
            return tr("The chalk mark; left empty it is the next number");
        case TallyField::Species:
            return tr("Left empty as above");
        case TallyField::Rough:
            return tr("Rough thickness in quarters of an inch, such as 8 for 8/4; left empty as "
                      "above");
        case TallyField::Width:
            return tr("At the datum end, from which the tape will run");
        case TallyField::FarWidth:
            return tr("At the far end; left empty the same");
        case TallyField::Thinnest:
            return tr("Thickness at the thinnest measured spot; left empty the nominal one");
        case TallyField::Price:
            return tr("Left empty as above");
        case TallyField::Billed:
            return tr("As the yard tallied the board; left empty its exact size counts");
        case TallyField::Moisture:
            return tr("In percent");
        default:
            return {};
        }
    }
    return {};
}

Qt::ItemFlags TallyModel::flags(const QModelIndex& index) const {
    return index.isValid() ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable
                           : Qt::NoItemFlags;
}

bool TallyModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || role != Qt::EditRole) {
        return false;
    }
    std::vector<TallyRow> rows = m_rows;
    const auto row = static_cast<std::size_t>(index.row());
    const std::string text = value.toString().toStdString();
    if (row >= rows.size()) {
        if (text.empty()) {
            return true;
        }
        rows.emplace_back();
    }
    rows[row].at(fieldOf(index.column())) = text;
    change(tr("Type in row %1").arg(index.row() + 1), std::move(rows));
    return true;
}

TallyModel::Comment TallyModel::commentOn(const QModelIndex& index, const QString& typed) const {
    std::vector<TallyRow> rows = m_rows;
    const auto row = static_cast<std::size_t>(index.row());
    if (row >= rows.size()) {
        rows.emplace_back();
    }
    const TallyField field = fieldOf(index.column());
    rows[row].at(field) = typed.toStdString();
    if (rows[row].isEmpty()) {
        return {};
    }
    const ReadTally read = readTally(m_session.document(), rows);
    const ReadTallyCell& cell = read.rows[row].at(field);
    if (!cell.wrong.empty() && !typed.trimmed().isEmpty()) {
        return {words(cell.wrong), true};
    }
    if (typed.trimmed().isEmpty() && !cell.standsFor.empty()) {
        return {tr("Left empty: %1").arg(words(cell.standsFor)), false};
    }
    return {words(cell.reading), false};
}

void TallyModel::change(const QString& step, std::vector<TallyRow> rows) {
    while (!rows.empty() && rows.back().isEmpty()) {
        rows.pop_back();
    }
    if (rows != m_rows) {
        m_undo.push(new TallyStep(*this, step, std::move(rows)));
    }
}

/// Rows come and go where they do, so that the view keeps its place; what the others are read as
/// follows after.
void TallyModel::take(std::vector<TallyRow> rows) {
    const std::size_t both = std::min(rows.size(), m_rows.size());
    std::size_t head = 0;
    while (head < both && rows[head] == m_rows[head]) {
        ++head;
    }
    std::size_t tail = 0;
    while (tail < both - head && rows[rows.size() - 1 - tail] == m_rows[m_rows.size() - 1 - tail]) {
        ++tail;
    }
    const std::size_t at = both - tail; // what stands before is changed in place
    const auto place = static_cast<std::ptrdiff_t>(at);
    std::copy(rows.begin() + static_cast<std::ptrdiff_t>(head), rows.begin() + place,
              m_rows.begin() + static_cast<std::ptrdiff_t>(head));
    const int first = static_cast<int>(at);
    if (rows.size() > m_rows.size()) {
        // The empty row at the end is what is typed into: it stays where it is, rows come after it.
        const int from = first + (at == m_rows.size() ? 1 : 0);
        const std::size_t more = rows.size() - m_rows.size();
        beginInsertRows({}, from, from + static_cast<int>(more) - 1);
        m_read.rows.insert(m_read.rows.begin() + place, more, ReadTallyRow());
        m_rows.insert(m_rows.begin() + place, more, TallyRow());
        endInsertRows();
        m_rows = std::move(rows);
    } else if (rows.size() < m_rows.size()) {
        const std::size_t fewer = m_rows.size() - rows.size();
        beginRemoveRows({}, first, first + static_cast<int>(fewer) - 1);
        m_read.rows.erase(m_read.rows.begin() + place,
                          m_read.rows.begin() + place + static_cast<std::ptrdiff_t>(fewer));
        m_rows = std::move(rows);
        endRemoveRows();
    }
    readAgain();
}

void TallyModel::readAgain() {
    m_read = readTally(m_session.document(), m_rows);
    emit headerDataChanged(Qt::Horizontal, 0, columnCount() - 1);
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    emit reread();
}

} // namespace stavewright::ui
