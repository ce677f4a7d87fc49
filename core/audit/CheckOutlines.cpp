#include <algorithm>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

/// How far the blank reaches over the board's edges, and where that is worst: both are linear
/// between corners.
struct Excess {
    Length most;
    Length at;
};

Excess excessAcross(const PlacedBlank& placed) {
    Excess worst;
    const auto measureAt = [&](Length x) {
        const auto blank = acrossAt(placed.outline, x);
        const auto board = acrossAt(placed.board->outline, x);
        if (!blank || !board) {
            return;
        }
        const Length over = std::max(board->from - blank->from, blank->to - board->to);
        if (over > worst.most) {
            worst = {over, x};
        }
    };
    for (const Point& corner : placed.outline) {
        measureAt(corner.x);
    }
    for (const Point& corner : placed.board->outline) {
        if (placed.box.x0 < corner.x && corner.x < placed.box.x1) {
            measureAt(corner.x);
        }
    }
    return worst;
}

class OutlineCheck {
  public:
    OutlineCheck(const Case& opened, Report& report)
        : m_opened(opened)
        , m_report(report)
        , m_words(report.words()) {}

    void onBoard(const PlacedBlank& placed) {
        if (coveredWithinTolerance(placed.outline, placed.board->outline)) {
            return;
        }
        const Rect board = boundingBox(placed.board->outline);
        const Length pastEnd = std::max(board.x0 - placed.box.x0, placed.box.x1 - board.x1);
        const Excess excess = excessAcross(placed);
        std::string sentence = m_words.blank(placed.blank->purpose) + " reaches ";
        if (pastEnd > excess.most) {
            sentence += m_words.length(pastEnd) + " over the end of " + name(placed) + ".";
        } else if (excess.most > Length()) {
            sentence += m_words.length(excess.most) + " over the edge of " + name(placed) + " at " +
                        m_words.length(excess.at) + ".";
        } else {
            sentence += "outside " + name(placed) + ".";
        }
        fail(FindingKind::BlankOutsideBoard, placed, std::move(sentence));
    }

    void betweenCrosscuts(const PlacedBlank& placed) {
        const Stretch& along = placed.section->along;
        // Exact where the frames are parallel; a turned corner is rounded to the grid.
        const Length allowed = placed.section->frame.isParallel() ? Length() : polygonTolerance;
        const Length low = along.from - placed.box.x0;
        const Length high = placed.box.x1 - along.to;
        const auto over = [&](Length past, Length cut) {
            if (past > allowed) {
                fail(FindingKind::BlankOutsideSection, placed,
                     m_words.blank(placed.blank->purpose) + " reaches " + m_words.length(past) +
                         " over the crosscut at " + m_words.length(cut) + " of " + name(placed) +
                         ".");
            }
        };
        over(low, along.from);
        over(high, along.to);
    }

    void betweenRawEnds(const PlacedBlank& placed) {
        const Rect board = boundingBox(placed.board->outline);
        const Stretch wood = audit_detail::betweenRawEnds(m_opened.document.shop, *placed.board);
        const Length allowed = placed.section->frame.isParallel() ? Length() : polygonTolerance;
        const auto inside = [&](Length deep, Length trim, const char* end) {
            if (trim > Length() && deep > allowed) {
                fail(FindingKind::RawEnd, placed,
                     m_words.blank(placed.blank->purpose) + " lies " +
                         m_words.length(std::min(deep, trim)) + " in the raw " + end + " of " +
                         name(placed) + ", where " + m_words.length(trim) + " is cut off.");
            }
        };
        inside(wood.from - placed.box.x0, wood.from - board.x0, "datum end");
        inside(placed.box.x1 - wood.to, board.x1 - wood.to, "far end");
    }

  private:
    [[nodiscard]] std::string name(const PlacedBlank& placed) const {
        return m_words.board(placed.board->id);
    }
    void fail(FindingKind kind, const PlacedBlank& placed, std::string sentence) {
        m_report.fail(kind, about(placed), std::move(sentence));
    }

    const Case& m_opened;
    Report& m_report;
    const Words& m_words;
};

} // namespace

void checkOutlines(const Case& opened, Report& report) {
    OutlineCheck check(opened, report);
    for (const PlacedBlank& placed : opened.blanks) {
        if (placed.sound) {
            check.onBoard(placed);
            check.betweenCrosscuts(placed);
            check.betweenRawEnds(placed);
        }
    }
}

} // namespace stavewright::audit_detail
