#include "ui/session/PlanController.h"

#include <QDateTime>

#include <algorithm>

#include "core/hand/Locks.h"
#include "core/units/QuantityText.h"

namespace stavewright::ui {

Plan renumbered(Plan plan, std::int64_t by, std::int64_t from) {
    const auto raise = [&](auto& id) { id.value += id.value >= from ? by : 0; };
    for (BoardLayout& layout : plan.boards) {
        for (Section& section : layout.sections) {
            raise(section.id);
            for (Offcut& offcut : section.offcuts) {
                raise(offcut.id);
            }
            for (Strip& strip : section.strips) {
                raise(strip.id);
                for (Blank& blank : strip.blanks) {
                    raise(blank.id);
                }
                for (Offcut& offcut : strip.offcuts) {
                    raise(offcut.id);
                }
            }
        }
    }
    return plan;
}

PlanController::PlanController(DocumentSession& session, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_run(this) {
    reach(false);
    connect(&m_run, &PlanRun::improved, this, [this](const Plan& plan) {
        m_preview = plan;
        m_previewTitle.clear();
        m_isAway ? emit progressed() : emit previewChanged();
    });
    connect(&m_run, &PlanRun::progressed, this, [this](const ProgressReport& report) {
        m_progress = report;
        emit progressed();
    });
    connect(&m_run, &PlanRun::finished, this, &PlanController::finish);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        dropOffer();
        dropRest();
        discard();
        m_stageOf.clear();
        m_bestKnown.clear();
        m_piecesCut = piecesCut();
        reach(true);
        learnBest();
    });
    // A preview of another state of the job would be drawn on boards that are no longer so.
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.boards || scope.parts) {
            clearPreview();
        }
        if (m_run.isRunning()) { // what was changed is to be seen
            putAway();
        }
        // What was possible before a cut was made may be so no longer.
        const int cut = piecesCut();
        reach(scope.boards || scope.parts || scope.shop || cut != m_piecesCut);
        m_piecesCut = cut;
        if (scope.plan || scope.boards || scope.parts || scope.shop) {
            if (m_rest) { // it was held against another plan
                const midjob::RestMode mode = m_rest->mode;
                dropRest();
                emit restOutdated(tr("The job was changed, so the plan of the rest that was shown "
                                     "is put away. It can be planned again from here."),
                                  mode);
            }
            learnBest();
        }
    });
}

int PlanController::piecesCut() const {
    int cut = 0;
    for (const BoardLayout& layout : m_session.document().plan ? m_session.document().plan->boards
                                                               : std::vector<BoardLayout>()) {
        for (const Section& section : layout.sections) {
            cut += section.state != CutState::Planned ? 1 : 0;
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    cut += blank.state != CutState::Planned ? 1 : 0;
                }
            }
        }
    }
    return cut;
}

void PlanController::reach(bool isOther) {
    const auto known = m_stageOf.find(m_session.state());
    if (known != m_stageOf.end()) { // by undo or redo
        m_stage = known->second;
        return;
    }
    if (isOther) {
        m_stage = m_bestKnown.size();
        m_bestKnown.emplace_back();
    }
    m_stageOf[m_session.state()] = m_stage;
}

void PlanController::learnBest() {
    const std::optional<Plan>& plan = m_session.document().plan;
    if (!plan || !m_session.auditReport().passed() || !plan->unplaced.empty()) {
        return;
    }
    learn({plan->totals.cost, plan->totals.lumberUsed});
}

void PlanController::learn(const BestKnown& found) {
    std::optional<BestKnown>& best = m_bestKnown[m_stage];
    if (!best || found.cost < best->cost) {
        best = found;
    }
}

bool PlanController::makeReady() {
    m_offer.reset();
    dropRest();
    hide();
    if (const Status sound = validate(m_session.document()); !sound) {
        emit refused(tr("The job cannot be planned yet. %1")
                         .arg(QString::fromStdString(sound.error().message)));
        return false;
    }
    m_progress = {};
    m_isAway = false;
    m_startRevision = m_session.revision();
    m_startNextId = m_session.document().nextId;
    return true;
}

void PlanController::planRest(midjob::RestMode mode) {
    if (m_run.isRunning()) {
        return;
    }
    if (!m_session.document().plan) {
        emit refused(tr("There is no plan yet, so there is no rest to plan. Plan (F9) first."));
        return;
    }
    if (!makeReady()) {
        return;
    }
    m_restMode = mode;
    m_run.start(m_session.document(), m_options, mode);
    emit stateChanged();
}

