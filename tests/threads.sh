#!/usr/bin/env bash
# The commands that work in threads, under the sanitizer of threads: lists, requests, weeks, promises, comparisons,
# tuning and workbooks of many parts. One build of the program alone; any report fails.
# usage: tests/threads.sh [folder of the build]
set -euo pipefail
cd "$(dirname "$0")/.."
build=${1:-build-threads}
cmake -S . -B "$build" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache -DCMAKE_BUILD_TYPE=None -DTURNWRIGHT_STEP=OFF -DTURNWRIGHT_PRECOMPILE=OFF -DTURNWRIGHT_STRICT=OFF \
  -DCMAKE_CXX_COMPILER=clang++-14 -DCMAKE_CXX_FLAGS="-O1 -fsanitize=thread" -DCMAKE_EXE_LINKER_FLAGS=-fsanitize=thread >/dev/null
ninja -C "$build" -j "$(nproc)" turnwright
work=$(mktemp -d); trap 'rm -rf "$work"' EXIT
export TSAN_OPTIONS="exitcode=66 halt_on_error=0 log_path=$work/report"
shop="--shop samples/shop" program=$build/turnwright
run() { local status=0; "$program" "$@" >/dev/null 2>&1 || status=$?; [ "$status" -lt 3 ] || { echo "ended with $status: $*"; failed=1; }; }
failed=0
run quote samples/08-list.csv $shop --jobs 4 --output "$work/priced.csv" --workbooks "$work/books"
run quote samples/0[1-7]-*.yaml $shop --output "$work/one.json"
run quote samples/10-request.yaml $shop
run offer samples/10-request.yaml $shop --output "$work/offer.html"
run load samples/12-week.yaml $shop --jobs 4 --effort 0.1 --output "$work/plan.csv"
run load samples/12-week.yaml $shop --jobs 4 --effort 0.1 --posted "$work/plan.csv"
run promise samples/12-week.yaml samples/01-winch-spindle.yaml 20 $shop --jobs 4
run compare samples/04-two-cuts.yaml $shop
run tune samples/01-winch-spindle.yaml $shop
if ls "$work"/report* >/dev/null 2>&1; then cat "$work"/report* | head -60; failed=1; fi
[ "$failed" = 0 ] && echo "no report of the sanitizer of threads"
exit "$failed"
