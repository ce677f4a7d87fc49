#include "core/panels/PanelEdits.h"

#include <algorithm>
#include <array>
#include <map>

#include "core/panels/KeepLocks.h"
#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

using glueup::Order;
using glueup::Placed;

Error refused(const Panel& panel, std::string sentence) {
    return {ErrorCode::BadInput, std::move(sentence), "Panel " + panel.label};
}

bool isLocked(const Panel& panel, std::size_t place) {
    const auto& locked = panel.problem.panels.front().locked;
    return place < locked.size() && locked[place].has_value();
}

/// Locks that the maker set; those that stand because the panel is glued are nobody's choice.
bool isLockedByHand(const Panel& panel, int stave) {
    const int number = panel.staves[static_cast<std::size_t>(stave)].purpose.stave;
    return std::any_of(
        panel.chosen.staves.begin(), panel.chosen.staves.end(),
        [&](const GluedStave& glued) { return glued.stave == number && glued.locked; });
}

Status mayBe(const Panel& panel, const Order& order) {
    if (panel.isGlued) {
        return refused(panel, "The panel is glued; its staves stay where they are.");
    }
    for (std::size_t place = 0; place < order.size(); ++place) {
        if (isLocked(panel, place) && !(order[place] == panel.order[place])) {
            return refused(panel, panel.staveAt(place).label +
                                      " is locked in its place; unlock it first.");
        }
        const Placed placed = order[place];
        const bool stays =
            std::find(panel.order.begin(), panel.order.end(), placed) != panel.order.end();
        const PanelStave& stave = panel.staves[static_cast<std::size_t>(placed.stave)];
        if (!stays && stave.isHeld) {
            return refused(panel, stave.label + " is locked on board " + stave.boardMark +
                                      " and keeps its ends and faces; unlock it in the layout "
                                      "first.");
        }
        if (!stays && panel.problem.staves[static_cast<std::size_t>(placed.stave)]
                          .forbidden[static_cast<std::size_t>(placed.pose)]) {
            return refused(panel, stave.label +
                                      " cannot lie so: a defect would come to lie where the part "
                                      "does not allow it.");
        }
    }
    return Done{};
}

PanelArrangement arrangementFor(const Panel& panel, const Order& order) {
    PanelArrangement arrangement = panel.chosen;
    arrangement.staves.clear();
    for (const Placed& placed : order) {
        const PanelStave& stave = panel.staves[static_cast<std::size_t>(placed.stave)];
        arrangement.staves.push_back({stave.purpose.stave, isLockedByHand(panel, placed.stave),
                                      stave.board, stave.at, stave.net.width(),
                                      glueup::poseOf(placed.pose)});
    }
    return arrangement;
}

void store(GlueUp& glueUp, PanelArrangement arrangement) {
    const auto at = std::lower_bound(
        glueUp.panels.begin(), glueUp.panels.end(), arrangement.panel,
        [](const PanelArrangement& each, const PanelName& name) { return each.panel < name; });
    if (at != glueUp.panels.end() && at->panel == arrangement.panel) {
        *at = std::move(arrangement);
    } else {
        glueUp.panels.insert(at, std::move(arrangement));
    }
}

/// The blanks lie as the order says; false when all of them did already.
bool pose(Plan& plan, const Panel& panel, const Order& order) {
    bool changed = false;
    for (const Placed& placed : order) {
        const BlankId id = panel.staves[static_cast<std::size_t>(placed.stave)].blank;
        for (BoardLayout& layout : plan.boards) {
            for (Section& section : layout.sections) {
                for (Strip& strip : section.strips) {
                    for (Blank& blank : strip.blanks) {
                        if (blank.id == id && !(blank.pose == glueup::poseOf(placed.pose))) {
                            blank.pose = glueup::poseOf(placed.pose);
                            changed = true;
                        }
                    }
                }
            }
        }
    }
    return changed;
}

struct Change {
    const Panel* panel;
    Order order;
};

Result<Edit> editFor(const Document& document, const std::vector<Change>& changes) {
    GlueUp glueUp = document.glueUp;
    Plan plan = document.plan.value_or(Plan{});
    bool turned = false;
    for (const Change& change : changes) {
        const Status may = mayBe(*change.panel, change.order);
        if (!may) {
            return may.error();
        }
        store(glueUp, arrangementFor(*change.panel, change.order));
        turned = pose(plan, *change.panel, change.order) || turned;
    }
    const Edit arrangement{ReplaceGlueUp{std::move(glueUp)}};
    if (!turned) {
        return arrangement;
    }
    Result<Plan> made = changedKeepingLocks(document, std::move(plan));
    if (!made) {
        return made.error();
    }
    return Edit{EditSequence{{Edit{ReplacePlan{std::move(made).value()}}, arrangement}}};
}

