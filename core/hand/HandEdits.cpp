#include "core/hand/HandEdits.h"

#include <algorithm>

#include "core/hand/Finish.h"
#include "core/hand/Refusals.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

std::string say(const Document& document, Length length) {
    return saidLength(length, {document.info.units, document.info.inchDenominator, true});
}

std::string labelOf(const Document& document, const Blank& blank) {
    return stavewright::labelOf(document, blank.purpose);
}

/// The document's plan to work on, and the first id that may be given out.
struct Work {
    const Document& document;
    Plan plan;
    std::int64_t nextId;

    explicit Work(const Document& from)
        : document(from)
        , plan(*from.plan)
        , nextId(from.nextId) {}

    BoardLayout& layoutOn(BoardId board) {
        for (BoardLayout& layout : plan.boards) {
            if (layout.board == board) {
                return layout;
            }
        }
        plan.boards.push_back({board, {}, false});
        return plan.boards.back();
    }
    void lift(const TreePlace& place) {
        BoardLayout& layout = plan.boards[place.board];
        const BlankId id = blankAt(plan, place).id;
        dropPlannedOffcuts(layout);
        takeOut(layout, id);
    }
    Status lay(const Laying& laying, Length length, Blank blank) {
        const Board* board = findBoard(document, laying.board);
        if (!board) {
            return refused("The board is no longer in the job.");
        }
        BoardLayout& layout = layoutOn(laying.board);
        if (layout.locked) {
            return refused("Board " + board->mark + " is locked; unlock it first.");
        }
        if (board->setAside) {
            return refused("Board " + board->mark + " is set aside; take that back first.");
        }
        for (const Section& section : layout.sections) {
            if (section.id == laying.bed.section && section.locked) {
                return refused("That section of board " + board->mark +
                               " is locked; unlock it first.");
            }
        }
        dropPlannedOffcuts(layout);
        layout = laid(std::move(layout), laying, length, std::move(blank), nextId);
        return Done{};
    }
};

/// The blank, free to be moved; or why not.
Result<TreePlace> movable(const Document& document, BlankId id) {
    if (!document.plan) {
        return noPlan();
    }
    const std::optional<TreePlace> place = placeOf(*document.plan, id);
    if (!place) {
        return refused("The blank is no longer in the plan.");
    }
    const std::string why = whyFixed(document, *place);
    if (!why.empty()) {
        return refused(why);
    }
    return *place;
}

} // namespace

std::string whyFixed(const Document& document, const TreePlace& place) {
    const Plan& plan = *document.plan;
    const BoardLayout& layout = plan.boards[place.board];
    const Section& section = sectionAt(plan, place);
    const Blank& blank = blankAt(plan, place);
    const std::string label = labelOf(document, blank);
    const Board* board = findBoard(document, layout.board);
    if (layout.locked) {
        return label + " stays where it is: board " + (board ? board->mark : "") +
               " is locked. Unlock it first.";
    }
    if (section.locked) {
        return label + " stays where it is: its section is locked. Unlock it first.";
    }
    if (blank.locked) {
        return label + " is locked. Unlock it first.";
    }
    if (blank.state != CutState::Planned) {
        return label + " is cut already and cannot be moved.";
    }
    return {};
}

Result<Edit> move(const Document& document, BlankId id, const Laying& laying) {
    const Result<TreePlace> place = movable(document, id);
    if (!place) {
        return place.error();
    }
    Work work(document);
    const Blank blank = blankAt(work.plan, place.value());
    const BoardId from = work.plan.boards[place.value().board].board;
    work.lift(place.value());
    const Status done = work.lay(laying, blank.rect.length(), blank);
    if (!done) {
        return done.error();
    }
    return finished(document, std::move(work.plan), {from, laying.board}, work.nextId);
}

Result<Edit> backToTray(const Document& document, BlankId id) {
    const Result<TreePlace> place = movable(document, id);
    if (!place) {
        return place.error();
    }
    Work work(document);
    const BoardId from = work.plan.boards[place.value().board].board;
    work.lift(place.value());
    return finished(document, std::move(work.plan), {from}, work.nextId);
}

