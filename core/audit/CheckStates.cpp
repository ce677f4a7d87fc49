#include <set>

#include "core/audit/Checks.h"
#include "core/layout/StateNames.h"

namespace stavewright::audit_detail {

namespace {

/// "cut" goes for offcuts as well, which nobody calls crosscut.
std::string said(CutState state) { return state == CutState::Cut ? "cut" : nameOf(state); }

/// One id, given to two things of the plan.
template <class AnyId>
class IdRegister {
  public:
    IdRegister(const char* what, Report& report)
        : m_what(what)
        , m_report(report) {}

    void add(AnyId id, BoardId board) {
        if (!id.isSet()) {
            m_report.fail(FindingKind::DuplicateId, {.board = board},
                          std::string("A ") + m_what + " of " + m_report.words().board(board) +
                              " has no id.");
        } else if (!m_seen.insert(id).second) {
            m_report.fail(FindingKind::DuplicateId, {.board = board},
                          std::string("The id ") + std::to_string(id.value) + " is given to two " +
                              m_what + "s; one is on " + m_report.words().board(board) + ".");
        }
    }

  private:
    const char* m_what;
    Report& m_report;
    std::set<AnyId> m_seen;
};

class StateCheck {
  public:
    explicit StateCheck(Report& report)
        : m_report(report)
        , m_words(report.words()) {}

    void blank(const PlacedSection& section, const PlacedBlank& placed) {
        const Blank& blank = *placed.blank;
        const std::string name =
            m_words.blank(blank.purpose) + " on " + m_words.board(placed.board->id);
        if (blank.state == CutState::Planned && blank.actual) {
            fail(placed, name + " has a measured size although it is only planned.");
        }
        if (blank.state != CutState::Planned && section.section->state == CutState::Planned) {
            fail(placed, name + " is " + said(blank.state) + " although " +
                             m_words.section(section.board->id, section.index) +
                             " is only planned.");
        }
        if (!placed.need) {
            return;
        }
        const bool isPly = placed.need->ply > 0;
        if (blank.state == CutState::Glued && !isPly && !placed.need->staves) {
            fail(placed, name + " is glued although its part is made of one board.");
        }
        if (blank.state == CutState::SecondMilled && !isPly) {
            fail(placed, name + " is milled a second time although its part is not laminated.");
        }
    }

    void offcut(const PlacedSection& section, const Offcut& offcut) {
        if (offcut.state != CutState::Planned && section.section->state == CutState::Planned) {
            m_report.fail(FindingKind::BadState, {.board = section.board->id},
                          "an offcut is " + said(offcut.state) + " although " +
                              m_words.section(section.board->id, section.index) +
                              " is only planned.");
        }
    }

    void strip(const PlacedSection& section, const Strip& strip) {
        const bool isRipped = strip.lowEdgeRipped || strip.highEdgeRipped;
        if (isRipped && section.section->state == CutState::Planned) {
            m_report.fail(FindingKind::BadState, {.board = section.board->id},
                          "a strip is ripped at an edge although " +
                              m_words.section(section.board->id, section.index) +
                              " is only planned.");
        }
    }

  private:
    void fail(const PlacedBlank& placed, std::string sentence) {
        m_report.fail(FindingKind::BadState, about(placed), std::move(sentence));
    }

    Report& m_report;
    const Words& m_words;
};

} // namespace

void checkStates(const Case& opened, Report& report) {
    StateCheck check(report);
    for (const PlacedBlank& placed : opened.blanks) {
        check.blank(opened.sections[placed.inSection], placed);
    }
    for (const PlacedSection& placed : opened.sections) {
        for (const Offcut& offcut : placed.section->offcuts) {
            check.offcut(placed, offcut);
        }
        for (const Strip& strip : placed.section->strips) {
            check.strip(placed, strip);
            for (const Offcut& offcut : strip.offcuts) {
                check.offcut(placed, offcut);
            }
        }
    }
}

void checkIds(const Case& opened, Report& report) {
    IdRegister<SectionId> sections("section", report);
    IdRegister<StripId> strips("strip", report);
    IdRegister<BlankId> blanks("blank", report);
    IdRegister<OffcutId> offcuts("offcut", report);
    for (const PlacedSection& placed : opened.sections) {
        const BoardId board = placed.board->id;
        sections.add(placed.section->id, board);
        for (const Offcut& offcut : placed.section->offcuts) {
            offcuts.add(offcut.id, board);
        }
        for (const Strip& strip : placed.section->strips) {
            strips.add(strip.id, board);
            for (const Blank& blank : strip.blanks) {
                blanks.add(blank.id, board);
            }
            for (const Offcut& offcut : strip.offcuts) {
                offcuts.add(offcut.id, board);
            }
        }
    }
}

} // namespace stavewright::audit_detail
