# SPDX-License-Identifier: GPL-3.0-or-later
"""test-specimen.py PRITCHEL: a shoe that is known, told as `trace --shoe` tells it, becomes a plan of its own; the plan's edge is
held against the shoe's by Shapely, its iron against the iron of the plan that the shoe was made of."""
import json
import os
import subprocess
import sys
import tempfile
import unittest

import numpy as np
from shapely.geometry import LinearRing, Point

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import forge

PRITCHEL = sys.argv[1]
HERE = tempfile.mkdtemp(prefix='pritchel-specimen-')
ENV = dict(os.environ, HOME=HERE, XDG_DATA_HOME=HERE + '/data', XDG_CONFIG_HOME=HERE + '/config')
# style, foot, face up, what else is set
SHOES = [('plain-front', 'LF', 'ground', ()), ('plain-hind', 'RH', 'foot', ()), ('quarter-clipped', 'RF', 'ground', ()),
         ('rolled-toe', 'LF', 'foot', ()), ('plain-front', 'RF', 'ground', ('heel.cut=branch', 'heel.round=2')),
         ('plain-front', 'RF', 'foot', ('web.quarter.lateral=24', 'web.heel.medial=16', 'web.toe=26')),
         ('set-back-toe', 'LF', 'ground', ()), ('lateral-extension', 'LH', 'ground', ())]


def wavy(ring, chance, size):
    """RING with SIZE mm of what a photo adds, even over some mm."""
    noise = np.convolve(np.tile(chance.normal(0, 1, len(ring)), 3), np.ones(7) / 7, 'same')[len(ring):2 * len(ring)]
    return ring + forge.normals(ring) * (size * noise / noise.std())[:, None]


# style, foot, face up, what else is set, turned by, radians
BARS = [('straight-bar', 'LF', 'ground', (), 0.2), ('straight-bar', 'RF', 'foot', ('bar.web=28', 'web.toe=26'), -0.25),
        ('egg-bar', 'RF', 'ground', (), 0.0), ('egg-bar', 'LF', 'foot', ('bar.web=26', 'bar.set_back=14'), 0.3)]


