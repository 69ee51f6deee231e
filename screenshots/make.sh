#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Takes the pictures in this folder anew from the demo foot: sh screenshots/make.sh [BUILD]
set -e
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "${1:-$here/../.build}" && pwd)
PRITCHEL_WINDOW="$build/pritchel-window" PRITCHEL_PICTURES="$here" \
  PYTHONPATH="$here/../tests/window" PYTHONDONTWRITEBYTECODE=1 \
  exec /usr/bin/python3 "$here/shots.py" "$here/../data/demo/near-fore.jpg"
