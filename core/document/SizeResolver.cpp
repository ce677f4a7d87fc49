#include "core/document/SizeResolver.h"

#include <algorithm>
#include <optional>

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

namespace {

std::string tooLongChain() {
    return " leans on a chain of more than " + std::to_string(limits::leansInOneChain) + " sizes.";
}

} // namespace

SizeResolver::SizeResolver(const Document& document) {
    m_parts.reserve(document.parts.size());
    for (const Part& part : document.parts) {
        m_parts.emplace(part.id, &part);
    }
}

Result<Length> SizeResolver::resolve(const Part& part, Dimension dimension) {
    const Result<Entry> entry = follow(part, dimension, 0);
    if (!entry) {
        return entry.error();
    }
    return entry.value().size;
}

// The recursion goes no deeper than the longest chain that is allowed.
Result<SizeResolver::Entry> SizeResolver::follow(const Part& part, Dimension dimension,
                                                 int before) {
    const auto refused = [&](const std::string& why) {
        return Error{ErrorCode::BadInput,
                     std::string("The ") + nameOf(dimension) + " of part " + part.mark + why,
                     part.mark};
    };
    const auto [found, isNew] = m_sizes.try_emplace({part.id, dimension});
    if (!isNew && found->second.done) {
        return found->second;
    }
    if (!isNew) {
        return refused(
            " leans on itself in a circle; a size may lean only on sizes that do not lean "
            "back.");
    }
    const Size& size = sizeOf(part, dimension);
    Entry entry{true, size.base, 1};
    std::optional<Error> error;
    if (abs(size.base) > limits::anyLength) {
        error = refused(" is beyond 100 m.");
    }
    for (std::size_t i = 0; i < size.leans.size() && !error; ++i) {
        const LeanTerm& term = size.leans[i];
        if (term.factor != 1 && term.factor != -1) {
            error = refused(" leans with the factor " + std::to_string(term.factor) +
                            "; it must be 1 or -1.");
            break;
        }
        const auto other = m_parts.find(term.part);
        if (other == m_parts.end()) {
            error = refused(" leans on part id " + std::to_string(term.part.value) +
                            ", which is not in the job.");
            break;
        }
        if (before + 1 == limits::leansInOneChain) {
            error = refused(tooLongChain());
            break;
        }
        const Result<Entry> leanedOn = follow(*other->second, term.dimension, before + 1);
        if (!leanedOn) {
            error = leanedOn.error();
            break;
        }
        entry.size += leanedOn.value().size * term.factor;
        entry.chain = std::max(entry.chain, leanedOn.value().chain + 1);
        if (abs(entry.size) > limits::anyLength) {
            error = refused(" comes to more than 100 m with what it leans on.");
        } else if (entry.chain > limits::leansInOneChain) {
            error = refused(tooLongChain());
        }
    }
    if (error) {
        m_sizes.erase(found);
        return *std::move(error);
    }
    found->second = entry;
    return entry;
}

} // namespace stavewright
