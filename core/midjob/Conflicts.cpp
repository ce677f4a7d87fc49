#include "core/midjob/Conflicts.h"

#include <algorithm>

#include "core/audit/Audit.h"
#include "core/midjob/Settle.h"
#include "core/midjob/Words.h"

namespace stavewright::midjob {

namespace {

/// Plannings after which the smallest set is no longer looked for.
constexpr int mostPlannings = 400;

using Set = std::vector<std::size_t>; ///< of locks, by their place in the list

/// Adds to `chosen` until it meets every set; false when `few` more do not suffice.
bool hits(const std::vector<Set>& sets, std::size_t few, Set& chosen) {
    const auto isHit = [&chosen](const Set& set) {
        return std::find_first_of(set.begin(), set.end(), chosen.begin(), chosen.end()) !=
               set.end();
    };
    const auto open = std::find_if_not(sets.begin(), sets.end(), isHit);
    if (open == sets.end()) {
        return true;
    }
    for (std::size_t i = 0; few > 0 && i < open->size(); ++i) {
        chosen.push_back((*open)[i]);
        if (hits(sets, few - 1, chosen)) {
            return true;
        }
        chosen.pop_back();
    }
    return false;
}

/// A smallest set that has something of every one of these.
Set smallestHitting(const std::vector<Set>& sets) {
    Set chosen;
    for (std::size_t few = 0; !hits(sets, few, chosen); ++few) {
    }
    return chosen;
}

class Finder {
  public:
    Finder(const Document& document, const PlanOptions& each, const Progress& progress)
        : m_document(document)
        , m_each(each)
        , m_progress(progress) {}

    Result<Conflict> find() {
        Conflict conflict;
        const std::vector<Lock> all = locksOf(*m_document.plan);
        const auto free = unplacedWith({});
        if (all.empty() || !free) {
            return conflict;
        }
        m_least = free->size();
        if (!isInTheWay(all)) {
            return conflict;
        }
        if (const std::optional<Set> smallest = smallestToBlame(all)) {
            conflict.isSmallest = true;
            return named(std::move(conflict), these(all, *smallest));
        }
        // Any that is not needed is let go; what is left is all needed.
        std::vector<Lock> left = all;
        for (const Lock& lock : all) {
            std::vector<Lock> without = left;
            std::erase(without, lock);
            if (!without.empty() && isInTheWay(without)) {
                left = std::move(without);
            }
        }
        return named(std::move(conflict), left);
    }

  private:
    static std::vector<Lock> these(const std::vector<Lock>& all, const Set& set) {
        std::vector<Lock> locks;
        for (const std::size_t i : set) {
            locks.push_back(all[i]);
        }
        return locks;
    }

    /// Any set to blame has something of every set of locks whose letting go makes all fit. So the
    /// smallest set that hits all such sets known is tried; where all fits with it, it is added to
    /// until one more lock would not do, and what was left out is a new set to be hit. The first
    /// one tried that is to blame is smallest. Nothing when stopped or when it takes too long.
    std::optional<Set> smallestToBlame(const std::vector<Lock>& all) {
        std::vector<Set> letGo;
        while (true) {
            Set kept = smallestHitting(letGo);
            std::sort(kept.begin(), kept.end());
            if (isInTheWay(these(all, kept))) {
                return kept;
            }
            Set out;
            for (std::size_t i = 0; i < all.size(); ++i) {
                if (std::find(kept.begin(), kept.end(), i) != kept.end()) {
                    continue;
                }
                if (m_plannings > mostPlannings || m_progress.stopRequested()) {
                    return std::nullopt;
                }
                kept.push_back(i);
                if (isInTheWay(these(all, kept))) {
                    kept.pop_back();
                    out.push_back(i);
                }
            }
            if (out.empty()) {
                return std::nullopt; // all together fit after all: the planning is no proof
            }
            letGo.push_back(std::move(out));
        }
    }

    std::optional<std::vector<Unplaced>> unplacedWith(const std::vector<Lock>& locks) {
        if (m_progress.stopRequested()) {
            return std::nullopt;
        }
        ++m_plannings;
        Document tried = m_document;
        tried.plan = hand::withLocks(std::move(*tried.plan), locks);
        Result<PlanOutcome> planned = planJob(tried, m_each, m_progress);
        if (!planned) {
            return std::nullopt;
        }
        return std::move(planned.value().plan.unplaced);
    }

    /// With everything left where it lies, what has no place is laid as a maker would lay it: where
    /// that goes, no lock is to blame, whatever a short search says.
    [[nodiscard]] bool fitsBeside(const std::vector<Lock>& locks) const {
        Document laid = m_document;
        laid.plan = hand::withLocks(std::move(*laid.plan), locks);
        std::vector<BlankPurpose> missing;
        for (const Unplaced& each : laid.plan->unplaced) {
            missing.push_back(each.purpose);
        }
        layMissing(laid, missing);
        return laid.plan->unplaced.size() <= m_least && audit(laid).passed();
    }

    bool isInTheWay(const std::vector<Lock>& locks) {
        const auto unplaced = unplacedWith(locks);
        if (!unplaced || unplaced->size() <= m_least || fitsBeside(locks)) {
            return false;
        }
        m_lastNoPlace.clear();
        for (const Unplaced& each : *unplaced) {
            m_lastNoPlace.push_back(each.purpose);
        }
        return true;
    }

    Conflict named(Conflict conflict, std::vector<Lock> locks) {
        conflict.locks = std::move(locks);
        conflict.noPlace = m_lastNoPlace;
        const std::string names = hand::namesOf(m_document, conflict.locks);
        const bool isOne = conflict.locks.size() == 1;
        conflict.sentence = (isOne ? "The lock on " : "The locks on ") + names +
                            (isOne ? " leaves no place for " : " together leave no place for ") +
                            namesOf(m_document, conflict.noPlace) + ".";
        return conflict;
    }

    const Document& m_document;
    const PlanOptions& m_each;
    const Progress& m_progress;
    std::size_t m_least = 0; ///< without any lock
    int m_plannings = 0;
    std::vector<BlankPurpose> m_lastNoPlace;
};

} // namespace

Result<Conflict> conflictingLocks(const Document& document, const PlanOptions& each,
                                  const Progress& progress) {
    if (!document.plan) {
        return Conflict{};
    }
    return Finder(document, each, progress).find();
}

} // namespace stavewright::midjob
