#include "core/document/Document.h"

namespace stavewright {

Status validate(const Document&) { return Done{}; }

} // namespace stavewright
