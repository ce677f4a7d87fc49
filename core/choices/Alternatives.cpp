#include "core/choices/Alternatives.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "core/audit/Audit.h"
#include "core/choices/Comparison.h"
#include "core/milling/BlankSpec.h"
#include "core/planning/PanelWidth.h"

namespace stavewright::choices {

namespace {

struct Candidate {
    Plan plan;
    PlanFigures figures;
};

/// Lumber is told apart as it is shown.
std::int64_t hundredths(BoardFeet amount) { return (amount.inMillionths() + 5'000) / 10'000; }

/// The least of it is best; ties go to the cheaper, then to the one met first.
auto rankBy(Aim aim, const PlanFigures& f) {
    const std::int64_t measure = aim == Aim::LeastLumber    ? hundredths(f.lumber)
                                 : aim == Aim::FewestKnots  ? f.knotsOnShow
                                 : aim == Aim::FewestSetUps ? f.setUps.total()
                                                            : f.counted.inTenThousandths();
    return std::tuple(f.missing, measure, f.counted, f.lumber, f.knotsOnShow, f.setUps.total());
}

/// In nothing worse.
bool isNoWorse(const PlanFigures& a, const PlanFigures& b) {
    return a.missing <= b.missing && a.cost <= b.cost && a.lumber <= b.lumber &&
           a.knotsOnShow <= b.knotsOnShow && a.setUps.total() <= b.setUps.total() &&
           a.boardsTooMany <= b.boardsTooMany;
}

class Finder {
  public:
    Finder(const Document& document, const AlternativesWish& wish, const Progress& progress)
        : m_document(document)
        , m_wish(wish)
        , m_progress(progress) {}

    Result<Alternatives> find() {
        if (m_wish.cheapest) {
            meet(*m_wish.cheapest);
        } else if (Status done = plan(Aim::Cheapest, {}, 1); !done) {
            return done.error();
        }
        const std::optional<std::size_t> cheapest = best(Aim::Cheapest);
        if (cheapest) {
            const Candidate base = m_met[*cheapest];
            Weights lumber;
            lumber.lumberAlone = true;
            Weights knots;
            // One knot less may cost as much again as the whole plan: the price stands beside it,
            // and whether it is worth it is for the maker to say.
            knots.knotShown = std::max(base.figures.cost, Money::whole(1));
            for (const auto& [aim, weights] :
                 {std::pair(Aim::LeastLumber, lumber), std::pair(Aim::FewestKnots, knots)}) {
                if (Status done = plan(aim, weights, 1); !done) {
                    return done.error();
                }
            }
            const std::vector<Weights> even = fewWidths(base.plan);
            for (const Weights& weights : even) {
                if (Status done =
                        plan(Aim::FewestSetUps, weights, static_cast<std::int64_t>(even.size()));
                    !done) {
                    return done.error();
                }
            }
        }
        return choose();
    }

  private:
    /// Plans with these weights, within a share of the limits; every plan on the way is met.
    Status plan(Aim aim, const Weights& weights, std::int64_t share) {
        if (m_progress.stopRequested()) {
            return Done{};
        }
        PlanOptions options = m_wish.each;
        options.weights = weights;
        options.seconds /= static_cast<double>(share);
        options.work = options.work > 0 ? std::max<std::int64_t>(1, options.work / share) : 0;
        Progress progress = m_progress;
        if (m_progress.report) {
            progress.report = [this, aim](const ProgressReport& report) {
                ProgressReport said = report;
                said.stage = nameOf(aim);
                m_progress.report(said);
            };
        }
        Result<PlanOutcome> outcome =
            planJob(m_document, options, progress, [this](const Plan& better) { meet(better); });
        if (!outcome) {
            return outcome.error();
        }
        meet(std::move(outcome).value().plan);
        return Done{};
    }

    void meet(Plan plan) {
        Candidate candidate{std::move(plan), {}};
        candidate.figures = figuresOf(m_document, candidate.plan);
        if (const std::optional<Proof>& proof = candidate.plan.origin.proof) {
            m_least = proof->least;
            m_leastLumber = proof->leastLumber;
            m_provedFor = candidate.plan.thicknesses;
        }
        const auto isCovered = [&](const Candidate& other) {
            return isNoWorse(other.figures, candidate.figures) &&
                   other.figures.counted <= candidate.figures.counted;
        };
        if (std::any_of(m_met.begin(), m_met.end(), isCovered)) {
            // The search hands out a finished plan once more, with reasons for what found no place
            // and with what was proved of it.
            for (Candidate& other : m_met) {
                if (other.plan.boards == candidate.plan.boards) {
                    other.plan = std::move(candidate.plan);
                    return;
                }
            }
            return;
        }
        // A plan that the audit refuses is none.
        if (audit(m_document, candidate.plan).passed()) {
            m_met.push_back(std::move(candidate));
        }
    }

    [[nodiscard]] std::optional<std::size_t> best(Aim aim) const {
        std::optional<std::size_t> best;
        for (std::size_t i = 0; i < m_met.size(); ++i) {
            if (!best || rankBy(aim, m_met[i].figures) < rankBy(aim, m_met[*best].figures)) {
                best = i;
            }
        }
        return best;
    }

    /// Weights for fewer settings of the machines: staves of one width in each panel, about as many
    /// as the cheapest plan has, and one more; and fewer cuts altogether.
    [[nodiscard]] std::vector<Weights> fewWidths(const Plan& cheapest) const {
        std::map<PartId, std::map<BlankPurpose, int>> staves;
        for (const BoardLayout& layout : cheapest.boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (blank.purpose.stave > 0) {
                            ++staves[blank.purpose.part][planning::wholeOf(blank.purpose)];
                        }
                    }
                }
            }
        }
        Weights few;
        few.cutsTimes = 5; // a cut counts about as much as the minutes of a setting
        Weights more = few;
        for (const auto& [part, panels] : staves) {
            int sum = 0;
            for (const auto& [panel, count] : panels) {
                sum += count;
            }
            const int count = static_cast<int>(panels.size());
            few.equalStaves[part] = (sum + count / 2) / count;
            more.equalStaves[part] = few.equalStaves[part] + 1;
        }
        return staves.empty() ? std::vector{few} : std::vector{few, more};
    }

