#include "core/planning/NearestMiss.h"

#include <algorithm>
#include <array>
#include <optional>
#include <tuple>

#include "core/geometry/PolygonOps.h"
#include "core/planning/BlankZoneAt.h"
#include "core/planning/DefectRuling.h"
#include "core/wood/Species.h"

namespace stavewright::planning {

namespace {

/// A region in the way: a defect that a zone of the blank forbids, or wood that is already taken.
struct Hindrance {
    const Defect* defect = nullptr;
    const BlankZone* zone = nullptr;
    BlankPurpose taker; ///< when it is no defect
    Length depth;       ///< how far along the grain it reaches into what must be clear
};

struct Place {
    const Board* board = nullptr;
    Stretch along;
    std::vector<Hindrance> hindrances;

    [[nodiscard]] Length depth() const {
        Length sum;
        for (const Hindrance& hindrance : hindrances) {
            sum += hindrance.depth;
        }
        return sum;
    }
    /// Fewest in the way, then the least of it.
    [[nodiscard]] bool isNearerThan(const Place& other) const {
        return std::make_tuple(hindrances.size(), depth()) <
               std::make_tuple(other.hindrances.size(), other.depth());
    }
};

/// A forbidden region of one board for one zone of the blank, on one of the board's faces.
struct ForbiddenRegion {
    const BlankZone* zone = nullptr;
    BoardFace face = BoardFace::A;
    const Defect* defect = nullptr;
    Polygon region;
    Rect box;
};

struct TakenRegion {
    BlankPurpose taker;
    Rect box;
};

Length overlapAlong(const Rect& a, const Rect& b) { return std::min(a.x1 - b.x0, b.x1 - a.x0); }

constexpr std::array<Pose, 4> poses = {Pose{false, false}, Pose{true, false}, Pose{false, true},
                                       Pose{true, true}};

class MissFinder {
  public:
    MissFinder(const Document& document, const Thicknesses& thicknesses, const Plan& plan,
               const BlankSpec& spec)
        : m_document(document)
        , m_plan(plan)
        , m_spec(spec)
        , m_part(*findPart(document, spec.part)) {
        const Length finished = finishedThickness(document, m_part, thicknesses);
        m_apart = surfacesApart(m_part, finished);
        m_thickness = thicknessToReach(document, m_part, finished);
    }

    std::string sentence() {
        if (std::optional<std::string> reason = noBoardAtAll()) {
            return *reason;
        }
        Place nearest;
        for (const Board* board : m_boards) {
            search(*board, nearest);
        }
        return nearest.board ? describe(nearest) : tooNarrow();
    }

  private:
    [[nodiscard]] std::string say(Length length) const {
        return formatLength(length, {m_document.info.units, m_document.info.inchDenominator, true});
    }

    [[nodiscard]] Stretch usable(const Board& board) const {
        const Rect box = boundingBox(board.outline);
        return {box.x0 + rawEnd(board.trimAtDatum, m_document.shop),
                box.x1 - rawEnd(board.trimAtFar, m_document.shop)};
    }

    /// Boards fall out by species, machine, length and thickness, in the order in which a maker
    /// would ask; the boards that remain are those worth searching.
    std::optional<std::string> noBoardAtAll() {
        for (const Board& board : m_document.boards) {
            if (board.species == m_part.species && !board.setAside) {
                m_boards.push_back(&board);
            }
        }
        const Species* species = findSpecies(m_part.species);
        if (m_boards.empty()) {
            return "There is no board of " +
                   (species ? std::string(species->name) : m_part.species) + " to cut it from.";
        }
        const Machines& machines = m_document.shop.machines;
        for (const auto& [name, capacity] : {std::pair("jointer", machines.jointerWidth),
                                             std::pair("planer", machines.planerWidth)}) {
            if (capacity > Length() && m_spec.width > capacity) {
                return "The blank is " + say(m_spec.width) + " wide, but the " + name + " takes " +
                       say(capacity) + ".";
            }
        }
        const auto longest =
            std::max_element(m_boards.begin(), m_boards.end(), [&](const Board* a, const Board* b) {
                return usable(*a).length() < usable(*b).length();
            });
        if (usable(**longest).length() < m_spec.length) {
            return "No board is " + say(m_spec.length) +
                   " long between its raw ends: the longest is board " + (*longest)->mark +
                   " with " + say(usable(**longest).length()) + ".";
        }
        return noBoardThickEnough();
    }

