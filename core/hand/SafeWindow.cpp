#include "core/hand/SafeWindow.h"

#include <algorithm>

#include "core/hand/Packing.h"
#include "core/hand/PlanTree.h"
#include "core/planning/Kept.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

BlankPurpose panelOf(BlankPurpose purpose) {
    purpose.stave = 0;
    return purpose;
}

Length kerfOf(const Shop& shop, const Section& section) {
    return section.facing == FirstFacing::RoughRippedFirst ? shop.machines.roughRip.kerf
                                                           : shop.machines.rip.kerf;
}

std::size_t indexOf(const std::vector<Section>& sections, SectionId id) {
    return static_cast<std::size_t>(
        std::find_if(sections.begin(), sections.end(),
                     [id](const Section& each) { return each.id == id; }) -
        sections.begin());
}

std::size_t indexOf(const std::vector<Strip>& strips, StripId id) {
    return static_cast<std::size_t>(
        std::find_if(strips.begin(), strips.end(),
                     [id](const Strip& each) { return each.id == id; }) -
        strips.begin());
}

/// From here on the cut is made: sizes may differ from the plan's.
void makeCut(Section& section, const CutRef& cut) {
    if (section.state == CutState::Planned) {
        section.state = CutState::Cut;
    }
    for (Strip& strip : section.strips) {
        for (Blank& blank : strip.blanks) {
            const bool differs = blank.actual.has_value();
            if (blank.state == CutState::Planned && differs) {
                blank.state = cut.strip ? CutState::Ripped : CutState::Cut;
            }
        }
    }
}

} // namespace

SafeWindows::SafeWindows(const Document& document)
    : m_document(document)
    , m_judge(document) {
    if (Result<std::vector<BlankSpec>> specs = blankSpecs(document)) {
        m_specs = std::move(specs).value();
    }
    for (const BoardLayout& layout : document.plan->boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const BlankSpec* spec = specOf(m_specs, blank.purpose);
                    if (spec && spec->staves) {
                        m_nets[panelOf(blank.purpose)] +=
                            planning::woodOf(blank).width() - spec->staves->jointAllowance;
                    }
                }
            }
        }
    }
}

std::vector<CutRef> SafeWindows::cutsOn(BoardId board) const {
    std::vector<CutRef> cuts;
    const BoardLayout* found = layoutOf(*m_document.plan, board);
    const Board* wood = findBoard(m_document, board);
    if (!found || !wood) {
        return cuts;
    }
    BoardLayout layout = *found;
    dropPlannedOffcuts(layout);
    const Length kerf = m_document.shop.machines.crosscut.kerf;
    const Rect box = boundingBox(wood->outline);
    for (std::size_t i = 0; i < layout.sections.size(); ++i) {
        const Section& section = layout.sections[i];
        if (section.state != CutState::Planned) {
            continue;
        }
        const bool shared = i > 0 && section.along.from == layout.sections[i - 1].along.to + kerf;
        if (!shared && section.along.from != box.x0) {
            cuts.push_back({section.id, std::nullopt, false});
        }
        if (section.along.to != box.x1) {
            cuts.push_back({section.id, std::nullopt, true});
        }
    }
    for (const Section& section : layout.sections) {
        const Length rip = kerfOf(m_document.shop, section);
        for (std::size_t s = 0; s < section.strips.size(); ++s) {
            const Strip& strip = section.strips[s];
            const bool isDone =
                std::any_of(strip.blanks.begin(), strip.blanks.end(),
                            // crosscut and milled pieces are still in one width
                            [](const Blank& blank) { return blank.state >= CutState::Ripped; });
            if (isDone) {
                continue;
            }
            const bool shared = s > 0 && strip.across.from == section.strips[s - 1].across.to + rip;
            if (!shared && strip.across.from > Length()) {
                cuts.push_back({section.id, strip.id, false});
            }
            cuts.push_back({section.id, strip.id, true});
        }
    }
    return cuts;
}

Length SafeWindows::markOf(const BoardLayout& layout, const CutRef& cut) const {
    const Section& section = layout.sections[indexOf(layout.sections, cut.section)];
    if (!cut.strip) {
        return cut.high ? section.along.to : section.along.from;
    }
    const Strip& strip = section.strips[indexOf(section.strips, *cut.strip)];
    return cut.high ? strip.across.to : strip.across.from;
}

