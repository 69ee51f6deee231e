#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# From a fresh clone to a shoe on paper: sh data/demo.sh [FOLDER]
# Fetches what is missing, builds, plans a shoe on the demo photo, and opens the window where
# there is a screen. The files go to FOLDER, .build/demo by default.
set -eu

case ${1-} in
  '') out= ;;
  -*) echo 'Use: sh data/demo.sh [FOLDER]' >&2; exit 2 ;;
  /*) out=$1 ;;
  *) out=$PWD/$1 ;;
esac
cd "$(dirname "$0")/.."
[ -n "$out" ] || out=$PWD/.build/demo

. data/packages.sh
# shellcheck disable=SC2086
pr_fetch $pr_build_packages
[ -f .build/build.ninja ] || pr_configure .build
ninja -C .build pritchel pritchel-window pritchel-decode

photo=$PWD/data/demo/near-fore.jpg
echo
.build/pritchel plan "$photo" --foot LF --style quarter-clipped --bar '3/8 x 1' --given 13in -o "$out"
echo
sed -n 1,24p "$out/report.txt"
echo
echo "Written to $out:"
ls "$out"

echo
if [ -z "${DISPLAY-}${WAYLAND_DISPLAY-}" ]; then
  echo 'There is no screen here, so the window stays closed: it opens when this is run on a desktop.'
else
  echo 'Opening the window on the same photo; close it to end.'
  # with a book of its own: the demo's horse has no business in yours
  XDG_DATA_HOME=$PWD/.build/demo-home .build/pritchel-window "$photo"
fi
