#include "core/planning/NearestPlace.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "core/geometry/PolygonOps.h"
#include "core/planning/BlankZoneAt.h"

namespace stavewright::planning {

namespace {

/// A forbidden region of one board for one zone of the blank, on one of the board's faces.
struct ForbiddenRegion {
    const BlankZone* zone = nullptr;
    BoardFace face = BoardFace::A;
    const Defect* defect = nullptr;
    const Polygon* region = nullptr;
    Rect box;
};

/// A blank of the plan and the wood that its cuts take round it.
struct TakenRegion {
    const Blank* blank = nullptr;
    Rect box;
};

/// How densely a board is gone over.
struct Steps {
    int along = 0;
    int across = 0;
    Length leastAlong;
    Length leastAcross;
};
const Steps wide{24, 3, Length::millimetres(10), Length::millimetres(6)};
const Steps narrow{96, 8, Length::millimetres(10), Length::millimetres(6)};
constexpr std::size_t boardsInNarrowSteps = 3;
/// An exact test of two polygons counts as much as so many places of the blank.
constexpr std::int64_t stepsOfOneTest = 8;

constexpr std::array<Pose, 4> poses = {Pose{false, false}, Pose{true, false}, Pose{false, true},
                                       Pose{true, true}};

Length overlapAlong(const Rect& a, const Rect& b) { return std::min(a.x1 - b.x0, b.x1 - a.x0); }

class PlaceFinder {
  public:
    PlaceFinder(const Document& document, const Statement& statement, const Plan& plan,
                const Sought& sought, LookingLimits& limits)
        : m_document(document)
        , m_statement(statement)
        , m_plan(plan)
        , m_spec(statement.specs[sought.kind])
        , m_zoneRules(statement.zoneRules[sought.kind])
        , m_thickness(sought.thickness)
        , m_limits(limits) {}

    NearestPlace find(const std::vector<const Board*>& boards) {
        std::vector<Place> nearestOfEach;
        for (const Board* board : boards) {
            std::optional<Place> nearest;
            goOver(*board, wide, nearest);
            if (m_limits.isOver()) {
                take(nearest);
                return std::move(m_found);
            }
            ++m_found.boardsLookedAt;
            if (nearest) {
                nearestOfEach.push_back(*nearest);
            }
            take(nearest);
        }
        m_found.isComplete = true;
        std::stable_sort(nearestOfEach.begin(), nearestOfEach.end(),
                         [](const Place& a, const Place& b) { return a.isNearerThan(b); });
        for (std::size_t i = 0; i < std::min(boardsInNarrowSteps, nearestOfEach.size()); ++i) {
            if (m_found.place->hindrances.empty()) {
                break;
            }
            std::optional<Place> nearest = m_found.place;
            goOver(*nearestOfEach[i].board, narrow, nearest);
            take(nearest);
        }
        return std::move(m_found);
    }

  private:
    void take(const std::optional<Place>& place) {
        if (place && (!m_found.place || place->isNearerThan(*m_found.place))) {
            m_found.place = place;
        }
    }

    [[nodiscard]] std::vector<ForbiddenRegion> forbiddenOn(const Board& board) const {
        std::vector<ForbiddenRegion> regions;
        const auto at = std::find(m_statement.boards.begin(), m_statement.boards.end(), board.id);
        if (at == m_statement.boards.end()) {
            return regions;
        }
        const cutting::Board& stated =
            m_statement.problem.boards[static_cast<std::size_t>(at - m_statement.boards.begin())];
        for (std::size_t z = 0; z < m_spec.zones.size(); ++z) {
            if (m_zoneRules[z] < 0) {
                continue;
            }
            const cutting::RuleLayer& layer =
                stated.layers[static_cast<std::size_t>(m_zoneRules[z])];
            for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
                for (const cutting::Block& block : face == BoardFace::A ? layer.onA : layer.onB) {
                    if (!block.fill) {
                        regions.push_back({&m_spec.zones[z], face,
                                           &board.defects[static_cast<std::size_t>(block.defect)],
                                           &block.region, boundingBox(block.region)});
                    }
                }
            }
        }
        return regions;
    }

