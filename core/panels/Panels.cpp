#include "core/panels/Panels.h"

#include <algorithm>
#include <map>

#include "core/geometry/PolygonOps.h"
#include "core/milling/BlankSpec.h"
#include "core/panels/KeepLocks.h"
#include "core/panels/LaidEdits.h"
#include "core/panels/StaveFacts.h"
#include "core/planning/Statement.h"
#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

using glueup::Placed;

class Reader {
  public:
    Reader(const Document& document, const LooksOnBoard& looks, std::vector<BlankSpec> specs)
        : m_document(document)
        , m_looks(looks)
        , m_specs(std::move(specs)) {
        for (const ThicknessChoice& choice : document.plan->thicknesses) {
            m_thicknesses[choice.part] = choice.finished;
        }
    }

    std::vector<Panel> read() {
        for (const BoardLayout& layout : m_document.plan->boards) {
            const Board* board = findBoard(m_document, layout.board);
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        if (board && blank.purpose.stave > 0) {
                            add(*board, section, blank, isHeld(layout, section, blank));
                        }
                    }
                }
            }
        }
        std::vector<Panel> panels;
        for (const Part& part : m_document.parts) {
            for (auto& [name, panel] : m_panels) {
                if (name.part == part.id) {
                    finish(panel);
                    panels.push_back(std::move(panel));
                }
            }
        }
        return panels;
    }

  private:
    void add(const Board& board, const Section& section, const Blank& blank, bool held) {
        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        const Part* part = findPart(m_document, blank.purpose.part);
        if (!spec || !spec->staves || !part) {
            return;
        }
        const PanelName name{part->id, blank.purpose.instance, blank.purpose.ply};
        Panel& panel = m_panels[name];
        if (panel.staves.empty()) {
            begin(panel, name, *part, *spec);
        }
        const Rect rect = woodOf(blank);
        const Length inset =
            part->perBlank == 1 ? std::max(Length(), (rect.length() - panel.length) / 2) : Length();
        const Length edge = spec->staves->jointAllowance / 2;
        const Rect net{rect.x0 + inset, rect.y0 + edge, rect.x1 - inset, rect.y1 - edge};
        PanelStave stave;
        stave.blank = blank.id;
        stave.purpose = blank.purpose;
        stave.label = labelOf(m_document, blank.purpose);
        stave.board = board.id;
        stave.boardMark = board.mark;
        stave.frame = section.frame;
        stave.net = net;
        stave.at = toOuter(section.frame, Point{net.x0, net.y0}).x;
        stave.woodAt = boundingBox(toOuter(section.frame, rect)).x0;
        stave.state = blank.state;
        stave.isHeld = held;
        panel.isGlued = panel.isGlued || blank.state >= CutState::Glued;
        panel.width += net.width();
        const StavePlace place{m_document,    board, *spec,          blank,
                               section.frame, net,   panel.thickness};
        const auto at = std::lower_bound(
            panel.staves.begin(), panel.staves.end(), stave.purpose.stave,
            [](const PanelStave& each, int number) { return each.purpose.stave < number; });
        const auto index = at - panel.staves.begin();
        panel.staves.insert(at, stave);
        glueup::Stave facts = staveFacts(place, m_looks);
        for (int pose = 0; held && pose < 4; ++pose) {
            facts.forbidden[static_cast<std::size_t>(pose)] |=
                pose != glueup::poseIndex(blank.pose);
        }
        panel.problem.staves.insert(panel.problem.staves.begin() + index, std::move(facts));
        m_poses[name].insert(m_poses[name].begin() + index, glueup::poseIndex(blank.pose));
    }

    void begin(Panel& panel, const PanelName& name, const Part& part, const BlankSpec& spec) {
        panel.name = name;
        panel.label = labelOf(m_document, {name.part, name.instance, name.ply, 0});
        panel.title = part.name;
        const Result<Length> length = resolvedSize(m_document, part, Dimension::Length);
        const Result<Length> width = resolvedSize(m_document, part, Dimension::Width);
        panel.length = part.perBlank == 1 && length ? length.value() : spec.length;
        panel.finishedWidth = width ? width.value() : Length();
        panel.roughLength = spec.length;
        panel.wanted = spec.staves->netWanted;
        panel.most = spec.staves->netMost;
        panel.thickness = planning::surfacesApart(
            part, planning::finishedThickness(m_document, part, m_thicknesses));
        panel.chosen.panel = name;
        if (const PanelArrangement* stored = findArrangement(m_document.glueUp, name)) {
            panel.chosen = *stored;
        }
    }

    void finish(Panel& panel) {
        const std::vector<int>& poses = m_poses[panel.name];
        panel.problem.settings = m_document.glueUp.settings;
        std::vector<bool> stands(panel.staves.size());
        std::vector<bool> locked;
        const auto put = [&](std::size_t index, bool isLocked) {
            panel.order.push_back({static_cast<int>(index), poses[index]});
            locked.push_back(isLocked || panel.isGlued);
            stands[index] = true;
        };
        for (const GluedStave& glued : panel.chosen.staves) {
            const auto found = std::find_if(
                panel.staves.begin(), panel.staves.end(),
                [&](const PanelStave& stave) { return stave.purpose.stave == glued.stave; });
            if (found == panel.staves.end()) {
                panel.moved.push_back(panel.label + "-" + std::to_string(glued.stave) +
                                      " is no longer in the plan.");
                continue;
            }
            const auto index = static_cast<std::size_t>(found - panel.staves.begin());
            put(index, glued.locked);
            tellMoves(panel, index, poses[index], glued);
        }
        for (std::size_t index = 0; index < panel.staves.size(); ++index) {
            if (!stands[index]) {
                if (!panel.chosen.staves.empty()) {
                    panel.moved.push_back(panel.staves[index].label +
                                          " is new and stands at the far edge.");
                }
                put(index, false);
            }
        }
        glueup::PanelWish wish;
        wish.staves = static_cast<int>(panel.staves.size());
        wish.rings = panel.chosen.rings;
        wish.noCentreSeam = panel.chosen.noCentreSeam;
        for (std::size_t place = 0; place < panel.order.size(); ++place) {
            wish.locked.push_back(locked[place] ? std::optional(panel.order[place]) : std::nullopt);
        }
        panel.problem.panels = {wish};
        for (std::string& sentence : notShown(m_document, panel)) {
            panel.moved.push_back(std::move(sentence));
        }
    }

    void tellMoves(Panel& panel, std::size_t index, int pose, const GluedStave& glued) const {
        const PanelStave& stave = panel.staves[index];
        const LengthStyle style{m_document.info.units, m_document.info.inchDenominator, true};
        if (glued.board != stave.board) {
            panel.moved.push_back(stave.label + " now comes from board " + stave.boardMark + ".");
        } else if (glued.at != stave.at) {
            panel.moved.push_back(stave.label + " now begins at " +
                                  saidLength(stave.woodAt, style) + " on board " + stave.boardMark +
                                  ".");
        }
        if (glued.width != stave.net.width()) {
            panel.moved.push_back(stave.label + " is now " + saidLength(stave.net.width(), style) +
                                  " wide, it was " + saidLength(glued.width, style) + ".");
        }
        if (glueup::poseIndex(glued.pose) != pose) {
            panel.moved.push_back(stave.label + " was turned in the layout.");
        }
    }

    const Document& m_document;
    const LooksOnBoard& m_looks;
    std::vector<BlankSpec> m_specs;
    planning::Thicknesses m_thicknesses;
    std::map<PanelName, Panel> m_panels;
    std::map<PanelName, std::vector<int>> m_poses;
};

} // namespace

