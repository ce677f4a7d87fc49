#include "core/audit/Words.h"

#include <algorithm>

#include "core/units/SaidLength.h"

namespace stavewright::audit_detail {

Words::Words(const Document& document)
    : m_document(&document)
    , m_style{document.info.units, document.info.inchDenominator, true} {}

std::string Words::length(Length value) const { return saidLength(value, m_style); }

std::string Words::beside(Length value, Length other) const {
    return saidBeside(value, other, m_style);
}

std::string Words::board(BoardId id) const {
    const Board* board = findBoard(*m_document, id);
    return board ? "board " + board->mark : "a board that is not in the job";
}

std::string Words::section(BoardId id, std::size_t index) const {
    return "section " + std::to_string(index + 1) + " of " + board(id);
}

std::string Words::blank(const BlankPurpose& purpose) const {
    return findPart(*m_document, purpose.part) ? labelOf(*m_document, purpose)
                                               : std::string("a blank of an unknown part");
}

std::string Words::part(PartId id) const {
    const Part* part = findPart(*m_document, id);
    if (!part) {
        return "a part that is not in the job";
    }
    return part->name.empty() ? part->mark : part->mark + " (" + part->name + ")";
}

Length Words::tapeStep() const {
    if (m_style.units == UnitSystem::Millimetres) {
        return Length::millimetres(1);
    }
    return Length::nanometres(Length::nanometresPerInch / std::max(1, m_style.denominator));
}

std::string counted(std::int64_t count, std::string_view noun) {
    std::string text = std::to_string(count) + ' ' + std::string(noun);
    return count == 1 ? text : text + 's';
}

std::string capitalised(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

} // namespace stavewright::audit_detail