    [[nodiscard]] std::vector<TakenRegion> takenOn(const Board& board) const {
        const Machines& machines = m_document.shop.machines;
        std::vector<TakenRegion> taken;
        for (const BoardLayout& layout : m_plan.boards) {
            if (layout.board != board.id) {
                continue;
            }
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        Rect box = boundingBox(toOuter(section.frame, woodOf(blank)));
                        box.x0 -= machines.stripCrosscut.kerf;
                        box.x1 += machines.stripCrosscut.kerf;
                        box.y0 -= machines.rip.kerf;
                        box.y1 += machines.rip.kerf;
                        taken.push_back({&blank, box});
                    }
                }
            }
        }
        return taken;
    }

    /// Lays the blank down in steps over the board, four poses at each place.
    void goOver(const Board& board, const Steps& steps, std::optional<Place>& nearest) {
        const Stretch at = betweenRawEnds(board, m_document.shop);
        const Length spare = at.length() - m_spec.length;
        if (spare < Length()) {
            return;
        }
        const std::vector<ForbiddenRegion> forbidden = forbiddenOn(board);
        const std::vector<TakenRegion> taken = takenOn(board);
        const Length stepAlong = std::max(steps.leastAlong, spare / steps.along);
        for (Length x = at.from; x <= at.to - m_spec.length; x += stepAlong) {
            --m_limits.steps;
            const Stretch along{x, x + m_spec.length};
            const std::optional<Stretch> clear = clearAcross(board.outline, along);
            if (!clear || reachableThickness(board, along, m_spec.width, m_document.shop.cleaning) <
                              m_thickness) {
                continue;
            }
            if (clear->length() > m_found.widest) {
                m_found.widest = clear->length();
                m_found.widestOn = &board;
            }
            std::vector<ForbiddenRegion> nearby;
            for (const ForbiddenRegion& region : forbidden) {
                if (region.box.x0 < along.to && along.from < region.box.x1) {
                    nearby.push_back(region);
                }
            }
            const Length spareAcross = clear->length() - m_spec.width;
            const Length stepAcross = std::max(steps.leastAcross, spareAcross / steps.across);
            for (Length y = clear->from; y <= clear->to - m_spec.width; y += stepAcross) {
                const Rect blank{x, y, along.to, y + m_spec.width};
                for (const Pose pose : poses) {
                    if (m_limits.isOver()) {
                        return;
                    }
                    const std::size_t most =
                        nearest ? nearest->hindrances.size() : nearby.size() + taken.size();
                    Place place{&board, along, hindrancesAt(blank, pose, nearby, taken, most)};
                    if (!nearest || place.isNearerThan(*nearest)) {
                        nearest = std::move(place);
                        if (nearest->hindrances.empty()) {
                            return;
                        }
                    }
                }
            }
        }
    }

    /// Stops counting once there are more than `most`.
    [[nodiscard]] std::vector<Hindrance> hindrancesAt(const Rect& blank, Pose pose,
                                                      const std::vector<ForbiddenRegion>& forbidden,
                                                      const std::vector<TakenRegion>& taken,
                                                      std::size_t most) {
        --m_limits.steps;
        std::vector<Hindrance> found;
        for (const TakenRegion& region : taken) {
            if (region.box.overlaps(blank)) {
                found.push_back({nullptr, nullptr, region.blank, overlapAlong(region.box, blank)});
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
            if (!region.box.overlaps(zone)) {
                continue;
            }
            m_limits.steps -= stepsOfOneTest;
            if (!interiorsMeet(*region.region, polygonOf(zone))) {
                continue;
            }
            const Length depth = overlapAlong(region.box, zone);
            const auto same = std::find_if(found.begin(), found.end(), [&](const Hindrance& h) {
                return h.defect == region.defect;
            });
            if (same == found.end()) {
                found.push_back({region.defect, region.zone, nullptr, depth});
            } else if (depth > same->depth) {
                *same = {region.defect, region.zone, nullptr, depth};
            }
        }
        return found;
    }

    const Document& m_document;
    const Statement& m_statement;
    const Plan& m_plan;
    const BlankSpec& m_spec;
    const std::vector<int>& m_zoneRules;
    Length m_thickness;
    LookingLimits& m_limits;
    NearestPlace m_found;
};

} // namespace

Length Place::depth() const {
    Length sum;
    for (const Hindrance& hindrance : hindrances) {
        sum += hindrance.depth;
    }
    return sum;
}

bool Place::isNearerThan(const Place& other) const {
    return std::make_tuple(hindrances.size(), depth()) <
           std::make_tuple(other.hindrances.size(), other.depth());
}

NearestPlace nearestPlace(const Document& document, const Statement& statement, const Plan& plan,
                          const Sought& sought, const std::vector<const Board*>& boards,
                          LookingLimits& limits) {
    return PlaceFinder(document, statement, plan, sought, limits).find(boards);
}

Stretch betweenRawEnds(const Board& board, const Shop& shop) {
    const Rect box = boundingBox(board.outline);
    return {box.x0 + rawEnd(board.trimAtDatum, shop), box.x1 - rawEnd(board.trimAtFar, shop)};
}

} // namespace stavewright::planning
