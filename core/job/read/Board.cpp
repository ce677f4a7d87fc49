// Boards, their defects and what was measured on them.

#include "core/job/read/Readers.h"

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Sha256.h"

namespace stavewright::job {

// Static rather than in an unnamed namespace: the list reader finds them by their arguments.

/// "8/4"
static void read(const Cursor& at, Quarter& quarter) {
    std::string allowed;
    for (const Quarter candidate : tradeQuarters) {
        const std::string word = std::to_string(candidate.quarters) + "/4";
        if (at.value().kind == JsonValue::Kind::Text && at.value().text == word) {
            quarter = candidate;
            return;
        }
        allowed.append(allowed.empty() ? "" : ", ").append("“").append(word).append("”");
    }
    at.failDue("a trade quarter: " + allowed);
}

static void read(const Cursor& at, Warp& warp) {
    Object object(at);
    object.optional("bow", warp.bow);
    object.optional("cup", warp.cup);
    object.optional("twist", warp.twist);
    object.optional("where", warp.where);
    object.finish();
}

/// The shorthand for a straight or tapered board, measured with a tape.
static void readSize(const Cursor& at, Polygon& outline) {
    Length length;
    Length atDatum;
    Object object(at);
    object.required("length", length);
    object.required("widthAtDatum", atDatum);
    Length atFar = atDatum;
    object.optional("widthAtFar", atFar);
    object.finish();
    outline = {{{}, {}}, {length, {}}, {length, atFar}, {{}, atDatum}};
}

static void readOutline(Object& object, const Cursor& at, Polygon& outline) {
    const JsonValue* size = object.known("size");
    if (size && at.value().find("outline")) {
        at.fail("“outline” and “size” are both given; one of them is due.");
    } else if (size) {
        readSize(object.member("size", *size), outline);
    } else {
        object.required("outline", outline);
    }
}

static void read(const Cursor& at, LookedAt& lookedAt) {
    Object object(at);
    object.required("face", lookedAt.face);
    object.required("stretch", lookedAt.stretch);
    object.optional("knotsUnder", lookedAt.knotsUnder);
    object.finish();
}

static void read(const Cursor& at, SawnRegion& region) {
    Object object(at);
    object.required("sawn", region.sawn);
    object.required("where", region.where);
    object.finish();
}

/// A list of stretches, or the text "both faces" for a board that was looked at all over.
static void readLookedAt(Object& object, Board& board) {
    const JsonValue* value = object.known("lookedAt");
    if (!value) {
        return;
    }
    const Cursor at = object.member("lookedAt", *value);
    if (value->kind != JsonValue::Kind::Text) {
        read(at, board.lookedAt);
        return;
    }
    if (value->text != "both faces") {
        at.failDue("a list of stretches or “both faces”");
        return;
    }
    Length length;
    for (const Point& corner : board.outline) {
        length = std::max(length, corner.x);
    }
    board.lookedAt = {{BoardFace::A, {{}, length}}, {BoardFace::B, {{}, length}}};
}

static void read(const Cursor& at, Ellipse& ellipse) {
    Object object(at);
    object.required("centre", ellipse.centre);
    object.required("along", ellipse.along);
    object.required("across", ellipse.across);
    object.optional("turn", ellipse.turnMicroradians);
    object.finish();
}

/// An outline, an ellipse, or an outline that came from an ellipse.
static void read(const Cursor& at, FaceMark& mark) {
    Object object(at);
    object.optional("ellipse", mark.form);
    if (!mark.form) {
        object.required("outline", mark.outline);
        object.finish();
        return;
    }
    const bool hasOutline = object.optional("outline", mark.outline);
    object.finish();
    if (!hasOutline && !at.failed()) {
        if (mark.form->along <= Length() || mark.form->across <= Length()) {
            at.fail("The ellipse's lengths “along” and “across” must be above 0.");
            return;
        }
        mark.outline = ellipsePolygon(mark.form->centre, mark.form->along, mark.form->across,
                                      mark.form->turnMicroradians);
    }
}

static void read(const Cursor& at, Defect& defect) {
    Object object(at);
    object.optional("id", defect.id);
    object.required("mark", defect.mark);
    object.required("kind", defect.kind);
    object.optional("onA", defect.onA);
    object.optional("onB", defect.onB);
    object.optional("through", defect.through);
    object.optional("depth", defect.depth);
    object.optional("note", defect.note);
    object.finish();
}

static void read(const Cursor& at, BoardParent& parent) {
    Object object(at);
    object.required("board", parent.board);
    object.required("origin", parent.origin);
    object.optional("endForEnd", parent.endForEnd);
    object.finish();
}

static void read(const Cursor& at, photo::PhotoPoint& point) {
    if (at.isList("a place in a photograph, [x, y] in thousandths of a pixel", 2)) {
        read(at.item(0), point.x);
        read(at.item(1), point.y);
    }
}

static void read(const Cursor& at, RackLink& link) {
    Object object(at);
    object.required("rack", link.rack);
    object.required("piece", link.piece);
    object.required("loan", link.loan);
    object.finish();
}

static void read(const Cursor& at, photo::CornerMark& mark) {
    Object object(at);
    object.required("corner", mark.corner);
    object.required("at", mark.at);
    object.finish();
}

static void read(const Cursor& at, photo::TapeReading& mark) {
    Object object(at);
    object.required("at", mark.at);
    object.required("reading", mark.reading);
    object.finish();
}

static void read(const Cursor& at, photo::EdgeMark& mark) {
    Object object(at);
    object.required("edge", mark.edge);
    object.required("at", mark.at);
    object.finish();
}

static void read(const Cursor& at, photo::SpotMark& mark) {
    Object object(at);
    object.required("number", mark.number);
    object.required("at", mark.at);
    object.finish();
}

static void read(const Cursor& at, photo::BoardSize& size) {
    Object object(at);
    object.required("length", size.length);
    object.required("widthAtDatum", size.widthAtDatum);
    size.widthAtFar = size.widthAtDatum;
    object.optional("widthAtFar", size.widthAtFar);
    object.finish();
}

/// The name of the entry in the zip; its bytes are found later.
static void read(const Cursor& at, PhotoFile& file) {
    if (at.value().kind == JsonValue::Kind::Text && isSha256(at.value().text)) {
        file = PhotoFile::named(at.value().text);
    } else {
        at.failDue("the SHA-256 of a photograph, 64 digits from 0 to f");
    }
}

static void readPixels(Object& object, photo::PhotoControls& controls) {
    std::vector<int> pixels;
    object.required("pixels", pixels);
    if (pixels.size() == 2) {
        controls.width = pixels[0];
        controls.height = pixels[1];
    } else if (const JsonValue* given = object.known("pixels")) {
        object.member("pixels", *given).failDue("a list of two, the width and the height");
    }
}

void read(const Cursor& at, BoardPhoto& photo) {
    Object object(at);
    object.optional("id", photo.id);
    object.optional("face", photo.face);
    object.optional("name", photo.name);
    object.required("sha256", photo.file);
    readPixels(object, photo.controls);
    object.required("size", photo.size);
    object.optional("corners", photo.controls.corners);
    object.optional("tape", photo.controls.tape);
    object.optional("edges", photo.controls.edges);
    object.optional("spots", photo.controls.spots);
    object.finish();
}

void read(const Cursor& at, Board& board) {
    Object object(at);
    object.optional("id", board.id);
    object.required("mark", board.mark);
    object.required("species", board.species);
    object.required("quarter", board.quarter);
    board.thinnest = board.quarter.nominal();
    object.optional("thinnest", board.thinnest);
    readOutline(object, at, board.outline);
    object.optional("warp", board.warp);
    object.optional("heart", board.heart);
    object.optional("ringRadius", board.ringRadius);
    object.optional("planing", board.planing);
    object.optional("sawn", board.sawn);
    object.optional("pricePerBoardFoot", board.pricePerBoardFoot);
    object.optional("billed", board.billed);
    object.optional("moistureTenths", board.moistureTenths);
    object.optional("trimAtDatum", board.trimAtDatum);
    object.optional("trimAtFar", board.trimAtFar);
    readLookedAt(object, board);
    object.optional("defects", board.defects);
    object.optional("photos", board.photos);
    object.optional("parent", board.parent);
    object.optional("rackLink", board.rackLink);
    object.optional("setAside", board.setAside);
    object.optional("notes", board.notes);
    object.finish();
}

} // namespace stavewright::job
