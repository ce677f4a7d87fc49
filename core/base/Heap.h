#pragma once
// How the process takes memory from the system. The solvers take and return blocks, large and
// small, on several threads all the time; giving each back, and asking for a few pages at a time,
// costs them a good part of their time.

#include <cstdlib> // tells whether the C library is glibc
#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace stavewright {

/// Called once, as the program starts; false when the C library does not do as told. Elsewhere than
/// with glibc there is nothing to tell.
inline bool keepMemoryForSolvers() {
#ifdef __GLIBC__
    constexpr int megabyte = 1 << 20;
    return mallopt(M_TRIM_THRESHOLD, 256 * megabyte) == 1 &&
           mallopt(M_MMAP_THRESHOLD, 32 * megabyte) == 1 && // more is refused
           mallopt(M_TOP_PAD, 4 * megabyte) == 1;
#else
    return true;
#endif
}

} // namespace stavewright
