#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "core/document/Edit.h"
#include "tests/unit/core/document/SampleDocument.h"

namespace stavewright {
namespace {

/// do / undo / redo / undo, looking at the whole document each time.
void expectUndoable(const Document& start, const Edit& edit) {
    Document document = start;
    const Result<Edit> undo = apply(document, edit);
    ASSERT_TRUE(undo) << undo.error().message;
    const Document after = document;
    EXPECT_NE(after, start);
    const Result<Edit> redo = apply(document, undo.value());
    ASSERT_TRUE(redo) << redo.error().message;
    EXPECT_EQ(document, start);
    const Result<Edit> undoAgain = apply(document, redo.value());
    ASSERT_TRUE(undoAgain) << undoAgain.error().message;
    EXPECT_EQ(document, after);
    ASSERT_TRUE(apply(document, undoAgain.value()));
    EXPECT_EQ(document, start);
}

/// The edit is refused with these words and the document stays as it was.
void expectRefused(const Document& start, const Edit& edit, const std::string& words) {
    Document document = start;
    const Result<Edit> undo = apply(document, edit);
    ASSERT_FALSE(undo);
    EXPECT_NE(undo.error().message.find(words), std::string::npos) << undo.error().message;
    EXPECT_EQ(document, start);
}

Board newBoard(std::int64_t id) {
    Board board = sample::makeThickBoard();
    board.id = BoardId{id};
    board.mark = "new";
    board.defects.clear();
    return board;
}

TEST(EditTest, EveryKindOfEditCanBeTakenBack) {
    const Document start = sample::withSmallPlan();
    Board board = start.boards[0];
    board.notes = "turned over and looked at";
    Part part = start.parts[2];
    part.count = 6;
    Part another = part;
    another.id = PartId{70};
    another.mark = "N";
    another.zones.clear();
    Shop shop = start.shop;
    shop.widthStep = Length::millimetres(2);
    JobInfo info = start.info;
    info.title = "Hall table";

    expectUndoable(start, {InsertBoard{1, newBoard(70)}});
    expectUndoable(start, {RemoveBoard{sample::thickBoard}});
    expectUndoable(start, {ReplaceBoard{board}});
    expectUndoable(start, {InsertPart{3, another}});
    expectUndoable(start, {ReplacePart{part}});
    expectUndoable(start, {ReplaceJoints{{}}});
    expectUndoable(start, {ReplaceGroups{{}}});
    expectUndoable(start, {ReplaceShop{shop}});
    expectUndoable(start, {ReplaceInfo{info}});
    expectUndoable(start, {ReplacePlan{std::nullopt}});
    expectUndoable(start, {ReplaceGlueUp{sample::someGlueUp()}});
    expectUndoable(start, {AppendLog{{1, "Ripped", ""}}});
    expectUndoable(start, {RemoveLastLog{}});
    expectUndoable(start, {SetNextId{500}});
    expectUndoable(start, {EditSequence{{{ReplacePlan{std::nullopt}},
                                         {ReplaceGroups{{}}},
                                         {ReplaceJoints{{}}},
                                         {RemovePart{sample::rail}},
                                         {InsertBoard{0, newBoard(80)}}}}});
}

TEST(EditTest, NewIdsPushTheCounterOnAndUndoPutsItBack) {
    Document document = sample::sideTable();
    const Result<Edit> undo = apply(document, {InsertBoard{2, newBoard(75)}});
    ASSERT_TRUE(undo);
    EXPECT_EQ(document.nextId, 76);
    ASSERT_TRUE(apply(document, undo.value()));
    EXPECT_EQ(document.nextId, 60);

    Board board = document.boards[0];
    board.defects[0].id = DefectId{90};
    ASSERT_TRUE(apply(document, {ReplaceBoard{board}}));
    EXPECT_EQ(document.nextId, 91);
}

TEST(EditTest, EditsThatDoNotFitAreRefused) {
    const Document start = sample::sideTable();
    expectRefused(start, {InsertBoard{9, newBoard(70)}}, "place 9");
    expectRefused(start, {InsertBoard{0, newBoard(sample::thinBoard.value)}}, "not yet in use");
    expectRefused(start, {InsertBoard{0, newBoard(0)}}, "above 0");
    expectRefused(start, {RemoveBoard{BoardId{99}}}, "no board with id 99");
    expectRefused(start, {ReplaceBoard{newBoard(99)}}, "no board with id 99");
    expectRefused(start, {RemovePart{PartId{99}}}, "no part with id 99");
    expectRefused(start, {SetNextId{41}}, "above 41");
    Document noLog = start;
    noLog.log.clear();
    expectRefused(noLog, {RemoveLastLog{}}, "empty");
}

TEST(EditTest, WhatIsStillUsedCannotBeTakenAway) {
    const Document start = sample::withSmallPlan();
    expectRefused(start, {RemoveBoard{sample::thinBoard}}, "plan still cuts");
    expectRefused(start, {RemovePart{sample::top}}, "a size of part L");
    expectRefused(start, {RemovePart{sample::rail}}, "the joint");
    Document noJoints = start;
    noJoints.joints.clear();
    expectRefused(noJoints, {RemovePart{sample::rail}}, "the group");
    noJoints.groups.clear();
    expectRefused(noJoints, {RemovePart{sample::rail}}, "the plan");
}

TEST(EditTest, ASequenceIsAllOrNothing) {
    expectRefused(sample::sideTable(),
                  {EditSequence{{{ReplaceGroups{{}}},
                                 {InsertBoard{0, newBoard(70)}},
                                 {EditSequence{{{AppendLog{{1, "a", "b"}}}, {SetNextId{300}}}}},
                                 {RemoveBoard{BoardId{999}}}}}},
                  "no board with id 999");
}

TEST(EditTest, TheScopeSaysWhatToDrawAgain) {
    EXPECT_TRUE(scopeOf({RemoveBoard{}}).boards);
    EXPECT_FALSE(scopeOf({RemoveBoard{}}).parts);
    EXPECT_TRUE(scopeOf({ReplaceJoints{}}).parts);
    EXPECT_TRUE(scopeOf({ReplacePlan{}}).plan);
    EXPECT_TRUE(scopeOf({ReplaceGlueUp{}}).glueUp);
    EXPECT_TRUE(scopeOf({ReplaceShop{}}).shop);
    EXPECT_TRUE(scopeOf({ReplaceInfo{}}).info);
    EXPECT_TRUE(scopeOf({RemoveLastLog{}}).log);
    const EditScope both = scopeOf({EditSequence{{{ReplacePlan{}}, {RemoveBoard{}}}}});
    EXPECT_TRUE(both.plan && both.boards);
    EXPECT_FALSE(both.parts || both.shop || both.info || both.log);
}

/// Any edit, fitting or not, made from what the document holds now.
Edit anyEdit(const Document& document, int depth) {
    const auto below = [](std::size_t limit) {
        return *rc::gen::inRange<std::size_t>(0, limit + 1);
    };
    const auto boardId = [&] {
        const std::size_t i = below(document.boards.size());
        return i < document.boards.size() ? document.boards[i].id : BoardId{777};
    };
    const auto partId = [&] {
        const std::size_t i = below(document.parts.size());
        return i < document.parts.size() ? document.parts[i].id : PartId{777};
    };
    const std::int64_t freshId = document.nextId + *rc::gen::inRange(-2, 3);
    switch (*rc::gen::inRange(0, depth > 0 ? 15 : 14)) {
    case 0:
        return {InsertBoard{below(document.boards.size()), newBoard(freshId)}};
    case 1:
        return {RemoveBoard{boardId()}};
    case 2: {
        Board board = newBoard(boardId().value);
        board.defects = {sample::defect(freshId, "K", DefectKind::Pith, {})};
        return {ReplaceBoard{board}};
    }
    case 3: {
        Part part = sample::makeParts()[below(1)];
        part.id = PartId{freshId};
        return {InsertPart{below(document.parts.size()), part}};
    }
    case 4:
        return {RemovePart{partId()}};
    case 5: {
        Part part = sample::makeParts()[below(2)];
        part.id = partId();
        part.count = *rc::gen::inRange(1, 9);
        return {ReplacePart{part}};
    }
    case 6:
        return {ReplaceJoints{*rc::gen::arbitrary<bool>() ? sample::sideTable().joints
                                                          : std::vector<Joint>{}}};
    case 7:
        return {ReplaceGroups{*rc::gen::arbitrary<bool>() ? sample::sideTable().groups
                                                          : std::vector<MatchGroup>{}}};
    case 8: {
        Shop shop = document.shop;
        shop.name += 'x';
        shop.ruleSets.push_back({RuleSetId{freshId}, "more", {}, {}});
        return {ReplaceShop{shop}};
    }
    case 9: {
        JobInfo info;
        info.title = std::to_string(*rc::gen::inRange(0, 5));
        return {ReplaceInfo{info}};
    }
    case 10:
        return {ReplacePlan{*rc::gen::arbitrary<bool>() ? sample::withSmallPlan().plan
                                                        : std::optional<Plan>{}}};
    case 11:
        return {AppendLog{{*rc::gen::inRange<std::int64_t>(0, 99), "what", "why"}}};
    case 12:
        return {RemoveLastLog{}};
    case 13:
        return {SetNextId{freshId}};
    default: {
        EditSequence sequence;
        const std::size_t count = below(4);
        for (std::size_t i = 0; i < count; ++i) {
            sequence.edits.push_back(anyEdit(document, depth - 1));
        }
        return {sequence};
    }
    }
}

RC_GTEST_PROP(EditTest, AnyHistoryUndoesAndRedoesToTheIdenticalDocument, ()) {
    Document document = sample::withSmallPlan();
    std::vector<Document> states = {document};
    std::vector<Edit> undos;
    const int tries = *rc::gen::inRange(1, 25);
    for (int i = 0; i < tries; ++i) {
        Result<Edit> undo = apply(document, anyEdit(document, 2));
        if (undo) {
            undos.push_back(std::move(undo).value());
            states.push_back(document);
        }
        RC_ASSERT(document == states.back()); // refused edits change nothing
    }
    RC_CLASSIFY(undos.size() >= 5, "five edits or more");
    std::vector<Edit> redos;
    for (std::size_t i = undos.size(); i > 0; --i) {
        Result<Edit> redo = apply(document, undos[i - 1]);
        RC_ASSERT(redo.ok());
        RC_ASSERT(document == states[i - 1]);
        redos.push_back(std::move(redo).value());
    }
    for (std::size_t i = 0; i < undos.size(); ++i) {
        RC_ASSERT(apply(document, redos[redos.size() - 1 - i]).ok());
        RC_ASSERT(document == states[i + 1]);
    }
}

TEST(EditTest, WhatWasProvedOfThePlanGoesWithTheBoardsItWasProvedFor) {
    Document start = sample::withSmallPlan();
    start.plan->origin.proof = Proof{Money::whole(120), Money::whole(110)};
    Board board = start.boards[0];
    board.notes = "turned over and looked at";
    Part part = start.parts[2];
    part.count = 6;
    Shop shop = start.shop;
    shop.widthStep = Length::millimetres(2);
    JobInfo info = start.info;
    info.title = "Hall table";
    for (const Edit& edit : {Edit{ReplaceBoard{board}}, Edit{ReplacePart{part}},
                             Edit{ReplaceShop{shop}}, Edit{InsertBoard{0, newBoard(70)}}}) {
        Document document = start;
        ASSERT_TRUE(apply(document, edit));
        EXPECT_FALSE(document.plan->origin.proof);
        expectUndoable(start, edit);
    }
    Document renamed = start;
    ASSERT_TRUE(apply(renamed, {ReplaceInfo{info}}));
    EXPECT_TRUE(renamed.plan->origin.proof);
    // A new plan brings its own.
    Document planned = start;
    Plan plan = *start.plan;
    plan.origin.proof = Proof{Money::whole(115), Money::whole(110)};
    EditSequence both;
    both.edits = {Edit{ReplaceBoard{board}}, Edit{ReplacePlan{plan}}};
    ASSERT_TRUE(apply(planned, Edit{both}));
    EXPECT_EQ(planned.plan->origin.proof, plan.origin.proof);
    expectUndoable(start, Edit{both});
}

} // namespace
} // namespace stavewright
