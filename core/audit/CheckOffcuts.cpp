#include <algorithm>

#include "core/audit/Checks.h"
#include "core/geometry/PolygonOps.h"

namespace stavewright::audit_detail {

namespace {

bool apart(const Rect& a, const Rect& b, Length along, Length across) {
    return a.x1 + along <= b.x0 || b.x1 + along <= a.x0 || a.y1 + across <= b.y0 ||
           b.y1 + across <= a.y0;
}

class OffcutCheck {
  public:
    OffcutCheck(const Case& opened, const PlacedSection& placed, Report& report)
        : m_shop(opened.document.shop)
        , m_placed(placed)
        , m_report(report)
        , m_words(report.words())
        , m_name("an offcut in " + m_words.section(placed.board->id, placed.index)) {}

    void inStrip(const Strip& strip, const Offcut& offcut) {
        if (!hasSize(offcut)) {
            return;
        }
        if (offcut.rect.y0 < strip.across.from || offcut.rect.y1 > strip.across.to) {
            fail("reaches over the edge of its strip.");
            return;
        }
        for (const Blank& blank : strip.blanks) {
            clearOf(offcut, blank.actual.value_or(blank.rect), m_shop.machines.stripCrosscut.kerf,
                    m_shop.machines.rip.kerf, m_words.blank(blank.purpose));
        }
        clearOfOthers(offcut, strip.offcuts, m_shop.machines.stripCrosscut.kerf,
                      m_shop.machines.rip.kerf);
        check(offcut);
    }

    void inSection(const Offcut& offcut) {
        if (!hasSize(offcut)) {
            return;
        }
        const Section& section = *m_placed.section;
        const Length kerf = ripKerf(m_shop, section);
        const Stretch along = crosscutsInFrame(section);
        for (std::size_t i = 0; i < section.strips.size(); ++i) {
            const Stretch& across = section.strips[i].across;
            // A strip runs through the whole section, so only distance across counts.
            clearOf(offcut, {along.from, across.from, along.to, across.to}, section.along.length(),
                    kerf, "strip " + std::to_string(i + 1));
        }
        clearOfOthers(offcut, section.offcuts, m_shop.machines.crosscut.kerf, kerf);
        check(offcut);
    }

  private:
    bool hasSize(const Offcut& offcut) {
        if (!isUsable(offcut.rect)) {
            fail("has no usable size.");
            return false;
        }
        return true;
    }

    void check(const Offcut& offcut) {
        const OffcutRule& rule = m_shop.offcuts;
        const Rect& rect = offcut.rect;
        if (rect.length() < rule.leastLength || rect.width() < rule.leastWidth) {
            fail("is " + m_words.beside(rect.length(), rule.leastLength) + " x " +
                 m_words.beside(rect.width(), rule.leastWidth) + "; smaller than " +
                 m_words.length(rule.leastLength) + " x " + m_words.length(rule.leastWidth) +
                 " is not kept.");
        }
        if (m_placed.board->thinnest < rule.leastThickness) {
            fail("is " + m_words.beside(m_placed.board->thinnest, rule.leastThickness) +
                 " thick; thinner than " + m_words.length(rule.leastThickness) + " is not kept.");
        }
        const Frame& frame = m_placed.section->frame;
        const Polygon outline = toOuter(frame, rect);
        const Rect box = boundingBox(outline);
        if (!coveredWithinTolerance(outline, m_placed.board->outline)) {
            fail("reaches outside the board.");
        }
        const Length allowed = frame.isParallel() ? Length() : polygonTolerance;
        const Stretch& along = m_placed.section->along;
        if (box.x0 < along.from - allowed || box.x1 > along.to + allowed) {
            fail("reaches over a crosscut of its section.");
        }
        const Stretch sound = betweenRawEnds(m_shop, *m_placed.board);
        if (box.x0 < sound.from - allowed || box.x1 > sound.to + allowed) {
            fail("lies in a raw end of the board.");
        }
    }

    void clearOf(const Offcut& offcut, const Rect& taken, Length along, Length across,
                 const std::string& what) {
        if (offcut.rect.overlaps(taken)) {
            fail("overlaps " + what + ".");
        } else if (!apart(offcut.rect, taken, along, across)) {
            fail("stands closer to " + what + " than the kerf.");
        }
    }

    void clearOfOthers(const Offcut& offcut, const std::vector<Offcut>& others, Length along,
                       Length across) {
        for (const Offcut& other : others) {
            if (&other == &offcut) {
                return; // each pair once
            }
            clearOf(offcut, other.rect, along, across, "another one");
        }
    }

    void fail(const std::string& what) {
        m_report.fail(FindingKind::BadOffcut, {.board = m_placed.board->id}, m_name + ' ' + what);
    }

    const Shop& m_shop;
    const PlacedSection& m_placed;
    Report& m_report;
    const Words& m_words;
    std::string m_name;
};

} // namespace

void checkOffcuts(const Case& opened, Report& report) {
    for (const PlacedSection& placed : opened.sections) {
        if (!placed.sound) {
            continue;
        }
        OffcutCheck check(opened, placed, report);
        for (const Offcut& offcut : placed.section->offcuts) {
            check.inSection(offcut);
        }
        for (const Strip& strip : placed.section->strips) {
            for (const Offcut& offcut : strip.offcuts) {
                check.inStrip(strip, offcut);
            }
        }
    }
}

} // namespace stavewright::audit_detail
