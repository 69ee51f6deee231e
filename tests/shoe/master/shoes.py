# SPDX-License-Identifier: GPL-3.0-or-later
"""Feet, styles and the shoes that the program lays on them, as plane figures. Foot frame throughout: x lateral, y to
the toe, mm. Nothing is taken from the program but what stands in report.json."""
import functools
import json
import os
import re
import subprocess

import numpy as np
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union
from shapely.validation import make_valid

HERE = os.path.dirname(os.path.abspath(__file__))
STYLES = os.path.normpath(os.path.join(HERE, '../../../data/styles'))
SIDES = ('medial', 'lateral')

# Which feet a style is for, where its file does not say so ("feet": "fore", "hind" or "both").
HIND = {'plain-hind', 'quarter-clipped-hind', 'squared-toe', 'lateral-extension', 'trailer'}
BOTH = {'toe-extension', 'toe-extension-clipped', 'straight-bar', 'egg-bar', 'heart-bar'}

# Width of the foot below which a bar is asked for, and the bar: in mm, and in inches as it is sold.
BARS = ((105, '16 x 8', '5/8 x 5/16'), (120, '20 x 8', '3/4 x 5/16'), (150, '22 x 10', '7/8 x 3/8'),
        (1e9, '30 x 12', '1 1/4 x 1/2'))
CONTEST_BAR = {'mm': '31.75 x 9.525', 'inch': '1 1/4 x 3/8'}
CONTEST_GIVEN = {'mm': '330.2', 'inch': '13'}
CONTEST_WIDTH = (122, 138)


class Foot:
    """A foot of the table: what it is in truth."""

    def __init__(self, path):
        self.path, self.name = path, os.path.basename(path)[:-5]
        with open(path, encoding='utf-8') as file:
            told = json.load(file)
        self.code, truth = told['foot'], told['truth']
        self.hind = self.code.endswith('H')
        self.width, self.length = truth['width_mm'], truth['length_mm']
        self.marks = {name: complex(*at) for name, at in truth['marks_mm'].items()}

    def bar(self, unit):
        return next(bar[1 + (unit == 'inch')] for bar in BARS if self.width < bar[0])

    def in_contest(self):
        return not self.hind and CONTEST_WIDTH[0] <= self.width <= CONTEST_WIDTH[1]


def feet(maker, folder, bare=False):
    """All feet of the table, small ones first; BARE: with no landmark marked on them."""
    subprocess.run([maker, folder] + ['bare'] * bare, check=True)
    return sorted((Foot(os.path.join(folder, name)) for name in os.listdir(folder) if name.endswith('.json')),
                  key=lambda foot: (foot.width, foot.name))


def style_files():
    for name in sorted(os.listdir(STYLES)):
        if name[0].isdigit():
            with open(os.path.join(STYLES, name), encoding='utf-8') as file:
                yield json.load(file)


def styles():
    """Style id -> 'fore', 'hind' or 'both', in the program's order."""
    made = {}
    for style in style_files():
        usual = 'hind' if style['id'] in HIND else 'both' if style['id'] in BOTH else 'fore'
        made[style['id']] = style.get('feet', usual)
    return made


def is_contest(style):
    return 'contest' in style


def fits(style, made_for, foot):
    if is_contest(style):
        return foot.in_contest()
    return made_for == 'both' or (made_for == 'hind') == foot.hind


def run(program, foot, style, unit, bar, given=None, sets=()):
    """The report that `plan` writes and `check` tells alone; or one sentence why there is none."""
    command = [program, 'check', foot.path, '--style', style, '--unit', unit, '--bar', bar, '--json', '-']
    if given:
        command += ['--given', given]
    command += [f'--set={text}' for text in sets]
    told = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    if not told.stdout.startswith(b'{'):
        return None, (told.stderr.decode() or told.stdout.decode()).strip() or f'exit status {told.returncode}'
    return json.loads(told.stdout), None