    std::optional<std::string> noBoardThickEnough() {
        const Board* thickest = nullptr;
        Length best;
        std::vector<const Board*> enough;
        for (const Board* board : m_boards) {
            const Length reached = bestThickness(*board);
            if (!thickest || reached > best) {
                thickest = board;
                best = reached;
            }
            if (reached >= m_thickness) {
                enough.push_back(board);
            }
        }
        m_boards = std::move(enough);
        if (!m_boards.empty()) {
            return std::nullopt;
        }
        return "No board reaches " + say(m_thickness) + " in thickness at " + say(m_spec.length) +
               " in length: the best is board " + thickest->mark + " with " + say(best) + ".";
    }

    /// Of a piece of the blank's own size, at the better end where the warp sits at one of them.
    [[nodiscard]] Length bestThickness(const Board& board) const {
        const Stretch at = usable(board);
        const Length cleaning = m_document.shop.cleaning;
        if (at.length() < m_spec.length) {
            return {};
        }
        return std::max(
            reachableThickness(board, {at.from, at.from + m_spec.length}, m_spec.width, cleaning),
            reachableThickness(board, {at.to - m_spec.length, at.to}, m_spec.width, cleaning));
    }

    [[nodiscard]] std::vector<ForbiddenRegion> forbiddenOn(const Board& board) const {
        std::vector<ForbiddenRegion> regions;
        for (const BlankZone& zone : m_spec.zones) {
            const RuleSet* rules = findRuleSet(m_document.shop, zone.rules);
            for (const Defect& defect : board.defects) {
                if (!rules || rulingFor(*rules, defect) != Ruling::Forbidden) {
                    continue;
                }
                for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
                    if (auto region = judgedRegion(*rules, defect, board, face, m_apart)) {
                        const Rect box = boundingBox(*region);
                        regions.push_back({&zone, face, &defect, std::move(*region), box});
                    }
                }
            }
        }
        return regions;
    }

