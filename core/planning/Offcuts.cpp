// Finds the waste of a plan that is worth keeping. Only waste that the plan's own cuts set free
// counts: what stands between and behind sections, beside strips, between and behind blanks.

#include <algorithm>
#include <cmath>

#include "core/geometry/PolygonOps.h"
#include "core/planning/Kept.h"
#include "core/planning/Planner.h"
#include "core/planning/Statement.h"

namespace stavewright {

namespace {

class OffcutMarker {
  public:
    OffcutMarker(const Shop& shop, const Board& board, const BoardLayout* before,
                 std::int64_t& nextId)
        : m_shop(shop)
        , m_board(board)
        , m_before(before)
        , m_box(boundingBox(board.outline))
        , m_nextId(nextId) {}

    void mark(BoardLayout& layout) {
        clearOld(layout);
        for (Section& section : layout.sections) {
            if (!isUnchanged(layout, section)) {
                markStrips(section);
                markBeside(section);
                markCutOff(section);
            }
        }
        markBetweenSections(layout);
    }

  private:
    /// A section that must stay and stands as it did in the job's plan keeps what was marked in it.
    [[nodiscard]] bool isUnchanged(const BoardLayout& layout, const Section& section) const {
        return m_before && planning::mustStay(layout, section) &&
               std::find(m_before->sections.begin(), m_before->sections.end(), section) !=
                   m_before->sections.end();
    }

    /// What was marked before and is not cut yet is marked anew.
    void clearOld(BoardLayout& layout) const {
        const auto isOnlyMarked = [](const Offcut& offcut) {
            return offcut.state == CutState::Planned;
        };
        for (Section& section : layout.sections) {
            if (isUnchanged(layout, section)) {
                continue;
            }
            std::erase_if(section.offcuts, isOnlyMarked);
            for (Strip& strip : section.strips) {
                std::erase_if(strip.offcuts, isOnlyMarked);
            }
        }
        std::erase_if(layout.sections, [](const Section& section) {
            return section.strips.empty() && section.offcuts.empty() && !section.locked &&
                   section.state == CutState::Planned;
        });
    }

    [[nodiscard]] bool isWorthKeeping(const Rect& rect) const {
        return rect.length() >= m_shop.offcuts.leastLength &&
               rect.width() >= m_shop.offcuts.leastWidth && !rect.isEmpty();
    }

    [[nodiscard]] Offcut made(const Rect& rect) { return {OffcutId{m_nextId++}, rect, {}}; }

    [[nodiscard]] bool isWood(const Section& section, const Rect& rect) const {
        const Polygon outline = toOuter(section.frame, rect);
        return coveredWithinTolerance(outline, m_board.outline) &&
               !(section.state != CutState::Planned && isGone(section, outline));
    }

    /// Of wood that is cut already, a piece that was spoiled or sawn through is no offcut: it is
    /// marked as a split, all its width through. A split that runs along the grain was there when
    /// the offcut was counted, and counts no less for the cut. Nothing but its width tells the two
    /// apart: a mark narrower than anything that is ripped was never a piece.
    [[nodiscard]] bool isGone(const Section& section, const Polygon& outline) const {
        return std::any_of(m_board.defects.begin(), m_board.defects.end(), [&](const Defect& each) {
            const std::optional<FaceMark>& mark = each.onA ? each.onA : each.onB;
            return each.kind == DefectKind::Split && each.through && mark &&
                   boundingBox(toLocal(section.frame, mark->outline)).width() + polygonTolerance >=
                       m_shop.machines.narrowestRip &&
                   interiorsMeet(mark->outline, outline);
        });
    }

    /// The section without what is in a raw end of the board.
    [[nodiscard]] Stretch soundOf(const Section& section) const {
        return {
            std::max(section.along.from, m_box.x0 + planning::rawEnd(m_board.trimAtDatum, m_shop)),
            std::min(section.along.to, m_box.x1 - planning::rawEnd(m_board.trimAtFar, m_shop))};
    }

    /// Where the section's crosscuts leave full length between v0 and v1. A turned section is cut
    /// square to the board, so its ends lean.
    [[nodiscard]] Stretch fullLength(const Section& section, Length v0, Length v1) const {
        const Stretch along = soundOf(section);
        if (section.frame.isParallel()) {
            return {along.from - section.frame.origin.x, along.to - section.frame.origin.x};
        }
        const auto run = static_cast<double>(section.frame.run.inNanometres());
        const auto rise = static_cast<double>(section.frame.rise.inNanometres());
        const double cosine = run / std::hypot(run, rise);
        const double sine = rise / std::hypot(run, rise);
        const auto uAt = [&](Length x, Length v) {
            return (static_cast<double>((x - section.frame.origin.x).inNanometres()) +
                    static_cast<double>(v.inNanometres()) * sine) /
                   cosine;
        };
        // A micrometre inside, so that rounding never puts the corner over the cut.
        constexpr double inside = 1000;
        const double from = std::max(uAt(along.from, v0), uAt(along.from, v1)) + inside;
        const double to = std::min(uAt(along.to, v0), uAt(along.to, v1)) - inside;
        return {Length::nanometres(static_cast<std::int64_t>(std::ceil(from))),
                Length::nanometres(static_cast<std::int64_t>(std::floor(to)))};
    }

