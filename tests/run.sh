#!/usr/bin/env bash
# Installs what is missing, builds and runs every test: first the release build, then the same suite
# under the address and undefined-behaviour sanitizers, built by another compiler, and the fuzzer of
# that build. Prints one closing line.
set -euo pipefail
cd "$(dirname "$0")/.."
packages="g++ cmake ninja-build ccache pkg-config libboost-dev libboost-program-options-dev libyaml-cpp-dev
  libxlsxwriter-dev libcsv-dev nlohmann-json3-dev libfmt-dev libpugixml-dev libminizip-dev coinor-libclp-dev libnlopt-dev libnlopt-cxx-dev zlib1g-dev nettle-dev catch2
  libocct-data-exchange-dev libcairo2-dev libpng-dev libpango1.0-dev poppler-utils
  libreoffice-calc gnumeric fonts-liberation python3 python3-openpyxl python3-yaml python3-icalendar locales strace man-db chromium
  clang-14 libclang-rt-14-dev llvm-14 universal-ctags debootstrap lintian wget"
missing=""
for p in $packages; do dpkg -s "$p" >/dev/null 2>&1 || missing="$missing $p"; done
command -v npm >/dev/null || missing="$missing nodejs npm"
if [ -n "$missing" ]; then
  sudo=""; [ "$(id -u)" = 0 ] || sudo="sudo"
  $sudo apt-get update -qq
  DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq --no-install-recommends $missing >/dev/null
fi
npm ci --prefix tests --no-audit --no-fund --silent
jobs=$(nproc)
export CCACHE_SLOPPINESS=pch_defines,time_macros  # it keeps what precompiled headers helped to compile
build() {  # folder, options
  cmake -S . -B "$1" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache "${@:2}" >/dev/null
  ninja -C "$1" -j "$jobs"
}
passed=0; failed=0
begun=$SECONDS
took() { echo "$1: $((SECONDS - begun)) s"; begun=$SECONDS; }
suite() {  # folder, extra ctest words
  local log="$1/ctest.log"
  ctest --test-dir "$1" -j "$jobs" --output-on-failure "${@:2}" | tee "$log" || true
  local total bad
  total=$(grep -oE 'tests failed out of [0-9]+' "$log" | grep -oE '[0-9]+$')
  bad=$(grep -oE '[0-9]+ tests failed out of' "$log" | grep -oE '^[0-9]+')
  passed=$((passed + total - bad)); failed=$((failed + bad))
}
took "packages"
build build
took "release build"
suite build
took "release suite"
# Recalculation by other programs and the disk's limits need no second run under the sanitizers.
source tests/fuzz/options.sh
build build-sanitize "${fuzz_options[@]}"
export OTHER_TURNWRIGHT=$PWD/build/turnwright  # the same bytes by both compilers
took "sanitized build"
LLVM_PROFILE_FILE=$PWD/build-sanitize/counts/%4m.profraw suite build-sanitize -LE slow
took "sanitized suite"
bash tests/coverage.sh build-sanitize
took "coverage"
# Every reader, the planner and the writers against any bytes, for a minute in all.
if bash tests/fuzz/run.sh 60 build-sanitize; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
took "fuzzing"
# What works in threads, once more under the sanitizer of threads.
if bash tests/threads.sh build-threads; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
took "threads"
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
