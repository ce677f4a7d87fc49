#pragma once
// Prints the rows of a suite, as a table of the columns that the suite names or as JSON with all
// fields. Notes between the rows are for people only.
//
//   RowPrinter printer(options.json, {column::family(), column::instance(), column::value(2)});
//   printer.print(row);
//   printer.note("41 of 45 reached");
//   printer.finish();

#include <functional>
#include <string>
#include <vector>

#include "Row.h"

namespace stavewright::cutting::bench {

struct Column {
    std::string title;
    int width = 8;
    bool left = false;
    std::function<std::string(const Row&)> text;
};

class RowPrinter {
  public:
    RowPrinter(bool json, std::vector<Column> columns);

    void print(const Row& row);
    void note(const std::string& text);
    /// Closes the JSON array.
    void finish();
    /// No row had a fault.
    [[nodiscard]] bool isSound() const { return m_sound; }

  private:
    void printHead();

    bool m_json;
    std::vector<Column> m_columns;
    bool m_first = true;
    bool m_sound = true;
};

namespace column {
[[nodiscard]] Column family();
[[nodiscard]] Column instance(int width = 16);
[[nodiscard]] Column boards();
[[nodiscard]] Column value(int decimals, const std::string& title = "value");
[[nodiscard]] Column published(int decimals, const std::string& title = "published");
[[nodiscard]] Column reached(const std::string& title = "reached");
[[nodiscard]] Column number(const std::string& title, std::optional<double> Row::*field,
                            int decimals);
[[nodiscard]] Column share(const std::string& title, std::optional<double> Row::*field);
[[nodiscard]] Column placed(); ///< "placed/demanded"
[[nodiscard]] Column audit();
} // namespace column

} // namespace stavewright::cutting::bench
