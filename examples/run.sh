#!/usr/bin/env bash
# Installs what is missing, builds the program, makes the job folder of every example under out/, and says what
# was made and where. From any directory.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build/release
out=$root/out

bash "$root/src/cmake/install-packages.sh" build
cmake -C "$root/src/cmake/release.cmake" -S "$root" -B "$build" -G Ninja >/dev/null
cmake --build "$build" -j "$(nproc)" --target fitup
fitup=$(find "$build" -type f -name fitup -perm -u+x | head -n 1)

mkdir -p "$out"
worst=0
while IFS= read -r spec; do
  folder=$out/$(basename "$spec" .toml)
  echo
  echo "== ${spec#"$root"/}"
  status=0
  "$fitup" make "$spec" -o "$folder" || status=$?
  # 1: the folder was made, and a check fails; the findings say which.
  if [ "$status" -gt 1 ]; then
    echo "No job folder was made (exit status $status)." >&2
  else
    echo
    echo "Made ${folder#"$root"/}:"
    (cd "$folder" && find . -type f -printf '%P\n' | LC_ALL=C sort | sed 's/^/  /')
    echo "Read ${folder#"$root"/}/checks/findings.txt first."
  fi
  [ "$status" -le "$worst" ] || worst=$status
done < <(find "$root/examples" -name '*.toml' | LC_ALL=C sort)
exit "$worst"
