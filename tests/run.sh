#!/usr/bin/env bash
# Installs what is missing, builds the program with its tests, runs every test. From any directory.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build/dev
jobs=$(nproc)

bash "$root/src/cmake/install-packages.sh" test
cmake -C "$root/src/cmake/dev.cmake" -S "$root" -B "$build" -G Ninja >/dev/null
cmake --build "$build" -j "$jobs"

status=0
results=$build/tests.xml
rm -f "$results"
ctest --test-dir "$build" -j "$jobs" --output-on-failure --no-tests=error --output-junit "$results" || status=$?

count() { sed -n "s/^[[:space:]]*$1=\"\([0-9]*\)\".*/\1/p" "$results" | head -n 1; }
if [ -s "$results" ]; then
  total=$(count tests)
  failed=$(($(count failures) + $(count skipped) + $(count disabled)))  # what did not run did not pass
  echo "$((total - failed)) passed, $failed failed"
fi
exit "$status"
