#include "core/document/Edit.h"

#include <algorithm>
#include <utility>

#include "core/document/Ids.h"

namespace stavewright {

namespace {

Error refused(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

template <class Thing, class AnyId>
auto findById(std::vector<Thing>& things, AnyId id) {
    return std::find_if(things.begin(), things.end(),
                        [id](const Thing& thing) { return thing.id == id; });
}

/// What still names this part and would be left dangling without it; empty when nothing does.
std::string userOf(const Document& document, PartId part) {
    const auto isPart = [part](PartId other) { return other == part; };
    for (const Part& other : document.parts) {
        if (other.id == part) {
            continue;
        }
        for (const Size* size : {&other.length, &other.width, &other.thickness}) {
            for (const LeanTerm& term : size->leans) {
                if (isPart(term.part)) {
                    return "a size of part " + other.mark;
                }
            }
        }
    }
    for (const Joint& joint : document.joints) {
        for (const JointSide& side : joint.sides) {
            if (isPart(side.part)) {
                return "the joint \"" + joint.name + "\"";
            }
        }
    }
    for (const MatchGroup& group : document.groups) {
        if (std::any_of(group.parts.begin(), group.parts.end(), isPart)) {
            return "the group \"" + group.name + "\"";
        }
    }
    if (!document.plan) {
        return {};
    }
    const Plan& plan = *document.plan;
    bool inPlan = false;
    for (const BoardLayout& layout : plan.boards) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    inPlan = inPlan || isPart(blank.purpose.part);
                }
            }
        }
    }
    for (const ThicknessChoice& choice : plan.thicknesses) {
        inPlan = inPlan || isPart(choice.part);
    }
    for (const Unplaced& unplaced : plan.unplaced) {
        inPlan = inPlan || isPart(unplaced.purpose.part);
    }
    return inPlan ? "the plan" : "";
}

bool planTouches(const Document& document, BoardId board) {
    return document.plan &&
           std::any_of(document.plan->boards.begin(), document.plan->boards.end(),
                       [board](const BoardLayout& layout) { return layout.board == board; });
}

/// One change and its inverse; the id counter is the caller's business.
struct Applier {
    Document& document;

    Result<Edit> operator()(const InsertBoard& edit) const {
        return insert(document.boards, edit.at, edit.board, "board",
                      Edit{RemoveBoard{edit.board.id}});
    }
    Result<Edit> operator()(const RemoveBoard& edit) const {
        if (planTouches(document, edit.board)) {
            return refused("The plan still cuts board id " + std::to_string(edit.board.value) +
                           "; the plan has to go before the board.");
        }
        return remove<InsertBoard>(document.boards, edit.board, "board");
    }
    Result<Edit> operator()(const ReplaceBoard& edit) const {
        return replaceById(document.boards, edit.board, "board");
    }
    Result<Edit> operator()(const ReplacePhotos& edit) const {
        const auto found = findById(document.boards, edit.board);
        if (found == document.boards.end()) {
            return missing("board", edit.board.value);
        }
        return Edit{ReplacePhotos{edit.board, std::exchange(found->photos, edit.photos)}};
    }
    Result<Edit> operator()(const InsertPart& edit) const {
        return insert(document.parts, edit.at, edit.part, "part", Edit{RemovePart{edit.part.id}});
    }
    Result<Edit> operator()(const RemovePart& edit) const {
        const std::string user = userOf(document, edit.part);
        if (!user.empty()) {
            return refused("Part id " + std::to_string(edit.part.value) + " is still used by " +
                           user + "; that has to go before the part.");
        }
        return remove<InsertPart>(document.parts, edit.part, "part");
    }
    Result<Edit> operator()(const ReplacePart& edit) const {
        return replaceById(document.parts, edit.part, "part");
    }
    Result<Edit> operator()(const ReplaceJoints& edit) const {
        return Edit{ReplaceJoints{std::exchange(document.joints, edit.joints)}};
    }
    Result<Edit> operator()(const ReplaceGroups& edit) const {
        return Edit{ReplaceGroups{std::exchange(document.groups, edit.groups)}};
    }
    Result<Edit> operator()(const ReplaceBoardRules& edit) const {
        return Edit{ReplaceBoardRules{std::exchange(document.boardRules, edit.rules)}};
    }
    Result<Edit> operator()(const ReplaceShop& edit) const {
        return Edit{ReplaceShop{std::exchange(document.shop, edit.shop)}};
    }
    Result<Edit> operator()(const ReplaceInfo& edit) const {
        return Edit{ReplaceInfo{std::exchange(document.info, edit.info)}};
    }
    Result<Edit> operator()(const ReplacePlan& edit) const {
        return Edit{ReplacePlan{std::exchange(document.plan, edit.plan)}};
    }
    Result<Edit> operator()(const ReplaceGlueUp& edit) const {
        return Edit{ReplaceGlueUp{std::exchange(document.glueUp, edit.glueUp)}};
    }
    Result<Edit> operator()(const AppendLog& edit) const {
        document.log.push_back(edit.entry);
        return Edit{RemoveLastLog{}};
    }
    Result<Edit> operator()(const RemoveLastLog&) const {
        if (document.log.empty()) {
            return refused("The log is empty; it has no last entry to take away.");
        }
        Edit inverse{AppendLog{std::move(document.log.back())}};
        document.log.pop_back();
        return inverse;
    }
    Result<Edit> operator()(const SetNextId& edit) const {
        if (edit.nextId <= largestId(document)) {
            return refused("The next id cannot be " + std::to_string(edit.nextId) +
                           "; it must be above " + std::to_string(largestId(document)) +
                           ", the largest in the job.");
        }
        return Edit{SetNextId{std::exchange(document.nextId, edit.nextId)}};
    }
    Result<Edit> operator()(const EditSequence& sequence) const {
        EditSequence inverse;
        for (const Edit& edit : sequence.edits) {
            Result<Edit> one = apply(document, edit);
            if (!one) {
                undo(inverse);
                return one.error();
            }
            inverse.edits.push_back(std::move(one).value());
        }
        std::reverse(inverse.edits.begin(), inverse.edits.end());
        return Edit{std::move(inverse)};
    }

