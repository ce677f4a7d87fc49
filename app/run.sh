#!/usr/bin/env bash
# Installs what is missing, builds the program and opens the sample job. Without a display it plans the
# sample instead and leaves the plan and its papers under build/sample.
#   bash app/run.sh [JOB]
set -euo pipefail
cd "$(dirname "$0")/.."

# shellcheck source=app/packages.sh
source app/packages.sh
need_packages "${program_packages[@]}"

tests=OFF
grep -qs '^STAVEWRIGHT_TESTS:BOOL=ON' build/release/CMakeCache.txt && tests=ON # keep a tester's choice
cmake --preset release -DSTAVEWRIGHT_TESTS=$tests >build-configure.log 2>&1 || {
  cat build-configure.log >&2
  exit 1
}
rm -f build-configure.log
cmake --build --preset release --target stavewright

program=build/release/bin/stavewright
job=${1:-samples/kitchen-table.stavejob}
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  exec "$program" "$job"
fi

echo "There is no display, so no window opens: planning $job and writing its papers instead."
mkdir -p build/sample
name=$(basename "${job%.*}")
"$program" plan "$job" -o "build/sample/$name.stavejob" --seconds 5
"$program" papers "build/sample/$name.stavejob" -o "build/sample/$name.pdf"
echo "The plan is build/sample/$name.stavejob, its papers are build/sample/$name.pdf."
