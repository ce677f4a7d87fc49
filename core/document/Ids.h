#pragma once
// Every id that stands in a document, or in one thing of it, visited in the file's order.

#include <algorithm>
#include <cstdint>

#include "core/document/Document.h"

namespace stavewright {

// Each visits its own id and those of what it holds; `visit` takes any id by reference, const or
// not as the thing given is.

template <class AnyBoard, class Visit>
void visitBoardIds(AnyBoard& board, const Visit& visit) {
    visit(board.id);
    for (auto& defect : board.defects) {
        visit(defect.id);
    }
    for (auto& photo : board.photos) {
        visit(photo.id);
    }
}

template <class AnyPart, class Visit>
void visitPartIds(AnyPart& part, const Visit& visit) {
    visit(part.id);
    for (auto& zone : part.zones) {
        visit(zone.id);
    }
}

template <class Things, class Visit>
void visitListIds(Things& things, const Visit& visit) {
    for (auto& thing : things) {
        visit(thing.id);
    }
}

template <class AnyPlan, class Visit>
void visitPlanIds(AnyPlan& plan, const Visit& visit) {
    for (auto& layout : plan.boards) {
        for (auto& section : layout.sections) {
            visit(section.id);
            for (auto& strip : section.strips) {
                visit(strip.id);
                visitListIds(strip.blanks, visit);
                visitListIds(strip.offcuts, visit);
            }
            visitListIds(section.offcuts, visit);
        }
    }
}

template <class AnyGlueUp, class Visit>
void visitLaidOutIds(AnyGlueUp& glueUp, const Visit& visit) {
    for (auto& laid : glueUp.laidOut) {
        visit(laid.photo.id);
    }
}

template <class AnyDocument, class Visit>
void visitIds(AnyDocument& document, const Visit& visit) {
    visitListIds(document.shop.ruleSets, visit);
    for (auto& board : document.boards) {
        visitBoardIds(board, visit);
    }
    for (auto& part : document.parts) {
        visitPartIds(part, visit);
    }
    visitListIds(document.joints, visit);
    visitListIds(document.groups, visit);
    if (document.plan) {
        visitPlanIds(*document.plan, visit);
    }
    visitLaidOutIds(document.glueUp, visit);
}

/// 0 when there is none.
[[nodiscard]] inline std::int64_t largestId(const Document& document) {
    std::int64_t largest = 0;
    visitIds(document, [&](const auto& id) { largest = std::max(largest, id.value); });
    return largest;
}

} // namespace stavewright
