#!/usr/bin/env bash
# Installs what is missing, builds everything and runs all the tests.
#   bash tests/run.sh          everything: format, release tests, sanitizer run of the core
#   bash tests/lint.sh         clang-tidy, apart because it takes long
#   bash tests/run.sh --fast   release build and the tests labelled fast
set -euo pipefail
cd "$(dirname "$0")/.."

# shellcheck source=app/packages.sh
source app/packages.sh
need_packages "${program_packages[@]}" "${test_packages[@]}"

export OPENBLAS_NUM_THREADS=1
export QT_QPA_PLATFORM=offscreen
jobs=$(nproc)

echo "== format"
find app core tests ui -name '*.cpp' -o -name '*.h' | sort | xargs clang-format --dry-run --Werror

echo "== release build"
cmake --preset release -DSTAVEWRIGHT_TESTS=ON
cmake --build --preset release

echo "== release tests"
if [ "${1:-}" = "--fast" ]; then
  exec ctest --preset release -L fast -j "$jobs"
fi
ctest --preset release -j "$jobs"

echo "== address and undefined-behaviour sanitizers, core tests"
cmake --preset dev -DSTAVEWRIGHT_TESTS=ON -DSTAVEWRIGHT_UI=OFF
cmake --build --preset dev
ctest --preset dev -j "$jobs"
