# SPDX-License-Identifier: GPL-3.0-or-later
"""The figures of report.json worked out anew, by other means: areas, offsets, distances and overlaps with Shapely,
the volume by counting small cubes. Called with the pritchel program."""
import json
import math
import os
import subprocess
import sys
import tempfile

import numpy as np
from shapely.geometry import LineString, Point, Polygon, box

PROGRAM = sys.argv[1]
CELL = 0.25         # side of a cube's base, mm


def hoof_outline(half, toe, back, heel, bulge):
    """Half an ellipse ahead, part of one behind; toe up on the sheet."""
    end = math.asin(heel / back)
    points = []
    for i in range(400):
        a = math.pi + end - (math.pi + 2 * end) * i / 399
        c, s = math.cos(a), math.sin(a)
        out = bulge * math.exp(-(((a - 0.2) / 0.35) ** 2))
        points.append([105 + half * c + out * c, 150 - (toe if s > 0 else back) * s - out * s])
    return points


def report(folder, outline, foot, style, *sets):
    """The report, which `check` writes alone; `plan` draws every page besides."""
    source = os.path.join(folder, "outline.json")
    with open(source, "w", encoding="utf-8") as out:
        json.dump({"outline_mm": outline, "closed": False}, out)
    command = [PROGRAM, "check", source, "--foot", foot, "--style", style, "--json", "-"]
    for s in sets:
        command += ["--set", s]
    return subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout


def plan_writes_the_same(folder, outline, foot, style):
    """report.json of `plan` is what `check` tells, byte for byte."""
    told = report(folder, outline, foot, style)
    subprocess.run([PROGRAM, "plan", os.path.join(folder, "outline.json"), "--foot", foot, "--style", style, "-o", folder],
                   check=True, stdout=subprocess.DEVNULL)
    with open(os.path.join(folder, "report.json"), "rb") as file:
        assert file.read() == told, "plan and check tell different figures"


def inside(rings, xs, ys):
    """Which cell centres lie inside, by the even-odd rule, row by row."""
    flips = np.zeros((len(ys), len(xs) + 1), np.int64)
    for ring in rings:
        p = np.array(ring)
        q = np.roll(p, -1, axis=0)
        for (x0, y0), (x1, y1) in zip(p, q):
            # the rows this side crosses, and before which cell of each
            r0, r1 = np.searchsorted(ys, (min(y0, y1), max(y0, y1)))
            rows = np.arange(r0, r1)
            x = x0 + (ys[rows] - y0) / (y1 - y0) * (x1 - x0) if r1 > r0 else []
            np.add.at(flips, (rows, np.searchsorted(xs, x)), 1)
    return np.cumsum(flips, axis=1)[:, :-1] % 2 == 1


class Cells:
    """Square cells over the figure's extent; MASK says which of them hold iron."""

    def __init__(self, xs, ys, mask):
        self.xs, self.ys, self.mask = xs, ys, mask

    def near(self, line, reach):
        """Distance of each cell to a polyline, infinite beyond REACH; and whether the nearest point lies between the
        line's ends. Only cells in the box round a side are looked at: all that come within REACH of it."""
        best = np.full(self.mask.shape, np.inf)
        between = np.zeros(self.mask.shape, bool)
        for i, (a, b) in enumerate(zip(line, line[1:])):
            x0, x1 = np.searchsorted(self.xs, (min(a[0], b[0]) - reach, max(a[0], b[0]) + reach))
            y0, y1 = np.searchsorted(self.ys, (min(a[1], b[1]) - reach, max(a[1], b[1]) + reach))
            gx, gy = self.xs[None, x0:x1] - a[0], self.ys[y0:y1, None] - a[1]
            ux, uy = b[0] - a[0], b[1] - a[1]
            raw = (gx * ux + gy * uy) / (ux * ux + uy * uy)
            t = np.clip(raw, 0, 1)
            d = np.hypot(gx - t * ux, gy - t * uy)
            ok = ~(((i == 0) & (raw < 0)) | ((i == len(line) - 2) & (raw > 1)))
            box = best[y0:y1, x0:x1], between[y0:y1, x0:x1]
            nearer = (d < box[0]) & (d <= reach)
            box[0][nearer], box[1][nearer] = d[nearer], ok[nearer]
        return best, between

    def points(self, which):
        r, c = np.nonzero(which)
        return np.column_stack([self.xs[c], self.ys[r]])


def along(line, pts):
    """Arc length of the line's nearest point to each of PTS."""
    best = np.full(len(pts), np.inf)
    at = np.zeros(len(pts))
    run = 0.0
    for a, b in zip(line, line[1:]):
        a, b = np.array(a), np.array(b)
        length = math.dist(a, b)
        t = np.clip((pts - a) @ (b - a) / length ** 2, 0, 1)
        d = np.hypot(*(pts - a - t[:, None] * (b - a)).T)
        near = d < best
        best[near], at[near] = d[near], run + t[near] * length
        run += length
    return at


