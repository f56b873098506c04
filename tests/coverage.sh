#!/usr/bin/env bash
# Lines and branches of the library that the fast suite reaches, by room; throw branches excluded. Not part of run.sh:
# it takes a build of its own. Installs gcovr where it is missing.
# usage: tests/coverage.sh [folder of the build]
set -euo pipefail
cd "$(dirname "$0")/.."
build=${1:-build-coverage}
command -v gcovr >/dev/null || { sudo=""; [ "$(id -u)" = 0 ] || sudo="sudo"; $sudo apt-get install -y -qq gcovr >/dev/null; }
cmake -S . -B "$build" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache -DCMAKE_BUILD_TYPE=None -DTURNWRIGHT_STRICT=OFF \
  -DCMAKE_CXX_FLAGS="-O0 --coverage -fno-inline -fprofile-update=atomic" >/dev/null
ninja -C "$build" -j "$(nproc)"
find "$build" -name '*.gcda' -delete
ctest --test-dir "$build" -j "$(nproc)" -LE slow >"$build/coverage-tests.log" || tail -5 "$build/coverage-tests.log"
gcovr -r . --object-directory "$build" --exclude-throw-branches --exclude-unreachable-branches \
  --filter 'src/' --filter 'include/' --json-summary "$build/coverage.json" >/dev/null
python3 - "$build/coverage.json" <<'P'
import collections, json, sys
rooms = collections.defaultdict(lambda: [0, 0, 0, 0])
for f in json.load(open(sys.argv[1]))["files"]:
    parts = f["filename"].split("/")
    room = parts[1] if parts[0] == "src" else parts[2]
    for i, k in enumerate(("line_covered", "line_total", "branch_covered", "branch_total")):
        rooms[room][i] += f[k]
print(f"{'room':12}{'lines, %':>10}{'branches, %':>13}")
for room, (a, b, c, d) in sorted(rooms.items()) + [("all", [sum(x) for x in zip(*rooms.values())])]:
    print(f"{room:12}{100 * a / max(b, 1):10.1f}{100 * c / max(d, 1):13.1f}")
P
