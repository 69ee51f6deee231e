# SPDX-License-Identifier: GPL-3.0-or-later
"""Random star-shaped and self-crossing rings: areas and hulls as Shapely has them."""
import math
import random
import subprocess
import sys

from shapely.geometry import Polygon
from shapely.validation import make_valid

random.seed(20)


def star(cx, cy, n, lo, hi, shuffle=False):
    angles = sorted(random.uniform(0, 2 * math.pi) for _ in range(n))
    points = []
    for a in angles:
        r = random.uniform(lo, hi)
        points.append((cx + r * math.cos(a), cy + r * math.sin(a)))
    if shuffle:
        i, j = random.sample(range(n), 2)
        points[i], points[j] = points[j], points[i]
    return points


def line(ring):
    return " ".join([str(len(ring))] + ["%.17g %.17g" % p for p in ring])


cases = []
for k in range(300):
    a = star(0, 0, random.randint(5, 40), 20, 60, shuffle=k % 5 == 0)
    b = star(random.uniform(-150, 150), random.uniform(-40, 40), random.randint(5, 40), 10, 50)
    cases.append((a, b))
text = "\n".join("%s %s" % (line(a), line(b)) for a, b in cases)
lines = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True, check=True).stdout.split("\n")
worst = 0
for (a, b), got in zip(cases, lines):
    have = [float(v) for v in got.split()]
    pa, pb = Polygon(a), Polygon(b)
    simple = pa.is_valid
    va, vb = make_valid(pa), make_valid(pb)
    want = [va.area, va.union(vb).area, va.difference(vb).area, pa.convex_hull.area]
    assert simple == (have[4] == 1), (simple, got)
    for name, h, w in zip(("area", "union", "minus", "hull"), have, want):
        off = abs(h - w) / max(1.0, abs(w))
        worst = max(worst, off)
        assert off < 1e-6, "%s: %g, Shapely has %g" % (name, h, w)
print("300 cases, worst relative difference %.2g" % worst)
