#!/usr/bin/env bash
# clang-tidy over the sources of core and app (or the files named), with the release build's commands.
set -euo pipefail
cd "$(dirname "$0")/.."
if [ $# -gt 0 ]; then
  files=("$@")
else
  mapfile -t files < <(find core app -name '*.cpp' | sort)
fi
printf '%s\n' "${files[@]}" | xargs -P "$(nproc)" -n 4 clang-tidy -p build/release --quiet \
  --extra-arg=-Wno-unknown-warning-option 2> >(grep -v 'warnings generated' >&2)
echo "lint: ${#files[@]} files clean"
