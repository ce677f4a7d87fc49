#pragma once
// Tables that are typed into, over the document. A cell says what it shows and turns a typed text
// into an edit, or into the sentence why not; so every table of every place reads lengths, counts
// and words alike, and every change is one undo step.
//
//   EntryModel tally(session, titles, [&] { return boards().size(); },
//                    [&](int row, int column) { return cellOf(board(row), column); });

#include <QAbstractTableModel>

#include <functional>
#include <vector>

#include "core/document/Edit.h"

namespace stavewright::ui {

class DocumentSession;

struct EntryCell {
    enum class Kind { Text, Number, Tick };

    QString text;
    QString opensWith; ///< what typing begins with where `text` is rounded; empty: `text`
    Kind kind = Kind::Text;
    bool ticked = false;
    QString tip;
    QStringList choices; ///< offered while typing
    QString step;        ///< name of the undo step
    [[nodiscard]] const QString& typed() const { return opensWith.isEmpty() ? text : opensWith; }
    /// The edit that a typed text means; of a tick "1" or "". Empty: the cell cannot be changed.
    std::function<Result<Edit>(const QString&)> propose;
    /// How a good text is read, shown while it is typed ("27 1/2 in = 698.5 mm"); may be empty.
    std::function<QString(const QString&)> reading;
};

struct EntryTitle {
    QString text;
    QString tip;
    friend bool operator==(const EntryTitle&, const EntryTitle&) = default;
};

class EntryModel : public QAbstractTableModel {
    Q_OBJECT
  public:
    using Rows = std::function<std::size_t()>;
    using Cell = std::function<EntryCell(int row, int column)>;
    EntryModel(DocumentSession& session, std::vector<EntryTitle> titles, Rows rows, Cell cell,
               QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

    [[nodiscard]] EntryCell cellAt(const QModelIndex& index) const;
    /// Why the cell cannot take this text; empty when it can. While typing only the text itself is
    /// judged, at the end also what the job would become.
    enum class Judge { Text, Job };
    [[nodiscard]] QString objection(const QModelIndex& index, const QString& typed,
                                    Judge judge) const;

    /// Reads the document: call it at the beginning (a view does) and on every change of it.
    void refresh();
    /// As many as before: their words may depend on the job's unit.
    void setTitles(std::vector<EntryTitle> titles);

  private:
    DocumentSession& m_session;
    std::vector<EntryTitle> m_titles;
    Rows m_rows;
    Cell m_cell;
    int m_count = 0;
};

/// A value with its name: one row of a table of facts.
struct Fact {
    QString name;
    EntryCell value;
};

/// A table of two columns, names and values; the facts are asked for at each refresh.
class FactModel : public EntryModel {
    Q_OBJECT
  public:
    using Facts = std::function<std::vector<Fact>()>;
    FactModel(DocumentSession& session, Facts facts, QObject* parent = nullptr);
    void refreshFacts();

  private:
    Facts m_make;
    std::vector<Fact> m_facts;
};

/// What the job would become: refused when that offends where the job did not offend before.
[[nodiscard]] Status allowed(const Document& document, const Edit& edit);

} // namespace stavewright::ui
