// Only what a plan refers to, and numbers that mean nothing; whether it can be cut is the audit's
// to say.

#include <unordered_set>

#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"
#include "core/units/QuantityText.h"

namespace stavewright::validation {

namespace {

class PlanChecker {
  public:
    PlanChecker(const Document& document, Findings& findings)
        : m_findings(findings)
        , m_currency(document.info.currency) {
        for (const Board& board : document.boards) {
            m_boards.insert(board.id);
        }
        for (const Part& part : document.parts) {
            m_parts.insert(part.id);
        }
    }

    void check(const Plan& plan) {
        std::unordered_set<BoardId> cut;
        for (std::size_t i = 0; i < plan.boards.size() && m_findings.ok(); ++i) {
            const std::string here = at("/plan/boards", i);
            const BoardLayout& layout = plan.boards[i];
            known(m_boards, layout.board, here + "/board", "board");
            if (!cut.insert(layout.board).second) {
                m_findings.refuse(here + "/board", "The plan cuts board id " +
                                                       std::to_string(layout.board.value) +
                                                       " twice; each board may stand there once.");
            }
            for (std::size_t s = 0; s < layout.sections.size() && m_findings.ok(); ++s) {
                checkSection(layout.sections[s], at(here + "/sections", s));
            }
        }
        for (std::size_t i = 0; i < plan.thicknesses.size() && m_findings.ok(); ++i) {
            const std::string here = at("/plan/thicknesses", i);
            known(m_parts, plan.thicknesses[i].part, here + "/part", "part");
            m_findings.length(here + "/finished", "The thickness chosen for a part",
                              plan.thicknesses[i].finished, Range::aboveZeroUpTo(limits::thickest));
        }
        for (std::size_t i = 0; i < plan.unplaced.size() && m_findings.ok(); ++i) {
            const std::string here = at("/plan/unplaced", i);
            checkPurpose(plan.unplaced[i].purpose, here);
            text(here + "/nearestMiss", plan.unplaced[i].nearestMiss);
        }
        text("/plan/origin/engine", plan.origin.engine);
        if (plan.origin.proof && plan.origin.proof->least > plan.origin.proof->counted) {
            m_findings.refuse("/plan/origin/proof/least",
                              "No plan is said to count for less than " +
                                  formatMoney(plan.origin.proof->least, m_currency) +
                                  ", but this one counts for " +
                                  formatMoney(plan.origin.proof->counted, m_currency) +
                                  "; the least may not be above that.");
        }
        if (plan.origin.proof && plan.origin.proof->leastLumber &&
            (*plan.origin.proof->leastLumber < BoardFeet() ||
             *plan.origin.proof->leastLumber > plan.totals.lumberUsed)) {
            m_findings.refuse("/plan/origin/proof/leastLumber",
                              "No plan is said to take less than " +
                                  formatBoardFeet(*plan.origin.proof->leastLumber) +
                                  " board feet of boards, but this one takes " +
                                  formatBoardFeet(plan.totals.lumberUsed) +
                                  "; the least must lie between 0 and that.");
        }
    }

  private:
    void checkSection(const Section& section, const std::string& here) {
        if (section.frame.run == Length() && section.frame.rise == Length()) {
            m_findings.refuse(here + "/frame",
                              "The direction of a section's frame is run 0 and rise "
                              "0; one of them must not be 0.");
        }
        planed(section.planedTo, here);
        for (std::size_t t = 0; t < section.strips.size(); ++t) {
            const Strip& strip = section.strips[t];
            planed(strip.planedTo, at(here + "/strips", t));
            for (std::size_t b = 0; b < strip.blanks.size() && m_findings.ok(); ++b) {
                const std::string blankHere = at(at(here + "/strips", t) + "/blanks", b);
                checkPurpose(strip.blanks[b].purpose, blankHere);
                text(blankHere + "/note", strip.blanks[b].note);
            }
        }
    }
    void planed(const std::optional<Length>& thickness, const std::string& here) {
        if (thickness) {
            m_findings.length(here + "/planedTo", "The thickness that wood is planed to",
                              *thickness, Range::aboveZeroUpTo(limits::thickest));
        }
    }
    void checkPurpose(const BlankPurpose& purpose, const std::string& here) {
        known(m_parts, purpose.part, here + "/part", "part");
        m_findings.number(here + "/instance", "The number of a piece", purpose.instance, 1,
                          limits::partCount);
        m_findings.number(here + "/ply", "The number of a ply", purpose.ply, 0, limits::plies);
        m_findings.number(here + "/stave", "The number of a stave", purpose.stave, 0,
                          limits::staves);
    }
    template <class AnyId>
    void known(const std::unordered_set<AnyId>& ids, AnyId id, const std::string& place,
               const char* what) {
        if (!ids.contains(id)) {
            m_findings.refuse(place, std::string("The plan names ") + what + " id " +
                                         std::to_string(id.value) + ", which is not in the job.");
        }
    }
    void text(const std::string& place, const std::string& value) {
        m_findings.text(place, "The text", value, limits::noteCharacters, Findings::Lines::Many);
    }

    Findings& m_findings;
    std::string m_currency;
    std::unordered_set<BoardId> m_boards;
    std::unordered_set<PartId> m_parts;
};

} // namespace

void checkPlan(const Document& document, Findings& findings) {
    if (document.plan) {
        PlanChecker(document, findings).check(*document.plan);
    }
}

} // namespace stavewright::validation
