#include "core/lumber/Marking.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/BoardShape.h"

namespace stavewright {

namespace {

/// Drawn outlines stay small enough to be looked at corner by corner.
constexpr std::size_t mostCorners = 240;

Error refused(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

/// How far the point stands from the line through two others, in nanometres.
double distance(const Point& point, const Point& from, const Point& to) {
    const auto x = [](const Point& p) { return static_cast<double>(p.x.inNanometres()); };
    const auto y = [](const Point& p) { return static_cast<double>(p.y.inNanometres()); };
    const double dx = x(to) - x(from);
    const double dy = y(to) - y(from);
    const double length = std::hypot(dx, dy);
    if (length == 0) {
        return std::hypot(x(point) - x(from), y(point) - y(from));
    }
    return std::abs((x(point) - x(from)) * dy - (y(point) - y(from)) * dx) / length;
}

/// Keeps the ends and what stands further than the tolerance from the line between what is kept
/// (Douglas and Peucker, 1973).
void thin(const Polygon& line, std::size_t first, std::size_t last, double tolerance,
          std::vector<bool>& kept) {
    std::size_t farthest = first;
    double most = tolerance;
    for (std::size_t i = first + 1; i < last; ++i) {
        const double off = distance(line[i], line[first], line[last]);
        if (off > most) {
            most = off;
            farthest = i;
        }
    }
    if (farthest != first) {
        kept[farthest] = true;
        thin(line, first, farthest, tolerance, kept);
        thin(line, farthest, last, tolerance, kept);
    }
}

Polygon thinned(const Polygon& line, Length tolerance) {
    if (line.size() < 3) {
        return line;
    }
    double within = static_cast<double>(tolerance.inNanometres());
    for (;; within *= 2) {
        std::vector<bool> kept(line.size(), false);
        kept.front() = kept.back() = true;
        thin(line, 0, line.size() - 1, within, kept);
        Polygon result;
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (kept[i] && (result.empty() || !(line[i] == result.back()))) {
                result.push_back(line[i]);
            }
        }
        if (result.size() <= mostCorners || within > 1e9) {
            return result;
        }
    }
}

Result<FaceMark> marked(Polygon ring) {
    ring = normalised(std::move(ring));
    if (ring.size() < 3) {
        return refused("What was drawn has no area; a mark needs a length and a width.");
    }
    if (validatePolygon(ring).ok()) {
        return FaceMark{std::move(ring), std::nullopt};
    }
    Polygon hull = convexHull(ring);
    if (hull.size() < 3 || !validatePolygon(hull).ok()) {
        return refused("What was drawn has no area; a mark needs a length and a width.");
    }
    return FaceMark{std::move(hull), std::nullopt};
}

std::vector<Length> cornersBetween(const Polygon& outline, Stretch along) {
    std::vector<Length> xs = {along.from, along.to};
    for (const Point& corner : outline) {
        if (along.from < corner.x && corner.x < along.to) {
            xs.push_back(corner.x);
        }
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    return xs;
}

/// y of a line that runs on in x, at x; the line is ascending in x.
Length heightAt(const Polygon& line, Length x) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Point& from = line[i - 1];
        const Point& to = line[i];
        if (x <= to.x && from.x < to.x) {
            const Int128 share = ((to.y - from.y) * (x - from.x)).inSquareNanometres();
            return from.y + Length::nanometres(
                                static_cast<std::int64_t>(share / (to.x - from.x).inNanometres()));
        }
    }
    return line.back().y;
}

const FaceMark* loneMark(const Defect& defect) {
    if (defect.onA && defect.onB) {
        return nullptr;
    }
    return defect.onA ? &*defect.onA : (defect.onB ? &*defect.onB : nullptr);
}

/// Looks of one thoroughness on one face, merged where they touch or overlap.
void mergeLooks(std::vector<LookedAt>& looks) {
    for (std::size_t i = 0; i < looks.size(); ++i) {
        for (std::size_t k = i + 1; k < looks.size();) {
            const bool alike = looks[i].face == looks[k].face &&
                               looks[i].knotsUnder == looks[k].knotsUnder &&
                               looks[i].stretch.from <= looks[k].stretch.to &&
                               looks[k].stretch.from <= looks[i].stretch.to;
            if (!alike) {
                ++k;
                continue;
            }
            looks[i].stretch.from = std::min(looks[i].stretch.from, looks[k].stretch.from);
            looks[i].stretch.to = std::max(looks[i].stretch.to, looks[k].stretch.to);
            looks.erase(looks.begin() + static_cast<std::ptrdiff_t>(k));
            k = i + 1; // the wider one may touch others now
        }
    }
}

} // namespace

