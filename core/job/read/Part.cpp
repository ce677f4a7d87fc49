// Parts, zones, joints and groups.

#include "core/job/read/Readers.h"

namespace stavewright::job {

static void read(const Cursor& at, LeanTerm& term) {
    Object object(at);
    object.required("factor", term.factor);
    object.required("part", term.part);
    object.required("dimension", term.dimension);
    object.finish();
}

/// A plain length, or a base with what it leans on.
static void read(const Cursor& at, Size& size) {
    if (at.value().kind != JsonValue::Kind::Object) {
        read(at, size.base);
        return;
    }
    Object object(at);
    object.required("base", size.base);
    object.optional("leans", size.leans);
    object.finish();
}

static void read(const Cursor& at, LaminationMakeUp& lamination) {
    Object object(at);
    object.required("plies", lamination.plies);
    object.finish();
}

static void read(const Cursor& at, PanelMakeUp& panel) {
    Object object(at);
    object.required("leastStave", panel.leastStave);
    object.required("widestStave", panel.widestStave);
    object.optional("fewestStaves", panel.fewestStaves);
    object.optional("mostStaves", panel.mostStaves);
    object.finish();
}

static void read(const Cursor& at, MakeUp& makeUp) {
    Object object(at);
    object.optional("lamination", makeUp.lamination);
    object.optional("panel", makeUp.panel);
    object.finish();
}

static void read(const Cursor& at, Anchored& anchored) {
    Object object(at);
    object.required("end", anchored.from);
    object.required("offset", anchored.offset);
    object.finish();
}

static void read(const Cursor& at, AnchoredStretch& stretch) {
    Object object(at);
    object.optional("from", stretch.from);
    object.optional("to", stretch.to);
    object.finish();
}

static void read(const Cursor& at, Zone& zone) {
    Object object(at);
    object.optional("id", zone.id);
    object.required("name", zone.name);
    object.required("role", zone.role);
    object.optional("area", zone.area);
    object.required("rules", zone.rules);
    object.finish();
}

static void read(const Cursor& at, JointSide& side) {
    Object object(at);
    object.required("part", side.part);
    object.optional("area", side.area);
    object.finish();
}

void read(const Cursor& at, ZoneArea& area) {
    Object object(at);
    object.optional("faces", area.faces);
    object.optional("along", area.along);
    object.optional("across", area.across);
    object.finish();
}

void read(const Cursor& at, Part& part) {
    Object object(at);
    object.required("id", part.id);
    object.required("mark", part.mark);
    object.optional("name", part.name);
    object.optional("group", part.group);
    object.required("species", part.species);
    object.optional("count", part.count);
    object.required("length", part.length);
    object.required("width", part.width);
    object.required("thickness", part.thickness);
    object.optional("leastThickness", part.leastThickness);
    object.optional("makeUp", part.makeUp);
    object.optional("zones", part.zones);
    object.optional("perBlank", part.perBlank);
    object.optional("notes", part.notes);
    object.finish();
}

void read(const Cursor& at, Joint& joint) {
    Object object(at);
    object.optional("id", joint.id);
    object.optional("name", joint.name);
    object.required("kind", joint.kind);
    object.required("sides", joint.sides);
    object.required("rules", joint.rules);
    object.finish();
}

void read(const Cursor& at, MatchGroup& group) {
    Object object(at);
    object.optional("id", group.id);
    object.optional("name", group.name);
    object.required("want", group.want);
    object.required("parts", group.parts);
    object.finish();
}

} // namespace stavewright::job
