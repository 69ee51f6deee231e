# SPDX-License-Identifier: GPL-3.0-or-later
"""Feet as they are drawn round: a curve in polar form about the foot's widest place, a super-ellipse in front blended
into another behind, bent by a few Fourier terms, with flares, a squared toe and heels of unequal length; and the line
round the bulbs in four manners. Foot frame: mm, x right, y to the toe."""
import numpy as np

STEP = 0.25


def even(p, step=STEP):
    """The polyline P with points STEP apart."""
    p = np.asarray(p, float)
    s = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
    n = max(int(np.ceil(s[-1] / step)), 2)
    t = np.linspace(0, s[-1], n + 1)
    return np.c_[np.interp(t, s, p[:, 0]), np.interp(t, s, p[:, 1])]


def length(p):
    return float(np.hypot(*np.diff(p, axis=0).T).sum())


def wander(rng, p, size, low=22, high=110):
    """A hand that strays SIZE mm (RMS) from its way in waves LOW to HIGH mm long."""
    d = np.gradient(p, axis=0)
    d /= np.maximum(np.hypot(d[:, 0], d[:, 1])[:, None], 1e-9)
    s = np.arange(len(p)) * STEP
    off = np.zeros(len(p))
    for _ in range(5):
        off += np.sin(2 * np.pi * s / np.exp(rng.uniform(np.log(low), np.log(high))) + rng.uniform(0, 6.3))
    off *= size * np.sqrt(2 / 5)
    return p + np.c_[-d[:, 1], d[:, 0]] * off[:, None]


def half_axis(theta, a, front, rear, n_front, n_rear):
    """Distance from the middle at THETA from the toe."""
    c, s = np.cos(theta), np.abs(np.sin(theta))
    b = np.where(c > 0, front, rear)
    w = 1 / (1 + np.exp(-9 * c))  # the powers blend over some 25 degrees about the widest place
    n = w * n_front + (1 - w) * n_rear
    return ((s / a) ** n + (np.abs(c) / b) ** n) ** (-1 / n)


def wall(rng, width, sweep, hind):
    """The line round the wall from the left heel to the right one, SWEEP degrees about the middle. No tremor yet."""
    a = width / 2
    left, right = sweep / 2 + rng.uniform(-4, 4), sweep / 2 + rng.uniform(-4, 4)
    t = np.radians(np.linspace(-left, right, 3000))
    front = a * (rng.uniform(1.08, 1.28) if hind else rng.uniform(0.98, 1.16))
    r = half_axis(t, a, front, a * rng.uniform(1.02, 1.28), rng.uniform(1.8, 2.25), rng.uniform(2.1, 2.9))
    for k in range(1, 6):
        r *= 1 + rng.normal(0, [0, 0.010, 0.008, 0.006, 0.005, 0.003][k]) * np.cos(k * t + rng.uniform(0, 6.3))
    for _ in range(rng.integers(0, 3)):  # flares, a collapsed quarter
        at, wide = np.radians(rng.uniform(-120, 120)), np.radians(rng.uniform(14, 34))
        r *= 1 + rng.uniform(-0.025, 0.055) * np.exp(-((t - at) / wide) ** 2)
    p = np.c_[r * np.sin(t), r * np.cos(t)]
    if rng.random() < 0.2:  # a squared or dubbed toe
        cut = p[:, 1].max() * rng.uniform(0.95, 0.985)
        p[:, 1] = np.where(p[:, 1] > cut - 2, cut - 2 + 4 * np.tanh((p[:, 1] - cut + 2) / 4), p[:, 1])
    return even(p)


def bezier(a, b, c, d, n=80):
    t = np.linspace(0, 1, n)[:, None]
    u = 1 - t
    return u ** 3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t ** 3 * d


def turned(v, deg):
    r = np.radians(deg)
    return np.array([v[0] * np.cos(r) - v[1] * np.sin(r), v[0] * np.sin(r) + v[1] * np.cos(r)])


def bulb_side(rng, manner, heel, run, side, cleft, deep, steep):
    """From HEEL, where the wall runs in the direction RUN, round one bulb to CLEFT."""
    out = np.array([-run[1], run[0]])
    out = out if out[0] * side > 0 else -out
    start, aim, way = heel, run, [heel]
    if manner == "stepped":
        step = rng.uniform(1.8, 5.0) * (1 if rng.random() < 0.8 else -1)
        start = heel + out * step + run * rng.uniform(0.4, 2.0)
        aim = turned(run, side * rng.uniform(0, 22) * np.sign(step))
        way += [start]
    elif manner == "cleft":
        aim = turned(run, side * rng.uniform(14, 52))
    bottom = np.array([cleft[0] + (heel[0] - cleft[0]) * rng.uniform(0.38, 0.66), heel[1] - deep])
    k = deep * rng.uniform(0.5, 0.8)
    swell = side * abs(heel[0] - bottom[0]) * (rng.uniform(0.2, 0.75) if manner == "smooth" else rng.uniform(0.5, 0.9))
    first = bezier(start, start + aim * k, bottom + [swell, 0], bottom)
    inward = np.array([-side * abs(bottom[0] - cleft[0]), 0])
    into = cleft - np.array([-side * abs(bottom[0] - cleft[0]) * (1 - steep) * 0.5, 0]) \
        - np.array([0, steep * abs(cleft[1] - bottom[1]) * 0.8])
    second = bezier(bottom, bottom + inward * 0.5, into, cleft)
    return np.vstack([np.array(way), first[1 if manner != "stepped" else 0:], second[1:]])


