#pragma once
// The open job: the document, its undo stack, its audit, and what is selected. Every place of the
// window reads the document here and changes it only through edit(); one signal tells all of them
// what changed.
//
//   session.edit(tr("Change board 7"), Edit{ReplaceBoard{board}});
//   session.undoStack().undo();

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <memory>
#include <optional>

#include "core/audit/Audit.h"
#include "core/document/Edit.h"
#include "ui/session/Companion.h"

namespace stavewright::ui {

/// What is selected, shared by all places of the window.
struct Selection {
    std::optional<BoardId> board;
    std::optional<DefectId> defect;
    std::optional<PartId> part;
    std::optional<BlankId> blank;
    friend bool operator==(const Selection&, const Selection&) = default;
};

/// Whether the document that is taken in stands in its file as it is.
enum class Saved { Yes, No };

class DocumentSession : public QObject {
    Q_OBJECT
  public:
    explicit DocumentSession(QObject* parent = nullptr);

    [[nodiscard]] const Document& document() const { return m_document; }
    [[nodiscard]] const AuditReport& auditReport() const { return m_audit; }
    [[nodiscard]] QUndoStack& undoStack() { return m_undoStack; }
    [[nodiscard]] const Selection& selection() const { return m_selection; }
    [[nodiscard]] const QString& path() const { return m_path; } ///< empty: never saved
    /// The job's title as files are named: "hall-shelf-with-pegs".
    [[nodiscard]] QString nameForFiles() const;
    [[nodiscard]] LengthStyle lengthStyle() const;
    [[nodiscard]] bool isModified() const { return !m_undoStack.isClean(); }
    /// Grows with every change of the document; tells whether a result fits the present state.
    [[nodiscard]] std::int64_t revision() const { return m_revision; }
    /// Names the state that the job is in: undo and redo come back to one that has been before.
    [[nodiscard]] std::int64_t state() const { return m_state; }

    /// Applies the edit as one undo step named `text` ("Change board 7"); an edit that changes
    /// nothing leaves no step. On an error the document stays and failed() is emitted.
    bool edit(const QString& text, const Edit& edit);

    /// Edits with the same merge key that follow one another become one undo step (typing,
    /// nudging); when they come back to where they began, no step is left. Keys are positive.
    bool edit(const QString& text, const Edit& edit, int mergeKey);

    /// With it goes what has been done outside of the document already.
    bool edit(const QString& text, const Edit& edit, std::shared_ptr<Companion> companion);

    void select(const Selection& selection);

    /// Takes a whole other document in (open, new, sample); clears the undo stack.
    void adopt(Document document, const QString& path, Saved saved = Saved::Yes);
    /// Writes here and now; SaveRun does it on a worker thread.
    Status save(const QString& path);
    /// The job as it was at `revision` stands in the file.
    void noteSaved(const QString& path, std::int64_t revision);
    /// The next edit is an undo step of its own, whatever its merge key.
    void endRunOfEdits();

  signals:
    void leaving(); ///< the document is about to go; the undo stack still says whether it is saved
    void changed(const stavewright::EditScope& scope); ///< after every edit, undo and redo
    void adopted();                                    ///< another document: read everything again
    void auditChanged();
    void selectionChanged();
    void pathChanged();
    void failed(const QString& sentence);

  private:
    friend class EditCommand;
    /// Applies, and announces that the job is in that state now; hands back the inverse, or nothing
    /// after failed().
    std::optional<Edit> applyAndAnnounce(const Edit& edit, std::int64_t state);
    void refuse(const Error& error);
    bool push(const QString& text, const Edit& edit, int mergeKey,
              std::shared_ptr<Companion> companion);
    void announce(const EditScope& scope);
    void dropLostSelection();
    void runAudit();

    Document m_document;
    AuditReport m_audit;
    QUndoStack m_undoStack;
    Selection m_selection;
    QString m_path;
    std::int64_t m_revision = 0;
    std::int64_t m_state = 0; ///< the revision at which the job first was as it is
    std::optional<Document>
        m_mergeStart; ///< before the first edit of the present run of one merge key
    int m_mergeKey = -1;
};

} // namespace stavewright::ui
