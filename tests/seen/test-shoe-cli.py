#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`trace --shoe` from outside: test-shoe-cli.py PRITCHEL SHOE-MAKER."""
import json
import math
import os
import shutil
import subprocess
import sys
import tempfile
import unittest

PRITCHEL, MAKER = sys.argv[1:3]
HERE = tempfile.mkdtemp(prefix="pritchel-shoe-")


def run(*args):
    return subprocess.run([PRITCHEL, "trace", *args], capture_output=True, text=True, timeout=120)


def photo(kind, seed):
    file = os.path.join(HERE, f"{kind}-{seed}.jpg")
    if not os.path.exists(file):
        told = subprocess.run([MAKER, kind, str(seed), file], check=True, capture_output=True, text=True).stdout
        with open(file + ".mm", "w") as f:
            f.write(told.split("tilt")[1].split(",")[1].split()[0])
    with open(file + ".mm") as f:
        return file, f.read() + "mm"


def length(points):
    return sum(math.dist(a, b) for a, b in zip(points, points[1:]))


class Shoe(unittest.TestCase):
    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(HERE)

    def test_shapes(self):
        file, thick = photo("rusty", 2)
        done = run("--shoe", file, "--thickness", thick, "--face", "ground", "--json", "-")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        told = json.loads(done.stdout)
        self.assertEqual(set(told), {"photo", "scale", "camera", "foot", "seen"})
        seen = told["seen"]
        self.assertTrue({"outer_mm", "inner_mm", "openings_mm", "nails_mm", "face", "thickness_mm", "doubt"} <= set(seen))
        self.assertEqual((seen["face"], seen["open"], seen["drawn"], seen["openings_mm"]), ("ground", True, False, []))
        self.assertEqual(seen["outer_mm"][-1], seen["inner_mm"][0])
        self.assertEqual(len(seen["nails_mm"]), len(seen["nails_round"]))
        outer = length(seen["outer_mm"])
        self.assertGreater(outer, length(seen["inner_mm"]))
        for doubt in seen["doubt"]:
            self.assertLess(doubt["from_mm"], doubt["to_mm"])
            self.assertLess(doubt["to_mm"], outer + 1)

    def test_told(self):
        file, thick = photo("rusty", 2)
        done = run("--shoe", file, "--thickness", thick, "--face", "ground", "--unit", "inch")
        self.assertEqual(done.returncode, 0)
        self.assertIn("open shoe", done.stdout)
        self.assertIn(" in", done.stdout)

    def test_of_a_foot_alone(self):
        for more in (["--steps", HERE + "/steps"], ["--which", "2"]):
            done = run("--shoe", "x.jpg", "--thickness", "10mm", "--face", "foot", *more)
            self.assertEqual((done.returncode, done.stdout), (2, ""))
            self.assertFalse(os.path.exists(HERE + "/steps"))

    def test_refused(self):
        file, thick = photo("drawn", 2)
        out = os.path.join(HERE, "none.json")
        for args, says in ((["--thickness", thick, "--face", "foot"], "drawn line"),
                           (["--thickness", "2mm", "--face", "foot"], "thick")):
            done = run("--shoe", file, *args, "--json", out)
            self.assertEqual((done.returncode, done.stdout), (1, ""))
            self.assertIn(says, done.stderr)
            self.assertEqual(done.stderr.count("\n"), 1)
            self.assertFalse(os.path.exists(out))
        self.assertEqual(run("--shoe", "--drawn", file, "--json", out).returncode, 0)
        with open(out) as f:
            self.assertTrue(json.load(f)["seen"]["drawn"])


unittest.main(argv=sys.argv[:1])
