#include "ui/session/EditCommand.h"

#include "ui/session/DocumentSession.h"
#include "ui/session/LostSelection.h"

namespace stavewright::ui {

EditCommand::EditCommand(DocumentSession& session, const QString& text, Edit edit, Edit inverse,
                         States states, int mergeKey, std::shared_ptr<Companion> companion)
    : QUndoCommand(text)
    , m_session(session)
    , m_edit(std::move(edit))
    , m_inverse(std::move(inverse))
    , m_states(states)
    , m_mergeKey(mergeKey)
    , m_companion(std::move(companion))
    , m_selected(session.selection()) {}

bool EditCommand::companionDid(const Status& status) {
    if (!status) {
        m_session.refuse(status.error());
        setObsolete(true);
    }
    return status.ok();
}

void EditCommand::undo() {
    if (m_companion && !companionDid(m_companion->takeBack())) {
        return;
    }
    const Selection left = withoutLost(m_session.document(), m_selected);
    const bool isLeft = left == m_session.selection(); // nothing else was picked since
    if (std::optional<Edit> forward = m_session.applyAndAnnounce(m_inverse, m_states.before)) {
        m_edit = std::move(*forward);
        if (isLeft) {
            m_session.select(withoutLost(m_session.document(), m_selected));
        }
    }
}

void EditCommand::redo() {
    if (m_appliedBeforePush) {
        m_appliedBeforePush = false;
        return;
    }
    if (m_companion && !companionDid(m_companion->makeAgain())) {
        return;
    }
    if (std::optional<Edit> inverse = m_session.applyAndAnnounce(m_edit, m_states.after)) {
        m_inverse = std::move(*inverse);
    }
}

bool EditCommand::mergeWith(const QUndoCommand* other) {
    const auto* next = dynamic_cast<const EditCommand*>(other);
    if (next == nullptr || next->m_mergeKey != m_mergeKey) {
        return false;
    }
    EditSequence forward;
    forward.edits = {std::move(m_edit), next->m_edit};
    EditSequence backward;
    backward.edits = {next->m_inverse, std::move(m_inverse)};
    m_edit = Edit{std::move(forward)};
    m_inverse = Edit{std::move(backward)};
    m_states.after = next->m_states.after;
    if (m_session.m_mergeStart && m_session.m_document == *m_session.m_mergeStart) {
        m_session.m_state = m_states.before;
        setObsolete(true);
    }
    return true;
}

} // namespace stavewright::ui
