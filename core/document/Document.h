#pragma once
// The whole job as values: what the file holds, what edits change, what audit, planner and papers
// read.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/layout/BoardRule.h"
#include "core/layout/GlueUp.h"
#include "core/layout/Plan.h"
#include "core/lumber/Board.h"
#include "core/piece/Part.h"
#include "core/shop/Shop.h"
#include "core/units/LengthText.h"

namespace stavewright {

struct JobInfo {
    std::string title;
    std::string client;
    std::string notes;
    UnitSystem units = UnitSystem::Inches;
    int inchDenominator = 16;   ///< finest fraction shown: 8, 16, 32 or 64
    std::string currency = "$"; ///< shown before amounts
    friend bool operator==(const JobInfo&, const JobInfo&) = default;
};

/// One line of the job's log: what was changed and why.
struct LogEntry {
    std::int64_t time = 0; ///< seconds since 1970-01-01 UTC; 0 when unknown
    std::string what;
    std::string why;
    friend bool operator==(const LogEntry&, const LogEntry&) = default;
};

struct Document {
    JobInfo info;
    Shop shop;
    std::vector<Board> boards;
    std::vector<Part> parts;
    std::vector<Joint> joints;
    std::vector<MatchGroup> groups;
    std::vector<BoardRule> boardRules = {};
    std::optional<Plan> plan;
    GlueUp glueUp;
    std::vector<LogEntry> log;
    std::int64_t nextId = 1; ///< larger than every id in the document

    template <class AnyId>
    [[nodiscard]] AnyId takeId() {
        return AnyId{nextId++};
    }
    friend bool operator==(const Document&, const Document&) = default;
};

/// Most boards one job may hold.
inline constexpr std::size_t mostBoards = 2000;

[[nodiscard]] const Board* findBoard(const Document& document, BoardId id);
[[nodiscard]] const Part* findPart(const Document& document, PartId id);

/// A finished dimension with its leans resolved. Fails on a missing part or a circle of leans.
Result<Length> resolvedSize(const Document& document, const Part& part, Dimension dimension);

/// Label of a blank as written on the wood: "R2", a stave "T1-3", a ply "L2a", a stave of a ply
/// "L2a-3".
[[nodiscard]] std::string labelOf(const Document& document, const BlankPurpose& purpose);

/// Of a multiple all the parts that its blank becomes: "B1, B2", "C1 to C8"; else as labelOf.
[[nodiscard]] std::string labelOfAll(const Document& document, const BlankPurpose& purpose);

/// Everything that must hold of a document before it can be planned: unique marks and ids, known
/// references, positive sizes, valid outlines, defects on their boards. The first offence, with its
/// place as a JSON pointer of the job file.
Status validate(const Document& document);

} // namespace stavewright
