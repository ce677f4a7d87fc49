#include "core/panels/PanelEdits.h"

#include <algorithm>

#include "core/planning/Planner.h"

namespace stavewright::panels {

namespace {

using glueup::Order;
using glueup::Placed;

Error refused(const Panel& panel, std::string sentence) {
    return {ErrorCode::BadInput, std::move(sentence), "panel " + panel.label};
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
        if (!stays && panel.problem.staves[static_cast<std::size_t>(placed.stave)]
                          .forbidden[static_cast<std::size_t>(placed.pose)]) {
            return refused(panel, panel.staves[static_cast<std::size_t>(placed.stave)].label +
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
    Result<Plan> made = changedByHand(document, std::move(plan));
    if (!made) {
        return made.error();
    }
    return Edit{EditSequence{{Edit{ReplacePlan{std::move(made).value()}}, arrangement}}};
}

} // namespace

Result<Edit> arranged(const Document& document, const Panel& panel, const Order& order) {
    return editFor(document, {{&panel, order}});
}

Result<Edit> arrangedTogether(const Document& document, const Panel& first, const Panel& second,
                              const Order& order) {
    const auto split = order.begin() + static_cast<std::ptrdiff_t>(first.staves.size());
    Order behind(split, order.end());
    for (Placed& placed : behind) {
        placed.stave -= static_cast<int>(first.staves.size());
    }
    return editFor(document, {{&first, Order(order.begin(), split)}, {&second, std::move(behind)}});
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
