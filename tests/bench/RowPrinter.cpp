#include "RowPrinter.h"

#include <iomanip>
#include <iostream>
#include <sstream>

#include "RowJson.h"

namespace stavewright::cutting::bench {

RowPrinter::RowPrinter(bool json, std::vector<Column> columns)
    : m_json(json)
    , m_columns(std::move(columns)) {}

void RowPrinter::printHead() {
    for (const Column& column : m_columns) {
        std::cout << (column.left ? std::left : std::right) << std::setw(column.width)
                  << column.title << "  ";
    }
    std::cout << '\n';
}

void RowPrinter::print(const Row& row) {
    m_sound = m_sound && row.faults.empty();
    if (m_json) {
        std::cout << (m_first ? "[\n" : ",\n") << "  " << asJson(row) << std::flush;
        m_first = false;
        return;
    }
    if (m_first) {
        printHead();
    }
    m_first = false;
    for (const Column& column : m_columns) {
        std::cout << (column.left ? std::left : std::right) << std::setw(column.width)
                  << column.text(row) << "  ";
    }
    std::cout << '\n';
    for (const std::string& fault : row.faults) {
        std::cout << "    " << fault << '\n';
    }
    std::cout << std::flush;
}

void RowPrinter::note(const std::string& text) {
    if (!m_json) {
        std::cout << text << '\n' << std::flush;
    }
}

void RowPrinter::finish() {
    if (m_json) {
        std::cout << (m_first ? "[" : "\n") << "]\n" << std::flush;
    }
}

namespace column {

namespace {

std::string fixed(double value, int decimals) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(decimals) << value;
    return text.str();
}

std::string fixed(const std::optional<double>& value, int decimals) {
    return value ? fixed(*value, decimals) : "-";
}

} // namespace

Column family() {
    return {"family", 14, true, [](const Row& row) { return row.family; }};
}

Column instance(int width) {
    return {"instance", width, true, [](const Row& row) { return row.instance; }};
}

Column boards() {
    return {"boards", 6, false, [](const Row& row) { return std::to_string(row.boards); }};
}

Column value(int decimals, const std::string& title) {
    return {title, 11, false, [=](const Row& row) { return fixed(row.value, decimals); }};
}

Column published(int decimals, const std::string& title) {
    return {title, 11, false, [=](const Row& row) { return fixed(row.published, decimals); }};
}

Column reached(const std::string& title) {
    return {title, 7, false, [](const Row& row) -> std::string {
                return !row.reached ? "-" : *row.reached ? "yes" : "no";
            }};
}

Column number(const std::string& title, std::optional<double> Row::*field, int decimals) {
    return {title, 8, false, [=](const Row& row) { return fixed(row.*field, decimals); }};
}

Column share(const std::string& title, std::optional<double> Row::*field) {
    return {title, 8, false, [=](const Row& row) { return asPercent(row.*field); }};
}

Column placed() {
    return {"placed", 9, false, [](const Row& row) {
                return row.placed && row.demanded
                           ? std::to_string(*row.placed) + "/" + std::to_string(*row.demanded)
                           : "-";
            }};
}

Column audit() {
    return {"check", 5, false, [](const Row& row) -> std::string {
                return !row.audited ? "-" : row.faults.empty() ? "pass" : "FAIL";
            }};
}

} // namespace column

} // namespace stavewright::cutting::bench