QString PlanController::whyNothingChanges(const Rest& rest, const QString& conflict) {
    QString text =
        rest.mode == midjob::RestMode::FromScratch
            ? tr("Nothing better was found, so everything stays where it is. A longer search may "
                 "find something; the seconds stand beside Plan Again.")
        : rest.before.unplaced.empty()
            ? tr("Everything has a place and keeps it. Plan the Rest Again (menu Plan) may "
                 "move more and save something.")
            : tr("What has no place finds none while the rest keeps its places. Plan the "
                 "Rest Again (menu Plan) may move more.");
    return conflict.isEmpty() ? text : text + ' ' + conflict;
}

void PlanController::offerRest(Plan plan, bool isSeen) {
    Rest rest;
    rest.before = *m_session.document().plan;
    rest.moved = midjob::movedBetween(rest.before, plan);
    rest.mode = *m_restMode;
    rest.sentence = QString::fromStdString(midjob::sentenceOf(m_session.document(), rest.moved));
    const QString conflict = QString::fromStdString(m_run.conflict());
    const midjob::Moved& moved = rest.moved;
    const bool isSame = rest.mode == midjob::RestMode::KeepPlaces && moved.moved.empty() &&
                        moved.gained.empty() && moved.lost.empty() && moved.costsMore == Money();
    // What may not stay as it is has to move, whatever it costs.
    const bool isNoBetter = rest.mode == midjob::RestMode::FromScratch &&
                            m_session.auditReport().passed() &&
                            !midjob::isBetter(m_session.document(), rest.before, plan);
    if (isSame || isNoBetter) { // nothing to compare
        m_restMode.reset();
        emit stateChanged();
        emit refused(whyNothingChanges(rest, conflict));
        return;
    }
    if (!conflict.isEmpty()) {
        rest.sentence += ' ' + conflict;
    }
    rest.after = std::move(plan);
    m_restMode.reset();
    m_rest = std::move(rest);
    lookAtRest(isSeen);
    emit stateChanged();
    emit restChanged();
}

QString PlanController::titleOf(midjob::RestMode mode) {
    return mode == midjob::RestMode::KeepPlaces ? tr("The rest planned, keeping places")
                                                : tr("The rest planned again");
}

void PlanController::lookAtRest(bool after) {
    if (!m_rest) {
        return;
    }
    if (after) {
        show(m_rest->after, titleOf(m_rest->mode));
    } else {
        hide();
    }
    emit restChanged();
}

void PlanController::takeRest() {
    if (!m_rest || m_run.isRunning()) {
        return;
    }
    const Rest rest = std::move(*m_rest);
    m_rest.reset();
    clearPreview();
    emit restChanged();
    take(rest.after, rest.mode == midjob::RestMode::KeepPlaces ? tr("the rest, keeping places")
                                                               : tr("the rest, again"));
    emit stateChanged();
}

void PlanController::dropRest() {
    m_restMode.reset();
    if (m_rest) {
        m_rest.reset();
        hide();
        emit restChanged();
    }
}

void PlanController::setSecondsAllowed(double seconds) { m_options.seconds = seconds; }

void PlanController::plan() {
    if (m_run.isRunning()) {
        return;
    }
    if (!makeReady()) {
        return;
    }
    m_run.start(m_session.document(), m_options);
    emit stateChanged();
}

void PlanController::stopAndKeep() {
    m_run.stopAndKeep();
    emit stateChanged();
}

void PlanController::discard() {
    if (!m_run.isRunning()) {
        return;
    }
    m_run.discard();
    clearPreview();
    emit stateChanged();
}

void PlanController::keepWhatThereIs() {
    if (!m_run.isRunning()) {
        return;
    }
    const std::optional<Plan> best = m_run.best();
    const bool fits = m_session.revision() == m_startRevision;
    m_run.discard();
    clearPreview();
    if (best && fits && audit(m_session.document(), *best).passed()) {
        take(*best);
    }
    emit stateChanged();
}

