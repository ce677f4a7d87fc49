#include "core/midjob/Conflicts.h"

#include <algorithm>

#include "core/midjob/Words.h"

namespace stavewright::midjob {

namespace {

/// Pairs of more locks than this are not all tried.
constexpr std::size_t mostForPairs = 8;

bool holds(const std::vector<Lock>& locks, const Lock& lock) {
    return std::find(locks.begin(), locks.end(), lock) != locks.end();
}

/// The document with no locks but these.
Document withLocks(Document document, const std::vector<Lock>& locks) {
    for (BoardLayout& layout : document.plan->boards) {
        layout.locked = layout.locked && holds(locks, {layout.board, {}, {}});
        for (Section& section : layout.sections) {
            section.locked = section.locked && holds(locks, {layout.board, section.id, {}});
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    blank.locked =
                        blank.locked && holds(locks, {layout.board, section.id, blank.id});
                }
            }
        }
    }
    return document;
}

std::string nameOf(const Document& document, const Lock& lock) {
    const Board* board = findBoard(document, lock.board);
    const std::string mark = board ? board->mark : "";
    for (const BoardLayout& layout : document.plan->boards) {
        for (const Section& section : layout.sections) {
            if (layout.board != lock.board || section.id != lock.section) {
                continue;
            }
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.id == lock.blank) {
                        return labelOf(document, blank.purpose) + " on board " + mark;
                    }
                }
            }
            return "the section from " + said(document, section.along.from) + " to " +
                   said(document, section.along.to) + " of board " + mark;
        }
    }
    return "board " + mark;
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
        conflict.isSmallest = true;
        for (const Lock& lock : all) {
            if (isInTheWay({lock})) {
                return named(std::move(conflict), {lock});
            }
        }
        for (std::size_t i = 0; all.size() <= mostForPairs && i < all.size(); ++i) {
            for (std::size_t k = i + 1; k < all.size(); ++k) {
                if (isInTheWay({all[i], all[k]})) {
                    return named(std::move(conflict), {all[i], all[k]});
                }
            }
        }
        // Any that is not needed is let go; what is left is all needed.
        conflict.isSmallest = all.size() <= 3 && all.size() <= mostForPairs;
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
    std::optional<std::vector<Unplaced>> unplacedWith(const std::vector<Lock>& locks) {
        if (m_progress.stopRequested()) {
            return std::nullopt;
        }
        Result<PlanOutcome> planned = planJob(withLocks(m_document, locks), m_each, m_progress);
        if (!planned) {
            return std::nullopt;
        }
        return std::move(planned.value().plan.unplaced);
    }

    bool isInTheWay(const std::vector<Lock>& locks) {
        const auto unplaced = unplacedWith(locks);
        if (!unplaced || unplaced->size() <= m_least) {
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
        std::string names;
        for (std::size_t i = 0; i < conflict.locks.size(); ++i) {
            const bool isLast = i + 1 == conflict.locks.size() && i > 0;
            names += i == 0 ? "" : isLast ? " and " : ", ";
            names += nameOf(m_document, conflict.locks[i]);
        }
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
    std::vector<BlankPurpose> m_lastNoPlace;
};

} // namespace

std::vector<Lock> locksOf(const Plan& plan) {
    std::vector<Lock> locks;
    for (const BoardLayout& layout : plan.boards) {
        if (layout.locked) {
            locks.push_back({layout.board, {}, {}});
        }
        for (const Section& section : layout.sections) {
            if (section.locked) {
                locks.push_back({layout.board, section.id, {}});
            }
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (blank.locked) {
                        locks.push_back({layout.board, section.id, blank.id});
                    }
                }
            }
        }
    }
    return locks;
}

Result<Conflict> conflictingLocks(const Document& document, const PlanOptions& each,
                                  const Progress& progress) {
    if (!document.plan) {
        return Conflict{};
    }
    return Finder(document, each, progress).find();
}

} // namespace stavewright::midjob
