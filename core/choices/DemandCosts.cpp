#include "core/choices/DemandCosts.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <tuple>
#include <utility>

#include "core/audit/Audit.h"
#include "core/choices/Comparison.h"
#include "core/units/QuantityText.h"

namespace stavewright::choices {

namespace {

/// Eased demands that are searched a second time.
constexpr std::size_t mostSearchedTwice = 3;

auto rank(const PlanFigures& figures) { return std::tuple(figures.missing, figures.counted); }

Money apart(Money a, Money b) { return a > b ? a - b : b - a; }

class Asking {
  public:
    Asking(const Document& document, const DemandWish& wish, const Progress& progress)
        : m_document(document)
        , m_wish(wish)
        , m_progress(progress) {}

    Result<DemandCosts> ask() {
        const std::vector<Relaxation> eased = relaxationsOf(m_document, m_wish.most);
        m_costs.toTry = eased.size();
        for (const std::uint64_t further : {0, 1}) {
            const Result<Searched> base = search(m_document, further, "The job as it stands");
            if (!base) {
                return base.error();
            }
            if (!base.value().isWhole) {
                return m_costs;
            }
            const PlanFigures& figures = base.value().figures;
            if (further == 0) {
                m_costs.base = figures;
                continue;
            }
            m_costs.noise = apart(figures.counted, m_costs.base.counted);
            m_isFirmPlaced = figures.missing == m_costs.base.missing;
            m_costs.base = std::min(m_costs.base, figures,
                                    [](const auto& a, const auto& b) { return rank(a) < rank(b); });
        }
        for (const Relaxation& relaxation : eased) {
            if (!easeOne(relaxation)) {
                break;
            }
        }
        sort();
        searchTwice();
        for (DemandCost& cost : m_costs.costs) {
            finish(cost);
        }
        std::erase_if(m_costs.costs, [](const DemandCost& cost) {
            return cost.placesMore <= 0 && (cost.placesMore < 0 || cost.saves < Money::cents(1));
        });
        sort();
        return std::move(m_costs);
    }

  private:
    struct Searched {
        PlanFigures figures;
        bool isWhole = false; ///< not stopped, and audited clean
    };

    Result<Searched> search(const Document& job, std::uint64_t further, const std::string& stage) {
        PlanOptions options = m_wish.each;
        options.seed += further;
        options.weights = {};
        options.keptOff = {};
        Progress progress = m_progress;
        if (m_progress.report) {
            progress.report = [this, &stage](const ProgressReport& report) {
                ProgressReport said = report;
                said.stage = stage;
                m_progress.report(said);
            };
        }
        Result<PlanOutcome> outcome = planJob(job, options, progress);
        if (!outcome) {
            return outcome.error();
        }
        const Plan& plan = outcome.value().plan;
        return Searched{figuresOf(job, plan),
                        !m_progress.stopRequested() && audit(job, plan).passed()};
    }

    /// False when it was stopped.
    bool easeOne(const Relaxation& relaxation) {
        Document job = m_document;
        if (!apply(job, relaxation.edit)) {
            ++m_costs.tried; // the job's limits do not allow it
            return true;
        }
        const Result<Searched> found = search(job, 0, relaxation.words);
        if (m_progress.stopRequested()) {
            return false;
        }
        ++m_costs.tried;
        if (found && found.value().isWhole) {
            DemandCost cost;
            cost.relaxation = relaxation;
            cost.eased = found.value().figures;
            m_costs.costs.push_back(std::move(cost));
        }
        return true;
    }

    void sort() {
        std::stable_sort(
            m_costs.costs.begin(), m_costs.costs.end(),
            [](const DemandCost& a, const DemandCost& b) { return rank(a.eased) < rank(b.eased); });
    }

    void searchTwice() {
        for (std::size_t i = 0; i < std::min(mostSearchedTwice, m_costs.costs.size()); ++i) {
            DemandCost& cost = m_costs.costs[i];
            Document job = m_document;
            if (m_progress.stopRequested() || !apply(job, cost.relaxation.edit)) {
                return;
            }
            const Result<Searched> again = search(job, 1, cost.relaxation.words);
            if (!again || !again.value().isWhole) {
                continue;
            }
            const PlanFigures& figures = again.value().figures;
            m_costs.noise = std::max(m_costs.noise, apart(figures.counted, cost.eased.counted));
            if (rank(figures) < rank(cost.eased)) {
                cost.eased = figures;
            }
        }
    }

    void finish(DemandCost& cost) const {
        cost.placesMore = m_costs.base.missing - cost.eased.missing;
        cost.saves = m_costs.base.counted - cost.eased.counted;
        cost.savesLumber = m_costs.base.lumber - cost.eased.lumber;
        cost.isWithinNoise = cost.placesMore > 0 ? !m_isFirmPlaced : cost.saves <= m_costs.noise;
        cost.sentence = sentenceFor(cost);
        cost.doubt = doubtOf(cost);
    }

    [[nodiscard]] std::string sentenceFor(const DemandCost& cost) const {
        const JobInfo& info = m_document.info;
        std::string text = cost.relaxation.words;
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
        if (cost.placesMore > 0) {
            text += " would give " +
                    countedNoun(cost.placesMore, "more blank or panel", "more blanks or panels") +
                    " a place.";
        } else {
            text += " would save ";
            const bool isLumber = cost.savesLumber > BoardFeet();
            text += isLumber ? lumberText(cost.savesLumber, info.units) + " and " : "";
            text += formatMoney(cost.saves, info.currency);
            if (cost.savesLumber < BoardFeet()) {
                text += ", with " + lumberText(BoardFeet() - cost.savesLumber, info.units) +
                        " more lumber";
            }
            text += ".";
        }
        return text;
    }

    [[nodiscard]] std::string doubtOf(const DemandCost& cost) const {
        if (!cost.isWithinNoise) {
            return {};
        }
        return cost.placesMore > 0
                   ? "Two searches of the job as it stands differ in what they place, so that is "
                     "not certain."
                   : "Two searches of one job differ by " +
                         formatMoney(m_costs.noise, m_document.info.currency) +
                         ", so that is not certain.";
    }

    const Document& m_document;
    const DemandWish& m_wish;
    const Progress& m_progress;
    bool m_isFirmPlaced = true; ///< both searches of the job place as much
    DemandCosts m_costs;
};

} // namespace

Result<DemandCosts> demandCosts(const Document& document, const DemandWish& wish,
                                const Progress& progress) {
    return Asking(document, wish, progress).ask();
}

} // namespace stavewright::choices