    [[nodiscard]] Alternatives choose() {
        Alternatives found;
        found.stoppedEarly = m_progress.stopRequested();
        std::vector<std::size_t> taken;
        for (const Aim aim : allAims) {
            const std::optional<std::size_t> winner = best(aim);
            if (!winner) {
                break;
            }
            const auto at = std::find(taken.begin(), taken.end(), *winner);
            if (at != taken.end()) {
                found.plans[static_cast<std::size_t>(at - taken.begin())].bestAt.push_back(aim);
                continue;
            }
            // Another plan may be as good at it without being worse at anything.
            const PlanFigures& figures = m_met[*winner].figures;
            const auto covers = std::find_if(taken.begin(), taken.end(), [&](std::size_t other) {
                return isNoWorse(m_met[other].figures, figures);
            });
            if (covers != taken.end()) {
                found.plans[static_cast<std::size_t>(covers - taken.begin())].bestAt.push_back(aim);
                continue;
            }
            taken.push_back(*winner);
            found.plans.push_back({{aim}, m_met[*winner].plan, figures, {}});
        }
        for (std::size_t i = 1; i < found.plans.size(); ++i) {
            Alternative& alternative = found.plans[i];
            alternative.against =
                choices::against(alternative.figures, found.plans.front().figures, m_document.info);
        }
        for (Alternative& alternative : found.plans) {
            shareProof(alternative);
        }
        return found;
    }

    /// What no plan can be less than, this one cannot either; as long as its parts are as thick.
    void shareProof(Alternative& alternative) const {
        std::optional<Proof>& proof = alternative.plan.origin.proof;
        proof.reset();
        if (m_least && alternative.plan.unplaced.empty() &&
            alternative.plan.thicknesses == m_provedFor) {
            const Money counted =
                alternative.figures.counted - groupsApart(m_document, alternative.plan);
            proof = Proof{std::max(counted, *m_least), *m_least, m_leastLumber};
        }
    }

    const Document& m_document;
    const AlternativesWish& m_wish;
    const Progress& m_progress;
    std::optional<BoardFeet> m_leastLumber;
    std::optional<Money> m_least; ///< proved: no plan counts for less
    std::vector<ThicknessChoice> m_provedFor;
    std::vector<Candidate> m_met; ///< none no better than another in everything
};

} // namespace

std::string nameOf(Aim aim) {
    switch (aim) {
    case Aim::LeastLumber:
        return "Least lumber";
    case Aim::FewestKnots:
        return "Fewest knots on show";
    case Aim::FewestSetUps:
        return "Fewest set-ups";
    case Aim::Cheapest:
        break;
    }
    return "Cheapest";
}

std::string keyOf(Aim aim) {
    switch (aim) {
    case Aim::LeastLumber:
        return "least-lumber";
    case Aim::FewestKnots:
        return "fewest-knots";
    case Aim::FewestSetUps:
        return "fewest-set-ups";
    case Aim::Cheapest:
        break;
    }
    return "cheapest";
}

std::string titleOf(const Alternative& alternative) {
    std::string title = nameOf(alternative.bestAt.front());
    for (std::size_t i = 1; i < alternative.bestAt.size(); ++i) {
        std::string name = nameOf(alternative.bestAt[i]);
        name[0] = static_cast<char>(name[0] - 'A' + 'a');
        title += (i + 1 == alternative.bestAt.size() ? " and " : ", ") + name;
    }
    return title;
}

Result<Alternatives> findAlternatives(const Document& document, const AlternativesWish& wish,
                                      const Progress& progress) {
    return Finder(document, wish, progress).find();
}

} // namespace stavewright::choices