    /// Before, between and behind the blanks of a strip, at the strip's full width.
    void markStrips(Section& section) {
        const Length kerf = m_shop.machines.stripCrosscut.kerf;
        for (Strip& strip : section.strips) {
            if (strip.blanks.empty()) {
                continue;
            }
            const Stretch whole = fullLength(section, strip.across.from, strip.across.to);
            Length from = whole.from;
            const auto keep = [&](Length to) {
                const Rect rect{from, strip.across.from, to, strip.across.to};
                if (isWorthKeeping(rect) && isWood(section, rect)) {
                    strip.offcuts.push_back(made(rect));
                }
            };
            for (const Blank& blank : strip.blanks) {
                const Rect& wood = woodOf(blank);
                keep(wood.x0 - kerf);
                from = wood.x1 + kerf;
            }
            keep(whole.to);
        }
    }

    /// Below, between and above the strips, where the wood is clear over the section's length.
    void markBeside(Section& section) {
        if (section.strips.empty()) {
            return;
        }
        const Length kerf = section.facing == FirstFacing::RoughRippedFirst
                                ? m_shop.machines.roughRip.kerf
                                : m_shop.machines.rip.kerf;
        const Polygon outline = toLocal(section.frame, m_board.outline);
        const auto keep = [&](Length v0, Length v1) {
            const Stretch length = fullLength(section, v0, v1);
            if (v1 <= v0 || length.to <= length.from) {
                return;
            }
            const std::optional<Stretch> clear = clearAcross(outline, length);
            if (!clear) {
                return;
            }
            const Rect rect{length.from, std::max(v0, clear->from), length.to,
                            std::min(v1, clear->to)};
            if (isWorthKeeping(rect) && isWood(section, rect)) {
                section.offcuts.push_back(made(rect));
            }
        };
        const Rect local = boundingBox(outline);
        Length from = local.y0;
        for (const Strip& strip : section.strips) {
            keep(from, strip.across.from - kerf);
            from = strip.across.to + kerf;
        }
        keep(from, local.y1);
    }

    /// A piece that is cut off already and gives no blank: kept like the waste it was before.
    void markCutOff(Section& section) {
        const bool isPiece = section.strips.empty() && section.offcuts.empty() &&
                             section.state != CutState::Planned && section.frame.isParallel();
        const Stretch along = soundOf(section);
        if (!isPiece || along.to - along.from < m_shop.offcuts.leastLength) {
            return;
        }
        if (const std::optional<Stretch> clear = clearAcross(m_board.outline, along)) {
            const Point origin = section.frame.origin;
            const Rect rect{along.from - origin.x, clear->from - origin.y, along.to - origin.x,
                            clear->to - origin.y};
            if (isWorthKeeping(rect) && isWood(section, rect)) {
                section.offcuts.push_back(made(rect));
            }
        }
    }

    /// Full-width pieces between the sections and at the ends, each a section of its own without
    /// strips. It stands one kerf from its neighbours, so that it costs no cut of its own.
    void markBetweenSections(BoardLayout& layout) {
        const Length kerf = m_shop.machines.crosscut.kerf;
        std::vector<Section> sections;
        Length from = m_box.x0;
        const auto keep = [&](Length to) {
            const Length low =
                std::max(from, m_box.x0 + planning::rawEnd(m_board.trimAtDatum, m_shop));
            const Length high =
                std::min(to, m_box.x1 - planning::rawEnd(m_board.trimAtFar, m_shop));
            if (high - low < m_shop.offcuts.leastLength) {
                return;
            }
            const std::optional<Stretch> clear = clearAcross(m_board.outline, {low, high});
            if (!clear) {
                return;
            }
            const Rect rect{low - from, Length(), high - from, clear->length()};
            if (!isWorthKeeping(rect)) {
                return;
            }
            Section section;
            section.id = SectionId{m_nextId++};
            section.along = {from, to};
            section.frame.origin = {from, clear->from};
            if (isWood(section, rect)) {
                section.offcuts.push_back(made(rect));
                sections.push_back(std::move(section));
            }
        };
        for (Section& section : layout.sections) {
            keep(section.along.from - kerf);
            from = section.along.to + kerf;
            sections.push_back(std::move(section));
        }
        keep(m_box.x1);
        layout.sections = std::move(sections);
    }

    const Shop& m_shop;
    const Board& m_board;
    const BoardLayout* m_before; ///< of the job's plan on this board, or null
    Rect m_box;
    std::int64_t& m_nextId;
};

} // namespace

void markOffcuts(const Document& document, Plan& plan, std::int64_t& nextId) {
    for (BoardLayout& layout : plan.boards) {
        const Board* board = findBoard(document, layout.board);
        if (!board || layout.locked || layout.sections.empty() ||
            board->thinnest < document.shop.offcuts.leastThickness) {
            continue;
        }
        const BoardLayout* before = nullptr;
        if (document.plan) {
            for (const BoardLayout& old : document.plan->boards) {
                before = old.board == board->id ? &old : before;
            }
        }
        OffcutMarker(document.shop, *board, before, nextId).mark(layout);
    }
}

} // namespace stavewright
