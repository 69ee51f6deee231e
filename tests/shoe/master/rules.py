# SPDX-License-Identifier: GPL-3.0-or-later
"""What a master looks at, one function a rule: each takes a Shoe and yields a few words for whatever fails. W is the
foot's greatest width. The limits are what the trade expects of a finished shoe; most are common practice, no source."""
import math

import numpy as np
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import substring

from shoes import SIDES, cross, is_contest, number, pieces
from volume import toe_at, volume

INCH = 25.4
COVER = 0.09                    # of W, at the buttress and COVER_BEHIND mm behind it
COVER_BEHIND = 2
HEEL_CUT = 10                   # degrees
QUARTER_CLIP = (40, 50)         # degrees of the wall's outward normal off the centre line
CORNER_CLIP = (35, 50)          # where the clip is drawn from the corner of an extension
CLIP_CLEAR = 3                  # mm from a nail's head
APEX = (10, 20)                 # mm from the heart's tip forward to the frog's apex
PLATE_OFF = 1.0                 # mm: middle of the plate off the frog's axis
PLATE_WIDER = 0.5               # mm: how exactly a frog's edge is known
CORNER = 4                      # mm: least radius of a concave corner
CORNER_AREA = 0.3               # mm2 that closing by it adds: a right angle of 3.8 mm radius adds as much
ROOT = 8.5                      # mm ahead of the opening's rear end that the fillets of the plate's root may take
SLOT = 0.0225                   # of W: half the least gap between branch and frog; there fillets can be no larger
NOTCH = 10                      # mm2
WEB, WEB_EXTENSION = (0.15, 0.21), (0.15, 0.24)
RIM = 0.03                      # of W, from crease to outer edge
SPACING, SPACING_EXTENSION, SPACING_HEAVY, SPACING_OFF = 0.20, 0.18, 0.16, 0.03
EXTENSION_WIDE = (0.44, 0.52)
SMALL, MEDIUM, HEAVY = 105, 120, 150     # mm of W; up to MEDIUM a foot is either
VOLUME = 0.002
CONTEST = {'shoe': 9.75, 'extension': 3.25}     # inches of the bar
CONTEST_OFF = 0.5


def findings(shoe, state):
    return [f for f in shoe.report['checks'] if f['state'] == state]


def rule_drawn(shoe):
    if not shoe.told['simple']:
        yield shoe.told['trouble'] or 'figure crosses itself'
    elif len(pieces(shoe.figure)) != 1:
        yield f'{len(pieces(shoe.figure))} pieces'


def rule_mend(shoe):
    for finding in findings(shoe, 'mend'):
        yield finding['id']


def is_guess(finding):
    """That the wall is a guess is looked at anyway."""
    return 'guess' in finding['id'] or finding['id'] in ('wall', 'wall.default', 'wall.assumed')


def is_of_given_bar(shoe, finding):
    """In a contest the bar is handed out, however much it has to be drawn."""
    return is_contest(shoe.style) and finding['id'] == 'iron.draw'


def rule_look(shoe):
    """What is told of both branches is one thing to look at."""
    looks = {f['id'].removesuffix('.medial').removesuffix('.lateral') for f in findings(shoe, 'look')
             if not is_guess(f) and not is_of_given_bar(shoe, f)}
    if len(looks) > 1:
        yield ', '.join(sorted(looks))


def rule_guess(shoe):
    if not any(is_guess(f) for f in shoe.report['checks']):
        yield 'nothing says that the wall is a guess'


def rule_figures(shoe):
    """A verdict that its own figures do not bear out."""
    for finding in shoe.report['checks']:
        text, _, limit = finding['text'].rpartition('(')
        if finding['state'] != 'fits' and limit and set(number(limit)) & set(number(text)):
            yield f"{finding['id']}: {finding['text']}"


def rule_frame(shoe):
    """The centre line is the frog's axis."""
    apex, back, _ = shoe.frog()
    turn = math.degrees(math.atan2(apex[0] - back[0], apex[1] - back[1]))
    if abs(turn) > 1 or abs(apex[0]) > 1:
        yield f'{turn:.1f} deg, {apex[0]:.1f} mm off the frog'


# --- heels ---------------------------------------------------------------------------------


