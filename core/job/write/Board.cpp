#include "core/job/write/Writers.h"

namespace stavewright::job {

Json toJson(const Warp& warp) {
    return {{"bow", toJson(warp.bow)},
            {"cup", toJson(warp.cup)},
            {"twist", toJson(warp.twist)},
            {"where", toJson(warp.where)}};
}

Json toJson(const LookedAt& lookedAt) {
    Json json{{"face", toJson(lookedAt.face)}, {"stretch", toJson(lookedAt.stretch)}};
    putIfSet(json, "knotsUnder", lookedAt.knotsUnder);
    return json;
}

Json toJson(const SawnRegion& region) {
    return {{"sawn", toJson(region.sawn)}, {"where", toJson(region.where)}};
}

Json toJson(const Ellipse& ellipse) {
    return {{"centre", toJson(ellipse.centre)},
            {"along", toJson(ellipse.along)},
            {"across", toJson(ellipse.across)},
            {"turn", toJson(ellipse.turnMicroradians)}};
}

Json toJson(const FaceMark& mark) {
    Json json{{"outline", toJson(mark.outline)}};
    putIfSet(json, "ellipse", mark.form);
    return json;
}

Json toJson(const Defect& defect) {
    Json json{{"id", toJson(defect.id)},
              {"mark", toJson(defect.mark)},
              {"kind", toJson(defect.kind)},
              {"through", toJson(defect.through)},
              {"note", toJson(defect.note)}};
    putIfSet(json, "onA", defect.onA);
    putIfSet(json, "onB", defect.onB);
    putIfSet(json, "depth", defect.depth);
    return json;
}

Json toJson(const BoardParent& parent) {
    return {{"board", toJson(parent.board)},
            {"origin", toJson(parent.origin)},
            {"endForEnd", toJson(parent.endForEnd)}};
}

Json toJson(const RackLink& link) {
    return {
        {"rack", toJson(link.rack)}, {"piece", toJson(link.piece)}, {"loan", toJson(link.loan)}};
}

Json toJson(const photo::PhotoPoint& point) { return {toJson(point.x), toJson(point.y)}; }

Json toJson(const photo::CornerMark& mark) {
    return {{"corner", toJson(mark.corner)}, {"at", toJson(mark.at)}};
}

Json toJson(const photo::TapeReading& mark) {
    return {{"at", toJson(mark.at)}, {"reading", toJson(mark.reading)}};
}

Json toJson(const photo::EdgeMark& mark) {
    return {{"edge", toJson(mark.edge)}, {"at", toJson(mark.at)}};
}

Json toJson(const photo::SpotMark& mark) {
    return {{"number", toJson(mark.number)}, {"at", toJson(mark.at)}};
}

Json toJson(const BoardPhoto& photo) {
    Json json{{"id", toJson(photo.id)},
              {"face", toJson(photo.face)},
              {"name", toJson(photo.name)},
              {"sha256", toJson(photo.file.sha256())},
              {"pixels", {toJson(photo.controls.width), toJson(photo.controls.height)}},
              {"size",
               {{"length", toJson(photo.size.length)},
                {"widthAtDatum", toJson(photo.size.widthAtDatum)},
                {"widthAtFar", toJson(photo.size.widthAtFar)}}},
              {"corners", toJson(photo.controls.corners)},
              {"tape", toJson(photo.controls.tape)},
              {"edges", toJson(photo.controls.edges)}};
    if (!photo.controls.spots.empty()) {
        json["spots"] = toJson(photo.controls.spots);
    }
    return json;
}

Json toJson(const Board& board) {
    Json json{{"id", toJson(board.id)},
              {"mark", toJson(board.mark)},
              {"species", toJson(board.species)},
              {"quarter", std::to_string(board.quarter.quarters) + "/4"},
              {"thinnest", toJson(board.thinnest)},
              {"outline", toJson(board.outline)},
              {"warp", toJson(board.warp)},
              {"heart", toJson(board.heart)},
              {"planing", toJson(board.planing)},
              {"pricePerBoardFoot", toJson(board.pricePerBoardFoot)},
              {"trimAtDatum", toJson(board.trimAtDatum)},
              {"trimAtFar", toJson(board.trimAtFar)},
              {"lookedAt", toJson(board.lookedAt)},
              {"defects", toJson(board.defects)},
              {"setAside", toJson(board.setAside)},
              {"notes", toJson(board.notes)}};
    if (!board.sawn.empty()) { // a job that notes none reads as it did before there was the key
        json["sawn"] = toJson(board.sawn);
    }
    if (!board.photos.empty()) {
        json["photos"] = toJson(board.photos);
    }
    putIfSet(json, "billed", board.billed);
    putIfSet(json, "moistureTenths", board.moistureTenths);
    putIfSet(json, "parent", board.parent);
    putIfSet(json, "ringRadius", board.ringRadius);
    putIfSet(json, "rackLink", board.rackLink);
    return json;
}

} // namespace stavewright::job
