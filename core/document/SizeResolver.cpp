#include "core/document/SizeResolver.h"

#include "core/document/Limits.h"

namespace stavewright {

const Size& sizeOf(const Part& part, Dimension dimension) {
    switch (dimension) {
    case Dimension::Length:
        return part.length;
    case Dimension::Width:
        return part.width;
    case Dimension::Thickness:
        break;
    }
    return part.thickness;
}

const char* nameOf(Dimension dimension) {
    switch (dimension) {
    case Dimension::Length:
        return "length";
    case Dimension::Width:
        return "width";
    case Dimension::Thickness:
        break;
    }
    return "thickness";
}

SizeResolver::SizeResolver(const Document& document) {
    m_parts.reserve(document.parts.size());
    for (const Part& part : document.parts) {
        m_parts.emplace(part.id, &part);
    }
}

// The recursion goes as deep as leans are chained: at most three times the number of parts.
Result<Length> SizeResolver::resolve(const Part& part, Dimension dimension) {
    const auto whose = [&] {
        return std::string("The ") + nameOf(dimension) + " of part " + part.mark;
    };
    const auto [found, isNew] = m_sizes.try_emplace({part.id, dimension});
    Entry& entry = found->second; // stays put while the map grows
    if (!isNew) {
        if (entry.done) {
            return entry.size;
        }
        return Error{ErrorCode::BadInput,
                     whose() +
                         " leans on itself in a circle; a size may lean only on sizes that do "
                         "not lean back.",
                     part.mark};
    }
    const Size& size = sizeOf(part, dimension);
    Length sum = size.base;
    for (const LeanTerm& term : size.leans) {
        const auto other = m_parts.find(term.part);
        if (other == m_parts.end()) {
            m_sizes.erase(found);
            return Error{ErrorCode::BadInput,
                         whose() + " leans on part id " + std::to_string(term.part.value) +
                             ", which is not in the job.",
                         part.mark};
        }
        const Result<Length> leanedOn = resolve(*other->second, term.dimension);
        if (!leanedOn) {
            m_sizes.erase(found);
            return leanedOn.error();
        }
        sum += leanedOn.value() * term.factor;
        if (abs(sum) > limits::anyLength || abs(size.base) > limits::anyLength) {
            m_sizes.erase(found);
            return Error{ErrorCode::BadInput,
                         whose() + " comes to more than 100 m with what it leans on.", part.mark};
        }
    }
    entry = {true, sum};
    return sum;
}

} // namespace stavewright
