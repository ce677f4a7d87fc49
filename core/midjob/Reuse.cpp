#include "core/midjob/Reuse.h"

#include <algorithm>
#include <set>

#include "core/geometry/PolygonOps.h"
#include "core/hand/Drag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"

namespace stavewright::midjob {

namespace {

/// Blanks that are tried; keeps what is said at once said at once.
constexpr std::size_t mostTried = 12;

struct Candidate {
    BlankId id;
    BlankPurpose purpose;
    BoardId board;
    Area area;
};

/// Blanks that are only planned and small enough, the largest first; of blanks alike one.
std::vector<Candidate> candidatesFor(const Document& document, const LostWood& wood) {
    std::vector<Candidate> found;
    std::set<std::tuple<PartId, Length, Length>> seen;
    for (std::size_t b = 0; b < document.plan->boards.size(); ++b) {
        const BoardLayout& layout = document.plan->boards[b];
        for (const Section& section : layout.sections) {
            if (section.state != CutState::Planned) {
                continue; // it comes out of cut wood already
            }
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const bool isSmaller = blank.rect.length() <= wood.size.length() &&
                                           blank.rect.width() <= wood.size.width();
                    const auto place = hand::placeOf(*document.plan, blank.id);
                    if (isSmaller && place && hand::whyFixed(document, *place).empty() &&
                        seen.insert({blank.purpose.part, blank.rect.length(), blank.rect.width()})
                            .second) {
                        found.push_back({blank.id, blank.purpose, layout.board, blank.rect.area()});
                    }
                }
            }
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Candidate& a, const Candidate& b) { return a.area > b.area; });
    found.resize(std::min(found.size(), mostTried));
    return found;
}

/// The place lies in the lost piece, not in wood beside it.
bool isWithin(const hand::Laying& place, const hand::Drag& drag, const LostWood& wood) {
    const Length from = place.along;
    const Length to = place.along + drag.length();
    const Stretch& across = place.bed.across;
    return from >= wood.size.x0 - polygonTolerance && to <= wood.size.x1 + polygonTolerance &&
           across.from >= wood.size.y0 - polygonTolerance &&
           across.to <= wood.size.y1 + polygonTolerance;
}

std::optional<Document> laidThere(const Document& document, BlankId blank, const LostWood& wood) {
    const Result<hand::Drag> drag = hand::Drag::lift(document, blank);
    if (!drag) {
        return std::nullopt;
    }
    for (const Pose pose : {Pose{}, Pose{true, false}, Pose{false, true}, Pose{true, true}}) {
        const std::optional<hand::Laying> place =
            drag.value().nearest(wood.board, wood.corner, pose);
        if (!place || place->bed.section != wood.section || !isWithin(*place, drag.value(), wood)) {
            continue;
        }
        Document laid = document;
        const Result<Edit> edit = drag.value().drop(*place);
        if (edit && apply(laid, edit.value())) {
            return laid;
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<Reuse> reusesOf(const Document& document, const LostWood& wood, std::size_t most) {
    std::vector<Reuse> found;
    for (const Candidate& candidate : candidatesFor(document, wood)) {
        if (found.size() == most) {
            break;
        }
        if (std::optional<Document> laid = laidThere(document, candidate.id, wood)) {
            found.push_back({std::move(*laid), candidate.purpose, candidate.board});
        }
    }
    return found;
}

} // namespace stavewright::midjob
