#pragma once
// One step of the undo stack: an Edit of the core and its inverse. It holds values only.

#include <QUndoCommand>

#include "core/document/Edit.h"

namespace stavewright::ui {

class DocumentSession;

class EditCommand : public QUndoCommand {
  public:
    /// The edit has been applied already; `inverse` undoes it.
    EditCommand(DocumentSession& session, const QString& text, Edit edit, Edit inverse,
                int mergeKey);

    void undo() override;
    void redo() override;
    [[nodiscard]] int id() const override { return m_mergeKey; }
    bool mergeWith(const QUndoCommand* other) override;

  private:
    DocumentSession& m_session;
    Edit m_edit;
    Edit m_inverse;
    int m_mergeKey;
    bool m_appliedBeforePush = true;
};

} // namespace stavewright::ui