std::optional<Length> SafeWindows::markOf(BoardId board, const CutRef& cut) const {
    const BoardLayout* layout = layoutOf(*m_document.plan, board);
    if (!layout) {
        return std::nullopt;
    }
    const std::size_t s = indexOf(layout->sections, cut.section);
    if (s == layout->sections.size() ||
        (cut.strip &&
         indexOf(layout->sections[s].strips, *cut.strip) == layout->sections[s].strips.size())) {
        return std::nullopt;
    }
    return markOf(*layout, cut);
}

std::optional<Landed> SafeWindows::landed(BoardId board, const CutRef& cut, Length where) const {
    const BoardLayout* found = layoutOf(*m_document.plan, board);
    const Board* wood = findBoard(m_document, board);
    if (!found || !wood) {
        return std::nullopt;
    }
    Landed landed{*found, {}};
    BoardLayout& layout = landed.layout;
    dropPlannedOffcuts(layout);
    const Packer packer(m_document, m_specs, m_judge, *wood);
    const std::size_t s = indexOf(layout.sections, cut.section);
    if (s == layout.sections.size()) {
        return std::nullopt;
    }
    const auto repack = [&](Section& section, std::optional<StripId> only, Yielding yielding) {
        for (Strip& strip : section.strips) {
            if (only && strip.id != *only) {
                continue;
            }
            PackedStrip packed = packer.pack(layout, section, strip, yielding);
            landed.lost.insert(landed.lost.end(), packed.lost.begin(), packed.lost.end());
            strip = std::move(packed.strip);
        }
        makeCut(section, cut);
    };
    if (!cut.strip) {
        const Length kerf = m_document.shop.machines.crosscut.kerf;
        Section& section = layout.sections[s];
        const Length by = where - (cut.high ? section.along.to : section.along.from);
        Section* next = cut.high && s + 1 < layout.sections.size() &&
                                layout.sections[s + 1].along.from == section.along.to + kerf
                            ? &layout.sections[s + 1]
                            : nullptr;
        (cut.high ? section.along.to : section.along.from) = where;
        if (section.along.from >= section.along.to) {
            return std::nullopt;
        }
        if (next) {
            next->along.from += by;
            if (next->along.from >= next->along.to) {
                return std::nullopt;
            }
        }
        repack(section, std::nullopt, cut.high ? Yielding::HighEnd : Yielding::LowEnd);
        if (next) {
            repack(*next, std::nullopt, Yielding::LowEnd);
        }
        return landed;
    }
    Section& section = layout.sections[s];
    const std::size_t t = indexOf(section.strips, *cut.strip);
    if (t == section.strips.size()) {
        return std::nullopt;
    }
    const Length kerf = kerfOf(m_document.shop, section);
    Strip& strip = section.strips[t];
    const Length by = where - (cut.high ? strip.across.to : strip.across.from);
    Strip* next = cut.high && t + 1 < section.strips.size() &&
                          section.strips[t + 1].across.from == strip.across.to + kerf
                      ? &section.strips[t + 1]
                      : nullptr;
    (cut.high ? strip.across.to : strip.across.from) = where;
    if (strip.across.from >= strip.across.to) {
        return std::nullopt;
    }
    if (next) {
        next->across.from += by;
        if (next->across.from >= next->across.to) {
            return std::nullopt;
        }
    }
    const StripId first = strip.id;
    const std::optional<StripId> second = next ? std::optional(next->id) : std::nullopt;
    repack(section, first, Yielding::HighEnd);
    if (second) {
        repack(section, second, Yielding::HighEnd);
    }
    return landed;
}

