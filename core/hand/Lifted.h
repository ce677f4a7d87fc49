#pragma once
// Private to core/hand: a blank lifted off its board, on a copy of the job, and what is asked of
// the boards while it is in the hand.

#include <map>
#include <memory>
#include <set>

#include "core/audit/BoardJudge.h"
#include "core/hand/Drag.h"
#include "core/hand/Ground.h"

namespace stavewright::hand {

/// Where its low corner lies on the board.
[[nodiscard]] inline Point cornerOf(const Laying& laying) {
    return toOuter(laying.bed.frame, Point{laying.along, laying.bed.across.from});
}

/// No other place on the board would be better.
[[nodiscard]] bool isOfTheWholeBoard(const Finding& finding);

struct Lifted {
    const Document original; ///< as it was before
    Document lifted;         ///< without the blank
    std::vector<BlankSpec> specs;
    const BlankSpec* spec = nullptr;
    Blank blank;
    Length width;
    bool fromTray = false;
    std::optional<Laying> origin;
    Stretch homeAlong; ///< of the section it was lifted from, as it stood
    std::string label;
    LengthStyle style;
    std::unique_ptr<BoardJudge> judge;
    mutable std::map<BoardId, BoardLayout> layouts; ///< planned offcuts dropped; stable addresses
    mutable std::map<BoardId, Ground> grounds;
    mutable std::map<BoardId, std::set<std::string>> stood; ///< findings before it was laid down
    mutable std::optional<bool> wasLegal; ///< where it was lifted from, once that was asked

    explicit Lifted(const Document& document)
        : original(document)
        , lifted(document) {}
    void makeReady();

    // How it is judged (Lifted.cpp).
    [[nodiscard]] const Ground* groundOf(BoardId id) const;
    [[nodiscard]] Load loadIn(Pose pose) const;
    /// Findings that come with the blank where it is laid. A section of its own that is too warped
    /// or too wide to be faced whole is rough-ripped first.
    [[nodiscard]] std::vector<Finding> against(const Ground& ground, Laying& laying) const;
    [[nodiscard]] std::vector<Finding> asLaid(const Ground& ground, const Laying& laying) const;
    /// What was found without the blank as well is none of its doing.
    [[nodiscard]] bool countsAgainstIt(const Finding& finding, BoardId board) const;
    /// Where it was lifted from, if that is on this board and it lay there as it is held now. Like
    /// everywhere else, what was wrong on the board without it does not count.
    [[nodiscard]] std::optional<Laying> wayBack(const Ground& ground, Pose pose) const;
    /// Just where it was lifted. A leaning section that went with its only blank would come back in
    /// a frame of its own, a hair off; but back there nothing is changed at all.
    [[nodiscard]] bool isBack(BoardId board, Point corner, Pose pose) const;

    // Where it can lie (LiftedPlaces.cpp).
    struct Snapped {
        Laying laying;
        std::optional<Drag::Snap> snap;
    };
    /// On the bed, with an end at the nearest mark within reach.
    [[nodiscard]] Snapped snapped(const Ground& ground, const Bed& bed, Point corner, Pose pose,
                                  Length within) const;
    /// The legal place nearest to that corner on the board; nothing when there is none.
    [[nodiscard]] std::optional<Laying> nearest(const Ground& ground, Point corner,
                                                Pose pose) const;
    struct Candidate {
        Laying laying;
        Length away;
    };
    /// Free places of the beds near these corners that are not among those known, those nearest to
    /// the wish first; the beds are known from then on.
    [[nodiscard]] std::vector<Candidate> candidates(const Ground& ground,
                                                    const std::vector<Point>& corners, Point wish,
                                                    Pose pose, std::vector<Bed>& known) const;
    /// In every section and in every stretch between them, as near as the blank can stand there.
    [[nodiscard]] std::vector<Point> cornersAllAlong(const Ground& ground, Point wish) const;
    struct Looked {
        std::optional<Laying> legal;
        bool isHopeless = false; ///< the rest of the board would be no better
    };
    [[nodiscard]] Looked firstLegal(const Ground& ground,
                                    const std::vector<Candidate>& candidates) const;

    // What is said of it (LiftedWords.cpp).
    /// Why it may not lie where it is held, with the nearest remedy.
    [[nodiscard]] std::string whyNotHere(const Ground& ground, const Drag::Held& held,
                                         const Finding& worst) const;
    /// The same where it finds no bed at all.
    [[nodiscard]] std::string whyNoBed(const Ground& ground, const std::optional<Laying>& nearest,
                                       Point corner) const;
    /// "R1 and R2": blanks over which the outline lies.
    [[nodiscard]] std::string under(const Ground& ground, const Polygon& outline) const;
    /// "R1 and R2": blanks of the sections that reach over the same stretch of the tape.
    [[nodiscard]] std::string inSectionsAt(const Ground& ground, const Polygon& outline) const;
    /// "move 2 3/8 in towards the datum end"
    [[nodiscard]] std::string wayTo(const Laying& to, Point corner) const;
};

} // namespace stavewright::hand
