#include "RandomPlan.h"

#include <algorithm>
#include <random>
#include <utility>

#include "AuditSample.h"

namespace stavewright::audit_sample {

namespace {

class RandomJob {
  public:
    explicit RandomJob(std::uint64_t seed)
        : m_random(seed) {}

    Document make() {
        m_job = goodJob();
        m_job.boards.clear();
        m_job.parts.clear();
        m_job.plan = Plan{};
        const int boards = between(1, 4);
        for (int i = 0; i < boards; ++i) {
            addBoard(i + 1);
        }
        m_job.nextId = m_nextId;
        return m_job;
    }

  private:
    int between(int low, int high) {
        return low + static_cast<int>(m_random() % static_cast<std::uint64_t>(high - low + 1));
    }
    Length lengthBetween(int lowSixteenths, int highSixteenths) {
        return in(between(lowSixteenths, highSixteenths), 16);
    }
    template <class AnyId>
    AnyId next() {
        return AnyId{m_nextId++};
    }

    void addBoard(int number) {
        m_board = {};
        m_board.id = next<BoardId>();
        m_board.mark = std::to_string(number);
        m_board.species = "walnut";
        m_board.quarter = {4};
        m_board.thinnest = in(19, 16);
        m_board.pricePerBoardFoot = Money::cents(between(300, 1500));
        m_length = lengthBetween(40 * 16, 120 * 16);
        m_farWidth = lengthBetween(5 * 16, 8 * 16);
        m_nearWidth = lengthBetween(5 * 16, 8 * 16);
        m_board.outline = {
            {in(0), in(0)}, {m_length, in(0)}, {m_length, m_farWidth}, {in(0), m_nearWidth}};
        m_board.lookedAt = {{BoardFace::A, {in(0), m_length}}, {BoardFace::B, {in(0), m_length}}};

        BoardLayout layout;
        layout.board = m_board.id;
        Length x = in(1) + lengthBetween(0, 16);
        while (x + in(14) <= m_length - in(1)) {
            const Length to = std::min(x + lengthBetween(14 * 16, 44 * 16), m_length - in(1));
            layout.sections.push_back(sectionBetween({x, to}));
            x = to + m_job.shop.machines.crosscut.kerf + (between(0, 1) ? in(0) : in(3, 4));
        }
        addDefects(layout);
        m_job.boards.push_back(m_board);
        m_job.plan->boards.push_back(layout);
    }

    /// Safe on the far edge's falling side: the narrower end less a sixteenth.
    Length straightWidth() const { return std::min(m_farWidth, m_nearWidth) - in(1, 16); }

    Section sectionBetween(Stretch along) {
        Section section;
        section.id = next<SectionId>();
        section.along = along;
        section.frame.origin = {along.from, in(0)};
        section.facing = between(0, 1) ? FirstFacing::Whole : FirstFacing::RoughRippedFirst;
        Length v = lengthBetween(0, 4);
        while (v + in(1) <= straightWidth()) {
            const Length to = std::min(v + lengthBetween(16, 64), straightWidth());
            section.strips.push_back(stripBetween({v, to}, along.length()));
            // The table saw's kerf leaves room for the band saw's as well.
            v = to + m_job.shop.machines.rip.kerf;
        }
        return section;
    }

    Strip stripBetween(Stretch across, Length length) {
        Strip strip;
        strip.id = next<StripId>();
        strip.across = across;
        Length u;
        while (u + in(4) <= length) {
            const Length to = std::min(u + lengthBetween(4 * 16, 20 * 16), length);
            const bool trimmed = across.length() > in(2) && between(0, 3) == 0;
            const Rect rect{u, across.from, to, across.to - (trimmed ? in(1, 2) : in(0))};
            strip.blanks.push_back(blankFor(rect));
            u = to + m_job.shop.machines.stripCrosscut.kerf;
        }
        return strip;
    }

    Blank blankFor(const Rect& rect) {
        Part part;
        part.id = next<PartId>();
        part.mark = std::to_string(m_job.parts.size() + 1) + "-";
        part.species = "walnut";
        part.length.base = rect.length() - in(2);
        part.width.base = rect.width() - in(1, 4);
        part.thickness.base = in(7, 8);
        m_job.parts.push_back(part);
        Blank blank;
        blank.id = next<BlankId>();
        blank.purpose.part = part.id;
        blank.rect = rect;
        blank.pose = {between(0, 1) == 1, between(0, 1) == 1};
        return blank;
    }

    /// Small sound knots anywhere; holes only in wood that no blank holds.
    void addDefects(const BoardLayout& layout) {
        for (int i = 0; i < 12; ++i) {
            const Point centre{
                lengthBetween(16, static_cast<int>(m_length / in(1, 16)) - 16),
                lengthBetween(16, static_cast<int>(straightWidth() / in(1, 16)) - 16)};
            std::string mark = std::to_string(i + 1);
            mark.insert(0, 1, 'K');
            const bool small = between(0, 1) == 0;
            if (small) {
                m_board.defects.push_back(
                    roundDefect(next<DefectId>(), mark, DefectKind::SoundKnot, centre, in(3, 8)));
            } else if (isWaste(layout, centre)) {
                m_board.defects.push_back(
                    roundDefect(next<DefectId>(), mark, DefectKind::KnotHole, centre, in(1, 8)));
            }
        }
    }

    static bool isWaste(const BoardLayout& layout, Point centre) {
        constexpr Length clear = in(1, 8);
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const Length x = centre.x - section.frame.origin.x;
                    const Length y = centre.y - section.frame.origin.y;
                    if (blank.rect.x0 - clear < x && x < blank.rect.x1 + clear &&
                        blank.rect.y0 - clear < y && y < blank.rect.y1 + clear) {
                        return false;
                    }
                }
            }
        }
        return true;
    }

    std::mt19937_64 m_random;
    Document m_job;
    Board m_board;
    Length m_length;
    Length m_nearWidth;
    Length m_farWidth;
    std::int64_t m_nextId = 1;
};

} // namespace

Document randomJob(std::uint64_t seed) { return RandomJob(seed).make(); }

} // namespace stavewright::audit_sample
