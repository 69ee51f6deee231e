#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Brings the translations of the help to its pages as they are now: sh data/help/update.sh
# What is new or changed in a page is then to be translated in LANG/LANG.po. (meson's target for this would write into
# them where this checkout lies.)
set -eu
cd "$(dirname "$0")"
pot=$(mktemp)
trap 'rm -f "$pot"' EXIT
itstool -o "$pot" C/*.page
for po in */*.po; do
  msgmerge --quiet --update --backup=none --no-location --previous "$po" "$pot"
done
