#!/usr/bin/env bash
# Takes the present pages as the approved ones and shows what changed. Read the diff before committing it.
#   bash tests/golden/approve.sh [BUILD_FOLDER]
set -euo pipefail
cd "$(dirname "$0")/../.."
build=${1:-build/release}
APPROVE_GOLDEN=1 "$build/bin/test_papers_golden"
git diff --stat -- tests/golden
git diff -- tests/golden
