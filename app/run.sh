#!/usr/bin/env bash
# Installs what is missing, builds the program and opens the sample job. Without a display it plans the
# sample instead and leaves the plan and its papers under build/sample.
#   bash app/run.sh [JOB]
set -euo pipefail
job=samples/kitchen-table.stavejob
[ $# -eq 0 ] || job=$(realpath -m -- "$1")
cd "$(dirname "$0")/.."

# shellcheck source=app/packages.sh
source app/packages.sh
need_packages "${program_packages[@]}"

tests=OFF
grep -qs '^STAVEWRIGHT_TESTS:BOOL=ON' build/release/CMakeCache.txt && tests=ON # keep a tester's choice
mkdir -p build
cmake --preset release -DSTAVEWRIGHT_TESTS=$tests >build/configure.log 2>&1 || {
  cat build/configure.log >&2
  exit 1
}
cmake --build --preset release --target stavewright

program=build/release/bin/stavewright
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  exec "$program" "$job"
fi

echo "There is no display, so no window opens: planning $job and writing its papers instead."
mkdir -p build/sample
name=$(basename "${job%.*}")
# Exit code 1 says that a blank found no place: there is a plan all the same, and papers for it.
found=0
"$program" plan "$job" -o "build/sample/$name.stavejob" --seconds 5 || found=$?
[ "$found" -le 1 ] || exit "$found"
"$program" papers "build/sample/$name.stavejob" -o "build/sample/$name.pdf" || found=$?
[ "$found" -le 1 ] || exit "$found"
echo "The plan is build/sample/$name.stavejob, its papers are build/sample/$name.pdf."
exit "$found"
