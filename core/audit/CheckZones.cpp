#include <algorithm>

#include "core/audit/Checks.h"
#include "core/audit/Judging.h"
#include "core/audit/Surface.h"
#include "core/geometry/PolygonOps.h"
#include "core/lumber/Defect.h"

namespace stavewright::audit_detail {

namespace {

/// Looks for the shortest move along the grain after which the blank is clean and nothing else is
/// in its way.
class Mover {
  public:
    Mover(const Case& opened, const PlacedBlank& placed, Length step)
        : m_opened(opened)
        , m_placed(placed)
        , m_step(step) {}

    /// The shift along the section's frame; nothing when no simple move helps.
    [[nodiscard]] std::optional<Length> shift() const {
        if (m_step <= Length()) {
            return std::nullopt;
        }
        for (Length by = m_step; by <= farthest; by += m_step) {
            for (const Length signedBy : {by, -by}) {
                if (isFree(signedBy) && isClean(signedBy)) {
                    return signedBy;
                }
            }
        }
        return std::nullopt;
    }

  private:
    /// A move of more than this is a new place and not a shift.
    static constexpr Length farthest = Length::inches(6);

    [[nodiscard]] Rect moved(Length by) const {
        Rect wood = m_placed.wood;
        wood.x0 += by;
        wood.x1 += by;
        return wood;
    }

    [[nodiscard]] bool isFree(Length by) const {
        const Rect wood = moved(by);
        const Polygon outline = toOuter(m_placed.section->frame, wood);
        const Rect box = boundingBox(outline);
        const Stretch ends = betweenRawEnds(m_opened.document.shop, *m_placed.board);
        const Stretch& cuts = m_placed.section->along;
        if (box.x0 < std::max(cuts.from, ends.from) || box.x1 > std::min(cuts.to, ends.to)) {
            return false;
        }
        const Length kerf = m_opened.document.shop.machines.stripCrosscut.kerf;
        for (const Blank& other : m_placed.strip->blanks) {
            const Rect& taken = other.actual ? *other.actual : other.rect;
            if (&other != m_placed.blank && taken.x0 - kerf < wood.x1 &&
                wood.x0 < taken.x1 + kerf) {
                return false;
            }
        }
        return coveredWithinTolerance(outline, m_placed.board->outline);
    }

    [[nodiscard]] bool isClean(Length by) const {
        const Position position{*m_placed.board, m_placed.section->frame, moved(by),
                                m_placed.blank->pose};
        const std::vector<Meeting> met = meetings(position, *m_placed.need);
        return std::none_of(met.begin(), met.end(), [](const Meeting& meeting) {
            return meeting.verdict == Verdict::Forbidden;
        });
    }

    const Case& m_opened;
    const PlacedBlank& m_placed;
    Length m_step;
};

std::string hint(const Case& opened, const PlacedBlank& placed, const Words& words) {
    const auto shift = Mover(opened, placed, words.tapeStep()).shift();
    if (!shift) {
        return ".";
    }
    return "; moved " + words.length(abs(*shift)) + " towards the " +
           (*shift > Length() ? "far" : "datum") + " end it is clear.";
}

/// "loose knot K3 on face A", without a mark "a loose knot on face A".
std::string nameOfDefect(const Meeting& meeting) {
    std::string name(nameOf(meeting.defect->kind));
    if (!meeting.defect->mark.empty()) {
        name += ' ' + meeting.defect->mark;
    }
    return name + " on face " + (meeting.boardFace == BoardFace::A ? "A" : "B");
}

std::string sentenceOf(const Meeting& meeting, const PlacedBlank& placed, const Words& words) {
    const std::string zone =
        "the " + meeting.zone->name + " of " + words.blank(placed.blank->purpose);
    const std::string at = " of " + words.board(placed.board->id);
    if (meeting.marginOnly) {
        const Margin margin = marginOf(*meeting.defect, meeting.zone->rules->halo);
        return nameOfDefect(meeting) + at + " lies too near " + zone + ": " +
               words.length(margin.along) + " along and " + words.length(margin.across) +
               " across it count as disturbed grain";
    }
    if (meeting.tooLarge) {
        const DefectRule& rule = meeting.zone->rules->ruleFor(meeting.defect->kind);
        return nameOfDefect(meeting) + at + " is " +
               words.beside(ruleSize(*meeting.defect), rule.largest.value_or(Length())) +
               " large and lies in " + zone + ", which allows " +
               words.length(rule.largest.value_or(Length()));
    }
    return nameOfDefect(meeting) + at + " lies in " + zone;
}

/// The mark on the planed surface decides where the fill goes: a knot that slants between its two
/// faces does not lie under its mark on the rough one.
Fill fillOf(const Meeting& meeting, const PlacedBlank& placed) {
    Fill fill;
    fill.board = placed.board->id;
    fill.blank = placed.blank->id;
    fill.defect = meeting.defect->id;
    fill.onFaceA = meeting.fillOnA;
    fill.onFaceB = meeting.fillOnB;
    fill.marginOnly = meeting.fillMarginOnly;
    fill.at = meeting.middle;
    fill.size = ruleSize(*meeting.defect);
    if (const auto across = acrossAt(placed.board->outline, fill.at.x)) {
        fill.fromNearEdge = fill.at.y - across->from;
    }
    return fill;
}

} // namespace

std::vector<Fill> checkZones(const Case& opened, Report& report) {
    const Words& words = report.words();
    std::vector<Fill> fills;
    for (const PlacedBlank& placed : opened.blanks) {
        if (!placed.sound || !placed.need) {
            continue;
        }
        const Position position{*placed.board, placed.section->frame, placed.wood,
                                placed.blank->pose};
        std::optional<std::string> ending; // the same move for every defect of the blank
        for (const Meeting& meeting : meetings(position, *placed.need)) {
            if (meeting.verdict == Verdict::AllowedIfFilled) {
                fills.push_back(fillOf(meeting, placed));
                continue;
            }
            if (!ending) {
                ending = opened.tellsMoves ? hint(opened, placed, words) : ".";
            }
            report.fail(FindingKind::DefectInZone,
                        {.board = placed.board->id,
                         .blank = placed.blank->id,
                         .defect = meeting.defect->id,
                         .part = placed.blank->purpose.part},
                        sentenceOf(meeting, placed, words) + *ending);
        }
    }
    return fills;
}

} // namespace stavewright::audit_detail