  private:
    template <class Thing>
    static Result<Edit> insert(std::vector<Thing>& things, std::size_t at, const Thing& thing,
                               const std::string& what, Edit inverse) {
        if (at > things.size()) {
            return refused("A " + what + " cannot be put at place " + std::to_string(at) +
                           "; the list has " + std::to_string(things.size()) + ".");
        }
        if (!thing.id.isSet() || findById(things, thing.id) != things.end()) {
            return refused("The id " + std::to_string(thing.id.value) + " of the new " + what +
                           " must be above 0 and not yet in use.");
        }
        things.insert(things.begin() + static_cast<std::ptrdiff_t>(at), thing);
        return inverse;
    }
    template <class Insert, class Thing, class AnyId>
    static Result<Edit> remove(std::vector<Thing>& things, AnyId id, const std::string& what) {
        const auto found = findById(things, id);
        if (found == things.end()) {
            return missing(what, id.value);
        }
        Edit inverse{Insert{static_cast<std::size_t>(found - things.begin()), std::move(*found)}};
        things.erase(found);
        return inverse;
    }
    static Edit replacing(Board board) { return {ReplaceBoard{std::move(board)}}; }
    static Edit replacing(Part part) { return {ReplacePart{std::move(part)}}; }
    template <class Thing>
    static Result<Edit> replaceById(std::vector<Thing>& things, const Thing& thing,
                                    const std::string& what) {
        const auto found = findById(things, thing.id);
        if (found == things.end()) {
            return missing(what, thing.id.value);
        }
        return replacing(std::exchange(*found, thing));
    }
    static Error missing(const std::string& what, std::int64_t id) {
        return refused("There is no " + what + " with id " + std::to_string(id) + " in the job.");
    }
    /// Takes back what a failed sequence did so far; `done` holds the inverses in the order of
    /// doing.
    void undo(const EditSequence& done) const {
        for (auto inverse = done.edits.rbegin(); inverse != done.edits.rend(); ++inverse) {
            [[maybe_unused]] const Result<Edit> undone = apply(document, *inverse);
            assert(undone); // the inverse of what was just done always applies
        }
    }
};

/// Largest id that the change brings into the document.
struct LargestNewId {
    std::int64_t operator()(const InsertBoard& edit) const { return ofBoard(edit.board); }
    std::int64_t operator()(const ReplaceBoard& edit) const { return ofBoard(edit.board); }
    std::int64_t operator()(const ReplacePhotos& edit) const { return ofList(edit.photos); }
    std::int64_t operator()(const InsertPart& edit) const { return ofPart(edit.part); }
    std::int64_t operator()(const ReplacePart& edit) const { return ofPart(edit.part); }
    std::int64_t operator()(const ReplaceJoints& edit) const { return ofList(edit.joints); }
    std::int64_t operator()(const ReplaceGroups& edit) const { return ofList(edit.groups); }
    std::int64_t operator()(const ReplaceShop& edit) const { return ofList(edit.shop.ruleSets); }
    std::int64_t operator()(const ReplacePlan& edit) const {
        std::int64_t largest = 0;
        if (edit.plan) {
            visitPlanIds(*edit.plan, upTo(largest));
        }
        return largest;
    }
    std::int64_t operator()(const ReplaceGlueUp& edit) const {
        std::int64_t largest = 0;
        visitLaidOutIds(edit.glueUp, upTo(largest));
        return largest;
    }
    template <class Other>
    std::int64_t operator()(const Other&) const {
        return 0;
    }

