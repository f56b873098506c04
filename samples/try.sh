#!/usr/bin/env bash
# On a bare Debian 12: installs, builds, writes the workbook of the first sample and shows what
# matters most in it.
set -euo pipefail
cd "$(dirname "$0")/.."
packages="g++ cmake ninja-build pkg-config libboost-dev libboost-program-options-dev libyaml-cpp-dev
  libxlsxwriter-dev libcsv-dev nlohmann-json3-dev libfmt-dev libpugixml-dev libminizip-dev zlib1g-dev nettle-dev"
missing=""
for p in $packages; do dpkg -s "$p" >/dev/null 2>&1 || missing="$missing $p"; done
if [ -n "$missing" ]; then
  sudo=""; [ "$(id -u)" = 0 ] || sudo="sudo"
  $sudo apt-get update -qq
  DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq --no-install-recommends $missing >/dev/null
fi
cmake -S . -B build -G Ninja -DTURNWRIGHT_TESTS=OFF >/dev/null
ninja -C build >/dev/null
build/turnwright quote samples/01-winch-spindle.yaml --shop samples/shop --output build/winch-spindle.xlsx > build/winch-spindle.txt
echo "the workbook: $(pwd)/build/winch-spindle.xlsx"
grep -A4 '^Prices in' build/winch-spindle.txt | tail -n 4
grep -m1 'cycle' build/winch-spindle.txt