Result<FaceMark> ellipseBetween(Point corner, Point opposite) {
    const Length x0 = std::min(corner.x, opposite.x);
    const Length y0 = std::min(corner.y, opposite.y);
    const Length along = abs(opposite.x - corner.x);
    const Length across = abs(opposite.y - corner.y);
    if (along <= Length::micrometres(100) || across <= Length::micrometres(100)) {
        return refused("What was drawn has no area; a mark needs a length and a width.");
    }
    const Point centre{x0 + along / 2, y0 + across / 2};
    return FaceMark{ellipsePolygon(centre, along, across), Ellipse{centre, along, across, 0}};
}

Result<FaceMark> ringMark(const Polygon& drawn, Length tolerance) {
    return marked(thinned(drawn, tolerance));
}

Result<FaceMark> strokeMark(const Polygon& line, Length width, Length tolerance) {
    const Polygon path = thinned(line, tolerance);
    if (path.size() < 2) {
        return refused("A check is drawn from one end to the other; this is one point.");
    }
    Polygon ring;
    Polygon back;
    const double half = static_cast<double>(width.inNanometres()) / 2;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const Point& before = path[i == 0 ? 0 : i - 1];
        const Point& after = path[i + 1 < path.size() ? i + 1 : i];
        const double dx = static_cast<double>((after.x - before.x).inNanometres());
        const double dy = static_cast<double>((after.y - before.y).inNanometres());
        const double length = std::max(1.0, std::hypot(dx, dy));
        const Length offX = Length::nanometres(std::llround(-dy / length * half));
        const Length offY = Length::nanometres(std::llround(dx / length * half));
        ring.push_back({path[i].x - offX, path[i].y - offY});
        back.push_back({path[i].x + offX, path[i].y + offY});
    }
    ring.insert(ring.end(), back.rbegin(), back.rend());
    return marked(std::move(ring));
}

