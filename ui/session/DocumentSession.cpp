#include "ui/session/DocumentSession.h"

#include <QRegularExpression>

#include "core/job/JobFile.h"
#include "ui/session/EditCommand.h"
#include "ui/session/LostSelection.h"

namespace stavewright::ui {

namespace {

constexpr int noMerge = -1;
constexpr int undoSteps = 500;

} // namespace

DocumentSession::DocumentSession(QObject* parent)
    : QObject(parent)
    , m_undoStack(this) {
    m_undoStack.setUndoLimit(undoSteps);
}

LengthStyle DocumentSession::lengthStyle() const {
    return {m_document.info.units, m_document.info.inchDenominator, false};
}

bool DocumentSession::edit(const QString& text, const Edit& edit) {
    return this->edit(text, edit, noMerge);
}

bool DocumentSession::edit(const QString& text, const Edit& edit, int mergeKey) {
    return push(text, edit, mergeKey, nullptr);
}

bool DocumentSession::edit(const QString& text, const Edit& edit,
                           std::shared_ptr<Companion> companion) {
    return push(text, edit, noMerge, std::move(companion));
}

bool DocumentSession::push(const QString& text, const Edit& edit, int mergeKey,
                           std::shared_ptr<Companion> companion) {
    Document before = m_document;
    Result<Edit> inverse = apply(m_document, edit);
    if (!inverse) {
        refuse(inverse.error());
        return false;
    }
    if (m_document == before) {
        return true; // nothing changed: no step, no news
    }
    const bool continuesRun =
        mergeKey != noMerge && mergeKey == m_mergeKey && !m_undoStack.isClean();
    if (!continuesRun) {
        m_mergeKey = mergeKey;
        m_mergeStart.reset();
        if (mergeKey != noMerge) {
            m_mergeStart = std::move(before);
        }
    }
    const EditCommand::States states{m_state, m_revision + 1};
    m_state = states.after;
    m_undoStack.push(new EditCommand(*this, text, edit, std::move(inverse).value(), states,
                                     mergeKey, std::move(companion))); // the stack owns it
    announce(scopeOf(edit));
    return true;
}

std::optional<Edit> DocumentSession::applyAndAnnounce(const Edit& edit, std::int64_t state) {
    m_mergeKey = noMerge; // undo and redo end a run of merged edits
    m_mergeStart.reset();
    Result<Edit> inverse = apply(m_document, edit);
    if (!inverse) {
        refuse(inverse.error());
        return std::nullopt;
    }
    m_state = state;
    announce(scopeOf(edit));
    return std::move(inverse).value();
}

void DocumentSession::refuse(const Error& error) {
    emit failed(QString::fromStdString(describe(error)));
}

void DocumentSession::announce(const EditScope& scope) {
    ++m_revision;
    dropLostSelection();
    const bool said = scope.info; // the sentences say lengths in the job's unit
    if (scope.boards || scope.parts || scope.shop || scope.plan || said) {
        runAudit();
    }
    emit changed(scope);
}

void DocumentSession::dropLostSelection() { select(withoutLost(m_document, m_selection)); }

void DocumentSession::select(const Selection& selection) {
    if (selection == m_selection) {
        return;
    }
    m_selection = selection;
    emit selectionChanged();
}

void DocumentSession::adopt(Document document, const QString& path, Saved saved) {
    emit leaving();
    m_document = std::move(document);
    m_state = ++m_revision;
    m_mergeKey = noMerge;
    m_mergeStart.reset();
    m_undoStack.clear();
    if (saved == Saved::No) {
        m_undoStack.resetClean();
    } else {
        m_undoStack.setClean(); // an empty stack is not cleared, and may stand as unsaved
    }
    m_path = path;
    m_selection = {};
    runAudit();
    emit adopted();
    emit pathChanged();
    emit selectionChanged();
}

Status DocumentSession::save(const QString& path) {
    const Status written = writeJob(m_document, path.toStdString());
    if (!written) {
        return written;
    }
    restPhotosOn(m_document, path.toStdString());
    noteSaved(path, m_revision);
    return written;
}

void DocumentSession::noteSaved(const QString& path, std::int64_t revision) {
    m_path = path;
    if (revision == m_revision) {
        endRunOfEdits(); // what is typed after a save is a step of its own
        m_undoStack.setClean();
    } else {
        m_undoStack.resetClean(); // the file holds neither this state nor the one saved before
    }
    emit pathChanged();
}

void DocumentSession::endRunOfEdits() {
    m_mergeKey = noMerge;
    m_mergeStart.reset();
}

void DocumentSession::runAudit() {
    m_audit = audit(m_document);
    emit auditChanged();
}

QString DocumentSession::nameForFiles() const {
    static const QRegularExpression notInNames("[^\\w]+");
    return QString::fromStdString(m_document.info.title).toLower().replace(notInNames, "-");
}

} // namespace stavewright::ui
