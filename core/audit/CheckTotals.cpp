#include "core/audit/Checks.h"
#include "core/units/QuantityText.h"

namespace stavewright::audit_detail {

namespace {

/// "10.67 bd ft", or to the millionth where two decimals read alike.
std::string feet(BoardFeet amount, BoardFeet other) {
    if (formatBoardFeet(amount) != formatBoardFeet(other)) {
        return formatBoardFeet(amount) + " bd ft";
    }
    return std::to_string(amount.inMillionths()) + " millionths of a bd ft";
}

std::string money(Money amount, Money other, const std::string& currency) {
    if (formatMoney(amount, currency) != formatMoney(other, currency)) {
        return formatMoney(amount, currency);
    }
    return std::to_string(amount.inTenThousandths()) + " ten-thousandths of " + currency + "1";
}

class TotalsCheck {
  public:
    explicit TotalsCheck(Report& report)
        : m_report(report) {}

    void numbers(int claimed, int counted, const char* what) {
        if (claimed != counted) {
            fail(audit_detail::counted(claimed, what), std::to_string(counted));
        }
    }
    void boardFeet(BoardFeet claimed, BoardFeet counted, const char* what) {
        if (claimed != counted) {
            fail(feet(claimed, counted) + ' ' + what, feet(counted, claimed));
        }
    }
    void cost(Money claimed, Money counted, const std::string& currency) {
        if (claimed != counted) {
            fail("a cost of " + money(claimed, counted, currency),
                 money(counted, claimed, currency));
        }
    }

  private:
    void fail(const std::string& claimed, const std::string& counted) {
        m_report.fail(FindingKind::WrongTotals, {},
                      "The plan claims " + claimed + "; the audit counts " + counted + ".");
    }

    Report& m_report;
};

} // namespace

void checkTotals(const Case& opened, const PlanTotals& counted, Report& report) {
    const PlanTotals& claimed = opened.plan.totals;
    TotalsCheck check(report);
    check.numbers(claimed.boardsUsed, counted.boardsUsed, "used board");
    check.numbers(claimed.placed, counted.placed, "placed blank");
    check.numbers(claimed.demanded, counted.demanded, "wanted blank");
    check.numbers(claimed.fills, counted.fills, "fill");
    check.boardFeet(claimed.lumberUsed, counted.lumberUsed, "of lumber used");
    check.boardFeet(claimed.blanks, counted.blanks, "of rough blanks");
    check.boardFeet(claimed.parts, counted.parts, "of finished parts");
    check.boardFeet(claimed.offcutsKept, counted.offcutsKept, "of offcuts kept");
    check.cost(claimed.cost, counted.cost, opened.document.info.currency);
}

} // namespace stavewright::audit_detail
