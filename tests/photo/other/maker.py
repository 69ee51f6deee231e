#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Phone photos of hoof tracings, 12 megapixels each, with the truth about them: a second maker beside tests/scene, which
shares nothing with it, so that the photo chain is judged by photos it was not written against.

    maker.py OUT_DIR --kind KIND --count N --seed S [--pritchel PATH]

writes NNN.jpg and NNN.json. `--kind list` names the kinds; judge.py beside it runs `pritchel trace` over a folder.

How it differs from tests/scene:
- the foot is one polar curve, a super-ellipse blended into another, bent by Fourier terms, with flares, sunken
  quarters, squared toes and heels of unequal length; there it is two halves of fixed form;
- the line round the bulbs is smooth, stepped (outward or inward), with a cleft, or faint, of Beziers of its own;
- the printed sheet is the program's own PDF as pdftoppm rasters it, printed at a chosen scale, off centre, askew;
- pens are stamped discs whose tone is flooded, grainy, skipping or crumbling; there strokes have a profile;
- paper has fibres, cockles, folds, dust; floors are boards, concrete, studded rubber, woven mat, tiles, or a real table
  (PRITCHEL_PHOTOS names the folder, where such are at hand);
- shadows are soft lumps or bars whose edge widens along its way, bluish; noise shares its grain with its neighbours and
  has blots of colour; a phone's sharpening leaves halos; the optical axis is off the middle; sheets may be bowed.

All is drawn at 300 dpi on the sheet, then photographed once through a pinhole with one radial term."""
import argparse
import os
import sys
import zlib

sys.dont_write_bytecode = True
import cv2
import numpy as np
import kinds
import lens
import more_kinds
import scene

KINDS = {**kinds.KINDS, **more_kinds.KINDS}


def make(kind, number, seed, program, path, tile):
    rng = np.random.default_rng([seed, zlib.crc32(kind.encode()), number])
    s = scene.Scene(rng, number % (2 if kind in more_kinds.CALM else 3), program)
    s.truth["kind"] = kind
    KINDS[kind](s, number)
    s.finish(path, tile)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("out")
    parser.add_argument("--kind", required=True)
    parser.add_argument("--count", type=int, default=1)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pritchel", default="pritchel")
    args = parser.parse_args()
    if args.kind not in KINDS:
        print("\n".join(KINDS))
        return 0 if args.kind == "list" else 2
    cv2.setNumThreads(1)
    os.makedirs(args.out, exist_ok=True)
    tile = lens.noise_tile(np.random.default_rng(args.seed))
    for k in range(args.first, args.first + args.count):
        make(args.kind, k, args.seed, args.pritchel, os.path.join(args.out, f"{k:03d}"), tile)
    return 0


if __name__ == "__main__":
    sys.exit(main())
