#include "core/audit/Case.h"

#include <algorithm>
#include <set>
#include <utility>

#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

/// Longer than anything a shop holds; keeps every product of lengths far inside its integers.
constexpr Length longestSense = Length::millimetres(1'000'000);
/// A section that turns more than 1 in 8 no longer runs along the grain (common practice, no
/// source).
constexpr int steepestTurn = 8;

bool inSense(Length value) { return -longestSense <= value && value <= longestSense; }

bool inSense(const Rect& rect) {
    return inSense(rect.x0) && inSense(rect.y0) && inSense(rect.x1) && inSense(rect.y1);
}

class CaseReader {
  public:
    CaseReader(Case& opened, Report& report)
        : m_case(opened)
        , m_report(report) {}

    void read() {
        std::set<BoardId> seen;
        for (const BoardLayout& layout : m_case.plan.boards) {
            const Board* board = findBoard(m_case.document, layout.board);
            if (!board) {
                m_report.fail(FindingKind::UnknownBoard, {.board = layout.board},
                              "The plan cuts a board that is not in the job.");
                continue;
            }
            if (!seen.insert(layout.board).second) {
                m_report.fail(FindingKind::BoardTwice, {.board = board->id},
                              "The plan lists board " + board->mark + " twice.");
            }
            if (board->setAside && !layout.sections.empty()) {
                m_report.fail(FindingKind::BoardSetAside, {.board = board->id},
                              "Board " + board->mark + " is set aside, yet the plan cuts it.");
            }
            for (std::size_t i = 0; i < layout.sections.size(); ++i) {
                readSection(*board, layout.sections[i], i);
            }
        }
    }

  private:
    void readSection(const Board& board, const Section& section, std::size_t index) {
        PlacedSection placed{
            &board, &section, index, board.outline.size() >= 3, m_case.blanks.size(), 0};
        const std::string name = m_report.words().section(board.id, index);
        if (!isUsable(section.along)) {
            placed.sound = false;
            fail(board, {}, name + " has no usable length.");
        } else if (!frameMakesSense(section.frame)) {
            placed.sound = false;
            m_report.fail(FindingKind::BadFrame, {.board = board.id},
                          "The straightened edge of " + name + " turns more than 1 in " +
                              std::to_string(steepestTurn) + " off the grain.");
        }
        const std::size_t place = m_case.sections.size();
        m_case.sections.push_back(placed);
        for (std::size_t i = 0; i < section.strips.size(); ++i) {
            const Strip& strip = section.strips[i];
            const bool usable = isUsable(strip.across);
            if (!usable) {
                fail(board, {},
                     "strip " + std::to_string(i + 1) + " in " + name + " has no usable width.");
            }
            for (const Blank& blank : strip.blanks) {
                readBlank(placed, strip, blank, usable);
            }
        }
        m_case.sections[place].endBlank = m_case.blanks.size();
    }

    void readBlank(const PlacedSection& section, const Strip& strip, const Blank& blank,
                   bool stripUsable) {
        PlacedBlank placed;
        placed.inSection = m_case.sections.size() - 1;
        placed.board = section.board;
        placed.section = section.section;
        placed.strip = &strip;
        placed.blank = &blank;
        placed.need = needFor(m_case.needs, blank.purpose);
        placed.wood = blank.actual.value_or(blank.rect);
        const bool usable = isUsable(placed.wood) && isUsable(blank.rect);
        if (!usable) {
            fail(*section.board, blank.id,
                 m_report.words().blank(blank.purpose) + " on board " + section.board->mark +
                     " has no usable size.");
        }
        placed.sound = section.sound && stripUsable && usable;
        if (placed.sound) {
            placed.outline = toOuter(section.section->frame, placed.wood);
            placed.box = boundingBox(placed.outline);
        }
        m_case.blanks.push_back(std::move(placed));
    }

    static bool frameMakesSense(const Frame& frame) {
        return inSense(frame.origin.x) && inSense(frame.origin.y) && inSense(frame.run) &&
               inSense(frame.rise) && frame.run > Length() &&
               abs(frame.rise) * steepestTurn <= frame.run;
    }

    void fail(const Board& board, BlankId blank, std::string sentence) {
        m_report.fail(FindingKind::BadNumber, {.board = board.id, .blank = blank},
                      std::move(sentence));
    }

    Case& m_case;
    Report& m_report;
};

} // namespace

bool isUsable(const Stretch& stretch) {
    return inSense(stretch.from) && inSense(stretch.to) && stretch.from < stretch.to;
}

bool isUsable(const Rect& rect) { return inSense(rect) && !rect.isEmpty(); }

Case openCase(const Document& document, const Plan& plan, Report& report) {
    return openCase(document, plan, needsOf(document, plan, report), report);
}

Case openCase(const Document& document, const Plan& plan, std::vector<Need> needs, Report& report) {
    Case opened{document, plan, std::move(needs), {}, {}};
    CaseReader(opened, report).read();
    return opened;
}

Length ripKerf(const Shop& shop, const Section& section) {
    return section.facing == FirstFacing::RoughRippedFirst ? shop.machines.roughRip.kerf
                                                           : shop.machines.rip.kerf;
}

Stretch crosscutsInFrame(const Section& section) {
    const Frame& frame = section.frame;
    if (frame.isParallel()) {
        return {section.along.from - frame.origin.x, section.along.to - frame.origin.x};
    }
    return {toLocal(frame, {section.along.from, frame.origin.y}).x,
            toLocal(frame, {section.along.to, frame.origin.y}).x};
}

Stretch betweenRawEnds(const Shop& shop, const Board& board) {
    const Rect box = boundingBox(board.outline);
    const auto trim = [&](Length marked) { return marked > Length() ? marked : shop.rawEnd; };
    return {box.x0 + trim(board.trimAtDatum), box.x1 - trim(board.trimAtFar)};
}

} // namespace stavewright::audit_detail