def bevel(depth, cells, edge, outer, toe_at, per_place, plan, name, side):
    """A triangle off one edge, between two places, which are told along the outer edge."""
    width = plan["%s.%s.width" % (name, side)]
    if width <= 0:
        return
    d, _ = cells.near(edge, width)
    on = cells.mask & (d < width)
    at = along(outer, cells.points(on))
    place = np.abs(at - toe_at) / per_place[side]
    there = (at >= toe_at) == (side == "lateral")
    there &= (place >= plan["%s.%s.from" % (name, side)]) & (place <= plan["%s.%s.to" % (name, side)])
    on[on] = there
    depth[on] -= plan["%s.%s.depth" % (name, side)] * (1 - d[on] / width)


def count_cubes(r):
    """Volume of the shoe, mm3, from the figures it is drawn with."""
    shoe, plan = r["shoe"], r["plan"]
    assert shoe["thickness_toe_mm"] == shoe["thickness_heel_mm"]
    thick = shoe["thickness_toe_mm"]
    every = np.array([p for ring in shoe["figure_mm"] for p in ring])
    lo, hi = every.min(axis=0) - 1, every.max(axis=0) + 1
    xs, ys = np.arange(lo[0], hi[0], CELL) + 0.037, np.arange(lo[1], hi[1], CELL) + 0.051
    figure = inside(shoe["figure_mm"], xs, ys)
    branch = inside([shoe["outer_mm"] + shoe["inner_mm"][::-1]], xs, ys)
    cells = Cells(xs, ys, figure)
    depth = np.where(figure, thick, 0.0)
    if "extension" in shoe and shoe["extension"]:
        depth[figure & ~branch & (ys > 0)[:, None]] = shoe["extension"]["thickness_mm"]
    toe_at = LineString(shoe["outer_mm"]).project(Point(plan["edge.toe.x"], plan["edge.toe.y"]))
    per_place = {n["branch"]: n["edge_mm"] / n["place"] for n in shoe["nails"]}
    for side in ("medial", "lateral"):
        for name, edge in (("boxing", "outer_mm"), ("seating", "inner_mm")):
            bevel(depth, cells, shoe[edge], shoe["outer_mm"], toe_at, per_place, plan, name, side)
    if plan["toe"] == "rolled":
        ahead = max(p[1] for p in shoe["outer_mm"]) - plan["toe.amount"]
        depth -= np.where(figure, (thick / 2 / plan["toe.amount"] * (ys - ahead).clip(0))[:, None], 0)
    for crease in shoe["crease"]:
        w = crease["width_mm"]
        d, between = cells.near(crease["middle_mm"], w / 2)
        cut = np.clip((w / 2 - d) / (w / 4), 0, 1) * crease["depth_mm"]
        depth -= np.where(figure & between, cut, 0)
    volume = depth.sum() * CELL ** 2
    for nail in shoe["nails"]:
        left = thick
        for crease in shoe["crease"]:
            if crease["branch"] == nail["branch"] and crease["edge_from_mm"] <= nail["edge_mm"] <= crease["edge_to_mm"]:
                left -= crease["depth_mm"]
        volume -= nail["shank_mm"] ** 2 * left
    for clip in shoe["clips"]:
        u = np.arange(-0.5, 0.5, 0.001) + 0.0005
        volume += clip["base_mm"] * clip["height_mm"] * clip["thickness_mm"] * np.sqrt(1 - 4 * u * u).sum() * 0.001
    return volume


def check(name, have, want, tolerance):
    assert abs(have - want) <= tolerance, "%s: %.6g in the report, %.6g by the second way" % (name, have, want)


