#!/usr/bin/env bash
# Fuzzes every reader, the planner, the writers and the week, a process a target and as many at once as there are
# cores: SECONDS in all (default 60), the same for each; or the named targets alone. Each begins with the inputs kept in
# tests/fuzz/corpus/TARGET, files of the repository and a dictionary (prepare.py). BUILD (default build-sanitize, made
# when it is not there) may be one without sanitizers, for speed. What breaks a target is kept in build-fuzz/TARGET/ as
# crash-…, timeout-… or oom-…; BUILD/tests/fuzz/fuzz-TARGET FILE runs it again. Needs clang 14, libclang-rt-14-dev.
# usage: tests/fuzz/run.sh [SECONDS [BUILD [TARGET…]]]
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-60}; tree=${2:-build-sanitize}; shift $(($# < 2 ? $# : 2))
targets=${*:-$(ls tests/fuzz/targets | sed 's/\.cpp$//')}
export LLVM_PROFILE_FILE=${LLVM_PROFILE_FILE:-/dev/null}  # what is reached counts in the suite
work=$PWD/build-fuzz; jobs=${JOBS:-$(nproc)}
count=$(wc -w <<<"$targets"); [ "$count" -ge "$jobs" ] || jobs=$count
each=$((seconds * jobs / count)); [ "$each" -gt 0 ] || each=1
mkdir -p "$work"
launcher=""; command -v ccache >/dev/null && launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
source tests/fuzz/options.sh
[ -f "$tree/build.ninja" ] || cmake -S . -B "$tree" -G Ninja $launcher "${fuzz_options[@]}" >/dev/null
ninja -C "$tree" -j "${JOBS:-$(nproc)}" $(printf 'fuzz-%s ' $targets) >"$work/build.log" || { tail -n 40 "$work/build.log"; exit 1; }

longest() {  # texts that are short by nature
  case $1 in text) echo 48 ;; cells) echo 160 ;; cut) echo 120 ;; bench) echo 240 ;; figure | options) echo 400 ;; *) echo 0 ;; esac
}
fuzz() {  # target, seconds
  local to=$work/$1 status=0
  rm -rf "$to/seeds"; mkdir -p "$to/found" "tests/fuzz/corpus/$1"
  python3 tests/fuzz/prepare.py "$1" "$to"
  "$tree/tests/fuzz/fuzz-$1" -max_total_time="$2" -max_len="$(longest "$1")" -dict="$to/words.dict" -timeout=20 -rss_limit_mb=4096 \
    -verbosity=1 -print_funcs=0 -print_final_stats=1 -artifact_prefix="$to/" "$to/found" "tests/fuzz/corpus/$1" "$to/seeds" >"$to/log" 2>&1 || status=$?
  local runs speed features
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$to/log"); speed=$(sed -n 's/^stat::average_exec_per_sec: *//p' "$to/log")
  features=$(grep -oE ' ft: [0-9]+' "$to/log" | tail -n 1 | grep -oE '[0-9]+' || true)
  printf '%-10s %10s inputs %8s a second %7s features\n' "$1" "${runs:-0}" "${speed:-0}" "${features:-?}"
  [ "$status" = 0 ] || { tail -n 60 "$to/log"; return 1; }
}
export -f fuzz longest; export tree work
printf '%s\n' $targets | xargs -P "$jobs" -I{} bash -c "fuzz {} $each" || { echo "a target was broken"; exit 1; }
echo "fuzzed $count targets for $each s each: nothing breaks one"
