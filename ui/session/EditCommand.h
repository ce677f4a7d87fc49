#pragma once
// One step of the undo stack: an Edit of the core and its inverse. It holds values only.

#include <QUndoCommand>

#include <cstdint>
#include <memory>

#include "core/document/Edit.h"
#include "ui/session/Companion.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

class EditCommand : public QUndoCommand {
  public:
    /// States of the job (DocumentSession::state) that the step leads between.
    struct States {
        std::int64_t before = 0;
        std::int64_t after = 0;
    };

    /// The edit has been applied already; `inverse` undoes it.
    EditCommand(DocumentSession& session, const QString& text, Edit edit, Edit inverse,
                States states, int mergeKey, std::shared_ptr<Companion> companion = nullptr);

    void undo() override;
    void redo() override;
    [[nodiscard]] int id() const override { return m_mergeKey; }
    bool mergeWith(const QUndoCommand* other) override;

  private:
    /// False when what goes with the edit stays as it is; then the step goes.
    bool companionDid(const Status& status);

    DocumentSession& m_session;
    Edit m_edit;
    Edit m_inverse;
    States m_states;
    int m_mergeKey;
    std::shared_ptr<Companion> m_companion; ///< may be null
    Selection m_selected; ///< before it: what it takes out of the job is selected again with undo
    bool m_appliedBeforePush = true;
};

} // namespace stavewright::ui
