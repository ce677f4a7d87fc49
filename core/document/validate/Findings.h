#pragma once
// What the validation of a document shares: the first offence, and checks that say one sentence
// each.
//
//   findings.length(place + "/kerf", "The kerf of the rip saw", saw.kerf,
//   Range::aboveZeroBelow(inch));
//     -> /shop/machines/rip/kerf: The kerf of the rip saw is 0; it must be above 0 and below 1".

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "core/document/Document.h"

namespace stavewright::validation {

/// Allowed lengths.
struct Range {
    Length least;
    Length most;
    bool leastItself = true;
    bool mostItself = true;
    static Range aboveZeroUpTo(Length most) { return {Length(), most, false, true}; }
    static Range aboveZeroBelow(Length limit) { return {Length(), limit, false, false}; }
    static Range zeroUpTo(Length most) { return {Length(), most, true, true}; }
};

class Findings {
  public:
    explicit Findings(UnitSystem units)
        : m_units(units) {}

    [[nodiscard]] bool ok() const { return !m_first; }
    [[nodiscard]] Status status() const;

    /// Keeps the first one.
    void refuse(std::string place, std::string sentence);

    // Each says "<what> is <value>; it must be ..." at the JSON pointer `place`.
    void length(const std::string& place, std::string_view what, Length value, const Range& range);
    void number(const std::string& place, std::string_view what, std::int64_t value,
                std::int64_t least, std::int64_t most);
    /// Nothing below zero and nothing absurd.
    void money(const std::string& place, std::string_view what, Money value);
    /// A line of text without control characters; line ends are allowed in notes.
    enum class Lines { One, Many };
    void text(const std::string& place, std::string_view what, std::string_view value,
              std::size_t mostCharacters, Lines lines = Lines::One);
    /// A mark: not empty, short, not beginning or ending with a blank.
    void mark(const std::string& place, std::string_view what, std::string_view value);
    void count(const std::string& place, std::string_view what, std::size_t value,
               std::size_t most);
    void species(const std::string& place, std::string_view whose, std::string_view key);

    /// The exact length in the job's unit, or in millimetres where fractions of an inch would round
    /// it.
    [[nodiscard]] std::string say(Length length) const;

  private:
    UnitSystem m_units;
    std::optional<Error> m_first;
};

/// Finds what stands twice among marks: the place of the first, or nothing when `mark` is new.
class Seen {
  public:
    std::optional<std::string> before(const std::string& mark, const std::string& place);

  private:
    std::unordered_map<std::string, std::string> m_places;
};

/// "/boards" + 3 -> "/boards/3"
[[nodiscard]] inline std::string at(const std::string& place, std::size_t index) {
    return place + '/' + std::to_string(index);
}

/// One photograph and its marks; `whose` is what it is called, `widest` what it may show.
void checkPhoto(const BoardPhoto& photo, const std::string& here, const std::string& whose,
                Length widest, Findings& findings);

// One source file each; all stop early once something was found.
void checkIds(const Document& document, Findings& findings);
void checkInfo(const Document& document, Findings& findings);
void checkShop(const Document& document, Findings& findings);
void checkBoards(const Document& document, Findings& findings);
void checkParts(const Document& document, Findings& findings);
void checkBoardRules(const Document& document, Findings& findings);
void checkPlan(const Document& document, Findings& findings);
void checkGlueUp(const Document& document, Findings& findings);

} // namespace stavewright::validation
