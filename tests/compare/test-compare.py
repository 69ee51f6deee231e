# SPDX-License-Identifier: GPL-3.0-or-later
"""test-compare.py PRITCHEL: shoes forged wrong on purpose (forge.py), told as `trace --shoe` tells them, held against their
plan by the command. Offsets are held against the distances that Shapely finds between the same lines, and against what was
done to the shoe less the best rigid motion, worked out here."""
import json
import math
import os
import subprocess
import sys
import tempfile
import unittest

import numpy as np
from shapely.geometry import LineString, LinearRing, Point, Polygon, box

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import forge

PRITCHEL = sys.argv[1]
HERE = tempfile.mkdtemp(prefix='pritchel-compare-')
ENV = dict(os.environ, HOME=HERE, XDG_DATA_HOME=HERE + '/data', XDG_CONFIG_HOME=HERE + '/config')
STYLES = ['plain-front', 'straight-bar', 'egg-bar', 'toe-extension', 'plain-hind', 'trailer', 'squared-toe', 'heart-bar']
PLANS = {}


def plan(style, foot):
    if (style, foot) not in PLANS:
        # a foot a little fuller on one side, as feet are, so that its mirror is another
        PLANS[style, foot] = forge.plan(PRITCHEL, os.path.join(HERE, style + foot), style, foot, env=ENV)
    return PLANS[style, foot]


def rings_of(report):
    return [forge.dense(ring) for ring in report['shoe']['figure_mm']]


def written(one):
    file = os.path.join(HERE, 'seen.json')
    with open(file, 'w', encoding='utf-8') as out:
        json.dump(one, out)
    return file


