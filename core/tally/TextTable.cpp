#include "core/tally/TextTable.h"

#include <algorithm>
#include <optional>

namespace stavewright {

namespace {

std::string_view withoutByteOrderMark(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    return text.substr(0, mark.size()) == mark ? text.substr(mark.size()) : text;
}

/// The first of tab, semicolon and comma that stands outside quotes in any row.
char separatorOf(std::string_view text) {
    for (const char candidate : {'\t', ';'}) {
        bool quoted = false;
        for (const char c : text) {
            quoted = c == '"' ? !quoted : quoted;
            if (c == candidate && !quoted) {
                return candidate;
            }
        }
        // An inch mark is no quote: where quotes do not pair up they mean nothing.
        if (quoted && text.find(candidate) != std::string_view::npos) {
            return candidate;
        }
    }
    return ',';
}

std::string trimmed(std::string_view cell) {
    const auto isBlank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
    while (!cell.empty() && isBlank(cell.front())) {
        cell.remove_prefix(1);
    }
    while (!cell.empty() && isBlank(cell.back())) {
        cell.remove_suffix(1);
    }
    return std::string(cell);
}

/// Reads cell by cell; a quote opens a cell only at its beginning, so that 27 1/2" stays as it is.
class Splitter {
  public:
    Splitter(std::string_view text, char separator)
        : m_text(text)
        , m_separator(separator) {}

    std::vector<std::vector<std::string>> rows() {
        std::vector<std::vector<std::string>> all;
        while (m_at < m_text.size()) {
            all.push_back(row());
        }
        return all;
    }

  private:
    std::vector<std::string> row() {
        std::vector<std::string> cells;
        while (true) {
            cells.push_back(cell());
            if (m_at >= m_text.size()) {
                return cells;
            }
            const char ended = m_text[m_at++];
            if (ended != m_separator) {
                if (ended == '\r' && m_at < m_text.size() && m_text[m_at] == '\n') {
                    ++m_at;
                }
                return cells;
            }
        }
    }

    std::string cell() {
        const std::size_t begin = m_at;
        while (m_at < m_text.size() && m_text[m_at] == ' ') {
            ++m_at;
        }
        if (m_at < m_text.size() && m_text[m_at] == '"') {
            if (auto quoted = quotedCell()) {
                return *quoted;
            }
        }
        m_at = begin;
        while (m_at < m_text.size() && !endsCell(m_text[m_at])) {
            ++m_at;
        }
        return trimmed(m_text.substr(begin, m_at - begin));
    }

    /// Nothing when the quote is never closed before the cell ends: then it is an ordinary sign.
    std::optional<std::string> quotedCell() {
        std::string content;
        std::size_t at = m_at + 1;
        while (at < m_text.size()) {
            if (m_text[at] != '"') {
                content += m_text[at++];
            } else if (at + 1 < m_text.size() && m_text[at + 1] == '"') {
                content += '"';
                at += 2;
            } else {
                ++at;
                while (at < m_text.size() && m_text[at] == ' ') {
                    ++at;
                }
                if (at < m_text.size() && !endsCell(m_text[at])) {
                    return std::nullopt;
                }
                m_at = at;
                return trimmed(content);
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] bool endsCell(char c) const { return c == m_separator || c == '\n' || c == '\r'; }

    std::string_view m_text;
    char m_separator;
    std::size_t m_at = 0;
};

bool isEmptyRow(const std::vector<std::string>& row) {
    return std::all_of(row.begin(), row.end(),
                       [](const std::string& cell) { return cell.empty(); });
}

} // namespace

std::size_t TextTable::columns() const {
    std::size_t most = 0;
    for (const std::vector<std::string>& row : rows) {
        most = std::max(most, row.size());
    }
    return most;
}

TextTable tableOf(std::string_view text) {
    const std::string_view plain = withoutByteOrderMark(text);
    TextTable table;
    table.separator = separatorOf(plain);
    table.rows = Splitter(plain, table.separator).rows();
    while (!table.rows.empty() && isEmptyRow(table.rows.back())) {
        table.rows.pop_back();
    }
    return table;
}

std::string textOf(const std::vector<std::vector<std::string>>& rows, char separator) {
    std::string text;
    for (const std::vector<std::string>& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (i > 0) {
                text += separator;
            }
            const std::string& cell = row[i];
            const bool blankEnd = !cell.empty() && (cell.front() == ' ' || cell.back() == ' ');
            if (!blankEnd &&
                cell.find_first_of(std::string("\"\r\n") + separator) == std::string::npos) {
                text += cell;
                continue;
            }
            text += '"';
            for (const char c : cell) {
                text.append(c == '"' ? "\"\"" : std::string(1, c));
            }
            text += '"';
        }
        text += '\n';
    }
    return text;
}

} // namespace stavewright