void PlanController::finish(const Result<PlanOutcome>& outcome) {
    const bool isSeen = !m_isAway; // else she is at work on the job's plan
    clearPreview();
    if (!outcome) {
        emit stateChanged();
        emit refused(outcome.error().code == ErrorCode::Cancelled
                         ? tr("Stopped before a first plan was found; the job is as it was.")
                         : QString::fromStdString(describe(outcome.error())));
        return;
    }
    const Document& document = m_session.document();
    const bool older = m_session.revision() != m_startRevision;
    Plan plan =
        older ? renumbered(outcome.value().plan, document.nextId - m_startNextId, m_startNextId)
              : outcome.value().plan;
    if (const QString why = whyNot(plan); !why.isEmpty()) {
        m_restMode.reset();
        emit stateChanged();
        emit refused(
            older ? tr("The plan was computed for an older state of the job and does not "
                       "fit it any more, so it was not taken. %1")
                        .arg(why)
                  : tr("The audit refused the computed plan, so it was not taken. %1").arg(why));
        return;
    }
    if (m_restMode) {
        offerRest(std::move(plan), isSeen);
        return;
    }
    if (older || !isSeen) {
        const PlanTotals totals = plan.totals;
        m_offer = std::move(plan);
        emit stateChanged();
        emit offered((older ? tr("A plan is ready. It was computed for an older state of the job; "
                                 "it fits the job as it is now: %1 of %2 blanks placed, %3 of "
                                 "lumber.")
                            : tr("A plan is ready: %1 of %2 blanks placed, %3 of lumber. The "
                                 "boards show the job's own until it is taken."))
                         .arg(totals.placed)
                         .arg(totals.demanded)
                         .arg(QString::fromStdString(lumberText(
                             totals.lumberUsed, document.info.units, LumberDetail::Glance))));
        return;
    }
    take(std::move(plan));
    emit stateChanged();
}

void PlanController::takeOffer() {
    if (m_offer) {
        Plan plan = std::move(*m_offer);
        m_offer.reset();
        if (const QString why = whyNot(plan); !why.isEmpty()) {
            emit stateChanged();
            emit refused(
                tr("The job has changed again and the offered plan does not fit it any more. %1")
                    .arg(why));
            return;
        }
        take(std::move(plan));
        emit stateChanged();
    }
}

QString PlanController::whyNot(const Plan& plan) const {
    const Document& document = m_session.document();
    const AuditReport report = audit(document, plan);
    if (!report.passed()) {
        return QString::fromStdString(report.findings.front().sentence);
    }
    const std::vector<hand::Lock> broken =
        document.plan ? hand::locksBroken(*document.plan, plan) : std::vector<hand::Lock>();
    return broken.empty() ? QString()
                          : tr("It does not keep the lock of %1.")
                                .arg(QString::fromStdString(hand::namesOf(document, broken)));
}

void PlanController::dropOffer() {
    if (m_offer) {
        m_offer.reset();
        emit stateChanged();
    }
}

void PlanController::show(const Plan& plan, const QString& title) {
    if (!m_run.isRunning()) {
        m_preview = plan;
        m_previewTitle = title;
        emit previewChanged();
    }
}

const std::optional<Plan>& PlanController::preview() const {
    static const std::optional<Plan> none;
    return m_isAway ? none : m_preview;
}

const std::optional<Plan>& PlanController::bestSoFar() const {
    static const std::optional<Plan> none;
    return m_run.isRunning() ? m_preview : none;
}

void PlanController::putAway() {
    if (m_rest) {
        lookAtRest(false);
    } else if (!m_run.isRunning()) {
        hide();
    } else if (!m_isAway) {
        m_isAway = true;
        emit previewChanged();
    }
}

void PlanController::showBest() {
    if (m_isAway) {
        m_isAway = false;
        emit previewChanged();
    }
}

void PlanController::hide() {
    if (!m_previewTitle.isEmpty()) {
        clearPreview();
    }
}

void PlanController::takeChosen(Plan plan, const QString& title) {
    if (!m_run.isRunning()) {
        take(std::move(plan), title);
        emit stateChanged();
    }
}

void PlanController::take(Plan plan, const QString& title) {
    const std::int64_t nextId = std::max(m_session.document().nextId, largestId(plan) + 1);
    LogEntry entry;
    entry.time = QDateTime::currentSecsSinceEpoch();
    const int boards = plan.totals.boardsUsed;
    entry.what = tr("Planned: %1 of %2 blanks placed on %3")
                     .arg(plan.totals.placed)
                     .arg(plan.totals.demanded)
                     .arg(boards == 1 ? tr("1 board") : tr("%1 boards").arg(boards))
                     .toStdString();
    entry.why = title.toStdString();
    EditSequence steps;
    steps.edits.push_back(Edit{ReplacePlan{std::move(plan)}});
    steps.edits.push_back(Edit{SetNextId{nextId}});
    steps.edits.push_back(Edit{AppendLog{entry}});
    if (m_session.edit(title.isEmpty() ? tr("Plan") : tr("Take the plan: %1").arg(title),
                       Edit{std::move(steps)})) {
        emit taken();
    }
}

void PlanController::clearPreview() {
    if (m_preview || m_isAway) {
        m_preview.reset();
        m_previewTitle.clear();
        m_isAway = false;
        emit previewChanged();
    }
}

} // namespace stavewright::ui
