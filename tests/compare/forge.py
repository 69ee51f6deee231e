# SPDX-License-Identifier: GPL-3.0-or-later
"""Shoes forged wrong on purpose, out of a plan's own report: every error is known, and so is where each planned edge came to
lie. Nothing of the program is used but report.json. Foot frame: x lateral, y to the toe, mm."""
import json
import math
import os
import subprocess

import numpy as np

def outline(half=64.0, toe=66.0, back=110.0, heel=64.0, bulge=0.0, n=240):
    """A foot as a right one is traced, on the sheet, heel to heel, y down."""
    end = math.asin(heel / back)
    points = []
    for i in range(n):
        a = -end + (math.pi + 2 * end) * i / (n - 1)
        x, y = -half * math.cos(a), (toe if math.sin(a) > 0 else back) * math.sin(a)
        if x > 0:
            x += bulge * math.exp(-(y / 40) ** 2)
        points.append([150 + x, 150 - y])
    return points


def plan(pritchel, folder, style, foot='RF', sets=(), shape=None, env=None):
    """report.json of STYLE on a foot."""
    os.makedirs(folder, exist_ok=True)
    traced = os.path.join(folder, 'outline.json')
    with open(traced, 'w', encoding='utf-8') as file:
        json.dump({'outline_mm': shape or outline()}, file)
    args = [pritchel, 'plan', traced, '--foot', foot, '--style', style, '-o', folder, '--anyway']
    for one in sets:
        args += ['--set', one]
    subprocess.run(args, check=True, stdout=subprocess.DEVNULL, env=env)
    file = os.path.join(folder, 'report.json')
    with open(file, encoding='utf-8') as text:
        return file, json.load(text)


def dense(ring, step=0.6, smooth=False):
    """A closed ring with points at most STEP apart."""
    ring = np.asarray(ring, float)
    out = []
    for a, b in zip(ring, np.roll(ring, -1, axis=0)):
        n = max(1, int(math.ceil(np.hypot(*(b - a)) / step)))
        out += [a + (b - a) * i / n for i in range(n)]
    return np.array(out)


def area(ring):
    x, y = ring[:, 0], ring[:, 1]
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def ramp(t):
    t = np.clip(t, 0, 1)
    return t * t * (3 - 2 * t)


class Error:
    """A forging error as a displacement of the plane; OPEN: by so much a branch stands out at the heel, growing from the
    quarter; SIDE: it stands out evenly behind the toe quarter."""

    def __init__(self, opened=(0, 0), aside=(0, 0), ahead=0.0):
        self.opened, self.aside, self.ahead = opened, aside, ahead

    def move(self, p):
        p = np.asarray(p, float)
        to = np.zeros_like(p)
        for b, sign in enumerate((-1, 1)):
            mine = (p[:, 0] * sign > 0).astype(float)
            back = np.clip((40 - p[:, 1]) / 110, 0, None)
            to[:, 0] += mine * sign * (self.opened[b] * back + self.aside[b] * ramp((62 - p[:, 1]) / 25))
        to[:, 1] += self.ahead * ramp((p[:, 1] - 30) / 25)
        return to


def on_sheet(rings, foot, face, angle, x, y):
    """Foot frame to the sheet as it is seen with FACE up; clockwise as seen (y down)."""
    left = foot in ('LF', 'LH')
    sign = (-1 if left else 1) * (1 if face == 'foot' else -1)
    c, s = math.cos(angle), math.sin(angle)
    out = []
    for ring in rings:
        flat = np.column_stack((ring[:, 0] * sign, -ring[:, 1]))
        turned = np.column_stack((c * flat[:, 0] - s * flat[:, 1] + x, s * flat[:, 0] + c * flat[:, 1] + y))
        out.append(turned)
    return out


def clockwise(ring):
    return ring if area(ring) > 0 else ring[::-1]       # y is down


def seen(report, rings, foot, face='ground', angle=0.3, at=(140, 160), thickness=10.0, nails=(), doubt=()):
    """The JSON of `trace --shoe` for a shoe whose rings (foot frame, outer first) are RINGS."""
    laid = on_sheet(rings, foot, face, angle, *at)
    shoe = report['shoe']
    one = {'face': face, 'thickness_mm': thickness, 'drawn': False, 'doubt': list(doubt), 'inner_mm': [],
           'openings_mm': [clockwise(ring).tolist() for ring in laid[1:]],
           'nails_mm': [p.tolist() for p in on_sheet([np.array(nails)], foot, face, angle, *at)[0]] if len(nails) else []}
    if len(rings) > 1:
        one['outer_mm'] = clockwise(laid[0]).tolist()
        return {'seen': one}
    # open: split at the heels' outer corners, the outer edge over the toe
    ends = [np.argmin(np.hypot(*(rings[0] - np.array(p)).T)) for p in (shoe['outer_mm'][0], shoe['outer_mm'][-1])]
    ring = laid[0]
    turn = area(ring) > 0
    if not turn:
        ring = ring[::-1]
        ends = [len(ring) - 1 - e for e in ends]
    toe = np.argmax(rings[0][:, 1])
    toe = toe if turn else len(ring) - 1 - toe
    a, b = sorted(ends)
    if a <= toe <= b:
        outer, inner = ring[a:b + 1], np.vstack((ring[b:], ring[:a + 1]))
    else:
        outer, inner = np.vstack((ring[b:], ring[:a + 1])), ring[a:b + 1]
    one['outer_mm'], one['inner_mm'] = outer.tolist(), inner.tolist()
    return {'seen': one}


def normals(ring):
    """Out of the iron, which lies to the left of outer rings as the report has them (counter-clockwise)."""
    along = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    along /= np.hypot(*along.T)[:, None]
    return np.column_stack((along[:, 1], -along[:, 0]))


def without_motion(at, out, moved):
    """What of a displacement is left along OUT when the best rigid motion is taken off it, by the normal equations."""
    row = np.column_stack((out, out[:, 1] * at[:, 0] - out[:, 0] * at[:, 1]))
    rest = np.sum(out * moved, axis=1)
    x, *_ = np.linalg.lstsq(row, rest, rcond=None)
    return rest - row @ x