def compare(report, one, *more):
    done = subprocess.run([PRITCHEL, 'compare', report, written(one), '--json', '-', *more], env=ENV, check=False,
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def ring_seen(told):
    """The silhouette's rings in the plan's frame, as the program laid them."""
    seen = told['seen']
    return [seen['outer_mm'] + seen['inner_mm'], *seen['openings_mm']]


def counted(told, edge):
    return [o for o in told['offsets'] if o['edge'] == edge and not (o.keys() & {'doubt', 'heel', 'clip'})]


class Compare(unittest.TestCase):
    def each(self, rows=((0, 0), (3, 0), (0, -2))):
        chance = np.random.default_rng(16)
        for i, style in enumerate(STYLES):
            foot = ('RF', 'LF', 'RF', 'LF', 'RH', 'LH', 'RH', 'LF')[i]
            for opened in rows:
                yield (style, foot, *plan(style, foot), forge.Error(opened=opened), chance.uniform(-math.pi, math.pi),
                       ('ground', 'foot')[chance.integers(2)])

    def test_what_is_as_planned_is_nowhere_off(self):
        for style, foot, file, report, _, angle, face in self.each(((0, 0),)):
            with self.subTest(style=style):
                told = compare(file, forge.seen(report, rings_of(report), foot, face, angle))
                self.assertLess(max(abs(o['off_mm']) for o in told['offsets']), 0.05)
                self.assertGreater(len(told['offsets']), 300)
                self.assertEqual(told['corrections'], [])
                self.assertEqual(told['summary']['state'], 'fits')
                summary = told['summary']
                self.assertAlmostEqual(summary['length_mm'], report['shoe']['length_mm'], delta=0.05)
                self.assertAlmostEqual(summary['width_mm'], report['shoe']['width_mm'], delta=0.05)
                for web in summary['web']:
                    # near a bar the edges bend; a heart's plate lies beside the heels; where a trailer ends its edges do not tell
                    none = {'trailer': ['lateral'], 'heart-bar': ['medial', 'lateral']}.get(style, [])
                    if web['web_mm'] is None:
                        self.assertTrue(web['at'] == 'heel' and web['branch'] in none, web)
                    else:
                        self.assertAlmostEqual(web['web_mm'], web['planned_web_mm'], delta=0.15 if 'bar' in style else 0.1)
                for heel in summary['heels']:
                    if heel['toe_to_heel_mm'] is not None:          # a bar shoe has none
                        self.assertAlmostEqual(heel['toe_to_heel_mm'], heel['planned_toe_to_heel_mm'], delta=0.15)

    def test_offsets_are_the_distances_shapely_finds(self):
        worst = 0
        for style, foot, file, report, error, angle, face in self.each():
            rings = [ring + error.move(ring) for ring in rings_of(report)]
            told = compare(file, forge.seen(report, rings, foot, face, angle))
            lines = [LinearRing(ring) for ring in ring_seen(told)]
            for o in told['offsets']:
                if o.get('heel'):
                    continue       # there the nearest edge may be the cut, which is neither
                mine = min(line.distance(Point(o['at_mm'])) for line in lines)
                worst = max(worst, abs(abs(o['off_mm']) - mine))
                self.assertAlmostEqual(abs(o['off_mm']), mine, delta=0.06, msg=f'{style} {o}')
        print(f'offsets and Shapely: worst {worst:.3f} mm apart')

    def test_errors_are_found_where_they_were_made(self):
        """As done to the shoe, less the best rigid motion: the place of the largest within 15 mm, its size within 0.5 mm,
        parallel within 0.2 mm, wedge within 0.5 mm on 100 mm."""
        chance = np.random.default_rng(4)
        far, near, n = [], [], 0
        for i in range(16):
            style, foot = (('plain-front', 'LF'), ('plain-hind', 'RH'), ('toe-extension', 'RF'), ('straight-bar', 'LF'))[i % 4]
            file, report = plan(style, foot)
            error = forge.Error(opened=chance.uniform(-3, 3, 2), aside=chance.uniform(-2, 2, 2), ahead=chance.uniform(-2, 2))
            rings = [ring + error.move(ring) for ring in rings_of(report)]
            told = compare(file, forge.seen(report, rings, foot, 'ground', chance.uniform(-3, 3)))
            places = [o for edge in ('outer', 'inner') for o in counted(told, edge)]
            at = np.array([o['at_mm'] for o in places])
            out = self.outward(rings_of(report), at)
            truth = forge.without_motion(at, out, error.move(at))
            self.assertLess(np.max(np.abs(truth - [o['off_mm'] for o in places])), 0.5, (style, vars(error)))
            for edge in ('outer', 'inner'):
                pick = [k for k, o in enumerate(places) if o['edge'] == edge]
                summary = told['summary'][edge]
                worst = pick[int(np.argmax(np.abs(truth[pick])))]
                far.append(math.dist(summary['at_mm'], at[worst]))
                near.append(abs(summary['max_mm'] - truth[worst]))
                n += 1
                self.branches(places, truth, edge, summary)
        good = sum(f <= 15 and s <= 0.5 for f, s in zip(far, near))
        print(f'largest error: {good} of {n} within 15 mm and 0.5 mm; size off by {max(near):.2f} mm at most')
        self.assertGreaterEqual(good, 0.9 * n)

    def branches(self, places, truth, edge, summary):
        for branch in ('medial', 'lateral'):
            pick = [k for k, o in enumerate(places) if o['edge'] == edge and o['branch'] == branch and not o.get('bar')]
            along = np.array([places[k]['place_mm'] for k in pick])
            slope = np.polyfit(along, truth[pick], 1)[0] * 100
            self.assertAlmostEqual(summary['parallel_mm'][branch], float(np.mean(truth[pick])), delta=0.08)
            self.assertAlmostEqual(summary['wedge_mm_per_100'][branch], slope, delta=0.15)

    @staticmethod
    def outward(rings, at):
        all_at, all_out = np.vstack(rings), np.vstack([forge.normals(ring) for ring in rings])
        return np.array([all_out[np.argmin(np.hypot(*(all_at - p).T))] for p in at])

    def test_a_wider_web_is_more_iron_at_both_edges(self):
        file, report = plan('plain-front', 'LF')
        ring = rings_of(report)[0]
        told = compare(file, forge.seen(report, [ring + 1.0 * forge.normals(ring)], 'LF', angle=2))
        for edge in ('outer', 'inner'):
            self.assertAlmostEqual(told['summary'][edge]['mean_mm'], 1.0, delta=0.12)
        for web in told['summary']['web']:
            self.assertAlmostEqual(web['web_mm'] - web['planned_web_mm'], 2.0, delta=0.1)
        self.assertTrue(any(one['kind'] == 'web' and one['mm'] > 1.5 for one in told['corrections']), told['corrections'])

    def test_a_heel_opened_is_to_be_closed(self):
        file, report = plan('plain-front', 'RF')
        for gap in (5, -5):
            error = forge.Error(opened=(gap / 2, gap / 2))
            told = compare(file, forge.seen(report, [r + error.move(r) for r in rings_of(report)], 'RF', angle=-2))
            first = told['corrections'][0]
            self.assertEqual(first['kind'], 'heel')
            self.assertGreater(first['mm'] * gap, 0)
            self.assertIn('close them' if gap > 0 else 'open them', first['text'])
            summary = told['summary']
            self.assertAlmostEqual(summary['heel_gap_mm'] - summary['planned_heel_gap_mm'], gap, delta=0.4)
            self.assertLessEqual(len(told['corrections']), 6)

    @staticmethod
    def bent_and_cut(report, degrees, short):
        """Both branches bent open at the quarters as stiff pieces, which keeps every web, and their ends cut off square so
        far ahead of the heels along the outer edge."""
        outer = np.array(report['shoe']['outer_mm'])
        whole = Polygon(forge.dense(report['shoe']['figure_mm'][0]))
        for branch, edge in (('medial', outer), ('lateral', outer[::-1])):
            line = LineString(edge)
            at, ahead = (np.array(line.interpolate(short + more).coords[0]) for more in (0, 4))
            back = (at - ahead) / np.hypot(*(at - ahead))
            side = np.array([-back[1], back[0]])
            whole = whole.difference(Polygon([at + 60 * side, at - 60 * side, at - 60 * side + 60 * back, at + 60 * side + 60 * back])
                                     .intersection(box(*((-200, -200, 0, 0) if branch == 'medial' else (0, -200, 200, 0)))))
        ring = forge.dense(np.array(max(getattr(whole, 'geoms', [whole]), key=lambda g: g.area).exterior.coords)[:-1])
        for sign in (-1, 1):
            mine = ring[:, 0] * sign > 0
            turn = np.radians(degrees) * sign * forge.ramp((35 - ring[:, 1]) / 25)
            pivot = np.array([sign * 52, 22])
            away = ring - pivot
            turned = pivot + np.column_stack((np.cos(turn) * away[:, 0] - np.sin(turn) * away[:, 1],
                                              np.sin(turn) * away[:, 0] + np.cos(turn) * away[:, 1]))
            ring[mine] = turned[mine]
        return ring if forge.area(ring) > 0 else ring[::-1]

    def test_an_open_short_shoe_keeps_its_webs(self):
        """One that stands open and short is told to be closed and drawn out, in this order, and nothing of its webs, which are
        as planned; each figure of the list is a row of the table and a member of the JSON."""
        file, report = plan('plain-front', 'RF')
        outer = LineString(report['shoe']['outer_mm'])
        inner = LineString(report['shoe']['inner_mm'])
        for degrees, short in ((5, 0.01), (0, 9), (6, 9), (2, 10), (-4, 7)):
            ring = self.bent_and_cut(report, degrees, short)
            one = forge.seen(report, [ring], 'RF', angle=1)
            with self.subTest(degrees=degrees, short=short):
                told = compare(file, one)
                summary = told['summary']
                for web in summary['web'][:3]:
                    self.assertAlmostEqual(web['web_mm'], web['planned_web_mm'], delta=0.4)
                for web, from_end in zip(summary['web'][3:], (short + 12, outer.length - short - 12)):
                    self.assertAlmostEqual(web['web_mm'], inner.distance(outer.interpolate(from_end)), delta=0.4)
                # the edge outside of what a branch turns about is shorter by that as it opens
                away = [max(abs(p[0]) for p in report['shoe']['outer_mm'] if p[0] * sign > 0) - 52 for sign in (-1, 1)]
                for heel, outside in zip(summary['heels'], away):
                    self.assertAlmostEqual(heel['along_edge_mm'] - heel['planned_along_edge_mm'],
                                           -short - math.radians(degrees) * outside, delta=0.8)
                kinds = [c['kind'] for c in told['corrections']]
                self.assertEqual(kinds, ['heel'] * (degrees != 0) + ['length', 'length'] * (short > 1), told['corrections'])
                if degrees:
                    self.assertGreater((summary['across_mm'] - summary['planned_across_mm']) * degrees, 0)
                self.told_alike(file, one, told)

    def told_alike(self, file, one, told):
        folder = os.path.join(HERE, 'alike')
        subprocess.run([PRITCHEL, 'compare', file, written(one), '-o', folder], env=ENV, check=True, capture_output=True)
        with open(os.path.join(folder, 'compare.txt'), encoding='utf-8') as text:
            lines = text.read().splitlines()
        rows = {'heel': 'Middle to middle', 'length': 'Branch along its outer edge, '}
        summary = told['summary']
        for c in told['corrections']:
            branch = c.get('branch', '')
            heel = summary['heels'][branch == 'lateral']
            mine = {'heel': summary['across_mm'] - summary['planned_across_mm'],
                    'length': heel['along_edge_mm'] - heel['planned_along_edge_mm']}[c['kind']]
            self.assertAlmostEqual(c['mm'], mine, delta=0.002)
            row = next(line for line in lines if line.startswith(rows[c['kind']] + branch))
            figure = row.split('  ')[-1].strip().lstrip('+−')
            self.assertIn(figure, c['text'])
            self.assertTrue(any(c['text'] in line for line in lines))

    def test_the_plan_has_the_figures_of_its_card(self):
        """Heel to heel and toe to heel as the card has them: between the corners of the cut before it is rounded, which are the
        ends of the outer edge."""
        for style, foot in (('plain-front', 'RF'), ('plain-hind', 'RH')):
            file, report = plan(style, foot)
            summary = compare(file, forge.seen(report, rings_of(report), foot))['summary']
            ends = report['shoe']['outer_mm'][0], report['shoe']['outer_mm'][-1]
            self.assertAlmostEqual(summary['planned_heel_width_mm'], math.dist(*ends), delta=0.02)
            for heel in summary['heels']:
                step = report['dividers'][heel['branch']]['steps'][-1]
                self.assertEqual(step['id'], 'heel.' + heel['branch'])
                self.assertAlmostEqual(heel['planned_toe_to_heel_mm'], step['straight_mm'], delta=0.05)

    def test_a_branch_left_long(self):
        file, report = plan('plain-front', 'RF')
        ring = rings_of(report)[0]
        longer = ring.copy()
        for i, p in enumerate(ring):
            if p[0] > 0 and p[1] < -30:
                longer[i, 1] -= 5 * min(1, (-30 - p[1]) / 25)
        told = compare(file, forge.seen(report, [longer], 'RF', angle=1))
        heel = told['summary']['heels'][1]
        self.assertAlmostEqual(heel['past_buttress_mm'] - heel['planned_past_buttress_mm'], 5, delta=0.5)
        self.assertTrue(any(one['kind'] == 'length' and one['branch'] == 'lateral' and one['mm'] > 3
                            for one in told['corrections']), told['corrections'])

    def test_a_level_cut_has_one_end(self):
        """However rough the edge is, toe to heel does not jump from one corner of the cut to the other."""
        file, report = plan('plain-front', 'RF')
        chance = np.random.default_rng(2)
        for _ in range(6):
            ring = rings_of(report)[0]
            rough = ring + forge.normals(ring) * chance.normal(0, 0.08, (len(ring), 1))
            heels = compare(file, forge.seen(report, [rough], 'RF', angle=chance.uniform(-3, 3)))['summary']['heels']
            self.assertAlmostEqual(heels[0]['planned_toe_to_heel_mm'], heels[1]['planned_toe_to_heel_mm'], delta=0.3)
            for heel in heels:
                self.assertAlmostEqual(heel['toe_to_heel_mm'], heel['planned_toe_to_heel_mm'], delta=0.6)

    def test_nails(self):
        file, report = plan('plain-front', 'LF')
        holes = np.array([nail['at_mm'] for nail in report['shoe']['nails']])
        holes[0] += [2.5, 0]
        told = compare(file, forge.seen(report, rings_of(report), 'LF', angle=2, nails=holes))
        off = [nail['off_mm'] for nail in told['summary']['nails']]
        self.assertEqual(len(off), len(holes))
        self.assertAlmostEqual(off[0], 2.5, delta=0.05)
        self.assertLess(max(off[1:]), 0.05)
        self.assertEqual([one['kind'] for one in told['corrections']], ['nail'])

    def test_what_is_in_doubt_does_not_count(self):
        file, report = plan('plain-front', 'LF')
        ring = rings_of(report)[0].copy()
        bump = np.hypot(*(ring - ring[np.argmin(np.hypot(*(ring - [60, -10]).T))]).T) < 12
        ring[bump] += 6 * forge.normals(ring)[bump]
        one = forge.seen(report, [ring], 'LF', angle=2)
        plain = compare(file, one)
        self.assertGreater(abs(plain['summary']['outer']['max_mm']), 4)
        line = np.array(one['seen']['outer_mm'])
        along = np.concatenate(([0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
        there = [along[i] for i, p in enumerate(line)
                 if min(np.hypot(*(np.array(plain['seen']['outer_mm'][i]) - [60, -10]).T), 99) < 22]
        one['seen']['doubt'] = [{'edge': 'outer', 'from_mm': min(there), 'to_mm': max(there), 'why': 'a shadow'}]
        told = compare(file, one)
        self.assertLess(abs(told['summary']['outer']['max_mm']), 0.3)
        self.assertTrue(any(o.get('doubt') for o in told['offsets']))

    def test_the_other_foot_is_asked_about(self):
        shape = forge.outline(bulge=9)
        file, report = forge.plan(PRITCHEL, os.path.join(HERE, 'odd'), 'plain-front', 'RF', shape=shape, env=ENV)
        rings = rings_of(report)
        one = forge.seen(report, rings, 'RF', face='ground')
        compare(file, one)
        wrong = [PRITCHEL, 'compare', file, written(one), '--face', 'foot', '-o', os.path.join(HERE, 'none')]
        done = subprocess.run(wrong, env=ENV, check=False, capture_output=True, text=True)
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr, r'\Apritchel: [^\n]*mirror[^\n]*\n\Z')
        self.assertFalse(os.path.exists(os.path.join(HERE, 'none')))
        self.assertTrue(compare(file, one, '--face', 'foot', '--as-told')['laid']['mirrored'])

    def test_ways_to_lay_it(self):
        file, report = plan('plain-front', 'RF')
        error = forge.Error(opened=(0, 4), ahead=2)
        one = forge.seen(report, [r + error.move(r) for r in rings_of(report)], 'RF', angle=1)
        heels = compare(file, one, '--lay', 'heels')
        ring = np.array(ring_seen(heels)[0])
        low = [ring[(ring[:, 0] * side) > 0][:, 1].min() for side in (-1, 1)]
        planned = np.array(report['shoe']['figure_mm'][0])
        want = [planned[(planned[:, 0] * side) > 0][:, 1].min() for side in (-1, 1)]
        self.assertAlmostEqual(low[1] - low[0], want[1] - want[0], delta=0.05)
        toe = compare(file, one, '--lay', 'toe')
        first = min((o for o in toe['offsets'] if o['edge'] == 'outer'), key=lambda o: o['place_mm'])
        self.assertLess(abs(first['off_mm']), 0.05)
        best = compare(file, one)
        self.assertLess(best['laid']['rms_mm'], min(heels['laid']['rms_mm'], toe['laid']['rms_mm']))

    def test_without_a_thickness_nothing_finer_is_claimed(self):
        file, report = plan('plain-front', 'RF')
        error = forge.Error(opened=(2.8, 2.8))
        rings = [r + error.move(r) for r in rings_of(report)]
        self.assertEqual(compare(file, forge.seen(report, rings, 'RF'))['summary']['state'], 'mend')
        self.assertEqual(compare(file, forge.seen(report, rings, 'RF', thickness=10))['laid']['coarse'], False)
        small = forge.Error(opened=(1.2, 1.2))
        rings = [r + small.move(r) for r in rings_of(report)]
        told = compare(file, forge.seen(report, rings, 'RF', thickness=0))
        self.assertTrue(told['laid']['coarse'])
        self.assertEqual(told['corrections'], [])

    def test_files(self):
        file, report = plan('toe-extension', 'RF')
        error = forge.Error(opened=(0, 4), aside=(2, 0))
        one = forge.seen(report, [r + error.move(r) for r in rings_of(report)], 'RF', angle=1)
        folder = os.path.join(HERE, 'out')
        done = subprocess.run([PRITCHEL, 'compare', file, written(one), '-o', folder, '--horse', 'Bramble'], env=ENV,
                              check=True, capture_output=True, text=True)
        self.assertEqual(sorted(os.listdir(folder)), ['compare.pdf', 'compare.png', 'compare.txt'])
        with open(os.path.join(folder, 'compare.txt'), encoding='utf-8') as text:
            self.assertEqual(text.read().strip(), done.stdout.strip())
        with open(os.path.join(folder, 'compare.pdf'), 'rb') as pdf:
            self.assertIn(b'/PrintScaling', pdf.read())

    def test_bad_input(self):
        file, report = plan('plain-front', 'RF')
        whole = forge.seen(report, rings_of(report), 'RF')
        bar, bar_report = plan('egg-bar', 'RF')
        rows = [({'seen': {}}, 1, 'does not hold the edges'), ({'outline_mm': forge.outline()}, 1, 'does not hold the edges'),
                ({'seen': dict(whole['seen'], outer_mm=[[0, 0], [1, 'x']])}, 1, 'does not hold the edges'),
                ({'seen': dict(whole['seen'], outer_mm=[[1e9, 0]] * 9)}, 1, 'does not hold the edges'),
                ({'seen': dict(whole['seen'], outer_mm=whole['seen']['outer_mm'][:4])}, 1, 'No whole edge'),
                (forge.seen(bar_report, rings_of(bar_report), 'RF'), 1, 'closed behind'),
                (forge.seen(report, [forge.dense([[0, 0], [300, 0], [300, 40], [0, 40]])], 'RF'), 1, 'nothing like'),
                (whole, 2, 'No shoe is')]
        for one, status, says in rows:
            more = ['-t', '90mm'] if status == 2 else []
            done = subprocess.run([PRITCHEL, 'compare', file, written(one), '-o', os.path.join(HERE, 'bad'), *more], env=ENV,
                                  check=False, capture_output=True, text=True)
            self.assertEqual(done.returncode, status, (says, done.stderr))
            self.assertRegex(done.stderr, r'\Apritchel[^\n]{20,}\n\Z')
            self.assertIn(says, done.stderr)
            self.assertEqual(done.stdout, '')
            self.assertFalse(os.path.exists(os.path.join(HERE, 'bad')))

    def test_no_edges_however_odd_bring_it_down(self):
        file, report = plan('plain-front', 'RF')
        chance = np.random.default_rng(8)
        whole = forge.seen(report, rings_of(report), 'RF')['seen']
        for i in range(40):
            one = json.loads(json.dumps(whole))
            for edge in ('outer_mm', 'inner_mm'):
                points = np.array(one[edge])
                some = chance.integers(0, len(points), 30)
                if i % 4 == 0:
                    points[some] = points[some[0]]                    # many in one place
                elif i % 4 == 1:
                    points[some] += chance.normal(0, 10 ** chance.uniform(-1, 3), (30, 2))
                elif i % 4 == 2:
                    points = points[np.sort(some)]                    # few are left
                else:
                    points = points[chance.permutation(len(points))]  # in no order: hundreds of metres
                one[edge] = np.clip(points, -9999, 9999).tolist()
            done = subprocess.run([PRITCHEL, 'compare', file, written({'seen': one}), '--json', '-'], env=ENV, check=False,
                                  capture_output=True, text=True, timeout=20)
            self.assertIn(done.returncode, (0, 1), done.stderr)
            if done.returncode == 0:
                json.loads(done.stdout)
            else:
                self.assertRegex(done.stderr, r'\Apritchel[^\n]{20,}\n\Z')
            done = subprocess.run([PRITCHEL, 'plan', written({'seen': one}), '--specimen', '--foot', 'RF', '--anyway', '-o',
                                   os.path.join(HERE, 'odd')], env=ENV, check=False, capture_output=True, text=True, timeout=20)
            self.assertIn(done.returncode, (0, 1), done.stderr)


unittest.main(argv=sys.argv[:1], verbosity=2)
