#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The judge is judged: a shoe drawn here as it should be passes each rule, and the same shoe with one thing wrong fails
that rule, so that a rule can neither be met by anything nor by nothing."""
import unittest

import numpy as np
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

import rules
import shoes

W, BACK, APEX, FROG = 130.0, -60.0, 26.0, 17.0      # width, level of the buttresses, frog's apex and half width
HEEL = 44.0                                         # buttress off the centre line


class Stand:
    """A right fore, toe up on its sheet, whose y runs down."""
    code, name, width = 'RF', 'stand', W
    marks = {'heel_medial': complex(-HEEL, -BACK), 'heel_lateral': complex(HEEL, -BACK), 'toe': complex(0, -72),
             'frog_apex': complex(0, -APEX), 'frog_medial': complex(-FROG, -BACK - 6),
             'frog_lateral': complex(FROG, -BACK - 6)}


def solid():
    """Half an ellipse ahead, its quarters running in behind."""
    front = affinity.scale(Point(0, 0).buffer(1, 128), 65, 72)
    return unary_union([front.intersection(box(-70, 0, 70, 80)),
                        Polygon([(-65, 0), (65, 0), (47, -66), (-47, -66)])]).buffer(-6).buffer(6, 64)


def rings(shape):
    return [list(part.coords) for one in shoes.pieces(shape) for part in (one.exterior, *one.interiors)]


def edge(half, toe, run):
    """Medial to lateral heel, as the report's outer and inner edges."""
    a = np.linspace(np.pi, 0, 181)
    front = np.column_stack([half * np.cos(a), toe * np.sin(a)])
    return [[-run, -66], *front.tolist(), [run, -66]]


def open_figure():
    return solid().difference(Polygon(edge(43, 48, 26) + [[26, -90], [-26, -90]])).buffer(-3).buffer(3, 64)


def bar_figure():
    return solid().difference(solid().buffer(-23).buffer(-6).buffer(6, 64))


def heart_figure(over=0.0, tip=15.0):
    """A plate that follows the frog's edges, its root joined by fillets."""
    root = BACK + 16
    top = APEX - tip
    half = FROG * (APEX - root) / (APEX - BACK - 6)
    start = FROG * tip / (APEX - BACK - 6)
    plate = Polygon([(over - start, top), (over + start, top), (over + half, root), (over + half, BACK),
                     (over - half, BACK), (over - half, root)]).buffer(-2).buffer(2, 64)
    return unary_union([bar_figure(), plate.intersection(solid())]).buffer(5, 64).buffer(-5, 64)


def report(figure, bar='none', style='plain-front'):
    told = {'plan': {'bar': bar, 'heel.trailer.medial': 0, 'heel.trailer.lateral': 0, 'toe': 'plain'}, 'checks': [],
            'hoof': {'width_mm': W, 'toe_mm': [0, 72], 'buttress_medial_mm': [-HEEL, BACK],
                     'buttress_lateral_mm': [HEEL, BACK]},
            'shoe': {'outer_mm': edge(65, 72, 47), 'inner_mm': edge(43, 48, 26), 'extension': None, 'nails': [],
                     'clips': [], 'crease': [], 'figure_mm': rings(figure), 'simple': True}}
    return shoes.Shoe(Stand, style, 'mm', told)


def clip(angle, branch):
    """On the outer edge where its normal stands at ANGLE to the centre line."""
    line, sign = LineString(edge(65, 72, 47)), 1 if branch == 'lateral' else -1
    t = np.arctan2(65 * np.tan(np.radians(90 - angle)) ** -1, 72)
    at = [sign * 65 * np.sin(t), 72 * np.cos(t)]
    return {'branch': branch, 'at_mm': at, 'base_mm': 20, 'edge_mm': line.project(Point(at)), 'place': 0.3}


