#include "core/audit/Report.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace stavewright::audit_detail {

void Report::fail(FindingKind kind, const About& about, std::string sentence) {
    m_findings.push_back({kind, Severity::Failure, capitalised(std::move(sentence)), about.board,
                          about.blank, about.defect, about.part});
}

void Report::failOnce(FindingKind kind, const About& about, std::string sentence) {
    sentence = capitalised(std::move(sentence));
    const bool stands =
        std::any_of(m_findings.begin(), m_findings.end(),
                    [&](const Finding& finding) { return finding.sentence == sentence; });
    if (!stands) {
        fail(kind, about, std::move(sentence));
    }
}

void Report::remark(FindingKind kind, const About& about, std::string sentence) {
    m_findings.push_back({kind, Severity::Remark, capitalised(std::move(sentence)), about.board,
                          about.blank, about.defect, about.part});
}

std::vector<Finding> Report::sorted(const Document& document) const {
    std::unordered_map<std::int64_t, std::size_t> rank;
    for (std::size_t i = 0; i < document.boards.size(); ++i) {
        rank.emplace(document.boards[i].id.value, i + 1);
    }
    const auto key = [&](const Finding& finding) {
        const auto found = rank.find(finding.board.value);
        // What concerns no board comes last.
        const std::size_t place = found == rank.end() ? document.boards.size() + 1 : found->second;
        return std::pair(finding.severity == Severity::Remark, place);
    };
    std::vector<Finding> findings = m_findings;
    std::stable_sort(findings.begin(), findings.end(),
                     [&](const Finding& a, const Finding& b) { return key(a) < key(b); });
    return findings;
}

} // namespace stavewright::audit_detail