/// One of two panels as it is to be, with wood of either.
struct Side {
    const Panel* panel;
    std::vector<PanelStave> staves; ///< by place; with the purposes they get
    std::vector<Pose> poses;        ///< by place
    std::vector<bool> locked;       ///< by hand, by place
};

/// Staves that came in get the purposes of those that left.
void renumber(Side& side) {
    std::vector<BlankPurpose> left;
    for (const PanelStave& own : side.panel->staves) {
        const bool stays =
            std::any_of(side.staves.begin(), side.staves.end(),
                        [&](const PanelStave& stave) { return stave.blank == own.blank; });
        if (!stays) {
            left.push_back(own.purpose);
        }
    }
    auto next = left.begin();
    for (PanelStave& stave : side.staves) {
        if (stave.purpose.instance != side.panel->name.instance) {
            stave.purpose = *next++;
        }
    }
}

Status mayExchange(const Panel& first, const Panel& second, const PairProblem& pair,
                   const Order& order, const JobInfo& info) {
    for (const Panel* panel : {&first, &second}) {
        for (const PanelStave& stave : panel->staves) {
            if (stave.isHeld) {
                return refused(*panel, "Panels exchange no staves while the layout holds one of "
                                       "theirs: " +
                                           stave.label + " is locked on board " + stave.boardMark +
                                           "; unlock it in the layout first.");
            }
        }
    }
    if (!canExchange(first, second)) {
        return refused(first, first.name.part == second.name.part
                                  ? "Staves are exchanged where both panels wish the same of their "
                                    "rings and neither is glued."
                                  : "Staves are exchanged between panels of one part only; " +
                                        first.label + " and " + second.label +
                                        " are of two parts.");
    }
    const glueup::Scoring scoring(pair.problem);
    for (std::size_t place = 0; place < order.size(); ++place) {
        if (!scoring.mayStand(order[place], static_cast<int>(place))) {
            const Panel& panel = place < first.staves.size() ? first : second;
            return refused(panel, "A stave is locked, or a defect would come to lie where the part "
                                  "does not allow it; " +
                                      first.label + " and " + second.label + " stay as they are.");
        }
    }
    for (const Panel* panel : {&first, &second}) {
        Length width;
        const std::size_t begin = panel == &first ? 0 : first.staves.size();
        for (std::size_t place = begin; place < begin + panel->staves.size(); ++place) {
            width += scoring.widthOf(order[place].stave);
        }
        const glueup::PanelWish& wish = pair.problem.panels[panel == &first ? 0 : 1];
        if (width < wish.leastWidth || width > *wish.mostWidth) {
            const LengthStyle style{info.units, info.inchDenominator, true};
            return refused(*panel, "The staves would make " + saidLength(width, style) +
                                       "; the panel wants " + saidLength(panel->wanted, style) +
                                       " to " + saidLength(panel->most, style) + ".");
        }
    }
    return Done{};
}

