#pragma once
// Where the sources lie, for tests that read samples and approved files. Only one file is told the
// path when it is compiled, so that clones share all the others in the compiler cache.

#include <string>

namespace stavewright {

std::string sourceFolder();

} // namespace stavewright
