#pragma once
// The readers of the larger things of a job, one source file for each group.

#include "core/job/read/Cursor.h"

namespace stavewright::job {

void read(const Cursor& at, Board& board);
void read(const Cursor& at, BoardPhoto& photo);
void read(const Cursor& at, Frame& frame);
void read(const Cursor& at, Part& part);
void read(const Cursor& at, ZoneArea& area);
void read(const Cursor& at, Joint& joint);
void read(const Cursor& at, MatchGroup& group);
/// Keys that are left out keep what `shop` holds already.
void read(const Cursor& at, Shop& shop);
void read(const Cursor& at, RuleSet& ruleSet);
void read(const Cursor& at, Plan& plan);
void read(const Cursor& at, GlueUp& glueUp);
/// Its keys stand among those of the blank or stave that lies so.
void readPose(Object& object, Pose& pose);

/// The whole document; the format version has been checked.
void read(const Cursor& at, Document& document);

} // namespace stavewright::job
