#!/usr/bin/env bash
# The packages: what is in them, and the program run from an empty folder as it was unpacked. ROOT and
# BUILD come from ctest. With lintian here, it must be silent.
set -euo pipefail
shopt -s inherit_errexit
work=$BUILD/tests/deb
fail() { echo "$*" >&2; exit 1; }
rm -rf "$work"
mkdir -p "$work/root" "$work/empty"
(cd "$work" && cpack -G DEB --config "$BUILD/CPackConfig.cmake" -B "$work" >"$work/log") || fail "$(cat "$work/log")"
program=$(ls "$work"/turnwright_*.deb) development=$(ls "$work"/turnwright-dev_*.deb)
for deb in "$program" "$development"; do dpkg-deb -x "$deb" "$work/root"; done
for file in bin/turnwright share/man/man1/turnwright.1.gz share/bash-completion/completions/turnwright \
  share/zsh/vendor-completions/_turnwright share/fish/vendor_completions.d/turnwright.fish \
  share/doc/turnwright/copyright share/doc/turnwright/changelog.gz share/turnwright/rates/cutting.yaml \
  share/turnwright/samples/01-winch-spindle.yaml share/doc/turnwright-dev/copyright; do
  [ -s "$work/root/usr/$file" ] || fail "no $file in the packages"
done
dpkg-deb -c "$program" >"$work/program" && dpkg-deb -c "$development" >"$work/development"
dpkg-deb -I "$program" >"$work/about"
! grep -qE '\.(a|hpp)$' "$work/program" || fail "the program's package has the library"
grep -q 'include/turnwright/route/route.hpp' "$work/development" || fail "no headers"
grep -q 'Depends:.*libyaml-cpp' "$work/about" || fail "the program's package depends on nothing"
cd "$work/empty"
"$work/root/usr/bin/turnwright" quote "$work/root/usr/share/turnwright/samples/01-winch-spindle.yaml" \
  --shop "$work/root/usr/share/turnwright/samples/shop" --output q.xlsx >log
[ -s q.xlsx ] || fail "no workbook"
"$work/root/usr/bin/turnwright" new part p.yaml >/dev/null && "$work/root/usr/bin/turnwright" quote p.yaml >/dev/null || fail "the part of 'new' has no price"
if command -v lintian >/dev/null; then
  lintian --fail-on warning --tag-display-limit 0 --allow-root "$program" "$development" || fail "lintian is not silent"
fi
ls -l "$program" "$development"