  private:
    struct UpTo {
        std::int64_t& largest;
        template <class AnyId>
        void operator()(const AnyId& id) const {
            largest = std::max(largest, id.value);
        }
    };
    static UpTo upTo(std::int64_t& largest) { return {largest}; }
    static std::int64_t ofBoard(const Board& board) {
        std::int64_t largest = 0;
        visitBoardIds(board, upTo(largest));
        return largest;
    }
    static std::int64_t ofPart(const Part& part) {
        std::int64_t largest = 0;
        visitPartIds(part, upTo(largest));
        return largest;
    }
    template <class Things>
    static std::int64_t ofList(const Things& things) {
        std::int64_t largest = 0;
        visitListIds(things, upTo(largest));
        return largest;
    }
};

struct Scope {
    EditScope operator()(const InsertBoard&) const { return {.boards = true}; }
    EditScope operator()(const RemoveBoard&) const { return {.boards = true}; }
    EditScope operator()(const ReplaceBoard&) const { return {.boards = true}; }
    EditScope operator()(const ReplacePhotos&) const { return {.photos = true}; }
    EditScope operator()(const InsertPart&) const { return {.parts = true}; }
    EditScope operator()(const RemovePart&) const { return {.parts = true}; }
    EditScope operator()(const ReplacePart&) const { return {.parts = true}; }
    EditScope operator()(const ReplaceJoints&) const { return {.parts = true}; }
    EditScope operator()(const ReplaceGroups&) const { return {.parts = true}; }
    EditScope operator()(const ReplaceBoardRules&) const { return {.boards = true}; }
    EditScope operator()(const ReplaceShop&) const { return {.shop = true}; }
    EditScope operator()(const ReplaceInfo&) const { return {.info = true}; }
    EditScope operator()(const ReplacePlan&) const { return {.plan = true}; }
    EditScope operator()(const ReplaceGlueUp&) const { return {.glueUp = true}; }
    EditScope operator()(const AppendLog&) const { return {.log = true}; }
    EditScope operator()(const RemoveLastLog&) const { return {.log = true}; }
    EditScope operator()(const SetNextId&) const { return {}; }
    EditScope operator()(const EditSequence& sequence) const {
        EditScope all;
        for (const Edit& edit : sequence.edits) {
            const EditScope one = scopeOf(edit);
            all.boards |= one.boards;
            all.photos |= one.photos;
            all.parts |= one.parts;
            all.shop |= one.shop;
            all.info |= one.info;
            all.plan |= one.plan;
            all.log |= one.log;
            all.glueUp |= one.glueUp;
        }
        return all;
    }
};

/// What was proved of the plan was proved for other boards, parts or another shop.
bool losesProof(const Document& document, const Edit& edit) {
    const EditScope scope = scopeOf(edit);
    return document.plan && document.plan->origin.proof && !scope.plan &&
           (scope.boards || scope.parts || scope.shop);
}

/// A board or part that goes takes the rules with it that name it.
std::optional<Edit> withItsRules(const Document& document, const Edit& edit) {
    const auto* board = std::get_if<RemoveBoard>(&edit.change);
    const auto* part = std::get_if<RemovePart>(&edit.change);
    std::vector<BoardRule> left = document.boardRules;
    std::erase_if(left, [&](const BoardRule& rule) {
        return (board && rule.board == board->board) || (part && rule.part == part->part);
    });
    if (left.size() == document.boardRules.size()) {
        return std::nullopt;
    }
    EditSequence both;
    both.edits.push_back({ReplaceBoardRules{std::move(left)}});
    both.edits.push_back(edit);
    return Edit{std::move(both)};
}

} // namespace

Result<Edit> apply(Document& document, const Edit& edit) {
    if (const std::optional<Edit> both = withItsRules(document, edit)) {
        return apply(document, *both);
    }
    Result<Edit> inverse = std::visit(Applier{document}, edit.change);
    if (!inverse) {
        return inverse;
    }
    if (losesProof(document, edit)) {
        EditSequence back;
        back.edits.push_back(std::move(inverse).value());
        back.edits.push_back({ReplacePlan{document.plan}});
        document.plan->origin.proof.reset();
        inverse = Edit{std::move(back)};
    }
    // Ids that came in push the counter on; taking them out again puts it back.
    const std::int64_t largestNew = std::visit(LargestNewId{}, edit.change);
    if (largestNew < document.nextId) {
        return inverse;
    }
    Edit counterBack{SetNextId{std::exchange(document.nextId, largestNew + 1)}};
    EditSequence both;
    both.edits.push_back(std::move(inverse).value());
    both.edits.push_back(std::move(counterBack));
    return Edit{std::move(both)};
}

EditScope scopeOf(const Edit& edit) { return std::visit(Scope{}, edit.change); }

} // namespace stavewright