def bulbs(rng, manner, p, width):
    """The line from the right heel round both bulbs to the left one."""
    deep = width * rng.uniform(0.11, 0.21)
    low = (p[0] + p[-1]) / 2
    dip = {"smooth": rng.uniform(0, 3), "stepped": rng.uniform(0, 8), "cleft": rng.uniform(7, 15)}[manner]
    cleft = np.array([low[0] + rng.uniform(-3, 3), low[1] - deep + min(dip, deep * 0.8)])
    steep = {"smooth": 0.0, "stepped": rng.uniform(0, 0.6), "cleft": rng.uniform(0.6, 1.0)}[manner]
    right = bulb_side(rng, manner, p[-1], direction(p[-30:]), 1, cleft, deep * rng.uniform(0.9, 1.1), steep)
    left = bulb_side(rng, manner, p[0], direction(p[29::-1]), -1, cleft, deep * rng.uniform(0.9, 1.1), steep)
    return even(np.vstack([right, left[::-1][1:]]))


def direction(p):
    d = p[-1] - p[0]
    return d / np.hypot(*d)


class Foot:
    """`line` (heel to heel round the toe), `round` (the bulbs, or None), `heels`, `toe`, `frog` (strokes), `ticks`."""

    def __init__(self, rng, width, sweep=None, manner=None, hind=False, tremor=None, frog=False, ticks=False, toe_tick=False):
        base = wall(rng, width, sweep if sweep else rng.uniform(266, 290), hind)
        self.line = even(wander(rng, base, tremor if tremor is not None else rng.uniform(0.05, 0.45)))
        self.round = even(wander(rng, bulbs(rng, manner, self.line, width), 0.12)) if manner else None
        if self.round is not None:
            self.round[0], self.round[-1] = self.line[-1], self.line[0]
        self.frog, self.ticks = [], []
        self.width = width
        if frog:
            self.add_frog(rng)
        if ticks:
            self.ticks = [self.tick(rng, 8), self.tick(rng, len(self.line) - 9)]
        if toe_tick:
            self.ticks.append(self.tick(rng, self.toe_index()))

    def toe_index(self):
        """Where the line crosses the ray straight ahead of the middle."""
        ahead = np.where(self.line[:, 1] > 0)[0]
        return int(ahead[np.argmin(np.abs(self.line[ahead, 0]))])

    def tick(self, rng, at):
        p = self.line
        d = direction(p[max(at - 12, 0):at + 13])
        n = turned(np.array([-d[1], d[0]]), rng.uniform(-14, 14))
        n = n if n @ p[at] > 0 else -n
        return even([p[at] - n * rng.uniform(3, 8), p[at] + n * rng.uniform(5, 13)])

    def add_frog(self, rng):
        low = min(self.line[0, 1], self.line[-1, 1])
        apex = np.array([rng.uniform(-3, 3), low * rng.uniform(-0.1, 0.25)])
        for side, heel in ((-1, self.line[0]), (1, self.line[-1])):
            end = np.array([heel[0] * rng.uniform(0.4, 0.68), low + rng.uniform(2, 12)])
            bend = (apex + end) / 2 + [side * rng.uniform(-1, 4), 0]
            self.frog.append(even(wander(rng, even(bezier(apex, (apex + bend) / 2, bend, end)), 0.15)))

    def put(self, turn, at):
        """Onto the sheet: the toe up, turned clockwise by TURN degrees, the middle at AT; y points down there."""
        c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))

        def move(p):
            return np.c_[c * p[:, 0] + s * p[:, 1], s * p[:, 0] - c * p[:, 1]] + at

        toe = self.toe_index()
        self.line, self.frog = move(self.line), [move(f) for f in self.frog]
        self.ticks = [move(t) for t in self.ticks]
        if self.round is not None:
            self.round = move(self.round)
        self.toe = self.line[toe]
        return self

    def strokes(self):
        return [self.line] + ([self.round] if self.round is not None else []) + self.frog + self.ticks

    @property
    def heels(self):
        return np.array([self.line[0], self.line[-1]])
