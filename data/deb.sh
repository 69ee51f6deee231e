#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes a Debian package of this checkout: sh data/deb.sh
# Fetches what is missing, builds for release in .build-deb, and leaves the package there. Its name
# goes to stdout, all else to stderr. The same commit gives the same package on the same system.
set -eu

[ $# = 0 ] || { echo 'Use: sh data/deb.sh' >&2; exit 2; }
cd "$(dirname "$0")/.."
exec 3>&1 >&2
umask 022

command -v dpkg-deb >/dev/null 2>&1 || {
  echo 'A package is made with dpkg, which is not here: use a Debian system, or install with meson (README.md).'
  exit 1
}
. data/packages.sh
# shellcheck disable=SC2086
pr_fetch $pr_build_packages

# when this was written: told from outside, by the commit, or by the newest file where no history came along
written () {
  echo "${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct 2>/dev/null ||
    find meson.build src ui data po -type f -printf '%Ts\n' | sort -n | tail -n 1)}"
}
SOURCE_DATE_EPOCH=$(written)
export SOURCE_DATE_EPOCH

top=$PWD/.build-deb
root=$top/debian/pritchel
rm -rf "$top"
mkdir -p "$root/DEBIAN"

# meson says how far to optimise, Debian how to harden
DEB_CFLAGS_MAINT_STRIP='-g -O2'
export DEB_CFLAGS_MAINT_STRIP
CFLAGS=$(dpkg-buildflags --get CFLAGS)" -ffile-prefix-map=$PWD=."
CPPFLAGS=$(dpkg-buildflags --get CPPFLAGS)
LDFLAGS=$(dpkg-buildflags --get LDFLAGS)
export CFLAGS CPPFLAGS LDFLAGS
meson setup --buildtype=release --prefix=/usr "$top/build"

# what is installed and no more: the tests have their own builds
meson introspect "$top/build" --installed | tr ',' '\n' |
  sed -n "s|^.*\"$top/build/\([^\"]*\)\": .*|\1|p" | xargs ninja -C "$top/build"
DESTDIR=$root meson install -C "$top/build" --no-rebuild --strip --quiet

# a package of a later commit must be the later package
version=$(meson introspect meson.build --projectinfo | sed 's/.*"version": "\([^"]*\)".*/\1/')
version=$version+$(date -u -d "@$SOURCE_DATE_EPOCH" +%Y%m%d.%H%M)

cd "$top"
cp ../data/deb/control debian/control
cat > debian/changelog <<EOF
pritchel ($version) unstable; urgency=medium

  * Packaged from the sources as of $(date -u -d "@$SOURCE_DATE_EPOCH" +'%Y-%m-%d %H:%M') UTC.

 -- $(sed -n 's/^Maintainer: //p' debian/control)  $(LC_ALL=C date -u -R -d "@$SOURCE_DATE_EPOCH")
EOF
doc=$root/usr/share/doc/pritchel
mkdir -p "$doc"
cp ../data/deb/copyright "$doc/copyright"
gzip -9n < debian/changelog > "$doc/changelog.gz"

dpkg-shlibdeps -Tdebian/substvars debian/pritchel/usr/bin/* debian/pritchel/usr/libexec/*
# shellcheck disable=SC2086
dpkg-gencontrol "-Vrun:Packages=$(printf '%s, ' $pr_run_packages)" -Tdebian/substvars -fdebian/files -Pdebian/pritchel
(cd "$root" && find usr -type f | LC_ALL=C sort | xargs md5sum > DEBIAN/md5sums)
find debian/pritchel -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
dpkg-deb --root-owner-group --build debian/pritchel .

echo ".build-deb/$(cut -d ' ' -f 1 debian/files)" >&3
