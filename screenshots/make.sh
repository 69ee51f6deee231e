#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Takes the pictures in this folder anew from the demo foot: sh screenshots/make.sh [BUILD]
# Every screen in every language and look, as pictures and as sheets, into FOLDER: sh screenshots/make.sh --every FOLDER [BUILD]
set -e
here=$(cd "$(dirname "$0")" && pwd)
every=
if [ "${1-}" = --every ]; then
  mkdir -p "$2"
  every=$(cd "$2" && pwd)
  shift 2
fi
build=$(cd "${1:-$here/../.build}" && pwd)
if [ -n "$every" ]; then
  for scale in 1 2; do
    PRITCHEL_WINDOW="$build/pritchel-window" PRITCHEL_SCALE=$scale PYTHONPATH="$here/../tests/window" PYTHONDONTWRITEBYTECODE=1 \
      /usr/bin/python3 "$here/every.py" "$here/../data/demo/near-fore.jpg" "$every"
  done
  # the page on a phone, in each of its states
  PRITCHEL_PICTURES="$every" PRITCHEL_PHONE="$build/pritchel-phone" PRITCHEL_DECODE="$build/pritchel-decode" \
    PRITCHEL_COMMAND="$build/pritchel" PYTHONDONTWRITEBYTECODE=1 \
    /usr/bin/python3 "$here/../tests/phone/test-browser.py" "$here/../data/demo/near-fore.jpg"
  montage "$every"/page-*.png -geometry 390x844+6+6 -tile 6x "$every/sheet-phone.png"
  exit
fi
# every style on a riding horse's fore and hind, both faces
sheets=$(mktemp -d)
for foot in contest-130 riding-hind; do
  PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 "$here/../tests/shoe/master/sheet.py" "$build/pritchel" \
    "$build/tests/scene/feet-maker" "$sheets" --foot $foot --dpi 45
done
convert "$sheets/contest-130.png" "$sheets/riding-hind.png" -background white -append -colors 64 "$here/styles.png"
rm -r "$sheets"
PRITCHEL_WINDOW="$build/pritchel-window" PRITCHEL_PICTURES="$here" \
  PYTHONPATH="$here/../tests/window" PYTHONDONTWRITEBYTECODE=1 \
  exec /usr/bin/python3 "$here/shots.py" "$here/../data/demo/near-fore.jpg"
