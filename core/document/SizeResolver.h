#pragma once
// Works out finished sizes that lean on other sizes, each once.

#include <map>
#include <unordered_map>
#include <utility>

#include "core/document/Document.h"

namespace stavewright {

class SizeResolver {
  public:
    /// The document must outlive the resolver and stay as it is.
    explicit SizeResolver(const Document& document);

    Result<Length> resolve(const Part& part, Dimension dimension);

  private:
    struct Entry {
        bool done =
            false; ///< false while its leans are being followed: meeting it again is a circle
        Length size;
        int chain = 0; ///< sizes that stand one behind another, this one counted
    };

    Result<Entry> follow(const Part& part, Dimension dimension, int before);

    std::unordered_map<PartId, const Part*> m_parts;
    std::map<std::pair<PartId, Dimension>, Entry> m_sizes;
};

[[nodiscard]] const Size& sizeOf(const Part& part, Dimension dimension);
/// "length", "width", "thickness".
[[nodiscard]] const char* nameOf(Dimension dimension);

} // namespace stavewright
