#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The DXF templates opened by ezdxf and measured by Shapely against the reports: against-ezdxf.py TEST-DXF."""
import glob
import json
import os
import subprocess
import sys
import tempfile

try:
    import ezdxf
    from shapely.geometry import LineString, Polygon
except ImportError as missing:
    print("skipped:", missing)
    sys.exit(77)

NEAR = 1e-6     # mm and mm2
LAYERS = ["centre", "clips", "crease", "hoof", "nails", "shoe", "text"]


def near(what, a, b):
    assert abs(a - b) <= NEAR, "%s is %r, not %r" % (what, a, b)


def lines(space, layer, closed):
    found = list(space.query('POLYLINE[layer=="%s"]' % layer))
    for line in found:
        assert line.is_closed == closed and line.is_2d_polyline, layer
    return [[(v.dxf.location.x, v.dxf.location.y) for v in line.vertices] for line in found]


def same_shape(what, mine, theirs, shape, sign):
    assert len(mine) == len(theirs), (what, len(mine), len(theirs))
    for a, b in zip(mine, theirs):
        a, b = shape(a), shape([(sign * x, y) for x, y in b])
        near(what + " area", a.area, b.area)
        near(what + " length", a.length, b.length)
        for p, q in zip(a.bounds, b.bounds):
            near(what + " extent", p, q)


def head(nail):
    (x, y), (u, v) = nail["at_mm"], nail["along"]
    l, w = nail["head_length_mm"] / 2, nail["head_width_mm"] / 2
    return [(x + i * l * u - j * w * v, y + i * l * v + j * w * u) for i, j in ((1, 1), (-1, 1), (-1, -1), (1, -1))]


def check(file):
    with open(file[:-4] + ".json", encoding="utf-8") as f:
        report = json.load(f)
    doc = ezdxf.readfile(file)
    trouble = doc.audit()
    assert not trouble.errors and not trouble.fixes, (trouble.errors, trouble.fixes)
    assert doc.dxfversion == "AC1009"
    assert doc.header["$INSUNITS"] == 4 and doc.header["$MEASUREMENT"] == 1
    assert sorted(l.dxf.name for l in doc.layers if l.dxf.name not in ("0", "Defpoints")) == LAYERS
    space = doc.modelspace()
    shoe = report["shoe"]
    left, ground = report["hoof"]["foot"] in ("LF", "LH"), file.endswith(".1.dxf")
    sign = 1 if left == ground else -1

    rings = lines(space, "shoe", True)
    same_shape("ring", rings, shoe["figure_mm"], Polygon, sign)
    same_shape("clip", lines(space, "clips", True), [c["ring_mm"] for c in shoe["clips"]], Polygon, sign)
    same_shape("nail", lines(space, "nails", True), [head(n) for n in shoe["nails"]], Polygon, sign)
    same_shape("hoof", lines(space, "hoof", False), [report["hoof"]["outline_mm"]], LineString, sign)
    same_shape("crease", lines(space, "crease", False), [c["middle_mm"] for c in shoe["crease"]], LineString, sign)
    # holes are taken off: the rings by even-odd make the shoe's area
    figure = Polygon()
    for ring in rings:
        figure = figure.symmetric_difference(Polygon(ring))
    near("area", figure.area, shoe["area_mm2"])

    xy = [(v.dxf.location.x, v.dxf.location.y) for line in space.query("POLYLINE") for v in line.vertices]
    xy += [(p.x, p.y) for line in space.query("LINE") for p in (line.dxf.start, line.dxf.end)]
    for name, pick in (("$EXTMIN", min), ("$EXTMAX", max)):
        near(name, doc.header[name][0], pick(x for x, y in xy))
        near(name, doc.header[name][1], pick(y for x, y in xy))

    at = {t.dxf.text: t.dxf.align_point for t in space.query("TEXT")}
    assert at["L"].x * sign > 0 > at["M"].x * sign, at
    surface = "ground surface" if ground else "foot surface"
    assert any(surface in text for text in at), at
    assert report["hoof"]["toe_mm"][1] > 0, "the toe is up"


with tempfile.TemporaryDirectory(prefix="dxf-") as folder:
    subprocess.run([sys.argv[1], folder], check=True)
    files = sorted(glob.glob(os.path.join(folder, "*.dxf")))
    assert len(files) == 8
    for name in files:
        check(name)
    print("%d drawings agree within %g mm" % (len(files), NEAR))