def rule_cover(shoe):
    if not shoe.open:
        return
    for side in SIDES:
        x, y = shoe.buttress[side]
        for behind in (0, COVER_BEHIND):
            ends = [(a, b) for a, b in cross(shoe.figure, y - behind) if (a + b) * x > 0]
            wide = max((b - a for a, b in ends), default=0)
            if wide < COVER * shoe.width:
                yield f'{side[0].upper()} {behind} behind: {wide:.2f} of {COVER * shoe.width:.2f} mm'


def heel_edge(shoe, side):
    """Direction of the finished heel's longest straight run that looks back, degrees in 0..180, and its length."""
    ring = np.array(max(pieces(shoe.figure), key=lambda p: p.area).exterior.normalize().coords)
    outer = shoe.outer.coords[0 if side == 'medial' else -1]
    inner = shoe.inner.coords[0 if side == 'medial' else -1]
    near = LineString([outer, inner]).buffer(4)
    best = (None, 0)
    for a, b in zip(ring, ring[1:]):
        if near.contains(Point((a + b) / 2)):
            d = b - a
            best = max(best, (math.degrees(math.atan2(d[1], d[0])) % 180, float(np.hypot(*d))), key=lambda e: e[1])
    return best


def branch_direction(shoe, side):
    """Of the last 15 mm of a branch, degrees."""
    last = []
    for line in (shoe.outer, shoe.inner):
        end = line.interpolate(0 if side == 'medial' else line.length)
        back = line.interpolate(15 if side == 'medial' else line.length - 15)
        last.append((end.x - back.x, end.y - back.y))
    x, y = np.sum(last, axis=0)
    return math.degrees(math.atan2(y, x))


def rule_heel(shoe):
    if not shoe.open:
        return
    for side in SIDES:
        cut, run = heel_edge(shoe, side)
        trailer = shoe.plan[f'heel.trailer.{side}'] > 0
        want = branch_direction(shoe, side) + 90 if trailer else 0
        if cut is None or run < 1:
            yield f'{side[0].upper()} no straight cut found'
            continue
        off = abs((cut - want + 90) % 180 - 90)
        if off > HEEL_CUT:
            yield f"{side[0].upper()} {off:.0f} deg{' (trailer)' if trailer else ''}"


# --- clips and nails -----------------------------------------------------------------------


def clip_normal(shoe, clip):
    """Off the centre line, degrees: of the outer edge over the clip's base."""
    at = shoe.outer.project(Point(clip['at_mm']))
    a, b = (shoe.outer.interpolate(at + d) for d in (-clip['base_mm'] / 4, clip['base_mm'] / 4))
    return abs(math.degrees(math.atan2(b.y - a.y, b.x - a.x)))


def at_corner(shoe, clip):
    """Drawn from the corner of the extension."""
    if not shoe.extension:
        return False
    at = shoe.outer.project(Point(clip['at_mm']))
    return min(abs(abs(shoe.outer.project(Point(p)) - at) - clip['base_mm'] / 2) for p in shoe.extension['line_mm']) < 5


def rule_clips(shoe):
    toe = [c for c in shoe.told['clips'] if abs(c['at_mm'][0]) < 0.06 * shoe.width]
    quarter = [c for c in shoe.told['clips'] if c not in toe]
    if 'clipped' in shoe.style or is_contest(shoe.style):
        want = (1, 0) if 'toe-clipped' in shoe.style else (0, 2)
        if (len(toe), len(quarter)) != want:
            yield f'{len(toe)} at the toe, {len(quarter)} at the quarters'
    for clip in toe:
        if abs(clip['at_mm'][0]) > 1:
            yield f"toe clip {clip['at_mm'][0]:.1f} mm off the centre"
    for clip in quarter:
        low, high = CORNER_CLIP if at_corner(shoe, clip) else QUARTER_CLIP
        angle = clip_normal(shoe, clip)
        if not low <= angle <= high:
            yield f"{clip['branch'][0].upper()} {angle:.0f} deg"


def head(nail):
    """The nail's head on the ground surface."""
    at, along = np.array(nail['at_mm']), np.array(nail['along'])
    l, w = along * nail['head_length_mm'] / 2, np.array([-along[1], along[0]]) * nail['head_width_mm'] / 2
    return Polygon([at + l + w, at - l + w, at - l - w, at + l - w])


def rule_clip_nail(shoe):
    """Along the edge, from the clip's edge to the nearer end of a head."""
    for clip in shoe.told['clips']:
        middle = shoe.outer.project(Point(clip['at_mm']))
        for nail in shoe.told['nails']:
            ends = [shoe.outer.project(Point(p)) - middle for p in head(nail).exterior.coords]
            gap = 0 if min(ends) < 0 < max(ends) else min(map(abs, ends)) - clip['base_mm'] / 2
            if gap < CLIP_CLEAR - 0.1:
                yield f"clip {clip['branch'][0].upper()}, nail {nail['index'] + 1} {nail['branch'][0].upper()}: {gap:.1f} mm"


