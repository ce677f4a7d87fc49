#include <algorithm>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

class StripCheck {
  public:
    StripCheck(const Case& opened, const PlacedSection& placed, Report& report)
        : m_opened(opened)
        , m_placed(placed)
        , m_report(report)
        , m_section(report.words().section(placed.board->id, placed.index)) {}

    void run() {
        std::vector<std::size_t> order;
        const std::vector<Strip>& strips = m_placed.section->strips;
        for (std::size_t i = 0; i < strips.size(); ++i) {
            if (isUsable(strips[i].across)) {
                order.push_back(i);
                checkOne(i);
            }
        }
        const auto lower = [&](std::size_t a, std::size_t b) {
            return strips[a].across.from < strips[b].across.from;
        };
        if (!std::is_sorted(order.begin(), order.end(), lower)) {
            fail(FindingKind::CutOrder,
                 "The strips of " + m_section + " are not listed from the near edge on.");
        }
        std::stable_sort(order.begin(), order.end(), lower);
        for (std::size_t i = 1; i < order.size(); ++i) {
            checkNeighbours(order[i - 1], order[i]);
        }
    }

  private:
    void checkOne(std::size_t index) {
        const Words& words = m_report.words();
        const Strip& strip = m_placed.section->strips[index];
        const std::string name = "strip " + std::to_string(index + 1) + " in " + m_section;
        const Stretch along = crosscutsInFrame(*m_placed.section);
        const Rect whole{along.from, strip.across.from, along.to, strip.across.to};
        if (!interiorsMeet(toOuter(m_placed.section->frame, whole), m_placed.board->outline)) {
            fail(FindingKind::StripOutsideSection, name + " lies beside the board.");
        }
        const Length narrowest = m_opened.document.shop.machines.narrowestRip;
        if (strip.across.length() < narrowest) {
            fail(FindingKind::RipTooNarrow,
                 name + " is " + words.beside(strip.across.length(), narrowest) +
                     " wide; nothing narrower than " + words.length(narrowest) + " is ripped.");
        }
    }

    void checkNeighbours(std::size_t low, std::size_t high) {
        const Words& words = m_report.words();
        const std::vector<Strip>& strips = m_placed.section->strips;
        const Length gap = strips[high].across.from - strips[low].across.to;
        const Length kerf = ripKerf(m_opened.document.shop, *m_placed.section);
        const std::string pair = "strips " + std::to_string(std::min(low, high) + 1) + " and " +
                                 std::to_string(std::max(low, high) + 1) + " in " + m_section;
        if (gap < Length()) {
            fail(FindingKind::StripsOverlap, pair + " overlap by " + words.length(-gap) + ".");
        } else if (gap < kerf) {
            fail(FindingKind::KerfMissing, pair + " stand " + words.beside(gap, kerf) + " apart, " +
                                               words.length(kerf - gap) + " less than the " +
                                               words.length(kerf) + " that the rip takes.");
        }
    }

    void fail(FindingKind kind, std::string sentence) {
        m_report.fail(kind, {.board = m_placed.board->id}, std::move(sentence));
    }

    const Case& m_opened;
    const PlacedSection& m_placed;
    Report& m_report;
    std::string m_section;
};

} // namespace

void checkStrips(const Case& opened, Report& report) {
    for (const PlacedSection& placed : opened.sections) {
        if (placed.sound) {
            StripCheck(opened, placed, report).run();
        }
    }
}

} // namespace stavewright::audit_detail
