#include "app/Tables.h"

#include <iostream>

#include "app/Headless.h"
#include "core/job/FileAccess.h"
#include "core/job/JobFile.h"
#include "core/layout/GluePresets.h"
#include "core/shop/Presets.h"
#include "core/tally/ColumnGuess.h"
#include "core/tally/TallyBoards.h"
#include "core/units/QuantityText.h"

namespace stavewright::app {

namespace {

int fail(const Error& error) {
    std::cerr << describe(error) << '\n';
    return exitCodeOf(error);
}

Document emptyJob(UnitSystem units) {
    Document document;
    document.info.units = units;
    document.shop = units == UnitSystem::Inches ? inchShop() : metricShop();
    document.glueUp.settings = glueSettingsFor(units);
    document.nextId = presetRules::last + 1;
    return document;
}

/// One line for each cell that cannot be read; how many there were.
std::size_t complain(const ReadTally& tally, const std::string& path, std::size_t firstRow) {
    std::size_t wrong = 0;
    for (std::size_t row = 0; row < tally.rows.size(); ++row) {
        for (const ReadTallyCell& cell : tally.rows[row].cells) {
            if (!cell.wrong.empty()) {
                std::cerr << path << ", row " << row + firstRow << ": " << cell.wrong << '\n';
                ++wrong;
            }
        }
    }
    return wrong;
}

} // namespace

int runTally(const TallyCommand& command) {
    Document document = emptyJob(command.units.value_or(UnitSystem::Inches));
    if (!command.into.empty()) {
        Result<Document> read = readJob(command.into);
        if (!read) {
            return fail(read.error());
        }
        document = std::move(read).value();
    }
    constexpr std::size_t largestTable = 16U * 1024 * 1024;
    const Result<std::string> text = job::readWholeFile(command.table, largestTable);
    if (!text) {
        return fail({text.error().code, text.error().message, command.table});
    }
    if (text.value().find('\0') != std::string::npos) {
        return fail({ErrorCode::BadInput,
                     "This is no text; save the table as CSV in the spreadsheet.", command.table});
    }
    const TextTable table = tableOf(text.value());
    if (table.rows.empty()) {
        return fail({ErrorCode::BadInput, "The table holds no rows.", command.table});
    }
    const UnitSystem units = document.info.units;
    const ColumnMap map = guessColumns(table, units);
    const ReadTally tally = readTally(document, rowsOf(table, map));
    for (const SourceColumn& column : map.columns) {
        std::cout << (column.heading.empty() ? "(no heading)" : column.heading) << " -> "
                  << nameOf(column.field) << '\n';
    }
    std::cout << tally.sums.boards << " boards: " << lumberText(tally.sums.tallied, units)
              << " by the tally rule, " << lumberText(tally.sums.exact, units) << " by exact size, "
              << formatMoney(tally.sums.cost, document.info.currency) << ".\n";
    if (complain(tally, command.table, map.hasHeadings ? 2 : 1) > 0) {
        if (!command.out.empty()) {
            std::cerr << "Nothing was written.\n";
        }
        return exitBadInput;
    }
    if (command.out.empty()) {
        return exitGood;
    }
    if (const Result<Edit> inverse = apply(document, putInJob(document, tally)); !inverse) {
        return fail(inverse.error());
    }
    if (const Status sound = validate(document); !sound) {
        return fail(sound.error());
    }
    if (const Status written = writeJob(document, command.out); !written) {
        return fail(written.error());
    }
    return exitGood;
}

int runBoards(const BoardsCommand& command) {
    const Result<Document> document = readJob(command.job);
    if (!document) {
        return fail(document.error());
    }
    const UnitSystem units = command.units.value_or(document.value().info.units);
    const std::string csv = csvOf(document.value().boards, units);
    if (command.out.empty()) {
        std::cout << csv;
        return exitGood;
    }
    if (const Status written = writeAtomically(command.out, csv); !written) {
        return fail(written.error());
    }
    return exitGood;
}

} // namespace stavewright::app