Result<Edit> exchangedTogether(const Document& document, const Panel& first, const Panel& second,
                               const Order& order) {
    const PairProblem pair = sideBySide(first, second);
    if (const Status may = mayExchange(first, second, pair, order, document.info); !may) {
        return may.error();
    }
    std::array<Side, 2> sides = {Side{&first, {}, {}, {}}, Side{&second, {}, {}, {}}};
    const std::size_t shift = first.staves.size();
    for (std::size_t place = 0; place < order.size(); ++place) {
        const auto index = static_cast<std::size_t>(order[place].stave);
        const Panel& from = index < shift ? first : second;
        const std::size_t own = index < shift ? index : index - shift;
        Side& side = sides[place < shift ? 0 : 1];
        side.staves.push_back(from.staves[own]);
        side.poses.push_back(glueup::poseOf(order[place].pose));
        side.locked.push_back(isLockedByHand(from, static_cast<int>(own)));
    }
    Plan plan = document.plan.value_or(Plan{});
    GlueUp glueUp = document.glueUp;
    std::map<BlankId, std::pair<BlankPurpose, Pose>> becomes;
    for (Side& side : sides) {
        renumber(side);
        PanelArrangement arrangement = side.panel->chosen;
        arrangement.staves.clear();
        for (std::size_t place = 0; place < side.staves.size(); ++place) {
            const PanelStave& stave = side.staves[place];
            becomes[stave.blank] = {stave.purpose, side.poses[place]};
            arrangement.staves.push_back({stave.purpose.stave, side.locked[place], stave.board,
                                          stave.at, stave.net.width(), side.poses[place]});
        }
        store(glueUp, std::move(arrangement));
    }
    for (BoardLayout& layout : plan.boards) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    if (const auto found = becomes.find(blank.id); found != becomes.end()) {
                        blank.purpose = found->second.first;
                        blank.pose = found->second.second;
                    }
                }
            }
        }
    }
    Result<Plan> made = changedKeepingLocks(document, std::move(plan));
    if (!made) {
        return made.error();
    }
    return Edit{EditSequence{
        {Edit{ReplacePlan{std::move(made).value()}}, Edit{ReplaceGlueUp{std::move(glueUp)}}}}};
}

} // namespace

Result<Edit> arranged(const Document& document, const Panel& panel, const Order& order) {
    return editFor(document, {{&panel, order}});
}

bool standsAsArranged(const Panel& panel) {
    return panel.chosen.staves.empty() ||
           panel.chosen.staves == arrangementFor(panel, panel.order).staves;
}

Result<Edit> arrangedTogether(const Document& document, const Panel& first, const Panel& second,
                              const Order& order) {
    const auto shift = static_cast<int>(first.staves.size());
    const auto split = order.begin() + shift;
    if (std::any_of(order.begin(), split,
                    [&](const Placed& placed) { return placed.stave >= shift; })) {
        return exchangedTogether(document, first, second, order);
    }
    Order behind(split, order.end());
    for (Placed& placed : behind) {
        placed.stave -= shift;
    }
    return editFor(document, {{&first, Order(order.begin(), split)}, {&second, std::move(behind)}});
}

Result<Edit> exchanged(const Document& document, const Panel& first, std::size_t a,
                       const Panel& second, std::size_t b) {
    Order order = sideBySide(first, second).order;
    std::swap(order[a], order[first.staves.size() + b]);
    return arrangedTogether(document, first, second, order);
}

Result<Edit> turned(const Document& document, const Panel& panel, std::size_t place, Turn turn) {
    Order order = panel.order;
    order[place].pose ^= turn == Turn::EndForEnd ? 1 : 2;
    return arranged(document, panel, order);
}

Result<Edit> swapped(const Document& document, const Panel& panel, std::size_t a, std::size_t b) {
    Order order = panel.order;
    std::swap(order[a], order[b]);
    return arranged(document, panel, order);
}

Result<Edit> moved(const Document& document, const Panel& panel, std::size_t from, std::size_t to) {
    Order order = panel.order;
    const Placed placed = order[from];
    order.erase(order.begin() + static_cast<std::ptrdiff_t>(from));
    order.insert(order.begin() + static_cast<std::ptrdiff_t>(to), placed);
    return arranged(document, panel, order);
}

Result<Edit> locked(const Document& document, const Panel& panel, std::size_t place, bool locked) {
    GlueUp glueUp = document.glueUp;
    PanelArrangement arrangement = arrangementFor(panel, panel.order);
    arrangement.staves[place].locked = locked;
    store(glueUp, std::move(arrangement));
    return Edit{ReplaceGlueUp{std::move(glueUp)}};
}

PanelWishes wishesOf(const Panel& panel) {
    return {panel.chosen.rings, panel.chosen.noCentreSeam, panel.chosen.matches};
}

Result<Edit> wished(const Document& document, const Panel& panel, const PanelWishes& wishes) {
    if (wishes.matches && *wishes.matches == panel.name) {
        return refused(panel, "A panel cannot match itself; choose another one.");
    }
    GlueUp glueUp = document.glueUp;
    PanelArrangement arrangement = panel.chosen;
    arrangement.rings = wishes.rings;
    arrangement.noCentreSeam = wishes.noCentreSeam;
    arrangement.matches = wishes.matches;
    store(glueUp, std::move(arrangement));
    return Edit{ReplaceGlueUp{std::move(glueUp)}};
}

} // namespace stavewright::panels