Result<std::vector<Panel>> panelsOf(const Document& document, const LooksOnBoard& looks) {
    if (!document.plan) {
        return std::vector<Panel>{};
    }
    Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    return Reader(document, looks, std::move(specs).value()).read();
}

const Panel* findPanel(const std::vector<Panel>& panels, const PanelName& name) {
    const auto found = std::find_if(panels.begin(), panels.end(),
                                    [&](const Panel& panel) { return panel.name == name; });
    return found == panels.end() ? nullptr : &*found;
}

const PanelArrangement* findArrangement(const GlueUp& glueUp, const PanelName& name) {
    const auto found =
        std::find_if(glueUp.panels.begin(), glueUp.panels.end(),
                     [&](const PanelArrangement& panel) { return panel.panel == name; });
    return found == glueUp.panels.end() ? nullptr : &*found;
}

bool canExchange(const Panel& first, const Panel& second) {
    const auto isHeld = [](const PanelStave& stave) { return stave.isHeld; };
    return std::none_of(first.staves.begin(), first.staves.end(), isHeld) &&
           std::none_of(second.staves.begin(), second.staves.end(), isHeld) &&
           first.name.part == second.name.part && first.name.ply == second.name.ply &&
           !(first.name == second.name) && first.chosen.rings == second.chosen.rings &&
           !first.isGlued && !second.isGlued;
}

PairProblem sideBySide(const Panel& first, const Panel& second) {
    PairProblem pair{first.problem, first.order};
    pair.problem.exchange = canExchange(first, second);
    // Where a panel does not keep to its widths now, it comes no farther from them.
    const auto limit = [](const Panel& panel, glueup::PanelWish& wish) {
        wish.leastWidth = std::min(panel.wanted, panel.width);
        wish.mostWidth = std::max(panel.most, panel.width);
    };
    limit(first, pair.problem.panels.front());
    const int shift = static_cast<int>(first.staves.size());
    pair.problem.staves.insert(pair.problem.staves.end(), second.problem.staves.begin(),
                               second.problem.staves.end());
    glueup::PanelWish wish = second.problem.panels.front();
    for (std::optional<Placed>& locked : wish.locked) {
        if (locked) {
            locked->stave += shift;
        }
    }
    limit(second, wish);
    pair.problem.panels.push_back(std::move(wish));
    for (const Placed& placed : second.order) {
        pair.order.push_back({placed.stave + shift, placed.pose});
    }
    return pair;
}

glueup::Order asTheyCome(const Panel& panel) {
    glueup::Order order = panel.order;
    std::sort(order.begin(), order.end(),
              [](const Placed& a, const Placed& b) { return a.stave < b.stave; });
    return order;
}

} // namespace stavewright::panels
