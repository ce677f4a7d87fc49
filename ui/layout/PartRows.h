#pragma once
// What the lists beside the rack say, as plain values: every part with its placed blanks, and the
// tray of what is not placed.

#include <QString>

#include <vector>

#include "core/audit/Audit.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

struct BlankRow {
    BlankId blank;
    BoardId board;
    QString name;
    QString where; ///< "7, at 31 1/4"
    QString tip;
    friend bool operator==(const BlankRow&, const BlankRow&) = default;
};

struct PartRow {
    PartId part;
    QString name;
    QString tip;
    QString count;
    QString countTip;
    Sign sign = Sign::None;
    std::vector<BlankRow> blanks;
    friend bool operator==(const PartRow&, const PartRow&) = default;
};

struct TrayRow {
    PartId part;
    QString text;
    QString reason;
    Sign sign = Sign::None;
    friend bool operator==(const TrayRow&, const TrayRow&) = default;
};

struct TrayRows {
    QString title;
    Sign sign = Sign::None;
    std::vector<TrayRow> rows;
};

/// `plan` may be the document's own, one that is only shown, or null; `report` is what the audit
/// says of it, null where it was not asked.
[[nodiscard]] std::vector<PartRow> partRowsOf(const Document& document, const Plan* plan,
                                              const AuditReport* report, const LengthStyle& style);
/// Blanks of one part with one reason stand in one row.
[[nodiscard]] TrayRows trayRowsOf(const Document& document, const Plan* plan,
                                  const AuditReport* report);

} // namespace stavewright::ui
