#pragma once
// Collects findings while the families of checks run, and words them.

#include <vector>

#include "core/audit/Audit.h"
#include "core/audit/Words.h"

namespace stavewright::audit_detail {

/// What a finding is about; unset ids where it does not apply.
struct About {
    BoardId board = {};
    BlankId blank = {};
    DefectId defect = {};
    PartId part = {};
};

class Report {
  public:
    explicit Report(const Document& document)
        : m_words(document) {}

    void fail(FindingKind kind, const About& about, std::string sentence);
    /// The same, unless that sentence stands already.
    void failOnce(FindingKind kind, const About& about, std::string sentence);
    void remark(FindingKind kind, const About& about, std::string sentence);

    [[nodiscard]] const Words& words() const { return m_words; }
    /// Failures first, then by board in rack order, otherwise in the order of the checks.
    [[nodiscard]] std::vector<Finding> sorted(const Document& document) const;

  private:
    Words m_words;
    std::vector<Finding> m_findings;
};

} // namespace stavewright::audit_detail
