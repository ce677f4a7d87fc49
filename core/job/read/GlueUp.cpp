// How panels are to be glued. Keys that are left out keep what the program begins with.

#include "core/job/read/Readers.h"

namespace stavewright::job {

static void read(const Cursor& at, GlueWeights& weights) {
    Object object(at);
    for (const GlueTerm term : allGlueTerms) {
        object.optional(wordOf(term), weights.hundredths[static_cast<std::size_t>(term)]);
    }
    object.finish();
}

static void read(const Cursor& at, GlueSettings& settings) {
    Object object(at);
    object.optional("weights", settings.weights);
    object.optional("moistureTenths", settings.moistureTenths);
    object.optional("moistureInUseTenths", settings.moistureInUseTenths);
    object.optional("ringRadius", settings.ringRadius);
    object.optional("mostCup", settings.mostCup);
    object.optional("knotClear", settings.knotClear);
    object.optional("knotsApart", settings.knotsApart);
    object.optional("narrow", settings.narrow);
    object.optional("caul", settings.caul);
    object.optional("clampsApart", settings.clampsApart);
    object.optional("leastPsi", settings.leastPsi);
    object.finish();
}

static void read(const Cursor& at, PanelName& name) {
    Object object(at);
    object.required("part", name.part);
    object.optional("instance", name.instance);
    object.optional("ply", name.ply);
    object.finish();
}

static void read(const Cursor& at, GluedStave& stave) {
    Object object(at);
    object.required("stave", stave.stave);
    object.optional("locked", stave.locked);
    object.optional("board", stave.board);
    object.optional("at", stave.at);
    object.optional("width", stave.width);
    readPose(object, stave.pose);
    object.finish();
}

static void read(const Cursor& at, PanelArrangement& panel) {
    Object object(at);
    object.required("panel", panel.panel);
    object.optional("rings", panel.rings);
    object.optional("noCentreSeam", panel.noCentreSeam);
    object.optional("matches", panel.matches);
    object.optional("staves", panel.staves);
    object.finish();
}

static void read(const Cursor& at, LaidStave& stave) {
    Object object(at);
    object.required("board", stave.board);
    object.required("frame", stave.frame);
    object.required("net", stave.net);
    readPose(object, stave.pose);
    object.finish();
}

static void read(const Cursor& at, JointLie& lie) {
    Object object(at);
    object.required("lean", lie.lean);
    object.required("gap", lie.gap);
    object.finish();
}

static void read(const Cursor& at, LaidOut& laid) {
    Object object(at);
    object.required("panel", laid.panel);
    object.required("photo", laid.photo);
    object.required("staves", laid.staves);
    object.required("joints", laid.joints);
    object.optional("lies", laid.lies);
    object.finish();
}

void read(const Cursor& at, GlueUp& glueUp) {
    Object object(at);
    object.optional("settings", glueUp.settings);
    object.optional("panels", glueUp.panels);
    object.optional("laidOut", glueUp.laidOut);
    object.finish();
}

} // namespace stavewright::job
