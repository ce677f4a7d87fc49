#pragma once
// The open job: the document, its undo stack, its audit, and what is selected. Every place of the window
// reads the document here and changes it only through edit(); one signal tells all of them what changed.

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <optional>

#include "core/audit/Audit.h"
#include "core/document/Edit.h"

namespace stavewright::ui {

/// What is selected, shared by all places of the window.
struct Selection {
    std::optional<BoardId> board;
    std::optional<DefectId> defect;
    std::optional<PartId> part;
    std::optional<BlankId> blank;
    friend bool operator==(const Selection&, const Selection&) = default;
};

class DocumentSession : public QObject {
    Q_OBJECT
  public:
    explicit DocumentSession(QObject* parent = nullptr);

    [[nodiscard]] const Document& document() const { return m_document; }
    [[nodiscard]] const AuditReport& auditReport() const { return m_audit; }
    [[nodiscard]] QUndoStack& undoStack() { return m_undoStack; }
    [[nodiscard]] const Selection& selection() const { return m_selection; }
    [[nodiscard]] const QString& path() const { return m_path; } ///< empty: never saved
    [[nodiscard]] LengthStyle lengthStyle() const;

    /// Applies the edit as one undo step named `text` ("Change board 7"); an edit that changes nothing leaves
    /// no step. On an error the document stays and failed() is emitted.
    bool edit(const QString& text, const Edit& edit);

    /// Edits with the same merge key that follow one another become one undo step (typing, nudging).
    bool edit(const QString& text, const Edit& edit, int mergeKey);

    void select(const Selection& selection);

    /// Takes a whole other document in (open, new, sample); clears the undo stack.
    void adopt(Document document, const QString& path);
    Status save(const QString& path);

  signals:
    void changed(const stavewright::EditScope& scope); ///< after every edit, undo and redo
    void adopted();                                    ///< another document: read everything again
    void auditChanged();
    void selectionChanged();
    void failed(const QString& sentence);

  private:
    friend class EditCommand;
    void applyAndAnnounce(const Edit& edit, Edit& inverse);
    void runAudit();

    Document m_document;
    AuditReport m_audit;
    QUndoStack m_undoStack;
    Selection m_selection;
    QString m_path;
};

} // namespace stavewright::ui
