#pragma once
// Text with rows and cells, as spreadsheets put it on the clipboard and into files: parted by tabs,
// semicolons or commas, cells in quotes where they hold one of these.
//
//   const TextTable table = tableOf("Mark;Length\n7;96,5\n");   // 2 rows, parted by ';'

#include <string>
#include <string_view>
#include <vector>

namespace stavewright {

struct TextTable {
    std::vector<std::vector<std::string>> rows; ///< blanks at both ends of a cell are gone
    char separator = '\t';

    [[nodiscard]] std::size_t columns() const; ///< of the longest row
};

/// Tabs part the cells where there are any, else semicolons, else commas. Empty rows at the end are
/// dropped, those between stay. Any line ending; a byte order mark is passed over.
[[nodiscard]] TextTable tableOf(std::string_view text);

/// One row for each line, cells quoted where they must be.
[[nodiscard]] std::string textOf(const std::vector<std::vector<std::string>>& rows, char separator);

} // namespace stavewright
