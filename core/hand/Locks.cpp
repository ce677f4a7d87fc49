#include "core/hand/Locks.h"

#include <algorithm>
#include <map>

#include "core/base/ListedText.h"
#include "core/hand/PlanTree.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

/// How a blank lies, and what it gives.
struct Lie {
    BoardId board;
    Frame frame;
    Blank blank;
};
using Lies = std::map<BlankId, Lie>;

/// A cut that landed off its mark leaves a blank where it was, less or more at one edge.
bool isSame(Length lowBefore, Length highBefore, Length low, Length high, bool isCut) {
    return isCut ? low == lowBefore || high == highBefore : low == lowBefore && high == highBefore;
}

bool liesAlike(const Lie& was, const Lie& is) {
    const Rect& before = woodOf(was.blank);
    const Rect& after = woodOf(is.blank);
    const bool isCut = is.blank.state != CutState::Planned;
    return was.board == is.board && was.frame == is.frame && was.blank.pose == is.blank.pose &&
           was.blank.purpose == is.blank.purpose &&
           isSame(before.x0, before.x1, after.x0, after.x1, isCut) &&
           isSame(before.y0, before.y1, after.y0, after.y1, isCut);
}

bool lieAlike(const Lies& was, const Lies& is) {
    return was.size() == is.size() &&
           std::equal(was.begin(), was.end(), is.begin(), [](const auto& a, const auto& b) {
               return a.first == b.first && liesAlike(a.second, b.second);
           });
}

void addLies(Lies& lies, BoardId board, const Section& section) {
    for (const Strip& strip : section.strips) {
        for (const Blank& blank : strip.blanks) {
            lies[blank.id] = {board, section.frame, blank};
        }
    }
}

Lies liesOf(const BoardLayout& layout) {
    Lies lies;
    for (const Section& section : layout.sections) {
        addLies(lies, layout.board, section);
    }
    return lies;
}

Lies liesIn(const BoardLayout& layout, SectionId id) {
    Lies lies;
    for (const Section& section : layout.sections) {
        if (section.id == id) {
            addLies(lies, layout.board, section);
        }
    }
    return lies;
}

bool holds(const std::vector<Lock>& locks, const Lock& lock) {
    return std::find(locks.begin(), locks.end(), lock) != locks.end();
}

} // namespace

std::vector<Lock> locksOf(const BoardLayout& layout) {
    std::vector<Lock> locks;
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
    return locks;
}

std::vector<Lock> locksOf(const Plan& plan) {
    std::vector<Lock> locks;
    for (const BoardLayout& layout : plan.boards) {
        const std::vector<Lock> here = locksOf(layout);
        locks.insert(locks.end(), here.begin(), here.end());
    }
    return locks;
}

std::vector<Lock> locksBroken(const BoardLayout& before, const BoardLayout& after) {
    std::vector<Lock> broken = locksOf(before);
    if (broken.empty()) {
        return broken;
    }
    const Lies was = liesOf(before);
    const Lies is = liesOf(after);
    std::erase_if(broken, [&](const Lock& lock) {
        if (lock.blank.isSet()) {
            const auto found = is.find(lock.blank);
            return found != is.end() && liesAlike(was.at(lock.blank), found->second);
        }
        return lock.section.isSet()
                   ? lieAlike(liesIn(before, lock.section), liesIn(after, lock.section))
                   : lieAlike(was, is);
    });
    return broken;
}

std::vector<Lock> locksBroken(const Plan& before, const Plan& after) {
    std::vector<Lock> broken;
    for (const BoardLayout& layout : before.boards) {
        const BoardLayout* now = layoutOf(after, layout.board);
        const std::vector<Lock> here =
            locksBroken(layout, now ? *now : BoardLayout{layout.board, {}, layout.locked});
        broken.insert(broken.end(), here.begin(), here.end());
    }
    return broken;
}

std::string nameOf(const Document& document, const Lock& lock) {
    const Board* board = findBoard(document, lock.board);
    const std::string mark = board ? board->mark : "";
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
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
            return "the section from " + saidLength(section.along.from, style) + " to " +
                   saidLength(section.along.to, style) + " of board " + mark;
        }
    }
    return "board " + mark;
}

std::string namesOf(const Document& document, const std::vector<Lock>& locks) {
    std::vector<std::string> names;
    names.reserve(locks.size());
    for (const Lock& lock : locks) {
        names.push_back(nameOf(document, lock));
    }
    return listed(names);
}

Plan withLocks(Plan plan, const std::vector<Lock>& kept) {
    for (BoardLayout& layout : plan.boards) {
        layout.locked = layout.locked && holds(kept, {layout.board, {}, {}});
        for (Section& section : layout.sections) {
            section.locked = section.locked && holds(kept, {layout.board, section.id, {}});
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    blank.locked =
                        blank.locked && holds(kept, {layout.board, section.id, blank.id});
                }
            }
        }
    }
    return plan;
}

} // namespace stavewright::hand