bool SafeWindows::panelsHold(const BoardLayout& before, const BoardLayout& after) const {
    std::map<BlankPurpose, Length> change;
    const auto add = [&](const BoardLayout& layout, int sign) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const BlankSpec* spec = specOf(m_specs, blank.purpose);
                    if (spec && spec->staves) {
                        change[panelOf(blank.purpose)] +=
                            (planning::woodOf(blank).width() - spec->staves->jointAllowance) * sign;
                    }
                }
            }
        }
    };
    add(before, -1);
    add(after, 1);
    return std::all_of(change.begin(), change.end(), [&](const auto& each) {
        const StavePool& pool = *specOf(m_specs, each.first)->staves;
        const Length was = m_nets.at(each.first);
        const Length now = was + each.second;
        return (now >= pool.netWanted || was < pool.netWanted) &&
               (now <= pool.netMost || now <= was);
    });
}

bool SafeWindows::isSafe(BoardId board, const CutRef& cut, Length where) const {
    const std::optional<Landed> there = landed(board, cut, where);
    return there && there->lost.empty() && m_judge.failures(there->layout).empty() &&
           panelsHold(*layoutOf(*m_document.plan, board), there->layout);
}

std::optional<CutWindow> SafeWindows::windowOf(BoardId board, const CutRef& cut) const {
    const BoardLayout* layout = layoutOf(*m_document.plan, board);
    if (!layout || indexOf(layout->sections, cut.section) == layout->sections.size()) {
        return std::nullopt;
    }
    CutWindow window;
    window.cut = cut;
    window.mark = markOf(*layout, cut);
    if (!isSafe(board, cut, window.mark)) {
        return std::nullopt; // the plan has other troubles there
    }
    const Length step = tapeMarksOf(m_document, {}).step;
    const auto widest = farthest / step;
    const auto lookTowards = [&](int sign, bool& open, std::vector<BlankPurpose>& lost,
                                 std::string& why) {
        const auto at = [&](std::int64_t marks) { return window.mark + step * (marks * sign); };
        // Mark by mark: between two safe places there may be one that is not.
        std::int64_t safe = 0;
        while (safe < widest && isSafe(board, cut, at(safe + 1))) {
            ++safe;
        }
        open = safe == widest;
        if (!open) {
            if (const std::optional<Landed> beyond = landed(board, cut, at(safe + 1))) {
                for (const Blank& blank : beyond->lost) {
                    lost.push_back(blank.purpose);
                }
                const std::vector<Finding> findings = m_judge.failures(beyond->layout);
                for (const Finding& finding : findings) {
                    const auto place =
                        placeOf(Plan{{beyond->layout}, {}, {}, {}, {}}, finding.blank);
                    if (lost.empty() && place) {
                        why = finding.sentence;
                        lost.push_back(beyond->layout.sections[place->section]
                                           .strips[place->strip]
                                           .blanks[place->blank]
                                           .purpose);
                    }
                }
                if (lost.empty()) {
                    why = findings.empty() ? "the panel's staves no longer add up to its width"
                                           : findings.front().sentence;
                }
            }
        }
        return at(safe);
    };
    window.window.from = lookTowards(-1, window.openBelow, window.lostBelow, window.whyBelow);
    window.window.to = lookTowards(1, window.openAbove, window.lostAbove, window.whyAbove);
    return window;
}

std::vector<CutWindow> SafeWindows::onBoard(BoardId board) const {
    std::vector<CutWindow> windows;
    for (const CutRef& cut : cutsOn(board)) {
        if (std::optional<CutWindow> window = windowOf(board, cut)) {
            windows.push_back(std::move(*window));
        }
    }
    return windows;
}

std::string sentenceOf(const Document& document, const CutWindow& window) {
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
    const auto named = [&](const std::vector<BlankPurpose>& lost) {
        std::string text;
        for (const BlankPurpose& purpose : lost) {
            text += (text.empty() ? "" : ", ") + labelOf(document, purpose);
        }
        return text;
    };
    std::string text = "anything from " + saidLength(window.window.from, style) + " to " +
                       saidLength(window.window.to, style) + " still gives every part";
    const std::string below = named(window.lostBelow);
    const std::string above = named(window.lostAbove);
    if (!below.empty() && below == above) {
        text += "; beyond, " + below + " is lost";
    } else {
        text += below.empty() ? "" : "; below, " + below + " is lost";
        text += above.empty() ? "" : "; above, " + above + " is lost";
    }
    return text;
}

} // namespace stavewright::hand
