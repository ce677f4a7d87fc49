#include "core/document/Document.h"

#include <algorithm>

#include "core/document/SizeResolver.h"

namespace stavewright {

const Board* findBoard(const Document& document, BoardId id) {
    const auto found = std::find_if(document.boards.begin(), document.boards.end(),
                                    [id](const Board& board) { return board.id == id; });
    return found == document.boards.end() ? nullptr : &*found;
}

const Part* findPart(const Document& document, PartId id) {
    const auto found = std::find_if(document.parts.begin(), document.parts.end(),
                                    [id](const Part& part) { return part.id == id; });
    return found == document.parts.end() ? nullptr : &*found;
}

Result<Length> resolvedSize(const Document& document, const Part& part, Dimension dimension) {
    if (sizeOf(part, dimension).leans.empty()) {
        return sizeOf(part, dimension).base;
    }
    return SizeResolver(document).resolve(part, dimension);
}

std::string labelOf(const Document& document, const BlankPurpose& purpose) {
    const Part* part = findPart(document, purpose.part);
    std::string label = part ? part->mark : "?";
    label += std::to_string(purpose.instance);
    if (purpose.ply > 0) {
        label += static_cast<char>('a' + (purpose.ply - 1) % 26);
    }
    if (purpose.stave > 0) {
        label += '-' + std::to_string(purpose.stave);
    }
    return label;
}

std::string labelOfAll(const Document& document, const BlankPurpose& purpose) {
    const Part* part = findPart(document, purpose.part);
    const std::string first = labelOf(document, purpose);
    const int lastOfBlank = part ? std::min(purpose.instance + part->perBlank - 1, part->count) : 0;
    if (lastOfBlank <= purpose.instance) {
        return first;
    }
    BlankPurpose last = purpose;
    last.instance = lastOfBlank;
    return first + (lastOfBlank == purpose.instance + 1 ? ", " : " to ") + labelOf(document, last);
}

} // namespace stavewright