    [[nodiscard]] std::vector<TakenRegion> takenOn(const Board& board) const {
        std::vector<TakenRegion> taken;
        for (const BoardLayout& layout : m_plan.boards) {
            if (layout.board != board.id) {
                continue;
            }
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        taken.push_back(
                            {blank.purpose, boundingBox(toOuter(section.frame, blank.rect))});
                    }
                }
            }
        }
        return taken;
    }

    [[nodiscard]] static std::vector<ForbiddenRegion>
    reachedBy(const std::vector<ForbiddenRegion>& regions, Stretch along) {
        std::vector<ForbiddenRegion> reached;
        for (const ForbiddenRegion& region : regions) {
            if (region.box.x0 < along.to && along.from < region.box.x1) {
                reached.push_back(region);
            }
        }
        return reached;
    }

    /// Lays the blank down in steps over the whole board, four poses at each place.
    void search(const Board& board, Place& nearest) const {
        const std::vector<ForbiddenRegion> forbidden = forbiddenOn(board);
        const std::vector<TakenRegion> taken = takenOn(board);
        const Stretch at = usable(board);
        const Length spare = at.length() - m_spec.length;
        if (spare < Length()) {
            return;
        }
        const Length stepAlong = std::max(Length::millimetres(10), spare / 96);
        for (Length x = at.from; x <= at.to - m_spec.length; x += stepAlong) {
            const Stretch along{x, x + m_spec.length};
            const std::optional<Stretch> clear = clearAcross(board.outline, along);
            if (!clear || clear->length() < m_spec.width ||
                reachableThickness(board, along, m_spec.width, m_document.shop.cleaning) <
                    m_thickness) {
                continue;
            }
            const std::vector<ForbiddenRegion> nearby = reachedBy(forbidden, along);
            const Length stepAcross =
                std::max(Length::millimetres(6), (clear->length() - m_spec.width) / 8);
            for (Length y = clear->from; y <= clear->to - m_spec.width; y += stepAcross) {
                const Rect blank{x, y, along.to, y + m_spec.width};
                for (const Pose pose : poses) {
                    const std::size_t most =
                        nearest.board ? nearest.hindrances.size() : forbidden.size() + taken.size();
                    Place place{&board, along, hindrancesAt(blank, pose, nearby, taken, most)};
                    if (!nearest.board || place.isNearerThan(nearest)) {
                        nearest = std::move(place);
                    }
                }
            }
        }
    }

    /// Stops counting once there are more than `most`.
    [[nodiscard]] std::vector<Hindrance> hindrancesAt(const Rect& blank, Pose pose,
                                                      const std::vector<ForbiddenRegion>& forbidden,
                                                      const std::vector<TakenRegion>& taken,
                                                      std::size_t most) const {
        std::vector<Hindrance> found;
        for (const TakenRegion& region : taken) {
            if (region.box.overlaps(blank)) {
                found.push_back({nullptr, nullptr, region.taker, overlapAlong(region.box, blank)});
            }
        }
        for (const ForbiddenRegion& region : forbidden) {
            if (found.size() > most) {
                break;
            }
            if (!region.box.overlaps(blank) || faceOnBoard(*region.zone, pose) != region.face) {
                continue;
            }
            const Rect zone = zoneRect(*region.zone, blank, pose);
            if (!region.box.overlaps(zone) || !interiorsMeet(region.region, polygonOf(zone))) {
                continue;
            }
            const Length depth = overlapAlong(region.box, zone);
            const auto same = std::find_if(found.begin(), found.end(), [&](const Hindrance& h) {
                return h.defect == region.defect;
            });
            if (same == found.end()) {
                found.push_back({region.defect, region.zone, {}, depth});
            } else if (depth > same->depth) {
                *same = {region.defect, region.zone, {}, depth};
            }
        }
        return found;
    }

    [[nodiscard]] std::string tooNarrow() const {
        return "No board is " + say(m_spec.width) + " wide over " + say(m_spec.length) +
               " of length where it is thick enough.";
    }

    [[nodiscard]] std::string describe(const Place& place) const {
        const std::string where = "board " + place.board->mark + " from " + say(place.along.from) +
                                  " to " + say(place.along.to);
        if (place.hindrances.empty()) {
            return "There is room on " + where +
                   ", but the cuts of this plan do not lead to it; a longer search may find how.";
        }
        const Hindrance& worst = *std::max_element(
            place.hindrances.begin(), place.hindrances.end(),
            [](const Hindrance& a, const Hindrance& b) { return a.depth < b.depth; });
        std::string text = "Nearest: " + where + ", but ";
        if (worst.defect) {
            text += std::string(nameOf(worst.defect->kind)) + " " + worst.defect->mark +
                    " lies in its " + worst.zone->name;
        } else {
            text += labelOf(m_document, worst.taker) + " comes from there";
        }
        if (place.hindrances.size() > 1) {
            text += " (and " + std::to_string(place.hindrances.size() - 1) + " more in the way)";
        }
        return text + "; " + say(worst.depth) + " short of clear wood.";
    }

    const Document& m_document;
    const Plan& m_plan;
    const BlankSpec& m_spec;
    const Part& m_part;
    Length m_apart;
    Length m_thickness;
    std::vector<const Board*> m_boards;
};

/// Net width of the panel's staves that are placed.
Length netPlaced(const Plan& plan, const BlankSpec& spec, const BlankPurpose& panel) {
    Length net;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    BlankPurpose purpose = blank.purpose;
                    purpose.stave = 0;
                    if (purpose == panel) {
                        net += blank.rect.width() - spec.staves->jointAllowance;
                    }
                }
            }
        }
    }
    return net;
}

} // namespace

void explainUnplaced(const Document& document, const std::vector<BlankSpec>& specs,
                     const Thicknesses& thicknesses, Plan& plan) {
    std::map<const BlankSpec*, std::string> reasons;
    for (Unplaced& unplaced : plan.unplaced) {
        const BlankSpec* spec = specOf(specs, unplaced.purpose);
        if (!spec) {
            continue;
        }
        auto reason = reasons.find(spec);
        if (reason == reasons.end()) {
            reason =
                reasons.emplace(spec, MissFinder(document, thicknesses, plan, *spec).sentence())
                    .first;
        }
        unplaced.nearestMiss = reason->second;
        if (spec->staves) {
            BlankPurpose panel = unplaced.purpose;
            panel.stave = 0;
            const Length missing = spec->staves->netWanted - netPlaced(plan, *spec, panel);
            const LengthStyle style{document.info.units, document.info.inchDenominator, true};
            if (missing > Length()) {
                unplaced.nearestMiss =
                    "The staves are " + formatLength(missing, style) + " short of the panel's " +
                    formatLength(spec->staves->netWanted, style) + ". " + reason->second;
            }
        }
    }
}

} // namespace stavewright::planning