def figure_of(rings):
    """Rings by the even-odd rule."""
    whole = Polygon()
    for ring in rings:
        part = Polygon(ring)
        whole = whole.symmetric_difference(part if part.is_valid else make_valid(part))
    return whole


def pieces(shape):
    return [part for part in getattr(shape, 'geoms', [shape]) if isinstance(part, Polygon) and not part.is_empty]


class Shoe:
    """One report on one foot."""

    def __init__(self, foot, style, unit, report):
        self.foot, self.style, self.unit, self.report = foot, style, unit, report
        self.plan, self.told, self.hoof = report['plan'], report['shoe'], report['hoof']
        self.width = self.hoof['width_mm']
        self.outer, self.inner = LineString(self.told['outer_mm']), LineString(self.told['inner_mm'])
        self.buttress = {side: np.array(self.hoof[f'buttress_{side}_mm']) for side in SIDES}
        self.extension = self.told['extension']
        self.open = self.plan['bar'] == 'none'

    @functools.cached_property
    def figure(self):
        return figure_of(self.told['figure_mm'])

    @functools.cached_property
    def solid(self):
        """The figure with its openings filled."""
        return unary_union([Polygon(part.exterior) for part in pieces(self.figure)])

    @functools.cached_property
    def frame(self):
        """Origin on the sheet and direction to the toe, from where the report puts the two buttresses."""
        sign = 1 if self.foot.code.startswith('R') else -1
        m, l = (complex(*self.buttress[side]) for side in SIDES)
        ms, ls = self.foot.marks['heel_medial'], self.foot.marks['heel_lateral']
        toeward = (ls - ms) / ((l - m).real * sign * 1j + (l - m).imag)
        toeward /= abs(toeward)
        return ms - toeward * (m.real * sign * 1j + m.imag), toeward, sign

    def mark(self, name):
        """A landmark as it is in truth, in the report's own frame."""
        origin, toeward, sign = self.frame
        d = (self.foot.marks[name] - origin) / toeward
        return np.array([d.imag * sign, d.real])

    def frog(self):
        """Apex, the middle between its edges at the heels, and half its width there."""
        edge = [self.mark(f'frog_{side}') for side in SIDES]
        return self.mark('frog_apex'), (edge[0] + edge[1]) / 2, np.linalg.norm(edge[1] - edge[0]) / 2

    def on_frog(self, shape):
        """SHAPE with the frog's axis as x = 0 and its apex as the origin."""
        apex, back, _ = self.frog()
        along = apex - back
        turn = np.degrees(np.arctan2(along[0], along[1]))
        return affinity.rotate(affinity.translate(shape, -apex[0], -apex[1]), turn, origin=(0, 0))

    def side_of(self, x):
        return SIDES[x > 0]

    def place(self, at):
        """A word for a place, so that a person finds it."""
        x, y = at
        level = min(self.buttress[side][1] for side in SIDES)
        if self.extension and y > min(p[1] for p in self.extension['line_mm']) - 6:
            return 'extension ' + self.side_of(x)[0].upper()
        if abs(x) < 0.12 * self.width and y < 0.75 * self.hoof['toe_mm'][1]:
            return 'plate or bar'
        if abs(x) < 0.12 * self.width:
            return 'toe'
        word = 'heel' if y < level + 0.12 * self.width else 'quarter' if y < 0.1 * self.width else 'toe quarter'
        return f'{word} {self.side_of(x)[0].upper()}'


def cross(figure, y, low=-500, high=500):
    """Stretches of the cross-line at Y inside FIGURE, medial first, as (from, to)."""
    cut = figure.intersection(LineString([(low, y), (high, y)]))
    lines = [g for g in getattr(cut, 'geoms', [cut]) if isinstance(g, LineString) and not g.is_empty]
    return sorted((g.bounds[0], g.bounds[2]) for g in lines)


def number(text):
    """A length as it is shown: 3, 3.5, 1/4, 1 1/4; and how it reads."""
    return re.findall(r'(?<![\w.])-?\d+(?: \d+/\d+|/\d+|\.\d+)?', text)
