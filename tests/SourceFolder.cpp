#include "tests/SourceFolder.h"

namespace stavewright {

std::string sourceFolder() { return STAVEWRIGHT_SOURCE_DIR; }

} // namespace stavewright
