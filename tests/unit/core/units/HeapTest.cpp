#include "core/base/Heap.h"

#include <gtest/gtest.h>

namespace stavewright {
namespace {

// A size that the C library refuses would go unnoticed, and cost time everywhere.
TEST(Heap, TheLibraryDoesAsTold) { EXPECT_TRUE(keepMemoryForSolvers()); }

} // namespace
} // namespace stavewright