def second_opinion(name, r):
    shoe = r["shoe"]
    figure = Polygon(shoe["figure_mm"][0], shoe["figure_mm"][1:])
    assert figure.is_valid, name
    check(name + " area", shoe["area_mm2"], figure.area, 1e-6 * figure.area)
    hoof = Polygon(r["hoof"]["outline_mm"])
    check(name + " hoof area", r["hoof"]["area_mm2"], hoof.area, 1e-6 * hoof.area)
    outer, inner = LineString(shoe["outer_mm"]), LineString(shoe["inner_mm"])
    for nail in shoe["nails"]:
        at = Point(nail["at_mm"])
        # square to the edge without its side extension; where that comes out the edge runs at a slant, up to 15 degrees
        slant = 0.04 * nail["inset_mm"] if r["plan"]["side.out." + nail["branch"]] > 0 else 0
        check(name + " inset", nail["inset_mm"], at.distance(outer), 0.05 + slant)
        assert figure.contains(at), name
    for clip in shoe["clips"]:
        ring = Polygon(clip["ring_mm"]).buffer(0)
        # a clip stands on the edge: it covers next to nothing of the branch
        assert ring.intersection(figure).area < 0.1 * ring.area + 0.5, name
        for nail in shoe["nails"]:
            along, half = nail["along"], nail["head_length_mm"] / 2
            ends = [Point(nail["at_mm"][0] + s * half * along[0], nail["at_mm"][1] + s * half * along[1]) for s in (-1, 1)]
            gap = min(abs(abs(outer.project(e) - outer.project(Point(clip["at_mm"]))) - clip["base_mm"] / 2) for e in ends)
            told = [c["value"] for c in r["checks"] if c["id"] == "nail.clip"][0]
            if nail["branch"] == clip["branch"]:
                # a head lies inside the edge and looks longer from there, by up to a fifth
                assert gap > told - 0.2 * half - 0.6, "%s: %.2f for %.2f" % (name, gap, told)
    for c in r["checks"]:
        if c["id"] == "fit.inside" and r["plan"]["side.out.lateral"] == 0 and not shoe.get("extension"):
            n = len(shoe["outer_mm"])
            # a toe squared or set back on purpose is held to the wall without what it is moved by
            front = max(y for _, y in shoe["outer_mm"]) * (1 if r["plan"]["toe"] in ("plain", "rolled") else 0.5)
            keep = [Point(p) for p in shoe["outer_mm"][n // 10:-n // 10] if p[1] <= front]
            worst = max([p.distance(hoof.exterior) for p in keep if hoof.contains(p)] or [0])
            check(name + " inside", c["value"], worst, 0.25)
        if c["id"] == "heels.level" and r["plan"]["heel.trailer.lateral"] == 0:
            check(name + " heels", c["value"], abs(shoe["outer_mm"][0][1] - shoe["outer_mm"][-1][1]), 0.5)
    counted = count_cubes(r)
    off = r["iron"]["volume_mm3"] / counted - 1
    assert abs(off) < 0.002, "%s: volume %.1f, by counting cubes %.1f (%.3f %%)" % (
        name, r["iron"]["volume_mm3"], counted, off * 100)
    pieces = sum(p["volume_mm3"] for p in r["iron"]["pieces"])
    check(name + " pieces", pieces, r["iron"]["volume_mm3"] + r["iron"]["slugs_mm3"], 1e-6 * pieces)
    return off


def no_sharp_corner(name, r):
    """No corner where iron meets iron is tighter than a ball of 4 mm: closing with one a little smaller adds nothing."""
    rings = r["shoe"]["figure_mm"]
    figure = Polygon(rings[0], rings[1:])
    more = figure.buffer(3.9, resolution=48).buffer(-3.9, resolution=48).difference(figure)
    worst = max((part.area for part in getattr(more, "geoms", [more])), default=0)
    assert worst < 0.1, "%s: a corner too sharp, %.2f mm2" % (name, worst)
    if r["plan"]["bar"] == "none":
        return
    assert len(rings) == 2, "%s: %d openings" % (name, len(rings) - 1)
    back = min(r["hoof"]["outline_mm"][0][1], r["hoof"]["outline_mm"][-1][1])
    behind = Polygon(rings[0]).intersection(box(-500, -500, 500, back))
    notch = behind.convex_hull.area - behind.area
    assert notch < 10, "%s: a notch of %.1f mm2 behind" % (name, notch)


def even_web(r):
    """Where web is the same all round, the inner edge is the outer one moved in."""
    moved = LineString(r["shoe"]["outer_mm"]).parallel_offset(22, "right", resolution=32)
    inner = LineString(r["shoe"]["inner_mm"])
    worst = max(Point(p).distance(moved) for p in list(inner.coords)[5:-5])
    assert worst < 0.05, "inner edge %.3f mm from the offset" % worst


with tempfile.TemporaryDirectory() as folder:
    feet = [(hoof_outline(64, 66, 110, 64, 0), "LF"), (hoof_outline(72, 70, 130, 70, 3), "RH")]
    listing = subprocess.run([PROGRAM, "plan", "--styles"], capture_output=True, text=True, check=True).stdout
    styles = [line.split()[0] for line in listing.splitlines() if not line.startswith(" ")]
    assert len(styles) >= 12, styles
    worst = 0
    for style in styles:
        for k, (outline, foot) in enumerate(feet):
            told = json.loads(report(folder, outline, foot, style))
            worst = max(worst, abs(second_opinion("%s %s" % (style, foot), told)))
            no_sharp_corner("%s %s" % (style, foot), told)
    even_web(json.loads(report(folder, feet[0][0], "LF", "plain-front", "web.toe=22", "web.quarter=22", "web.heel=22")))
    plan_writes_the_same(folder, feet[1][0], "RH", "toe-extension-clipped")
    print("%d styles on %d feet, volume within %.3f %% of counted cubes" % (len(styles), len(feet), worst * 100))
