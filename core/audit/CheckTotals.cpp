#include "core/audit/Checks.h"
#include "core/units/QuantityText.h"

namespace stavewright::audit_detail {

namespace {

/// "10.67 bd ft", "0.0252 m³", or to the millionth where the decimals read alike.
std::string lumber(BoardFeet amount, BoardFeet other, UnitSystem units) {
    if (formatLumber(amount, units) != formatLumber(other, units)) {
        return lumberText(amount, units);
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
    TotalsCheck(Report& report, UnitSystem units)
        : m_report(report)
        , m_units(units) {}

    void numbers(int claimed, int counted, const char* what) {
        if (claimed != counted) {
            fail(audit_detail::counted(claimed, what), std::to_string(counted));
        }
    }
    void boardFeet(BoardFeet claimed, BoardFeet counted, const char* what) {
        if (claimed != counted) {
            fail(lumber(claimed, counted, m_units) + ' ' + what, lumber(counted, claimed, m_units));
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
    UnitSystem m_units;
};

} // namespace

void checkTotals(const Case& opened, const PlanTotals& counted, Report& report) {
    const PlanTotals& claimed = opened.plan.totals;
    TotalsCheck check(report, opened.document.info.units);
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