class Rules(unittest.TestCase):
    def passes(self, rule, shoe):
        self.assertEqual(list(rule(shoe)), [])

    def fails(self, rule, shoe):
        words = list(rule(shoe))
        self.assertTrue(words)
        return words

    def test_frame(self):
        shoe = report(open_figure())
        self.assertTrue(np.allclose(shoe.mark('frog_apex'), (0, APEX)))
        self.passes(rules.rule_frame, shoe)
        turned = report(open_figure())
        turned.foot = type('Turned', (Stand,), {'marks': {**Stand.marks, 'frog_apex': complex(3, -APEX)}})
        self.fails(rules.rule_frame, turned)

    def test_heels(self):
        good = report(open_figure())
        self.passes(rules.rule_cover, good)
        self.passes(rules.rule_heel, good)
        cut = report(open_figure().difference(affinity.rotate(box(-90, -90, -10, -61), 30, origin=(-47, -61))))
        self.fails(rules.rule_heel, cut)
        self.assertTrue(all(words[0] == 'M' for words in self.fails(rules.rule_cover, cut)))

    def test_clips(self):
        for angle, good in ((45, True), (41, True), (38, False), (52, False), (20, False)):
            shoe = report(open_figure(), style='quarter-clipped')
            shoe.told['clips'] = [clip(angle, side) for side in shoes.SIDES]
            self.assertAlmostEqual(rules.clip_normal(shoe, shoe.told['clips'][0]), angle, delta=1)
            (self.passes if good else self.fails)(rules.rule_clips, shoe)
        shoe.told['clips'] = [clip(45, 'medial')]
        self.fails(rules.rule_clips, shoe)

    def test_corners(self):
        for radius, good in ((5, True), (4.1, True), (3.5, False), (0.5, False)):
            corner = box(0, 0, 60, 60).difference(box(30, 30, 70, 70)).buffer(radius, 64).buffer(-radius, 64)
            (self.passes if good else self.fails)(rules.rule_corner, report(corner, bar='straight'))
        for figure in (open_figure(), bar_figure()):
            self.passes(rules.rule_corner, report(figure))

    def test_notch(self):
        self.passes(rules.rule_notch, report(bar_figure(), bar='straight'))
        bitten = bar_figure().difference(Point(0, -66).buffer(4))
        self.fails(rules.rule_notch, report(bitten, bar='straight'))
        ahead = bar_figure().difference(Point(0, 72).buffer(6))
        self.passes(rules.rule_notch, report(ahead, bar='straight'))

    def test_heart(self):
        self.passes(rules.rule_heart, report(heart_figure(), bar='heart'))
        self.passes(rules.rule_corner, report(heart_figure(), bar='heart'))
        for wrong, word in ((heart_figure(over=2), 'off the axis'), (heart_figure(tip=25), 'behind the apex'),
                            (heart_figure().difference(Point(0, -20).buffer(3)), 'openings'),
                            (bar_figure(), 'behind the apex')):
            self.assertIn(word, ' '.join(self.fails(rules.rule_heart, report(wrong, bar='heart'))))
        wide = unary_union([heart_figure(), box(-12, -30, 12, 8)])
        self.assertIn('over the frog', ' '.join(self.fails(rules.rule_heart, report(wide, bar='heart'))))

    def test_web(self):
        self.passes(rules.rule_web, report(open_figure()))          # 24 mm of 130
        thin = report(open_figure())
        thin.inner = LineString(edge(43, 54, 26))
        self.fails(rules.rule_web, thin)

    def test_figures(self):
        for text, good in (('It is 3.0 mm (limit 3.0 mm); move it.', False), ('It is 2.97 mm (limit 3.0 mm).', True),
                           ('They are 1 1/2 in apart (at most 1 1/2 in).', False), ('1 1/2 in (at most 1 in)', True)):
            shoe = report(open_figure())
            shoe.report['checks'] = [{'id': 'x', 'state': 'look', 'text': text}]
            (self.passes if good else self.fails)(rules.rule_figures, shoe)


if __name__ == '__main__':
    unittest.main(verbosity=2)
