#!/usr/bin/env bash
# Lines and branches of our code that a suite reached, by room, from what the runs of an instrumented build left in its
# folder `counts` (set LLVM_PROFILE_FILE=BUILD/counts/%4m.profraw for them, as tests/run.sh does). Branches are those of
# the code: no throw branches. What no run reached is listed in BUILD/not-reached.txt. Needs llvm-14.
# usage: tests/coverage.sh [BUILD]
set -euo pipefail
cd "$(dirname "$0")/.."
build=$(realpath "${1:-build-sanitize}")
llvm-profdata-14 merge -sparse "$build"/counts/*.profraw -o "$build/counts.profdata"
objects=(); for o in "$build"/tests/turnwright-tests "$build"/tests/rework "$build"/libturnwright-*.so; do [ ! -f "$o" ] || objects+=(-object "$o"); done
llvm-cov-14 export "$build/turnwright" "${objects[@]}" -instr-profile="$build/counts.profdata" \
  -ignore-filename-regex='^/usr/' >"$build/coverage.json"
python3 tests/coverage.py "$build/coverage.json" "$build/not-reached.txt"
