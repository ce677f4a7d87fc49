#include <map>
#include <set>

#include "core/audit/Checks.h"

namespace stavewright::audit_detail {

namespace {

/// The panel (or, with ply and stave 0, the blank) that a purpose belongs to.
BlankPurpose wholeOf(BlankPurpose purpose) {
    purpose.stave = 0;
    return purpose;
}

struct PanelTally {
    int staves = 0;
    Length net;
};

class DemandCheck {
  public:
    DemandCheck(const Case& opened, Report& report)
        : m_opened(opened)
        , m_report(report)
        , m_words(report.words()) {}

    void run() {
        for (const PlacedBlank& placed : m_opened.blanks) {
            tally(placed);
        }
        for (const Unplaced& unplaced : m_opened.plan.unplaced) {
            m_listed.insert(keyOf(unplaced.purpose));
        }
        for (const Need& need : m_opened.needs) {
            for (int instance = 1; instance <= need.part->count; instance += need.partsPerBlank) {
                const BlankPurpose purpose{need.part->id, instance, need.ply, 0};
                if (need.staves) {
                    checkPanel(*need.staves, purpose);
                } else if (!m_placed.contains(purpose) && !m_listed.contains(purpose)) {
                    fail(FindingKind::DemandShort, purpose,
                         m_words.blank(purpose) + " is neither placed nor listed as unplaced.");
                }
            }
        }
        checkUnplaced();
    }

  private:
    void tally(const PlacedBlank& placed) {
        const BlankPurpose& purpose = placed.blank->purpose;
        const std::string board = m_words.board(placed.board->id);
        if (!findPart(m_opened.document, purpose.part)) {
            m_report.fail(FindingKind::UnknownPart, about(placed),
                          "A blank on " + board + " is for a part that is not in the job.");
            return;
        }
        const std::string name = m_words.blank(purpose);
        if (!isWanted(placed.need, purpose)) {
            m_report.fail(FindingKind::DemandExceeded, about(placed),
                          name + " on " + board + " is a blank that the job does not ask for.");
            return;
        }
        if (!m_placed.insert(purpose).second) {
            m_report.fail(FindingKind::DuplicatePurpose, about(placed),
                          name + " is placed twice; the second one is on " + board + ".");
            return;
        }
        if (placed.need->staves) {
            PanelTally& panel = m_panels[wholeOf(purpose)];
            ++panel.staves;
            if (isUsable(placed.wood)) {
                panel.net += placed.wood.width() - placed.need->staves->jointing;
            }
        }
    }

    static bool isWanted(const Need* need, const BlankPurpose& purpose) {
        return need && need->wantsInstance(purpose.instance) &&
               (need->staves ? purpose.stave >= 1 : purpose.stave == 0);
    }

    /// Unplaced staves excuse their panel.
    [[nodiscard]] BlankPurpose keyOf(const BlankPurpose& purpose) const {
        const Need* need = needFor(m_opened.needs, purpose);
        return need && need->staves ? wholeOf(purpose) : purpose;
    }

    void checkPanel(const NeededStaves& staves, const BlankPurpose& panel) {
        const PanelTally& sum = m_panels[panel];
        const std::string name = m_words.blank(panel);
        if (sum.net < staves.gluedWidth) {
            if (!m_listed.contains(panel)) {
                fail(FindingKind::DemandShort, panel,
                     "The staves of " + name + " add to " +
                         m_words.beside(sum.net, staves.gluedWidth) + ", " +
                         m_words.length(staves.gluedWidth - sum.net) + " less than the " +
                         m_words.length(staves.gluedWidth) +
                         " of the panel, and the rest is not listed as unplaced.");
            }
            return;
        }
        if (sum.net > staves.mostWidth) {
            fail(FindingKind::PanelWidth, panel,
                 "The staves of " + name + " add to " + m_words.beside(sum.net, staves.mostWidth) +
                     ", " + m_words.length(sum.net - staves.mostWidth) + " more than the " +
                     m_words.length(staves.mostWidth) + " that the panel may have.");
        }
        if (sum.staves < staves.fewest || sum.staves > staves.most) {
            fail(FindingKind::StaveCount, panel,
                 name + " has " + counted(sum.staves, "stave") + "; from " +
                     std::to_string(staves.fewest) + " to " + std::to_string(staves.most) +
                     " are allowed.");
        }
    }

    void checkUnplaced() {
        std::set<BlankPurpose> seen;
        for (const Unplaced& unplaced : m_opened.plan.unplaced) {
            const BlankPurpose& purpose = unplaced.purpose;
            if (!findPart(m_opened.document, purpose.part)) {
                fail(FindingKind::UnknownPart, purpose,
                     "The unplaced list names a part that is not in the job.");
                continue;
            }
            const std::string name = m_words.blank(purpose);
            const Need* need = needFor(m_opened.needs, purpose);
            if (!need || !need->wantsInstance(purpose.instance) ||
                (!need->staves && purpose.stave != 0)) {
                fail(FindingKind::BadUnplaced, purpose,
                     name + " is listed as unplaced, but the job does not ask for it.");
            } else if (!seen.insert(purpose).second) {
                fail(FindingKind::BadUnplaced, purpose, name + " is listed as unplaced twice.");
            } else if (m_placed.contains(purpose)) {
                fail(FindingKind::BadUnplaced, purpose,
                     name + " is listed as unplaced, but it is placed.");
            } else if (need->staves && m_panels[wholeOf(purpose)].net >= need->staves->gluedWidth) {
                fail(FindingKind::BadUnplaced, purpose,
                     name + " is listed as unplaced, but the staves of its panel are complete.");
            }
        }
    }

    void fail(FindingKind kind, const BlankPurpose& purpose, std::string sentence) {
        m_report.fail(kind, {.part = purpose.part}, std::move(sentence));
    }

    const Case& m_opened;
    Report& m_report;
    const Words& m_words;
    std::set<BlankPurpose> m_placed;
    std::set<BlankPurpose> m_listed;
    std::map<BlankPurpose, PanelTally> m_panels;
};

} // namespace

void checkDemand(const Case& opened, Report& report) { DemandCheck(opened, report).run(); }

} // namespace stavewright::audit_detail
