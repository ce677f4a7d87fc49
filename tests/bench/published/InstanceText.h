#pragma once
// The small text formats of the published instances: whole numbers parted by white space, and
// tables of known values parted by semicolons. Each folder's README says what stands where.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace stavewright::cutting::bench {

/// Whole numbers of a file, one after the other.
class Numbers {
  public:
    /// Nothing when the file cannot be read.
    [[nodiscard]] static std::optional<Numbers> of(const std::string& path);

    /// 0 when there is none left; see isSound().
    std::int64_t next();
    [[nodiscard]] bool isAtEnd() const { return m_place == m_numbers.size(); }
    /// No more was asked for than there is.
    [[nodiscard]] bool isSound() const { return m_sound; }

    void add(std::int64_t number) { m_numbers.push_back(number); }

  private:
    std::vector<std::int64_t> m_numbers;
    std::size_t m_place = 0;
    bool m_sound = true;
};

/// Several instances in one file, each behind a word that is its name.
[[nodiscard]] std::map<std::string, Numbers> namedNumbers(const std::string& path);

/// One line of a table of known values, by the names in its first line.
class KnownLine {
  public:
    explicit KnownLine(std::map<std::string, std::string> fields)
        : m_fields(std::move(fields)) {}

    [[nodiscard]] std::string text(const std::string& field) const;
    /// Nothing for an empty field.
    [[nodiscard]] std::optional<std::int64_t> number(const std::string& field) const;

  private:
    std::map<std::string, std::string> m_fields;
};

/// Nothing when the file cannot be read.
[[nodiscard]] std::optional<std::vector<KnownLine>> knownValues(const std::string& path);

} // namespace stavewright::cutting::bench
