#include <algorithm>
#include <unordered_map>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

class BlankCheck {
  public:
    BlankCheck(const Case& opened, Report& report)
        : m_opened(opened)
        , m_report(report) {}

    void inStrip(const PlacedBlank& placed) {
        const Words& words = m_report.words();
        const Shop& shop = m_opened.document.shop;
        const Stretch& strip = placed.strip->across;
        const Length over = std::max(strip.from - placed.wood.y0, placed.wood.y1 - strip.to);
        if (over > Length()) {
            fail(FindingKind::BlankOutsideStrip, placed,
                 onBoard(placed) + " reaches " + words.length(over) +
                     " over the edge of its strip.");
            return;
        }
        const Length near = placed.wood.y0 - strip.from;
        const Length far = strip.to - placed.wood.y1;
        if (near > Length() && far > Length()) {
            fail(FindingKind::CutOrder, placed,
                 onBoard(placed) +
                     " would need two trimming rips; lay it along one edge of its strip.");
            return;
        }
        const Length waste = std::max(near, far);
        if (waste == Length()) {
            return;
        }
        if (waste < shop.machines.rip.kerf) {
            fail(FindingKind::KerfMissing, placed,
                 onBoard(placed) + " leaves " + words.length(waste) +
                     " beside it in its strip, less than the " +
                     words.length(shop.machines.rip.kerf) + " that the trimming rip takes.");
        }
        if (placed.wood.width() < shop.machines.narrowestRip) {
            fail(FindingKind::RipTooNarrow, placed,
                 onBoard(placed) + " is trimmed to " +
                     words.beside(placed.wood.width(), shop.machines.narrowestRip) +
                     "; nothing narrower than " + words.length(shop.machines.narrowestRip) +
                     " is ripped.");
        }
    }

    /// Both in one section: exact, in nanometres.
    void pairInSection(const PlacedBlank& a, const PlacedBlank& b) {
        const Words& words = m_report.words();
        const Length apartAlong = std::max(b.wood.x0 - a.wood.x1, a.wood.x0 - b.wood.x1);
        if (a.wood.overlaps(b.wood)) {
            const Length apartAcross = std::max(b.wood.y0 - a.wood.y1, a.wood.y0 - b.wood.y1);
            fail(FindingKind::BlanksOverlap, b,
                 both(a, b) + " overlap by " + words.length(std::min(-apartAlong, -apartAcross)) +
                     " on " + words.board(a.board->id) + ".");
            return;
        }
        if (a.strip != b.strip) {
            return;
        }
        const Length kerf = m_opened.document.shop.machines.stripCrosscut.kerf;
        if (apartAlong < Length()) {
            fail(FindingKind::CutOrder, b,
                 both(a, b) + " stand side by side in one strip of " + words.board(a.board->id) +
                     "; a strip is only crosscut.");
        } else if (apartAlong < kerf) {
            fail(FindingKind::KerfMissing, b,
                 both(a, b) + " on " + words.board(a.board->id) + " stand " +
                     words.beside(apartAlong, kerf) + " apart, " + words.length(kerf - apartAlong) +
                     " less than the " + words.length(kerf) + " that the crosscut takes.");
        }
    }

    void pairOnBoard(const PlacedBlank& a, const PlacedBlank& b) {
        if (a.box.overlaps(b.box) && overlapsBeyondTolerance(a.outline, b.outline)) {
            fail(FindingKind::BlanksOverlap, b,
                 both(a, b) + " from two sections overlap on " +
                     m_report.words().board(a.board->id) + ".");
        }
    }

    void order(const PlacedSection& section) {
        for (std::size_t i = 0; i < section.section->strips.size(); ++i) {
            const std::vector<Blank>& blanks = section.section->strips[i].blanks;
            if (!std::is_sorted(blanks.begin(), blanks.end(), [](const Blank& a, const Blank& b) {
                    return a.rect.x0 < b.rect.x0;
                })) {
                m_report.fail(FindingKind::CutOrder, {.board = section.board->id},
                              "The blanks of strip " + std::to_string(i + 1) + " in " +
                                  m_report.words().section(section.board->id, section.index) +
                                  " are not listed from the low end on.");
            }
        }
    }

  private:
    [[nodiscard]] std::string both(const PlacedBlank& a, const PlacedBlank& b) const {
        return m_report.words().blank(a.blank->purpose) + " and " +
               m_report.words().blank(b.blank->purpose);
    }
    [[nodiscard]] std::string onBoard(const PlacedBlank& placed) const {
        return m_report.words().blank(placed.blank->purpose) + " on " +
               m_report.words().board(placed.board->id);
    }
    void fail(FindingKind kind, const PlacedBlank& placed, std::string sentence) {
        m_report.fail(kind, about(placed), std::move(sentence));
    }

    const Case& m_opened;
    Report& m_report;
};

} // namespace

void checkBlanks(const Case& opened, Report& report) {
    BlankCheck check(opened, report);
    for (const PlacedSection& section : opened.sections) {
        if (section.sound) {
            check.order(section);
        }
    }
    std::unordered_map<const Board*, std::vector<const PlacedBlank*>> earlierOn;
    for (const PlacedBlank& placed : opened.blanks) {
        if (!placed.sound) {
            continue;
        }
        check.inStrip(placed);
        std::vector<const PlacedBlank*>& earlier = earlierOn[placed.board];
        for (const PlacedBlank* other : earlier) {
            if (other->section == placed.section) {
                check.pairInSection(*other, placed);
            } else {
                check.pairOnBoard(*other, placed);
            }
        }
        earlier.push_back(&placed);
    }
}

} // namespace stavewright::audit_detail