Result<Edit> layFromTray(const Document& document, const BlankPurpose& purpose,
                         const Laying& laying) {
    if (!document.plan) {
        return noPlan();
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    const BlankSpec* spec = specOf(specs.value(), purpose);
    if (!spec) {
        return refused("The job does not ask for such a blank.");
    }
    Work work(document);
    Blank blank;
    blank.purpose = purpose;
    if (spec->staves) {
        blank.purpose.stave = 1;
        for (bool isTaken = true; isTaken;) {
            isTaken = false;
            for (const BoardLayout& layout : work.plan.boards) {
                for (const Section& section : layout.sections) {
                    for (const Strip& strip : section.strips) {
                        for (const Blank& other : strip.blanks) {
                            isTaken = isTaken || other.purpose == blank.purpose;
                        }
                    }
                }
            }
            blank.purpose.stave += isTaken ? 1 : 0;
        }
    }
    blank.id = BlankId{work.nextId++};
    const Status done = work.lay(laying, spec->length, std::move(blank));
    if (!done) {
        return done.error();
    }
    return finished(document, std::move(work.plan), {laying.board}, work.nextId);
}

Result<Edit> turn(const Document& document, BlankId id, Pose pose) {
    const Result<TreePlace> place = movable(document, id);
    if (!place) {
        return place.error();
    }
    Work work(document);
    const TreePlace& at = place.value();
    BoardLayout& layout = work.plan.boards[at.board];
    layout.sections[at.section].strips[at.strip].blanks[at.blank].pose = pose;
    const BoardId board = layout.board;
    return finished(document, std::move(work.plan), {board}, work.nextId);
}

Result<Edit> swap(const Document& document, BlankId first, BlankId second) {
    const Result<TreePlace> a = movable(document, first);
    const Result<TreePlace> b = movable(document, second);
    if (!a || !b) {
        return a ? b.error() : a.error();
    }
    if (first == second) {
        return refused("A blank cannot change places with itself.");
    }
    Work work(document);
    const BoardId boardA = work.plan.boards[a.value().board].board;
    const BoardId boardB = work.plan.boards[b.value().board].board;
    const auto at = [&](const TreePlace& place) -> Blank& {
        return work.plan.boards[place.board]
            .sections[place.section]
            .strips[place.strip]
            .blanks[place.blank];
    };
    Blank& blankA = at(a.value());
    Blank& blankB = at(b.value());
    if (blankA.rect.length() == blankB.rect.length() &&
        blankA.rect.width() == blankB.rect.width()) {
        std::swap(blankA, blankB); // id, purpose, pose and note go with the piece
        std::swap(blankA.rect, blankB.rect);
        return finished(document, std::move(work.plan), {boardA, boardB}, work.nextId);
    }
    const auto layingAt = [&](const TreePlace& place) {
        const BoardLayout& layout = document.plan->boards[place.board];
        const Section& section = layout.sections[place.section];
        Laying laying =
            layingOf(layout, section, section.strips[place.strip], blankAt(*document.plan, place));
        laying.bed.facing = section.facing;
        return laying;
    };
    // Each is laid on the wood that the other leaves: at its low corner, in a bed of its own width.
    const Blank pieceA = blankA;
    const Blank pieceB = blankB;
    Laying toA = layingAt(b.value());
    Laying toB = layingAt(a.value());
    toA.bed.across.to = toA.bed.across.from + pieceA.rect.width();
    toB.bed.across.to = toB.bed.across.from + pieceB.rect.width();
    toA.pose = pieceA.pose;
    toB.pose = pieceB.pose;
    work.lift(a.value());
    const std::optional<TreePlace> left = placeOf(work.plan, second);
    work.lift(*left);
    const auto lay = [&](Laying laying, const Blank& piece) {
        // What went away with the lifted blank comes again.
        const BoardLayout* layout = layoutOf(work.plan, laying.board);
        const Section* section = nullptr;
        if (layout) {
            for (const Section& each : layout->sections) {
                section = each.id == laying.bed.section ? &each : section;
            }
        }
        if (!section) {
            laying.bed.section.reset();
            laying.bed.strip.reset();
        } else if (std::none_of(section->strips.begin(), section->strips.end(),
                                [&](const Strip& each) { return each.id == laying.bed.strip; })) {
            laying.bed.strip.reset();
        }
        return work.lay(laying, piece.rect.length(), piece);
    };
    for (const Status& done : {lay(toA, pieceA), lay(toB, pieceB)}) {
        if (!done) {
            return done.error();
        }
    }
    return finished(document, std::move(work.plan), {boardA, boardB}, work.nextId);
}

Result<Edit> moveCrosscut(const Document& document, SectionId id, End end, Length reading) {
    if (!document.plan) {
        return noPlan();
    }
    Work work(document);
    for (BoardLayout& layout : work.plan.boards) {
        for (Section& section : layout.sections) {
            if (section.id != id) {
                continue;
            }
            if (layout.locked || section.locked || section.state != CutState::Planned) {
                return refused(section.state != CutState::Planned
                                   ? "That crosscut is made already."
                                   : "That section is locked; unlock it first.");
            }
            const Length other = end == End::Low ? section.along.to : section.along.from;
            if (end == End::Low ? reading >= other : reading <= other) {
                return refused("The crosscut would stand at " + say(document, reading) +
                               ", past the other end of its section at " + say(document, other) +
                               ".");
            }
            (end == End::Low ? section.along.from : section.along.to) = reading;
            const BoardId board = layout.board;
            return finished(document, std::move(work.plan), {board}, work.nextId);
        }
    }
    return refused("The section is no longer in the plan.");
}

Result<Edit> moveRip(const Document& document, StripId id, End edge, Length to) {
    if (!document.plan) {
        return noPlan();
    }
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    Work work(document);
    for (BoardLayout& layout : work.plan.boards) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                if (strip.id != id) {
                    continue;
                }
                const bool isHeld =
                    std::any_of(strip.blanks.begin(), strip.blanks.end(), [](const Blank& blank) {
                        return blank.locked || blank.state != CutState::Planned;
                    });
                if (layout.locked || section.locked || isHeld) {
                    return refused("Something in that strip is locked or cut; the rip stays.");
                }
                const Stretch before = strip.across;
                const Length other = edge == End::Low ? before.to : before.from;
                if (edge == End::Low ? to >= other : to <= other) {
                    return refused("The rip would stand at " + say(document, to) +
                                   ", past the other edge of its strip at " + say(document, other) +
                                   ".");
                }
                (edge == End::Low ? strip.across.from : strip.across.to) = to;
                for (Blank& blank : strip.blanks) {
                    const BlankSpec* spec = specOf(specs.value(), blank.purpose);
                    if (spec && spec->staves && blank.rect.y0 == before.from &&
                        blank.rect.y1 == before.to) {
                        blank.rect.y0 = strip.across.from;
                        blank.rect.y1 = strip.across.to;
                    }
                }
                const BoardId board = layout.board;
                return finished(document, std::move(work.plan), {board}, work.nextId);
            }
        }
    }
    return refused("The strip is no longer in the plan.");
}

} // namespace stavewright::hand