class Specimen(unittest.TestCase):
    def made(self, report, style, foot, face, noise=0.0, seed=3, angle=None):
        chance = np.random.default_rng(seed)
        rings = [wavy(ring, chance, noise) for ring in map(forge.dense, report['shoe']['figure_mm'])]
        nails = np.array([nail['at_mm'] for nail in report['shoe']['nails']])
        seen = os.path.join(HERE, 'seen.json')
        with open(seen, 'w', encoding='utf-8') as out:
            json.dump(forge.seen(report, rings, foot, face, angle=chance.uniform(-3, 3) if angle is None else angle, nails=nails,
                                 thickness=report['shoe']['thickness_toe_mm']), out)
        folder = os.path.join(HERE, 'made')
        self.said = subprocess.run([PRITCHEL, 'plan', seen, '--specimen', '--foot', foot, '-s', style, '-o', folder, '--anyway'],
                                   env=ENV, check=True, capture_output=True, text=True).stderr
        with open(os.path.join(folder, 'report.json'), encoding='utf-8') as file:
            plan = json.load(file)
        told = subprocess.run([PRITCHEL, 'compare', os.path.join(folder, 'report.json'), seen, '-j', '-', '--as-told'],
                              env=ENV, check=True, capture_output=True, text=True).stdout
        return plan, json.loads(told)

    def held(self, plan, told, report, ring=0.4, web=0.5, volume=0.01, nail=0.3, truth=False):
        line = LinearRing(told['seen']['outer_mm'] + told['seen']['inner_mm'])
        off = [line.distance(Point(p)) for p in forge.dense(plan['shoe']['figure_mm'][0])]
        # of the plan that the shoe was made of, where the shoe as seen is rough itself
        names = [name for name in report['plan'] if name.startswith('web.') and isinstance(report['plan'][name], float)]
        webs = [abs(plan['plan'][name] - report['plan'][name]) for name in names] if truth else [
            abs(one['web_mm'] - one['planned_web_mm']) for one in told['summary']['web']]
        more = plan['iron']['volume_mm3'] / report['iron']['volume_mm3'] - 1
        print(f'edge {np.mean(off):.3f} mm, webs {max(webs):.2f} mm, volume {100 * more:+.2f} %', end='; ')
        self.assertLess(np.mean(off), ring)
        self.assertLess(max(webs), web)
        self.assertLess(abs(more), volume)
        self.assertEqual(len(told['summary']['nails']), len(report['shoe']['nails']))
        self.assertLess(max(one['off_mm'] for one in told['summary']['nails']), nail)

    def test_a_shoe_becomes_its_own_plan(self):
        for i, (style, foot, face, sets) in enumerate(SHOES):
            with self.subTest(style=style, sets=sets):
                _, report = forge.plan(PRITCHEL, os.path.join(HERE, f'{i}'), style, foot, sets, env=ENV)
                plan, told = self.made(report, style, foot, face, seed=i)
                self.held(plan, told, report)
                if style != 'lateral-extension':        # its end is turned
                    for branch in ('medial', 'lateral'):
                        self.assertAlmostEqual(plan['plan']['heel.round.' + branch], report['plan']['heel.round.' + branch],
                                               delta=1.0)
                    self.assertEqual(plan['plan']['heel.cut'], report['plan']['heel.cut'])

    def test_an_extension_is_taken_off_and_put_on_again(self):
        """What it hides of the toe is told by the inner edge, so that the webs beside it come out too."""
        for i, (style, foot) in enumerate((('toe-extension', 'LF'), ('contest-toe-extension', 'RF'))):
            _, report = forge.plan(PRITCHEL, os.path.join(HERE, f'ext{i}'), style, foot, env=ENV)
            plan, told = self.made(report, style, foot, 'ground', seed=i)
            self.held(plan, told, report, web=0.4, nail=0.7)
            for name in ('web.toe', 'web.quarter.medial', 'web.quarter.lateral'):
                self.assertAlmostEqual(plan['plan'][name], report['plan'][name], delta=0.2)
            self.assertAlmostEqual(plan['plan']['extension.width'], report['plan']['extension.width'], delta=0.6)

    def held_bar(self, plan, told, report):
        for i, ring in enumerate([told['seen']['outer_mm'], *told['seen']['openings_mm']]):
            off = [LinearRing(ring).distance(Point(p)) for p in forge.dense(plan['shoe']['figure_mm'][i])]
            self.assertLess(np.mean(off), 0.1)
        webs = [abs(one['web_mm'] - one['planned_web_mm']) for one in told['summary']['web'] if one['web_mm'] is not None]
        more = plan['iron']['volume_mm3'] / report['iron']['volume_mm3'] - 1
        print(f'edge {np.mean(off):.3f} mm, webs {max(webs):.2f} mm, volume {100 * more:+.2f} %', end='; ')
        self.assertGreaterEqual(len(webs), 3)
        self.assertLess(max(webs), 0.2)
        self.assertLess(abs(more), 0.01)
        self.assertEqual(len(told['summary']['nails']), len(report['shoe']['nails']))

    def test_a_bar_shoe_becomes_its_own_plan(self):
        """Whatever style it was begun with."""
        for i, (style, foot, face, sets, angle) in enumerate(BARS):
            with self.subTest(style=style, sets=sets):
                _, report = forge.plan(PRITCHEL, os.path.join(HERE, f'bar{i}'), style, foot, sets, env=ENV)
                plan, told = self.made(report, 'plain-front', foot, face, seed=i, angle=angle)
                self.held_bar(plan, told, report)
                self.assertEqual(plan['plan']['bar'], report['plan']['bar'])
                self.assertAlmostEqual(plan['plan']['bar.web'], report['plan']['bar.web'], delta=0.3)
                self.assertNotIn('not taken over', self.said)

    def test_of_a_heart_the_plate_is_told_where_it_is_another(self):
        """A plan's plate goes by the frog, of which a specimen has none."""
        _, report = forge.plan(PRITCHEL, os.path.join(HERE, 'heart'), 'heart-bar', 'LF', env=ENV)
        plan, told = self.made(report, 'plain-front', 'LF', 'ground', angle=0.1)
        self.assertEqual(plan['plan']['bar'], 'heart')
        off = [LinearRing(told['seen']['outer_mm']).distance(Point(p)) for p in forge.dense(plan['shoe']['figure_mm'][0])]
        self.assertLess(np.mean(off), 0.4)
        self.assertLess(abs(plan['iron']['volume_mm3'] / report['iron']['volume_mm3'] - 1), 0.01)
        self.assertIn('not taken over', self.said)

    def test_and_so_does_one_that_is_seen_not_quite(self):
        _, report = forge.plan(PRITCHEL, os.path.join(HERE, 'rough'), 'plain-front', 'LF', env=ENV)
        for seed in range(5):
            plan, told = self.made(report, 'plain-front', 'LF', 'ground', noise=0.3, seed=seed)
            self.held(plan, told, report, nail=0.5, truth=True)

    def test_what_is_not_taken_over_is_told(self):
        """A plan has a trailer in a form of its own; a plain shoe is taken over whole, and nothing is said."""
        for style, foot, silent in (('trailer', 'LH', False), ('plain-hind', 'LH', True)):
            _, report = forge.plan(PRITCHEL, os.path.join(HERE, 'told-' + style), style, foot, env=ENV)
            self.made(report, style, foot, 'ground')
            self.assertEqual('not taken over' not in self.said, silent, f'{style}: {self.said}')

    def test_what_needs_a_foot_is_silent(self):
        _, report = forge.plan(PRITCHEL, os.path.join(HERE, 'silent'), 'plain-front', 'LF', env=ENV)
        plan, _ = self.made(report, 'plain-front', 'LF', 'ground')
        ids = [one['id'] for one in plan['checks']]
        self.assertIn('specimen', ids)
        self.assertFalse([one for one in ids if one.startswith(('fit.', 'heel.past', 'nail.wall', 'wall.'))], ids)
        self.assertIn('heels.level', [one.rsplit('.m', 1)[0] for one in ids])
        with open(os.path.join(HERE, 'made', 'report.txt'), encoding='utf-8') as file:
            text = file.read()
        pages = subprocess.run(['pdftotext', '-layout', os.path.join(HERE, 'made', 'template.pdf'), '-'], check=True,
                               capture_output=True, text=True).stdout
        for words in ('the wall', 'buttress', 'Hand rule', 'Foot '):
            self.assertNotIn(words, text.split('Check before')[0] + pages.split('Planning aid')[0])
        self.assertIn('From a specimen', pages)

    def refused(self, seen, more, status, says):
        done = subprocess.run([PRITCHEL, 'plan', seen, '--specimen', '-o', os.path.join(HERE, 'none'), *more], env=ENV,
                              check=False, capture_output=True, text=True)
        self.assertEqual((done.returncode, done.stdout), (status, ''), done.stderr)
        self.assertRegex(done.stderr, r'\Apritchel[^\n]{20,}\n\Z')
        self.assertIn(says, done.stderr)
        self.assertFalse(os.path.exists(os.path.join(HERE, 'none')))

    def test_bad_input(self):
        """No foot; a bar that bulges forward on one side, as no plan's does; an opening parted in two."""
        _, report = forge.plan(PRITCHEL, os.path.join(HERE, 'egg'), 'egg-bar', 'LF', env=ENV)
        outer, opening = (forge.dense(ring) for ring in report['shoe']['figure_mm'])
        bulge = np.exp(-((opening[:, 0] - 12) / 9) ** 2) * (opening[:, 1] < np.median(opening[:, 1]))
        bulged = opening + np.column_stack((0 * bulge, 14 * bulge))
        halves = [np.array([[-20, 0], [-20, 25], [-6, 25], [-6, 0]]), np.array([[6, 0], [6, 25], [20, 25], [20, 0]])]
        seen = os.path.join(HERE, 'bad.json')
        for rings, more, status, says in (([outer, opening], [], 2, '--foot'), ([outer, bulged], ['--foot', 'LF'], 1, 'no plan makes'),
                                          ([outer, *map(forge.dense, halves)], ['--foot', 'LF'], 1, 'no plan makes')):
            with open(seen, 'w', encoding='utf-8') as out:
                json.dump(forge.seen(report, rings, 'LF'), out)
            self.refused(seen, more, status, says)


unittest.main(argv=sys.argv[:1], verbosity=2)