def nails_wanted(shoe):
    """Fewest and most. Hunting: small 4-5, medium 5-7, heavy 8; clips let a heavy one do with 6."""
    if is_contest(shoe.style):
        return 6, 6
    if shoe.width < SMALL:
        return 4, 6 if shoe.extension else 5
    if shoe.width < HEAVY:
        return (4 if shoe.width < MEDIUM else 5), 7
    return (6, 8) if shoe.told['clips'] or shoe.extension else (8, 8)


def rule_nails(shoe):
    low, high = nails_wanted(shoe)
    if not low <= len(shoe.told['nails']) <= high:
        yield f"{len(shoe.told['nails'])} nails, {low} to {high} wanted"


def holds_clip(shoe, a, b, clips):
    """The gap that holds a clip is as wide as clip and head ask, not a spacing."""
    ends = sorted(shoe.outer.project(Point(p)) for p in (a, b))
    return any(ends[0] < clip < ends[1] for clip in clips)


def rule_spacing(shoe):
    want = [SPACING_EXTENSION if shoe.extension else SPACING]
    if shoe.told['clips'] and shoe.width >= HEAVY:
        want.append(SPACING_HEAVY)
    for side in SIDES:
        at = [np.array(n['at_mm']) for n in sorted(shoe.told['nails'], key=lambda n: n['index']) if n['branch'] == side]
        clips = [shoe.outer.project(Point(c['at_mm'])) for c in shoe.told['clips']]
        gaps = [float(np.hypot(*(b - a))) / shoe.width for a, b in zip(at, at[1:])
                if not holds_clip(shoe, a, b, clips)]
        off = [g for g in gaps if not min(want) - SPACING_OFF <= g <= max(want) + SPACING_OFF]
        if off:
            yield f"{side[0].upper()} {max(off, key=lambda g: abs(g - want[0])):.3f} W"


def rule_rim(shoe):
    """From the crease to the outer edge, and heads inside the crease's length."""
    for crease in shoe.told['crease']:
        line = LineString(crease['middle_mm'])
        body = substring(line, crease['width_mm'] / 2, line.length - crease['width_mm'] / 2)
        edge = min(body.distance(shoe.outer), body.distance(shoe.solid.exterior)) - crease['width_mm'] / 2
        if edge < RIM * shoe.width - 0.05:
            yield f"{crease['branch'][0].upper()} {edge:.2f} of {RIM * shoe.width:.2f} mm"


# --- figure --------------------------------------------------------------------------------


def rule_web(shoe):
    """At the toe, on the centre line, what an extension adds left out."""
    outer = shoe.outer.interpolate(toe_at(shoe))
    inner = [y for y in crossings(shoe.inner) if y < outer.y]
    low, high = WEB_EXTENSION if shoe.extension else WEB
    share = (outer.y - max(inner, default=outer.y)) / shoe.width
    if not low - 5e-4 <= share <= high + 5e-4:
        yield f'{share:.3f} W'


def crossings(line):
    """Heights at which LINE crosses the centre line."""
    return [y0 + (y1 - y0) * x0 / (x0 - x1) for (x0, y0), (x1, y1) in zip(line.coords, line.coords[1:])
            if (x0 < 0) != (x1 < 0)]


def closing(shape, radius):
    """What closing by RADIUS adds, piece by piece."""
    closed = shape.buffer(radius, 32).buffer(-radius, 32)
    return [part for part in pieces(closed.difference(shape.buffer(0.02))) if part.area > CORNER_AREA]


def rule_corner(shoe):
    found = closing(shoe.figure, CORNER)
    if shoe.plan['bar'] == 'heart' and SLOT * shoe.width < CORNER:
        # a slot narrower than twice the radius is filled whole: there the fillets are as large as it takes
        narrow = closing(shoe.figure, SLOT * shoe.width)
        found = [part for part in found if part.area < 15 or any(part.intersects(n) for n in narrow)]
    for part in found:
        at = part.representative_point()
        yield f'{shoe.place((at.x, at.y))} ({at.x:.0f}, {at.y:.0f}) {part.area:.1f} mm2'


