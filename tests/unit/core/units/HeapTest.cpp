#include "core/base/Heap.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

// A size that the C library refuses would go unnoticed, and cost time everywhere.
TEST(Heap, TheLibraryDoesAsTold) {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
    GTEST_SKIP() << "a sanitizer brings a heap of its own, which takes no orders";
#else
    EXPECT_TRUE(keepMemoryForSolvers());
#endif
}

} // namespace
} // namespace stavewright
