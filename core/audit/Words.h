#pragma once
// How the audit names things in its sentences: boards and blanks by their marks, lengths in the
// job's style.

#include <string>
#include <string_view>

#include "core/document/Document.h"

namespace stavewright::audit_detail {

class Words {
  public:
    explicit Words(const Document& document);

    [[nodiscard]] std::string length(Length value) const; ///< as the shop reads it, with its unit
    /// The same for a length that the sentence holds against `other`; the two never read alike
    /// while they differ.
    [[nodiscard]] std::string beside(Length value, Length other) const;
    [[nodiscard]] std::string board(BoardId id) const; ///< "board 7"
    [[nodiscard]] std::string section(BoardId id,
                                      std::size_t index) const;         ///< "section 2 of board 7"
    [[nodiscard]] std::string blank(const BlankPurpose& purpose) const; ///< "R2"
    [[nodiscard]] std::string part(PartId id) const;                    ///< "R (Long rail)"
    /// The step that a maker reads off the tape: one of the finest fraction shown, or 1 mm.
    [[nodiscard]] Length tapeStep() const;

  private:
    const Document* m_document;
    LengthStyle m_style;
};

/// "1 fill", "3 fills".
[[nodiscard]] std::string counted(std::int64_t count, std::string_view noun);
/// The first letter made upper case (ASCII).
[[nodiscard]] std::string capitalised(std::string text);

} // namespace stavewright::audit_detail
