#include "ui/piece/ChainRows.h"

#include <algorithm>

#include "ui/widgets/Words.h"

namespace stavewright::ui {

std::vector<ChainRow> chainRows(const std::vector<SumLine>& sums) {
    std::vector<ChainRow> rows;
    std::string last;
    for (const SumLine& line : sums) {
        const std::size_t at = static_cast<std::size_t>(line.dimension);
        const bool finished = line.text.rfind("finished ", 0) == 0;
        const std::string text = finished ? "finished" : line.text;
        // One stage changes each dimension at most once; a stage that comes again is a new row.
        const bool sameStage = !rows.empty() && text == last && !rows.back().added[at];
        if (!sameStage) {
            ChainRow row;
            row.stage = words(text);
            if (!rows.empty()) {
                row.after = rows.back().after;
            }
            rows.push_back(row);
            last = text;
        }
        rows.back().added[at] = line.amount;
        rows.back().after[at] = line.after;
    }
    return rows;
}

Result<BlankSpec> firstSpecOf(const Document& document, PartId part) {
    const Result<std::vector<BlankSpec>> specs = blankSpecs(document);
    if (!specs) {
        return specs.error();
    }
    const auto found = std::find_if(specs.value().begin(), specs.value().end(),
                                    [part](const BlankSpec& spec) { return spec.part == part; });
    if (found == specs.value().end()) {
        return Error{ErrorCode::BadInput, "The part asks for no blanks.", {}};
    }
    return *found;
}

} // namespace stavewright::ui
