#include "ui/entry/EntryModel.h"

#include <algorithm>

#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

EntryModel::EntryModel(DocumentSession& session, std::vector<EntryTitle> titles, Rows rows,
                       Cell cell, QObject* parent)
    : QAbstractTableModel(parent)
    , m_session(session)
    , m_titles(std::move(titles))
    , m_rows(std::move(rows))
    , m_cell(std::move(cell)) {}

int EntryModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : m_count; }

int EntryModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_titles.size());
}

EntryCell EntryModel::cellAt(const QModelIndex& index) const {
    const bool stands = index.isValid() && static_cast<std::size_t>(index.row()) < m_rows();
    return stands ? m_cell(index.row(), index.column()) : EntryCell();
}

QVariant EntryModel::data(const QModelIndex& index, int role) const {
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole: {
        const EntryCell cell = cellAt(index);
        if (cell.kind == EntryCell::Kind::Tick) {
            return {};
        }
        return role == Qt::EditRole ? cell.typed() : cell.text;
    }
    case Qt::CheckStateRole: {
        const EntryCell cell = cellAt(index);
        return cell.kind == EntryCell::Kind::Tick
                   ? QVariant(static_cast<int>(cell.ticked ? Qt::Checked : Qt::Unchecked))
                   : QVariant();
    }
    case Qt::TextAlignmentRole: {
        const bool number = cellAt(index).kind == EntryCell::Kind::Number;
        return static_cast<int>(Qt::AlignVCenter | (number ? Qt::AlignRight : Qt::AlignLeft));
    }
    case Qt::ToolTipRole: {
        const EntryCell cell = cellAt(index); // words may stand elided
        const QString& tip =
            cell.tip.isEmpty() && cell.kind == EntryCell::Kind::Text ? cell.text : cell.tip;
        return tip.isEmpty() ? QVariant() : QVariant(tip);
    }
    default:
        return {};
    }
}

QVariant EntryModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) {
        return {};
    }
    const EntryTitle& title = m_titles[static_cast<std::size_t>(section)];
    switch (role) {
    case Qt::DisplayRole:
        return QString(title.text).replace(' ', '\n'); // titles are longer than the figures below
    case Qt::ToolTipRole:
        return title.tip.isEmpty() ? QVariant() : QVariant(title.tip);
    default:
        return {};
    }
}

Qt::ItemFlags EntryModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) {
        return Qt::NoItemFlags;
    }
    const EntryCell cell = cellAt(index);
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    if (cell.propose) {
        flags |= cell.kind == EntryCell::Kind::Tick ? Qt::ItemIsUserCheckable : Qt::ItemIsEditable;
    }
    return flags;
}

QString EntryModel::objection(const QModelIndex& index, const QString& typed, Judge judge) const {
    const EntryCell cell = cellAt(index);
    if (!cell.propose || typed == cell.typed()) {
        return {}; // leaving a text as it stands is never wrong
    }
    const Result<Edit> edit = cell.propose(typed);
    if (!edit) {
        return words(edit.error().message);
    }
    if (judge == Judge::Job) {
        if (const Status fits = allowed(m_session.document(), edit.value()); !fits) {
            return words(fits.error().message);
        }
    }
    return {};
}

bool EntryModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const EntryCell cell = cellAt(index);
    const bool tick = cell.kind == EntryCell::Kind::Tick;
    if (!cell.propose || role != (tick ? Qt::CheckStateRole : Qt::EditRole)) {
        return false;
    }
    const QString typed =
        tick ? QString(value.toInt() == Qt::Checked ? "1" : "") : value.toString();
    if (!tick && typed == cell.typed()) {
        return true;
    }
    const Result<Edit> edit = cell.propose(typed);
    if (!edit || !allowed(m_session.document(), edit.value())) {
        return false;
    }
    return m_session.edit(cell.step, edit.value());
}

void EntryModel::refresh() {
    const int now = static_cast<int>(m_rows());
    if (now > m_count) {
        beginInsertRows({}, m_count, now - 1);
        m_count = now;
        endInsertRows();
    } else if (now < m_count) {
        beginRemoveRows({}, now, m_count - 1);
        m_count = now;
        endRemoveRows();
    }
    if (m_count > 0 && columnCount() > 0) {
        emit dataChanged(index(0, 0), index(m_count - 1, columnCount() - 1));
    }
}

void EntryModel::setTitles(std::vector<EntryTitle> titles) {
    Q_ASSERT(titles.size() == m_titles.size());
    if (titles != m_titles) {
        m_titles = std::move(titles);
        emit headerDataChanged(Qt::Horizontal, 0, columnCount() - 1);
    }
}

FactModel::FactModel(DocumentSession& session, Facts facts, QObject* parent)
    : EntryModel(
          session, {{tr("Name"), {}}, {tr("Value"), {}}}, [this] { return m_facts.size(); },
          [this](int row, int column) {
              const Fact& fact = m_facts[static_cast<std::size_t>(row)];
              if (column == 1) {
                  return fact.value;
              }
              EntryCell name;
              name.text = fact.name;
              name.tip = fact.value.tip;
              return name;
          },
          parent)
    , m_make(std::move(facts)) {
    refreshFacts();
}

void FactModel::refreshFacts() {
    m_facts = m_make();
    refresh();
}

Status allowed(const Document& document, const Edit& edit) {
    Document after = document;
    if (const Result<Edit> inverse = apply(after, edit); !inverse) {
        return inverse.error();
    }
    const Status offence = validate(after);
    if (offence || offence.error() == [&] {
            const Status before = validate(document);
            return before ? Error() : before.error();
        }()) {
        return Done{};
    }
    return offence.error();
}

} // namespace stavewright::ui
