# SPDX-License-Identifier: GPL-3.0-or-later
"""The Tracing part: a doubtful stretch is listed, a pen allowance moves the wall inward by half of it, the
true paper makes the foot as much larger, each can be undone; and a scale marked by hand and left again
changes nothing."""
import math
import os
import re
import subprocess

import drive

PEN_MM = 4


def scene(name, **keys):
    photo = drive.home() + f'/{name}.jpg'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, drive.home() + '/truth.json', 'width=1500',
                    'height=2000', *(f'{key}={value}' for key, value in keys.items())], check=True)
    return photo
TALL = (1466, 1260)      # all lines of the part are in sight


def size(app):
    """Width and length by the one line of the measures, which tells the length first."""
    for node in app.walk():
        found = re.match(r'([\d.]+) × ([\d.]+) mm · ', node.name or '')
        if found:
            return float(found[2]), float(found[1])
    return None


def undone(app, before):
    app.click(app.find('Undo', 'push button'))
    drive.wait_for('it undone', lambda: size(app) == before)


def pen_moves_the_wall(app, before):
    app.click(app.find_seen('Pen width', 'text'))
    drive.type_text(str(PEN_MM))
    drive.key('Return')
    after = drive.wait_for('a smaller hoof', lambda: size(app) != before and size(app))
    assert abs(before[0] - after[0] - PEN_MM) < 0.3, f'{before} -> {after}'
    undone(app, before)


def paper_scales_the_foot(app, before):
    app.choose(app.find_seen('Paper', 'combo box'), 'Down', 'Down')          # A4, Letter, A3
    after = drive.wait_for('a larger hoof', lambda: size(app) != before and size(app))
    for i in (0, 1):
        assert abs(after[i] / before[i] - math.sqrt(2)) < 0.01, f'{before} -> {after}'
    undone(app, before)


def paper_is_named(app, before):
    """A shape is no size: it is asked which paper it is, B5 and C5 among them, and the one already shown is an answer."""
    app.says('Which paper is it?')
    for paper in ('A4', 'A3', 'A5', 'B5', 'C5'):
        assert any(node.name.startswith(paper + ': foot ') for node in app.walk() if node.role == 'push button'), paper
    app.picture('which-paper')
    app.click(next(node for node in app.walk() if node.role == 'push button' and node.name.startswith('A4: foot ')))
    drive.wait_for('the question to go', lambda: not any(
        node.name == 'Which paper is it?' and node.seen() for node in app.walk()))
    drive.wait_for('no doubt of it', lambda: not any('say which paper' in node.name and node.seen() for node in app.walk()))
    assert size(app) == before
    app.click(app.find('Undo', 'push button'))
    app.says('Which paper is it?')


def marking_is_left(app, before):
    app.click(app.find_seen('Mark the scale by hand…', 'push button'))
    area = app.find('Photo to mark')
    drive.wait_for('the photo', lambda: area.seen())
    app.click(app.find('Cancel', 'push button'))
    app.find_seen('Heel, lateral')
    assert size(app) == before


def main():
    app = drive.App(scene('gap', tags=0, gap_mm=14, seed=21))
    app.into('Which foot?')
    app.click(app.find('near fore', 'push button'))
    app.back()
    app.fill_screen(*TALL)
    before = drive.wait_for('the measures', lambda: size(app))
    app.click(app.find('Tracing', 'label'))
    drive.wait_for('the doubt in words', lambda: any(
        'along the outline: no ink here' in node.name for node in app.walk()))
    pen_moves_the_wall(app, before)
    paper_scales_the_foot(app, before)
    paper_is_named(app, before)
    marking_is_left(app, before)
    app.close()


drive.on_a_desk(main, f'{TALL[0]}x{TALL[1]}')
