#!/usr/bin/env bash
# The package of the program put onto a bare Debian, by its own package manager, and used there by a user who is not
# root, from an empty folder. Needs root, debootstrap, and the mirror of Debian; else it is skipped (77). BUILD comes from
# ctest; the packages are those that deb.sh has made.
set -euo pipefail
shopt -s inherit_errexit
mirror=${DEBIAN_MIRROR:-http://deb.debian.org/debian}
suite=$(. /etc/os-release && echo "$VERSION_CODENAME")
skip() { echo "skipped: $*"; exit 77; }
fail() { echo "$*" >&2; exit 1; }
[ "$(id -u)" = 0 ] || skip "not root"
command -v debootstrap >/dev/null || skip "no debootstrap"
wget -q -T 20 -t 1 -O /dev/null "$mirror/dists/$suite/InRelease" || skip "no mirror of Debian"
program=$(ls "$BUILD"/tests/deb/turnwright_*.deb 2>/dev/null) || fail "no package: deb.sh makes it"
root=$BUILD/tests/chroot; rm -rf "$root"; mkdir -p "$root"
trap 'rm -rf "$root"' EXIT
# What is already here need not be fetched again.
cache=$(ls -d /var/cache/apt/archives)
debootstrap --variant=minbase --cache-dir="$cache" "$suite" "$root" "$mirror" >"$BUILD/tests/chroot.log" 2>&1 || { tail "$BUILD/tests/chroot.log"; skip "debootstrap does not get through"; }
cp "$program" "$root/tmp/turnwright.deb"
inside() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C DEBIAN_FRONTEND=noninteractive "$@"; }
inside apt-get install -y -qq --no-install-recommends /tmp/turnwright.deb >>"$BUILD/tests/chroot.log" 2>&1 || { tail "$BUILD/tests/chroot.log"; fail "the package is not installed"; }
inside useradd -m turner
cat >"$root/tmp/use.sh" <<'U'
set -e
cd "$(mktemp -d)"
turnwright --version
turnwright quote /usr/share/turnwright/samples/01-winch-spindle.yaml --shop /usr/share/turnwright/samples/shop --output q.xlsx
turnwright quote /usr/share/turnwright/samples/08-list.csv --shop /usr/share/turnwright/samples/shop --output p.csv || [ $? = 1 ]
turnwright load /usr/share/turnwright/samples/12-week.yaml --shop /usr/share/turnwright/samples/shop --output w.html || [ $? = 1 ]
turnwright new part p.yaml && turnwright quote p.yaml >p.txt && turnwright figure spindle-speed surface-speed=120m/min diameter=60mm
for made in q.xlsx p.csv w.html p.txt; do [ -s "$made" ]; done
U
inside su turner -c "sh /tmp/use.sh" || fail "it does not work there"
inside dpkg -s turnwright | grep -E '^(Version|Installed-Size|Depends)'
inside dpkg --purge turnwright >/dev/null
[ -z "$(find "$root/usr" -name '*turnwright*' -print -quit)" ] || fail "something stays when it is purged: $(find "$root/usr" -name '*turnwright*')"
