#pragma once
// Every change to a document is an Edit value: applying it gives the edit that undoes it.
//
//   Result<Edit> inverse = apply(document, ReplaceBoard{board});
//   apply(document, inverse.value());            // back to the identical document

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/document/Document.h"

namespace stavewright {

struct InsertBoard {
    std::size_t at = 0;
    Board board;
};
struct RemoveBoard {
    BoardId board;
};
struct ReplaceBoard {
    Board board; ///< the one with the same id is replaced
};
/// The photographs of a board and what is marked in them; touches neither wood nor plan.
struct ReplacePhotos {
    BoardId board;
    std::vector<BoardPhoto> photos;
};
struct InsertPart {
    std::size_t at = 0;
    Part part;
};
struct RemovePart {
    PartId part;
};
struct ReplacePart {
    Part part;
};
struct ReplaceJoints {
    std::vector<Joint> joints;
};
struct ReplaceGroups {
    std::vector<MatchGroup> groups;
};
struct ReplaceBoardRules {
    std::vector<BoardRule> rules;
};
struct ReplaceShop {
    Shop shop;
};
struct ReplaceInfo {
    JobInfo info;
};
struct ReplacePlan {
    std::optional<Plan> plan;
};
struct ReplaceGlueUp {
    GlueUp glueUp;
};
struct AppendLog {
    LogEntry entry;
};
struct RemoveLastLog {};
/// Restores the id counter; part of inverses only.
struct SetNextId {
    std::int64_t nextId = 1;
};
struct Edit;
/// Applied in order, all or nothing.
struct EditSequence {
    std::vector<Edit> edits;
};

struct Edit {
    using Change = std::variant<InsertBoard, RemoveBoard, ReplaceBoard, ReplacePhotos, InsertPart,
                                RemovePart, ReplacePart, ReplaceJoints, ReplaceGroups,
                                ReplaceBoardRules, ReplaceShop, ReplaceInfo, ReplacePlan,
                                ReplaceGlueUp, AppendLog, RemoveLastLog, SetNextId, EditSequence>;
    Change change;
};

/// Changes the document and returns the inverse; on an error the document is as it was. An edit of
/// boards, parts or shop takes away what was proved of the plan (Origin::proof); rules that name a
/// board or part go with it.
Result<Edit> apply(Document& document, const Edit& edit);

/// What a view must refresh after this edit.
struct EditScope {
    bool boards = false;
    bool photos = false;
    bool parts = false;
    bool shop = false;
    bool info = false;
    bool plan = false;
    bool log = false;
    bool glueUp = false;
};
[[nodiscard]] EditScope scopeOf(const Edit& edit);

} // namespace stavewright