def rule_notch(shoe):
    if shoe.open:
        return
    gap = shoe.solid.convex_hull.difference(shoe.solid)
    behind = 0
    for side in SIDES:
        x, y = shoe.buttress[side]
        behind += gap.intersection(box(min(0, 300 * x), -400, max(0, 300 * x), y)).area
    if behind > NOTCH:
        yield f'{behind:.0f} mm2'


def plate_at(figure, y):
    """The stretch of the cross-line at Y that is the plate: what holds the frog's axis."""
    return next(((a, b) for a, b in cross(figure, y) if a <= 0 <= b), None)


def rule_heart(shoe):
    if shoe.plan['bar'] != 'heart':
        return
    holes = sum(len(part.interiors) for part in pieces(shoe.figure))
    if holes != 1:
        yield f'{holes} openings'
    apex, back, half = shoe.frog()
    figure, length = shoe.on_frog(shoe.figure), float(np.hypot(*(apex - back)))
    axis = figure.intersection(LineString([(0, -400), (0, 0.3 * shoe.width)]))
    runs = sorted((g.bounds[1], g.bounds[3]) for g in getattr(axis, 'geoms', [axis]) if isinstance(g, LineString))
    runs = [r for r in runs if r[0] < -5]
    if len(runs) != 1:
        yield f'not one solid plate on the frog\'s axis ({len(runs)} parts)'
    if not runs:
        return
    tip = -runs[0][1]
    if not APEX[0] - 0.05 <= tip <= APEX[1] + 0.05:
        yield f'tip {tip:.1f} mm behind the apex'
    yield from plate_sides(figure, tip, length, half)


def plate_sides(figure, tip, length, half):
    """From behind the tip to where the root's fillets begin: on the axis, and no wider than the frog."""
    off = wider = 0
    rear = min((hole.bounds[1] for part in pieces(figure) for hole in part.interiors), default=-length)
    for y in np.arange(-tip - 1, rear + ROOT, -1.0):
        ends = plate_at(figure, y)
        if ends:
            off = max(off, abs(ends[0] + ends[1]) / 2)
            wider = max(wider, max(ends[1], -ends[0]) - half * -y / length)
    if off > PLATE_OFF:
        yield f'{off:.1f} mm off the axis'
    if wider > PLATE_WIDER:
        yield f"{wider:.1f} mm over the frog's edge"


# --- extension and iron --------------------------------------------------------------------


def rule_extension(shoe):
    if 'extension' in shoe.style and 'toe' in shoe.style and not shoe.extension:
        yield 'there is none'
    if not shoe.extension:
        return
    corner, line = np.array(shoe.extension['corner_mm']), np.array(shoe.extension['line_mm'])
    for name, (a, b) in (('front', corner[1:3]), ('line', line)):
        turn = abs((math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) + 90) % 180 - 90)
        if turn > 1:
            yield f'{name} {turn:.1f} deg off square'
        if abs(a[0] + b[0]) / 2 > 1:
            yield f'{name} {(a[0] + b[0]) / 2:.1f} mm off the middle'
    share = shoe.extension['width_mm'] / shoe.width
    if not EXTENSION_WIDE[0] <= share <= EXTENSION_WIDE[1]:
        yield f'{share:.2f} W wide'


def rule_volume(shoe):
    told = shoe.report['iron']['volume_mm3']
    counted, lacks = volume(shoe)
    if counted is None:
        yield 'the report lacks ' + lacks
    elif abs(told / counted - 1) > VOLUME:
        yield f'{(told / counted - 1) * 100:+.2f} %'


def rule_contest(shoe):
    """Of a shoe laid out of the given bar."""
    if not shoe.report['iron']['given_mm']:
        return
    if not is_contest(shoe.style):
        yield 'no style of its own; ' + shoe.style
    for piece in shoe.report['iron']['pieces']:
        want, have = CONTEST.get(piece['id']), piece['length_mm'] / INCH
        if want is None or abs(have - want) > CONTEST_OFF:
            yield f"{piece['id']} {have:.2f} in"
    if shoe.report['iron']['spare_mm'] < -INCH / 32:
        yield f"{-shoe.report['iron']['spare_mm'] / INCH:.2f} in short"


RULES = {name[5:].replace('_', '-'): rule for name, rule in globals().items() if name.startswith('rule_')}


def judge(shoe):
    """Rule -> what fails, for every rule that fails."""
    failed = {}
    for name, rule in RULES.items():
        words = list(rule(shoe))
        if words:
            failed[name] = words
    return failed
