#include "core/planning/Kept.h"

#include <algorithm>
#include <map>

#include "core/geometry/PolygonOps.h"
#include "core/layout/PieceState.h"
#include "core/lumber/BoardShape.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/planning/PanelWidth.h"

namespace stavewright::planning {

namespace {

bool isHeld(const Blank& blank) { return blank.locked || blank.state != CutState::Planned; }

bool isCut(const Offcut& offcut) { return offcut.state != CutState::Planned; }

bool isCounted(const BlankSpec& spec, const BlankPurpose& purpose) {
    const int number = purpose.instance - 1;
    const bool isOne =
        number >= 0 && number % spec.partsPerBlank == 0 && number / spec.partsPerBlank < spec.count;
    return isOne && (spec.staves ? purpose.stave >= 1 : purpose.stave == 0);
}

/// Greatest width of the board between two crosscuts.
Length widestBetween(const Board& board, Stretch along) {
    Length widest;
    const auto measureAt = [&](Length x) {
        if (const std::optional<Stretch> across = acrossAt(board.outline, x)) {
            widest = std::max(widest, across->length());
        }
    };
    measureAt(along.from);
    measureAt(along.to);
    for (const Station& station : stationsOf(board.outline)) {
        if (station.x > along.from && station.x < along.to) {
            measureAt(station.x);
        }
    }
    return widest;
}

class KeptFinder {
  public:
    KeptFinder(const Document& document, const std::vector<BlankSpec>& specs)
        : m_document(document)
        , m_specs(specs) {}

