#include "ui/session/ChoicesController.h"

#include <algorithm>

#include "ui/session/PlanController.h"

namespace stavewright::ui {

ChoicesController::ChoicesController(DocumentSession& session, PlanController& planning,
                                     QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_planning(planning)
    , m_run(this) {
    connect(&m_run, &ChoicesRun::finished, this, &ChoicesController::finish);
    connect(&m_run, &ChoicesRun::failed, this, [this](const QString& sentence) {
        emit stateChanged();
        emit refused(sentence);
    });
    connect(&m_run, &ChoicesRun::progressed, this, [this](const ProgressReport& report) {
        m_progress = report;
        emit progressed();
    });
    connect(&m_session, &DocumentSession::adopted, this, &ChoicesController::close);
    connect(&m_session, &DocumentSession::changed, this, &ChoicesController::forgetWhatIsOld);
    // One search at a time has the machine.
    connect(&m_planning, &PlanController::stateChanged, this, [this] {
        if (m_planning.isRunning() && m_run.isRunning()) {
            m_run.discard();
            emit stateChanged();
        }
    });
}

bool ChoicesController::begin(Question question) {
    if (m_planning.isRunning()) {
        emit refused(tr("Planning is under way. Wait for it, or stop it first."));
        return false;
    }
    if (const Status sound = validate(m_session.document()); !sound) {
        emit refused(tr("The job cannot be planned yet. %1")
                         .arg(QString::fromStdString(sound.error().message)));
        return false;
    }
    m_run.discard();
    lookAway();
    m_question = question;
    m_askedAt = m_session.state();
    m_progress = {};
    return true;
}

void ChoicesController::comparePlans() {
    if (!begin(Question::Plans)) {
        return;
    }
    m_plans.reset();
    choices::AlternativesWish wish{.each = m_planning.options()};
    const std::optional<Plan>& plan = m_session.document().plan;
    if (plan && plan->origin.source == Origin::Source::Solver && m_session.auditReport().passed()) {
        wish.cheapest = plan;
    }
    m_run.start([document = m_session.document(), wish](const Progress& progress) -> ChoicesAnswer {
        return choices::findAlternatives(document, wish, progress);
    });
    emit stateChanged();
}

void ChoicesController::askDemands() {
    if (!begin(Question::Demands)) {
        return;
    }
    m_demands.reset();
    // Many short searches instead of a long one.
    constexpr int share = 4;
    choices::DemandWish wish{.each = m_planning.options()};
    wish.each.seconds = wish.each.seconds > 0 ? std::max(1.0, wish.each.seconds / share) : 0;
    wish.each.work = wish.each.work > 0 ? std::max<std::int64_t>(1, wish.each.work / share) : 0;
    m_run.start([document = m_session.document(), wish](const Progress& progress) -> ChoicesAnswer {
        return choices::demandCosts(document, wish, progress);
    });
    emit stateChanged();
}

void ChoicesController::askWhy(BlankId blank) {
    if (!m_session.document().plan || !begin(Question::Why)) {
        return;
    }
    m_why.reset();
    m_blank = blank;
    m_run.start([document = m_session.document(), blank,
                 options = m_planning.options()](const Progress& progress) -> ChoicesAnswer {
        return choices::whyHere(document, blank, options, progress);
    });
    emit stateChanged();
}

void ChoicesController::stop() { m_run.stop(); }

void ChoicesController::close() {
    m_run.discard();
    lookAway();
    m_question = Question::None;
    m_plans.reset();
    m_demands.reset();
    m_why.reset();
    m_blank.reset();
    emit stateChanged();
}

void ChoicesController::finish(const ChoicesAnswer& answer) {
    const auto keep = [this](const auto& result, auto& place) {
        if (result.ok()) {
            place = result.value();
        } else {
            emit refused(QString::fromStdString(describe(result.error())));
        }
    };
    if (const auto* plans = std::get_if<Result<choices::Alternatives>>(&answer)) {
        keep(*plans, m_plans);
        if (plans->ok()) {
            for (const choices::Alternative& found : plans->value().plans) {
                learn(found.figures);
            }
        }
    } else if (const auto* demands = std::get_if<Result<choices::DemandCosts>>(&answer)) {
        keep(*demands, m_demands);
    } else if (const auto* why = std::get_if<Result<choices::WhyHere>>(&answer)) {
        keep(*why, m_why);
        if (why->ok() && why->value().without) {
            learn(*why->value().without);
        }
    }
    emit stateChanged();
}

void ChoicesController::learn(const PlanFigures& found) {
    if (found.missing == 0 && m_session.state() == m_askedAt) {
        m_planning.learn({found.cost, found.lumber});
    }
}

std::optional<std::size_t> ChoicesController::taken() const {
    const std::optional<Plan>& plan = m_session.document().plan;
    for (std::size_t i = 0; plan && m_plans && i < m_plans->plans.size(); ++i) {
        if (m_plans->plans[i].plan.boards == plan->boards) {
            return i;
        }
    }
    return std::nullopt;
}

void ChoicesController::look(std::size_t index) {
    if (!m_plans || index >= m_plans->plans.size()) {
        return;
    }
    if (taken() == index) {
        lookAway(); // it lies on the boards already
        return;
    }
    const choices::Alternative& alternative = m_plans->plans[index];
    m_planning.show(alternative.plan, QString::fromStdString(titleOf(alternative)));
}

void ChoicesController::lookAway() { m_planning.hide(); }

bool ChoicesController::take(std::size_t index) {
    if (!m_plans || index >= m_plans->plans.size()) {
        return false;
    }
    const choices::Alternative chosen = m_plans->plans[index]; // the list may go while it is taken
    lookAway();
    if (!audit(m_session.document(), chosen.plan).passed()) {
        emit refused(tr("The job has changed and this plan does not fit it any more."));
        return false;
    }
    m_planning.takeChosen(chosen.plan, QString::fromStdString(titleOf(chosen)));
    emit stateChanged();
    return true;
}

bool ChoicesController::ease(std::size_t index) {
    if (!m_demands || index >= m_demands->costs.size()) {
        return false;
    }
    const choices::Relaxation relaxation = m_demands->costs[index].relaxation;
    QString text = QString::fromStdString(relaxation.words);
    text[0] = text[0].toUpper();
    return m_session.edit(text, relaxation.edit);
}

void ChoicesController::forgetWhatIsOld(const EditScope& scope) {
    if (scope.boards || scope.parts || scope.shop) {
        if (m_question != Question::None) {
            close();
        }
        return;
    }
    if (!scope.plan) {
        return;
    }
    // Of a plan from elsewhere what is fixed in it may be another.
    if (m_question == Question::Why || (m_plans && !taken())) {
        close();
    } else {
        emit stateChanged();
    }
}

} // namespace stavewright::ui
