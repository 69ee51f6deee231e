#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes near-fore.jpg again: sh data/demo/make.sh BUILD-DIRECTORY
# The truth about it (camera and line) goes to near-fore.truth.json in the build directory.
set -eu

build=${1:?use: sh data/demo/make.sh BUILD-DIRECTORY}
here=$(dirname "$0")

maker=$build/tests/scene/scene-maker
[ -x "$maker" ] || maker=$build/scene-maker
"$maker" "$here/near-fore.jpg" "$build/near-fore.truth.json" \
  seed=1112 paper=A4 foot=LF width=3000 height=4000 \
  tilt_deg=20 tilt_dir_deg=70 turn_deg=-5 fill=0.84 k1=-0.03 \
  hoof_length=134 hoof_width=128 lean_mm=3 \
  pen=marker pen_mm=1.5 wobble_mm=0.35 frog=1 ticks=1 writing=1 dirt=1 shadow=1 \
  "horse=Pipwick" "date=12 Nov" \
  bench=wood dark=0.15 blur_px=0.8 noise=3.5 jpeg_quality=85 orientation=1
