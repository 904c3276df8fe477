#!/usr/bin/env bash
# Builds the program as released and the benchmarks; times whole runs against the bare kernel, then each stage.
#   tests/speed/run.sh [SPEC...]     default: every example
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
specs=("$@")
if [ $# -eq 0 ]; then specs=("$root"/examples/*/*.toml); fi
build=$root/build/speed

bash "$root/src/cmake/install-packages.sh" test
cmake -C "$root/src/cmake/release.cmake" -S "$root" -B "$build" -G Ninja -DFITUP_TESTS=ON -DFITUP_BENCHMARKS=ON >/dev/null
cmake --build "$build" -j "$(nproc)" --target fitup stages_speed checks_speed loads_speed bare_kernel inspect_speed paper_speed

status=0
for spec in "${specs[@]}"; do
  echo "== ${spec#"$root"/}"
  python3 "$root/tests/speed/whole_runs.py" "$build/src/app/fitup" "$build/tests/speed/bare_kernel" "$spec" || status=$?
  "$build/tests/speed/stages_speed" "$spec" --benchmark_counters_tabular=true 2>&1 |
    grep -v "^Run on\|^  L\|CPU Caches\|^\*\*\*"
  "$build/tests/speed/checks_speed" "$spec" || status=$?
  "$build/tests/speed/paper_speed" "$spec" || status=$?
done
echo "== check of a rack of a hundred items"
python3 "$root/tests/speed/rack.py" "$build/src/app/fitup" || status=$?
echo "== interrupts"
python3 "$root/tests/end_to_end/interrupts.py" "$build/src/app/fitup" "$root/examples" --rounds 40 --most 0.2 || status=$?
echo "== all loads of the demo, lighten, a frame of 2,000 members"
"$build/tests/speed/loads_speed" 2>&1 | grep "all_loads\|lighten\|members"
echo "== inspect: a DXF of 100,000 entities"
"$build/tests/speed/inspect_speed" 2>&1 | grep "hundred_thousand_entities"
exit "$status"
