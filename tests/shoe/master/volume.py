# SPDX-License-Identifier: GPL-3.0-or-later
"""The shoe's volume from the plane figures of its report: slices through what is taken off, each a Shapely area."""
import math

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import substring

from shoes import SIDES

SLICES = 6


def crease_volume(shoe, crease):
    """A trough whose floor is half as wide as its mouth, unless the report tells its floor."""
    wide, deep = crease['width_mm'], crease['depth_mm']
    floor = crease.get('floor_mm', wide / 2)
    line, total = LineString(crease['middle_mm']), 0
    for i in range(SLICES):
        z = (i + 0.5) / SLICES
        total += line.buffer((wide + (floor - wide) * z) / 2, cap_style=2).intersection(shoe.figure).area
    return total / SLICES * deep


def place_length(shoe, side):
    """Outer edge per unit of place on that branch, mm."""
    for part in shoe.told['nails'] + shoe.told['clips']:
        if part['branch'] == side and part['place'] > 0.05:
            return part['edge_mm'] / part['place']
    return None


def bevel_volume(shoe, name, side):
    """A triangle off one edge, between two places."""
    wide, deep = shoe.plan[f'{name}.{side}.width'], shoe.plan[f'{name}.{side}.depth']
    if wide <= 0 or deep <= 0:
        return 0
    unit, sign = place_length(shoe, side), 1 if side == 'lateral' else -1
    toe = toe_at(shoe)
    ends = sorted(toe + sign * unit * shoe.plan[f'{name}.{side}.{end}'] for end in ('from', 'to'))
    strip = substring(shoe.outer, max(ends[0], 0), min(ends[1], shoe.outer.length))
    total = 0
    # the inner edge's part is the one that lies square across from the strip
    edge = strip if name == 'boxing' else shoe.inner.intersection(strip.buffer(80, cap_style=2))
    for i in range(SLICES):
        z = (i + 0.5) / SLICES
        total += edge.buffer(wide * (1 - z), cap_style=2).intersection(shoe.figure).area
    return total / SLICES * deep


def toe_at(shoe):
    """Where the outer edge crosses the centre line, as a length along it."""
    best = None
    for (x0, y0), (x1, y1) in zip(shoe.outer.coords, shoe.outer.coords[1:]):
        if (x0 < 0) != (x1 < 0):
            t = x0 / (x0 - x1)
            best = max(best or (-math.inf, 0), (y0 + t * (y1 - y0), t * (x1 - x0) + x0))
    return shoe.outer.project(Point(best[1], best[0]))


def roll_volume(roll):
    """Between the roll's line and the edge: triangles whose corners are as deep as the report says."""
    total, line, edge, deep = 0, roll['line_mm'], roll['edge_mm'], roll['depth_mm']
    for i in range(len(line) - 1):
        for corner in (((line[i], 0), (edge[i], deep[i]), (edge[i + 1], deep[i + 1])),
                       ((line[i], 0), (edge[i + 1], deep[i + 1]), (line[i + 1], 0))):
            total += Polygon([at for at, _ in corner]).area * sum(d for _, d in corner) / 3
    return total


def volume(shoe):
    """Volume in mm3, or None and what the report lacks."""
    told, thick = shoe.told, shoe.told['thickness_toe_mm']
    if told['thickness_heel_mm'] != thick:
        return None, 'thickness along the shoe (shoe.thickness_at: [[place, mm]...])'
    if shoe.plan['toe'] == 'rolled' and not told.get('roll'):
        return None, 'shoe.roll {line_mm, edge_mm, depth_mm: of each pair of points}'
    total = shoe.figure.area * thick
    if shoe.extension:
        ring = Polygon(list(shoe.outer.coords) + list(shoe.inner.coords)[::-1]).buffer(0)
        ahead = shoe.figure.difference(ring).intersection(Polygon([(-300, 0), (300, 0), (300, 400), (-300, 400)]))
        total += ahead.area * (shoe.extension['thickness_mm'] - thick)
    for crease in told['crease']:
        total -= crease_volume(shoe, crease)
    for side in SIDES:
        total -= bevel_volume(shoe, 'boxing', side) + bevel_volume(shoe, 'seating', side)
    if told.get('roll'):
        total -= roll_volume(told['roll'])
    for nail in told['nails']:
        creased = [c['depth_mm'] for c in told['crease'] if c['branch'] == nail['branch']
                   and c['edge_from_mm'] <= nail['edge_mm'] <= c['edge_to_mm']]
        total -= nail['shank_mm'] ** 2 * (thick - sum(creased))
    for clip in told['clips']:
        total += math.pi / 4 * clip['base_mm'] * clip['height_mm'] * clip['thickness_mm']
    return total, None
