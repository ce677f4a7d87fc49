// The cut tree of a plan and what it claims.

#include "core/job/read/Readers.h"

namespace stavewright::job {

static void readPurpose(Object& object, BlankPurpose& purpose) {
    object.required("part", purpose.part);
    object.optional("instance", purpose.instance);
    object.optional("ply", purpose.ply);
    object.optional("stave", purpose.stave);
}

void readPose(Object& object, Pose& pose) {
    object.optional("endForEnd", pose.endForEnd);
    object.optional("faceOver", pose.faceOver);
}

static void read(const Cursor& at, Blank& blank) {
    Object object(at);
    object.optional("id", blank.id);
    readPurpose(object, blank.purpose);
    object.required("rect", blank.rect);
    readPose(object, blank.pose);
    object.optional("state", blank.state);
    object.optional("locked", blank.locked);
    object.optional("actual", blank.actual);
    // Where nothing is said, as before it could be: a ripped blank with a size of its own is off
    // its strip.
    blank.lowEndCut = blank.state == CutState::Ripped && blank.actual;
    blank.highEndCut = blank.lowEndCut;
    object.optional("lowEndCut", blank.lowEndCut);
    object.optional("highEndCut", blank.highEndCut);
    object.optional("note", blank.note);
    object.finish();
}

static void read(const Cursor& at, Offcut& offcut) {
    Object object(at);
    object.optional("id", offcut.id);
    object.required("rect", offcut.rect);
    object.optional("state", offcut.state);
    object.finish();
}

static void read(const Cursor& at, Strip& strip) {
    Object object(at);
    object.optional("id", strip.id);
    object.required("across", strip.across);
    object.optional("blanks", strip.blanks);
    object.optional("offcuts", strip.offcuts);
    object.optional("lowEdgeRipped", strip.lowEdgeRipped);
    object.optional("highEdgeRipped", strip.highEdgeRipped);
    object.optional("milled", strip.milled);
    object.optional("planedTo", strip.planedTo);
    object.finish();
}

void read(const Cursor& at, Frame& frame) {
    Object object(at);
    object.required("origin", frame.origin);
    object.optional("run", frame.run);
    object.optional("rise", frame.rise);
    object.finish();
}

static void read(const Cursor& at, Section& section) {
    Object object(at);
    object.optional("id", section.id);
    object.required("along", section.along);
    object.required("frame", section.frame);
    object.optional("facing", section.facing);
    object.optional("strips", section.strips);
    object.optional("offcuts", section.offcuts);
    object.optional("locked", section.locked);
    object.optional("state", section.state);
    object.optional("lowEndUncut", section.lowEndUncut);
    object.optional("highEndUncut", section.highEndUncut);
    object.optional("planedTo", section.planedTo);
    object.finish();
}

static void read(const Cursor& at, BoardLayout& layout) {
    Object object(at);
    object.required("board", layout.board);
    object.required("sections", layout.sections);
    object.optional("locked", layout.locked);
    object.finish();
}

static void read(const Cursor& at, ThicknessChoice& choice) {
    Object object(at);
    object.required("part", choice.part);
    object.required("finished", choice.finished);
    object.finish();
}

static void read(const Cursor& at, Unplaced& unplaced) {
    Object object(at);
    readPurpose(object, unplaced.purpose);
    object.optional("nearestMiss", unplaced.nearestMiss);
    object.finish();
}

static void read(const Cursor& at, PlanTotals& totals) {
    Object object(at);
    object.required("boardsUsed", totals.boardsUsed);
    object.required("placed", totals.placed);
    object.required("demanded", totals.demanded);
    object.required("fills", totals.fills);
    object.required("lumberUsed", totals.lumberUsed);
    object.required("blanks", totals.blanks);
    object.required("parts", totals.parts);
    object.required("offcutsKept", totals.offcutsKept);
    object.required("cost", totals.cost);
    object.finish();
}

static void read(const Cursor& at, Proof& proof) {
    Object object(at);
    object.required("counted", proof.counted);
    object.required("least", proof.least);
    object.optional("leastLumber", proof.leastLumber);
    object.finish();
}

static void read(const Cursor& at, Origin& origin) {
    Object object(at);
    object.required("source", origin.source);
    object.optional("seed", origin.seed);
    object.optional("work", origin.work);
    object.optional("engine", origin.engine);
    object.optional("proof", origin.proof);
    object.finish();
}

void read(const Cursor& at, Plan& plan) {
    Object object(at);
    object.required("boards", plan.boards);
    object.optional("thicknesses", plan.thicknesses);
    object.optional("unplaced", plan.unplaced);
    object.required("totals", plan.totals);
    object.required("origin", plan.origin);
    object.finish();
}

} // namespace stavewright::job