Result<FaceMark> waneMark(const Polygon& boardOutline, const Polygon& line, Length tolerance) {
    const Rect box = boundingBox(boardOutline);
    Polygon drawn = line;
    std::stable_sort(drawn.begin(), drawn.end(),
                     [](const Point& a, const Point& b) { return a.x < b.x; });
    drawn = thinned(drawn, tolerance);
    if (drawn.size() < 2 || drawn.front().x >= drawn.back().x) {
        return refused("Wane is drawn along an edge; this line has no length along the board.");
    }
    const Stretch along{std::clamp(drawn.front().x, box.x0, box.x1),
                        std::clamp(drawn.back().x, box.x0, box.x1)};
    if (along.from >= along.to) {
        return refused("The line of wane lies beyond the ends of the board.");
    }
    std::vector<Length> xs = cornersBetween(boardOutline, along);
    for (const Point& point : drawn) {
        xs.push_back(std::clamp(point.x, along.from, along.to));
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    Length fromNear;
    Length fromFar;
    for (const Length x : xs) {
        if (const auto across = acrossAt(boardOutline, x)) {
            fromNear += abs(heightAt(drawn, x) - across->from);
            fromFar += abs(across->to - heightAt(drawn, x));
        }
    }
    const bool near = fromNear <= fromFar;
    Polygon ring;
    Polygon back;
    for (const Length x : xs) {
        const auto across = acrossAt(boardOutline, x);
        if (!across) {
            continue;
        }
        const Length edge = near ? across->from : across->to;
        const Length inner = std::clamp(heightAt(drawn, x), across->from, across->to);
        ring.push_back({x, near ? edge : inner});
        back.push_back({x, near ? inner : edge});
    }
    ring.insert(ring.end(), back.rbegin(), back.rend());
    return marked(std::move(ring));
}

Result<FaceMark> stretchMark(const Polygon& boardOutline, Stretch along) {
    const Rect box = boundingBox(boardOutline);
    const Stretch within{std::clamp(std::min(along.from, along.to), box.x0, box.x1),
                         std::clamp(std::max(along.from, along.to), box.x0, box.x1)};
    if (within.from >= within.to) {
        return refused("The stretch has no length on the board.");
    }
    std::vector<Station> stations;
    for (const Length x : cornersBetween(boardOutline, within)) {
        if (const auto across = acrossAt(boardOutline, x)) {
            stations.push_back({x, across->from, across->to});
        }
    }
    return marked(outlineOf(stations));
}

Defect* findDefect(Board& board, DefectId id) {
    const auto found = std::find_if(board.defects.begin(), board.defects.end(),
                                    [id](const Defect& defect) { return defect.id == id; });
    return found == board.defects.end() ? nullptr : &*found;
}

const Defect* findDefect(const Board& board, DefectId id) {
    const auto found = std::find_if(board.defects.begin(), board.defects.end(),
                                    [id](const Defect& defect) { return defect.id == id; });
    return found == board.defects.end() ? nullptr : &*found;
}

std::optional<DefectId> partnerOf(const Board& board, DefectId id, Length reach) {
    const Defect* defect = findDefect(board, id);
    const FaceMark* mark = defect != nullptr ? loneMark(*defect) : nullptr;
    if (mark == nullptr) {
        return std::nullopt;
    }
    const Rect here = boundingBox(mark->outline);
    std::optional<DefectId> nearest;
    Length least;
    for (const Defect& other : board.defects) {
        const FaceMark* there = loneMark(other);
        const bool facing = there != nullptr && other.onA.has_value() != defect->onA.has_value();
        if (!facing) {
            continue;
        }
        const Rect box = boundingBox(there->outline);
        const Length alongOff = abs(box.x0 + box.x1 - here.x0 - here.x1) / 2;
        const Length acrossOff = abs(box.y0 + box.y1 - here.y0 - here.y1) / 2;
        if (alongOff <= reach && (!nearest || alongOff + acrossOff < least)) {
            nearest = other.id;
            least = alongOff + acrossOff;
        }
    }
    return nearest;
}

Board paired(Board board, DefectId kept, DefectId other) {
    const Defect* second = findDefect(board, other);
    Defect* first = findDefect(board, kept);
    if (first == nullptr || second == nullptr || kept == other || loneMark(*first) == nullptr ||
        loneMark(*second) == nullptr || first->onA.has_value() == second->onA.has_value()) {
        return board;
    }
    if (first->onA) {
        first->onB = second->onB;
    } else {
        first->onA = second->onA;
    }
    first->through = true;
    first->depth.reset();
    if (!second->note.empty()) {
        first->note += (first->note.empty() ? "" : "; ") + second->note;
    }
    std::erase_if(board.defects, [other](const Defect& defect) { return defect.id == other; });
    return board;
}

Board parted(Board board, DefectId id, DefectId newId, const std::string& mark) {
    Defect* defect = findDefect(board, id);
    if (defect == nullptr || !defect->onA || !defect->onB) {
        return board;
    }
    Defect onB = *defect;
    onB.id = newId;
    onB.mark = mark;
    onB.note.clear();
    onB.onA.reset();
    onB.through = false;
    defect->onB.reset();
    defect->through = false;
    board.defects.insert(board.defects.begin() + (defect - board.defects.data()) + 1,
                         std::move(onB));
    return board;
}

EndChecks endChecksOf(const Board& board, Length near) {
    const Rect wood = boundingBox(board.outline);
    EndChecks checks;
    for (const Defect& defect : board.defects) {
        if (defect.kind != DefectKind::Check && defect.kind != DefectKind::Split &&
            defect.kind != DefectKind::Shake) {
            continue;
        }
        for (const std::optional<FaceMark>* mark : {&defect.onA, &defect.onB}) {
            if (!*mark) {
                continue;
            }
            const Rect box = boundingBox((*mark)->outline);
            if (box.x0 - wood.x0 <= near) {
                checks.atDatum = std::max(checks.atDatum, box.x1 - wood.x0);
            }
            if (wood.x1 - box.x1 <= near) {
                checks.atFar = std::max(checks.atFar, wood.x1 - box.x0);
            }
        }
    }
    return checks;
}

Board withLook(Board board, const LookedAt& look) {
    // Quicker looks keep what lies beside the new one.
    std::vector<LookedAt> kept;
    for (const LookedAt& before : board.lookedAt) {
        const bool quicker =
            before.knotsUnder && (!look.knotsUnder || *look.knotsUnder <= *before.knotsUnder);
        const bool met = before.face == look.face && before.stretch.from < look.stretch.to &&
                         look.stretch.from < before.stretch.to;
        if (!quicker || !met) {
            kept.push_back(before);
            continue;
        }
        if (before.stretch.from < look.stretch.from) {
            kept.push_back(
                {before.face, {before.stretch.from, look.stretch.from}, before.knotsUnder});
        }
        if (look.stretch.to < before.stretch.to) {
            kept.push_back({before.face, {look.stretch.to, before.stretch.to}, before.knotsUnder});
        }
    }
    kept.push_back(look);
    mergeLooks(kept);
    board.lookedAt = std::move(kept);
    return board;
}

Board withRestLookedAt(Board board, BoardFace face, std::optional<Length> knotsUnder) {
    const Rect box = boundingBox(board.outline);
    for (const Stretch& open : notLookedAt(board, face, {box.x0, box.x1})) {
        board = withLook(std::move(board), {face, open, knotsUnder});
    }
    return board;
}

} // namespace stavewright
