#!/usr/bin/env bash
# Installs the Debian 12 packages that the program or its tests need, if any is missing. Asks nothing.
#   install-packages.sh build   what building the program needs
#   install-packages.sh test    that, and what the tests and their outside judges need
set -euo pipefail

build_packages=(
  cmake ninja-build g++ ccache
  libocct-foundation-dev libocct-modeling-data-dev libocct-modeling-algorithms-dev
  libocct-data-exchange-dev libocct-ocaf-dev libocct-visualization-dev
  libtomlplusplus-dev libcli11-dev libfmt-dev nlohmann-json3-dev libeigen3-dev
  pkg-config libcairo2-dev libpango1.0-dev lib3mf-dev
  fonts-dejavu-core fonts-droid-fallback  # what paper is set in: Latin, Greek, Cyrillic and more; Chinese, Japanese
)
test_packages=(
  libgtest-dev libgmock-dev libbenchmark-dev
  python3 python3-ezdxf python3-jsonschema admesh poppler-utils librsvg2-bin
  clang libclang-rt-14-dev  # the fuzzer
)

case "${1:-test}" in
  build) wanted=("${build_packages[@]}") ;;
  test) wanted=("${build_packages[@]}" "${test_packages[@]}") ;;
  *)
    echo "usage: install-packages.sh [build|test]" >&2
    exit 2
    ;;
esac

missing=()
if command -v dpkg-query >/dev/null; then
  installed=$(dpkg-query -W -f '${db:Status-Abbrev} ${Package}\n' "${wanted[@]}" 2>/dev/null | sed -n 's/^ii  *//p' || true)
  for package in "${wanted[@]}"; do
    grep -qxF "$package" <<<"$installed" || missing+=("$package")
  done
else
  echo "fitup is built on Debian 12; this system has no dpkg-query. It needs the equivalents of:" >&2
  echo "  ${wanted[*]}" >&2
  exit 1
fi
[ ${#missing[@]} -eq 0 ] && exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null || ! sudo -n true 2>/dev/null; then
    echo "These packages are missing, and this user may not install them:" >&2
    echo "  ${missing[*]}" >&2
    echo "Install them as root, then run this again:" >&2
    echo "  apt-get update && apt-get install -y --no-install-recommends ${missing[*]}" >&2
    exit 1
  fi
  as_root=(sudo -n)
fi

echo "Installing ${#missing[@]} packages: ${missing[*]}"
apt() { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq -o Acquire::Retries=3 "$@" </dev/null; }
# The lists may be absent or old, and the network may hiccup: three tries.
for try in 1 2 3; do
  if apt update && apt install -y --no-install-recommends "${missing[@]}" >/dev/null; then
    exit 0
  fi
  [ "$try" -eq 3 ] || { echo "Installing failed; trying again in $((try * 5)) s" >&2; sleep $((try * 5)); }
done
echo "Could not install: ${missing[*]}" >&2
echo "See the messages above; the packages are those of Debian 12 (bookworm)." >&2
exit 1
