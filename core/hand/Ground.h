#pragma once
// One board as the ground for one blank: where across it the blank may be laid (beds), and along
// each bed the stretches that something bars, each with its name. Feedback, snapping and the search
// for the nearest legal place all read the same bars.
//
// The rules for defects are the planner's (core/planning/DefectRuling.h); whether a place is legal
// is for the audit to say (core/audit/BoardJudge.h).

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/document/Document.h"
#include "core/milling/BlankSpec.h"

namespace stavewright::hand {

/// Where across the board a blank lies: in a strip there is, in a new strip of a section there is,
/// or in a section of its own.
struct Bed {
    std::optional<SectionId> section;
    std::optional<StripId> strip;
    Frame frame;    ///< of the section; of a new one parallel to the blank, wherever its origin
    Stretch across; ///< v0..v1 of the blank in that frame
    FirstFacing facing = FirstFacing::Whole; ///< of a new section
    friend bool operator==(const Bed&, const Bed&) = default;
};

/// What bars a stretch of a bed.
enum class BarKind { Defect, Blank, Section, SectionEnd, RawEnd, Edge, Rule };

/// The blank's low end may not stand strictly between `from` and `to` (u in the bed's frame).
struct Bar {
    Length from;
    Length to;
    BarKind kind = BarKind::Edge;
    std::string name; ///< "loose knot K3", "R2", "raw end"
    DefectId defect = {};
};

struct TapeMarks {
    Length step;
    Length origin;
};

/// What is laid down.
struct Load {
    const BlankSpec* spec = nullptr;
    Pose pose;
    Length width;           ///< rough; of a stave as it is, of all else as the spec says
    Length shorter = {};    ///< rough length less than this was cut off too much
    Length shortAtLow = {}; ///< of that at the low end, as the finished part lies in what is left
    [[nodiscard]] Length length() const { return spec->length - shorter; }
};

class Ground {
  public:
    /// The outline of one board and the forbidden wood round its defects, as they were asked for so
    /// far. They do not depend on the layout, so grounds of one board share them.
    struct Known;

    /// `layout` without the blank that is laid. All three have to outlive the ground.
    Ground(const Document& document, const Board& board, const BoardLayout& layout,
           std::shared_ptr<Known> known = {});

    /// A section reached so far while the blank that is laid was still in it: all along there the
    /// blank may be laid back into it.
    void reachedWithIt(SectionId section, Stretch along) {
        m_home = section;
        m_homeAlong = along;
    }

    [[nodiscard]] const Board& board() const { return m_board; }
    [[nodiscard]] const BoardLayout& layout() const { return m_layout; }

    /// Beds for a blank whose low corner is wished at `low` (board frame), nearest first.
    [[nodiscard]] std::vector<Bed> beds(const Load& load, Point low) const;
    /// Positions of the low end at which a free section that the bed lies in need not grow: as it
    /// stands, or as it stood when the blank was still in it. Nothing where the blank is longer.
    [[nodiscard]] std::optional<Stretch> withoutGrowing(const Load& load, const Bed& bed) const;
    /// All that bars the bed, in no order; stretches may overlap.
    [[nodiscard]] std::vector<Bar> bars(const Load& load, const Bed& bed) const;

  private:
    void bedsInSection(const Load& load, const Section& section, Point low,
                       std::vector<Bed>& beds) const;
    void bedsOfItsOwn(const Load& load, Point low, std::vector<Bed>& beds) const;
    void barDefects(const Load& load, const Bed& bed, std::vector<Bar>& bars) const;
    void barEdges(const Load& load, const Bed& bed, std::vector<Bar>& bars) const;
    void barEnds(const Load& load, const Bed& bed, std::vector<Bar>& bars) const;
    void barRules(const Load& load, const Bed& bed, std::vector<Bar>& bars) const;
    void barNeighbours(const Load& load, const Bed& bed, std::vector<Bar>& bars) const;

    /// How far the section reaches, with the blank where it was lifted from it.
    [[nodiscard]] Stretch reachOf(const Section& section) const {
        return m_home == section.id ? m_homeAlong : section.along;
    }

    const Document& m_document;
    const Board& m_board;
    const BoardLayout& m_layout;
    std::shared_ptr<Known> m_known;
    std::optional<SectionId> m_home; ///< from which the blank was lifted
    Stretch m_homeAlong;
};

/// Nothing known yet; for several grounds of one board.
[[nodiscard]] std::shared_ptr<Ground::Known> nothingKnown();

/// Positions of the low end at which a blank's box stays within a stretch of the board.
[[nodiscard]] Stretch positionsWithin(const Bed& bed, Length length, Stretch onBoard);
/// How far apart the finished surfaces of a blank of this spec are at the plan's thicknesses.
[[nodiscard]] Length surfacesApartOf(const Document& document, const BlankSpec& spec);

/// Positions of the low end that nothing bars, nearest to `wish` first: the wish itself, or the two
/// ends of every free stretch. A free stretch that holds a mark of the tape gives its outermost
/// marks, so that what is offered can be read off.
[[nodiscard]] std::vector<Length> freePositions(const std::vector<Bar>& bars, Length wish,
                                                const TapeMarks& marks);
/// Marks of the tape along a bed: one every `step`, where the position and `origin` add to a
/// multiple of it.
[[nodiscard]] TapeMarks tapeMarksOf(const Document& document, const Bed& bed);
/// Something bars the position.
[[nodiscard]] bool isBarred(const std::vector<Bar>& bars, Length position);

} // namespace stavewright::hand
