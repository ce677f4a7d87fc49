#pragma once
// The tally being typed, as a table: cells keep whatever was typed, good or bad; below each column
// stands what an empty cell means. It has an undo stack of its own, because nothing of it is in the
// job before it goes on the rack.

#include <QAbstractTableModel>
#include <QUndoStack>

#include "core/tally/TallyTable.h"

namespace stavewright::ui {

class DocumentSession;

class TallyModel : public QAbstractTableModel {
    Q_OBJECT
  public:
    explicit TallyModel(DocumentSession& session, QObject* parent = nullptr);

    /// The columns on the screen, in the order in which a tally is called out.
    [[nodiscard]] static TallyField fieldOf(int column);
    [[nodiscard]] static int columnOf(TallyField field);

    /// One more than the rows typed: the last, empty one is for the next board.
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

    [[nodiscard]] const std::vector<TallyRow>& rows() const { return m_rows; }
    [[nodiscard]] const ReadTally& read() const { return m_read; }
    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }
    /// The sentence that stands for this text in this cell: why not, or how it is read.
    struct Comment {
        QString text;
        bool wrong = false;
    };
    [[nodiscard]] Comment commentOn(const QModelIndex& index, const QString& typed) const;

    /// One step of the tally's own undo stack; nothing when the rows stay as they are.
    void change(const QString& step, std::vector<TallyRow> rows);
    /// Reads all cells again: after a change of the rack or of the unit.
    void readAgain();

  signals:
    void reread();

  private:
    friend class TallyStep;
    void take(std::vector<TallyRow> rows);

    DocumentSession& m_session;
    std::vector<TallyRow> m_rows;
    ReadTally m_read;
    QUndoStack m_undo;
};

} // namespace stavewright::ui
