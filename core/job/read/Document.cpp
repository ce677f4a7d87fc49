// The top level of a job, and the defaults that need more than one part of it.

#include "core/job/read/Readers.h"

#include "core/document/Ids.h"
#include "core/layout/GluePresets.h"
#include "core/shop/Presets.h"

namespace stavewright::job {

static void read(const Cursor& at, JobInfo& info) {
    Object object(at);
    object.optional("title", info.title);
    object.optional("client", info.client);
    object.optional("notes", info.notes);
    object.optional("units", info.units);
    object.optional("inchDenominator", info.inchDenominator);
    object.optional("currency", info.currency);
    object.finish();
}

static void read(const Cursor& at, LogEntry& entry) {
    Object object(at);
    object.optional("time", entry.time);
    object.required("what", entry.what);
    object.optional("why", entry.why);
    object.finish();
}

static void read(const Cursor& at, BoardRule& rule) {
    Object object(at);
    object.required("kind", rule.kind);
    object.required("board", rule.board);
    object.required("part", rule.part);
    object.optional("along", rule.along);
    object.finish();
}

/// Things that were written without an id get the next free ones, in the order of the file.
static void giveMissingIds(Document& document) {
    visitIds(document, [&](auto& id) {
        if (!id.isSet()) {
            id.value = document.nextId++;
        }
    });
}

void read(const Cursor& at, Document& document) {
    int version = 0; // checked before
    Object object(at);
    object.required("formatVersion", version);
    object.optional("job", document.info);
    document.shop = document.info.units == UnitSystem::Inches ? inchShop() : metricShop();
    object.optional("shop", document.shop);
    document.glueUp.settings = glueSettingsFor(document.info.units);
    object.required("boards", document.boards);
    object.required("parts", document.parts);
    object.optional("joints", document.joints);
    object.optional("groups", document.groups);
    object.optional("boardRules", document.boardRules);
    object.optional("plan", document.plan);
    object.optional("glueUp", document.glueUp);
    object.optional("log", document.log);
    const bool hasNextId = object.optional("nextId", document.nextId);
    object.finish();
    if (at.failed()) {
        return;
    }
    if (!hasNextId) {
        document.nextId = largestId(document) + 1;
    }
    giveMissingIds(document);
}

} // namespace stavewright::job