    Kept find() {
        Kept kept;
        if (!m_document.plan) {
            return kept;
        }
        for (const ThicknessChoice& choice : m_document.plan->thicknesses) {
            m_chosen[choice.part] = choice.finished;
        }
        // What must stay has the first claim on the demand.
        forEachStaying([&](const BoardLayout& layout, const Section& section) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    if (staysAnyway(layout, section, blank)) {
                        claim(blank);
                    }
                }
            }
        });
        forEachStaying([&](const BoardLayout& layout, const Section& section) {
            if (kept.boards.empty() || kept.boards.back().board != layout.board) {
                kept.boards.push_back({layout.board, {}, layout.locked});
            }
            kept.boards.back().sections.push_back(staying(layout, section));
        });
        return kept;
    }

  private:
    struct Claims {
        std::set<int> staves;
        Length net;
    };

    template <class Visit>
    void forEachStaying(const Visit& visit) const {
        for (const BoardLayout& layout : m_document.plan->boards) {
            for (const Section& section : layout.sections) {
                if (mustStay(layout, section)) {
                    visit(layout, section);
                }
            }
        }
    }

    static bool staysAnyway(const BoardLayout& layout, const Section& section, const Blank& blank) {
        return layout.locked || section.locked || isHeld(blank);
    }

    void claim(const Blank& blank) {
        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        Claims& claims = m_claims[wholeOf(blank.purpose)];
        if (claims.staves.insert(blank.purpose.stave).second && spec && spec->staves) {
            claims.net += netWidthOf(blank, *spec->staves);
        }
    }

    Section staying(const BoardLayout& layout, const Section& section) {
        Section kept = section;
        const Board* board = findBoard(m_document, layout.board);
        for (Strip& strip : kept.strips) {
            std::erase_if(strip.blanks, [&](const Blank& blank) {
                if (staysAnyway(layout, section, blank)) {
                    return false;
                }
                if (!board || !mayStay(*board, section, strip, blank)) {
                    return true;
                }
                claim(blank);
                return false;
            });
        }
        if (!section.locked && !layout.locked && section.state == CutState::Planned) {
            std::erase_if(kept.strips, [](const Strip& strip) {
                return strip.blanks.empty() &&
                       std::none_of(strip.offcuts.begin(), strip.offcuts.end(), isCut);
            });
        }
        return kept;
    }

    [[nodiscard]] bool mayStay(const Board& board, const Section& section, const Strip& strip,
                               const Blank& blank) const {
        const BlankSpec* spec = specOf(m_specs, blank.purpose);
        return spec && isWanted(*spec, blank) && isGoodWood(board, section, strip, *spec, blank);
    }

    [[nodiscard]] bool isWanted(const BlankSpec& spec, const Blank& blank) const {
        const auto found = m_claims.find(wholeOf(blank.purpose));
        const Claims claims = found == m_claims.end() ? Claims{} : found->second;
        if (!isCounted(spec, blank.purpose) || claims.staves.contains(blank.purpose.stave) ||
            blank.rect.length() != spec.length) {
            return false;
        }
        if (!spec.staves) {
            return blank.rect.width() == spec.width;
        }
        const StavePool& pool = *spec.staves;
        const Length width = blank.rect.width();
        return width >= pool.leastRough && width <= pool.widestRough &&
               claims.net + width - pool.jointAllowance <= pool.netMost &&
               static_cast<int>(claims.staves.size()) < pool.most;
    }

    [[nodiscard]] bool isGoodWood(const Board& board, const Section& section, const Strip& strip,
                                  const BlankSpec& spec, const Blank& blank) const {
        const Part& part = *findPart(m_document, spec.part);
        const Length finished = finishedThickness(m_document, part, m_chosen);
        const Length faced = section.facing == FirstFacing::Whole
                                 ? widestBetween(board, section.along)
                                 : strip.across.length();
        const Length needed = thicknessToReach(m_document, part, finished);
        const std::optional<Length> planed = planedTo(section, strip);
        const Polygon outline = toOuter(section.frame, blank.rect);
        const Rect box = boundingBox(outline);
        const Rect whole = boundingBox(board.outline);
        return !board.setAside && board.species == part.species && !isBarred(board, part, box) &&
               board.thinnest <= spec.thickestRough &&
               reachableThickness(board, section.along, faced, m_document.shop.cleaning) >=
                   needed &&
               (!planed || *planed >= needed) &&
               box.x0 >= whole.x0 + rawEnd(board.trimAtDatum, m_document.shop) &&
               box.x1 <= whole.x1 - rawEnd(board.trimAtFar, m_document.shop) &&
               coveredWithinTolerance(outline, board.outline) &&
               isClear(board, section, spec, blank, surfacesApart(part, finished));
    }

    [[nodiscard]] bool isBarred(const Board& board, const Part& part, const Rect& box) const {
        return std::any_of(
            m_document.boardRules.begin(), m_document.boardRules.end(), [&](const BoardRule& rule) {
                const bool reaches =
                    !rule.along || (rule.along->from < box.x1 && box.x0 < rule.along->to);
                return rule.board == board.id && rule.bars(part.id) && reaches;
            });
    }

    [[nodiscard]] bool isClear(const Board& board, const Section& section, const BlankSpec& spec,
                               const Blank& blank, Length apart) const {
        for (const BlankZone& zone : spec.zones) {
            const RuleSet* rules = findRuleSet(m_document.shop, zone.rules);
            if (!rules) {
                continue;
            }
            const BoardFace face = faceOnBoard(zone, blank.pose);
            const Polygon lies = toOuter(section.frame, zoneRect(zone, blank.rect, blank.pose));
            const Rect box = boundingBox(lies);
            for (const Defect& defect : board.defects) {
                if (rulingFor(*rules, defect) != Ruling::Forbidden ||
                    !reachOf(*rules, defect).overlaps(box)) {
                    continue;
                }
                const std::optional<Polygon> region =
                    judgedRegion(*rules, defect, board, face, apart);
                if (region && interiorsMeet(*region, lies)) {
                    return false;
                }
            }
        }
        return true;
    }

    const Document& m_document;
    const std::vector<BlankSpec>& m_specs;
    Thicknesses m_chosen;
    std::map<BlankPurpose, Claims> m_claims; ///< by blank or panel
};

} // namespace

bool mustStay(const BoardLayout& layout, const Section& section) {
    if (layout.locked || section.locked || section.state != CutState::Planned ||
        std::any_of(section.offcuts.begin(), section.offcuts.end(), isCut)) {
        return true;
    }
    return std::any_of(section.strips.begin(), section.strips.end(), [](const Strip& strip) {
        return std::any_of(strip.blanks.begin(), strip.blanks.end(), isHeld) ||
               std::any_of(strip.offcuts.begin(), strip.offcuts.end(), isCut);
    });
}

Kept keptOf(const Document& document, const std::vector<BlankSpec>& specs) {
    return KeptFinder(document, specs).find();
}

std::set<PartId> partsOf(const Kept& kept) {
    std::set<PartId> parts;
    for (const BoardLayout& layout : kept.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    parts.insert(blank.purpose.part);
                }
            }
        }
    }
    return parts;
}

Thicknesses thicknessesOf(const Document& document, const Kept& kept) {
    Thicknesses chosen;
    const std::set<PartId> parts = partsOf(kept);
    if (document.plan) {
        for (const ThicknessChoice& choice : document.plan->thicknesses) {
            if (parts.contains(choice.part)) {
                chosen[choice.part] = choice.finished;
            }
        }
    }
    return chosen;
}

} // namespace stavewright::planning
