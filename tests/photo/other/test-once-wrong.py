#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Photos of the second maker on which the program once said something false, each for a reason of its own: the judge has
nothing against what it says now. Run as `test-once-wrong.py PRITCHEL`."""
import ctypes
import os
import shutil
import sys
import tempfile
import unittest

try:
    import cv2
    import numpy as np
except ImportError:
    print("OpenCV for Python is not here: skipped")
    sys.exit(77)
if shutil.which("pdftoppm") is None:
    print("pdftoppm is not here: skipped")
    sys.exit(77)

# A picture's worth of memory that is given back and asked for again comes a page at a time, each set to nought: a third
# of all the time. So it is kept: nothing from mmap (M_MMAP_MAX), nothing trimmed (M_TRIM_THRESHOLD).
try:
    ctypes.CDLL(None).mallopt(-4, 0)
    ctypes.CDLL(None).mallopt(-1, 2 ** 31 - 1)
except AttributeError:
    pass  # another C library: it takes longer

sys.dont_write_bytecode = True
import judge
import lens
import maker

PROGRAM = os.path.abspath(sys.argv.pop(1))
# kind, seed, numbers
ONCE_WRONG = [
    ("closed-cleft", 14, (11, 39, 47)),     # both ends followed into the cleft: taken for an open line
    ("closed-faint", 14, (6,)),             # a joint where the pen skips
    ("closed-smooth", 14, (31,)),           # no shape at all: the range was too short
    ("hidden", 14, (3, 10, 17)),            # cut off at what hides it: a corner under mud, a hand, a lamp near the heel
    ("short-heeled", 14, (4, 10)),          # told to be a part
    ("print-true", 79, (76, 91)),           # drawn over bare paper towards a speck, and to the print below
    ("print-94", 14, (17,)),                # a shadow's edge taken for a cover
    ("dark-chalk", 14, (18,)),              # a blue card on slate
    ("two-feet", 14, (0,)),
    ("toe-sideways", 14, (0,)),
]


class OnceWrong(unittest.TestCase):
    def test_nothing_is_held_against_them(self):
        cv2.setNumThreads(1)
        for kind, seed, numbers in ONCE_WRONG:
            tile = lens.noise_tile(np.random.default_rng(seed))
            for number in numbers:
                with self.subTest(kind=kind, number=number), tempfile.TemporaryDirectory() as folder:
                    path = os.path.join(folder, "photo")
                    maker.make(kind, number, seed, PROGRAM, path, tile)
                    self.assertEqual(judge.run(path + ".jpg", PROGRAM)["faults"], [])


if __name__ == "__main__":
    unittest.main()
