#!/usr/bin/env bash
# Installs the build, builds the example against the installed package and against the sources as a
# subproject, and holds what both print against the program. ROOT, BUILD and TURNWRIGHT come from
# ctest; the words given go to cmake, so that a compiler cache finds what the build compiled.
set -euo pipefail
shopt -s inherit_errexit
work=$BUILD/tests/package
part=$ROOT/samples/09-clevis-pin.yaml
fail() { echo "$*" >&2; exit 1; }

build_example() {  # folder, words for cmake
  cmake -S "$ROOT/tests/package" -B "$@"
  cmake --build "$1" --parallel 2
}
check_example() {  # folder
  diff <("$1/price" <"$part") "$work/expected" || fail "$1: not the program's prices"
  "$1/everything" "$1/workbook.xlsx" <"$part" || fail "$1: not all parts of the library work"
  ! ldd "$1/everything" | grep -E 'boost|nettle' || fail "$1: links what only the program needs"
}

mkdir -p "$work"
"$TURNWRIGHT" quote "$part" --json |
  python3 -c 'import json, sys; [print(p["quantity"], p["each"]) for p in json.load(sys.stdin)["prices"]]' >"$work/expected"
[ -s "$work/expected" ] || fail "the program gives no prices"

# Installed, then moved: the package may know no place but its own.
rm -rf "$work/first" "$work/prefix" "$work/installed"
cmake --install "$BUILD" --prefix "$work/first" >/dev/null
mv "$work/first" "$work/prefix"
! grep -rnF -e "$ROOT" -e "$work" "$work/prefix" --include="*.cmake" || fail "the package names a folder of the build"
[ ! -e "$work/prefix/include/turnwright/cli" ] || fail "headers of the program are installed"
build_example "$work/installed" "$@" -DCMAKE_PREFIX_PATH="$work/prefix"
check_example "$work/installed"

build_example "$work/subproject" "$@" -DTURNWRIGHT_SOURCE="$ROOT"
check_example "$work/subproject"
[ ! -e "$work/subproject/turnwright/tests" ] || fail "the subproject builds tests"
