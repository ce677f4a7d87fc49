#pragma once
// A blank's zones against the defects of the board under it, at the depth of the finished surface.

#include <vector>

#include "core/audit/Case.h"

namespace stavewright::audit_detail {

/// A zone that a defect meets, and what its rule says.
struct Meeting {
    const Defect* defect = nullptr;
    const NeededZone* zone = nullptr;
    BoardFace boardFace = BoardFace::A;
    Verdict verdict = Verdict::Forbidden;
    bool tooLarge = false;   ///< forbidden only because it is larger than the rule's largest
    bool marginOnly = false; ///< only the disturbed grain round it meets the zone
    Point middle;            ///< of the defect on the planed surface of that face, board frame
    bool fillOnA = false;    ///< a zone on this face of the board allows it if filled
    bool fillOnB = false;
    bool fillMarginOnly = true; ///< of those zones the defect itself lies in none
};

/// A blank where it lies or where it might be moved to.
struct Position {
    const Board& board;
    const Frame& frame; ///< of its section
    Rect wood;          ///< in the section's frame
    Pose pose;
};

/// Every meeting that is not simply allowed; at most one for each defect: the worst. Wood that was
/// cut longer or shorter than rough holds the finished part as planned from the end it was measured
/// from, or from its other end, or else in its middle; always within itself.
[[nodiscard]] std::vector<Meeting> meetings(const Position& position, const Need& need);

/// A zone in the section's frame, turned and rolled as the blank lies.
[[nodiscard]] Rect zoneInSection(const NeededZone& zone, const Rect& wood, Pose pose);

} // namespace stavewright::audit_detail
