# SPDX-License-Identifier: GPL-3.0-or-later
"""What the program cannot find in a photo, a hand can: four corners are marked on a photo with no
scale to be found, and the hoof comes out as it was drawn; a line is drawn over a photo that has
none, a stretch of it drawn anew and undone; and nothing of it is lost between two starts."""
import json
import math
import os
import re
import subprocess
import sys

import drive

PAPER = (210, 297)


def scene(name, **keys):
    """A photo and the truth about it."""
    photo, truth = drive.home() + f'/{name}.jpg', drive.home() + f'/{name}.json'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, truth, 'width=1500', 'height=2000',
                    *(f'{key}={value}' for key, value in keys.items())], check=True)
    with open(truth) as text:
        return photo, json.load(text)


def to_photo(camera, x, y):
    """Sheet mm to photo pixels, by the formula in pr-camera.h."""
    h, c = camera['h'], camera['centre']
    w = h[6] * x + h[7] * y + h[8]
    q = ((h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w)
    r2 = ((q[0] - c[0]) ** 2 + (q[1] - c[1]) ** 2) / camera['radius'] ** 2
    return tuple(c[i] + (q[i] - c[i]) * (1 + camera['k1'] * r2) for i in (0, 1))


def numbers(text):
    return [float(word) for word in text.split(', ')[:2]]


def far(a, b):
    return math.hypot(a[0] - b[0], a[1] - b[1])


def drag_to(app, name, first, third, goal):
    """Drags the handle NAME onto the photo's pixel GOAL, FIRST and THIRD telling where pixels lie."""
    a, b = numbers(app.value(first)), numbers(app.value(third))
    p, q = app.middle(first), app.middle(third)
    scale = [(q[i] - p[i]) / (b[i] - a[i]) for i in (0, 1)]
    node = app.find(name)
    at = numbers(app.value(node))
    before = app.value(node)
    app.drag(node, round((goal[0] - at[0]) * scale[0]), round((goal[1] - at[1]) * scale[1]))
    app.wait_value(node, lambda now: now != before)
    return node


def corners_are_marked(app, truth):
    names = ['First corner', 'Second corner', 'Third corner', 'Fourth corner']
    first, third = app.find(names[0]), app.find(names[2])
    drive.wait_for('the points', lambda: app.value(third) and third.seen())
    app.picture('mark-begin')
    goals = [to_photo(truth['camera'], *corner)
             for corner in ((0, 0), (PAPER[0], 0), PAPER, (0, PAPER[1]))]
    for i in (1, 3):
        drag_to(app, names[i], first, third, goals[i])
    for i in (0, 2):
        # what is dragged now is measured against the two that lie where they belong
        drag_to(app, names[i], app.find(names[1]), app.find(names[3]), goals[i])
    for name, goal in zip(names, goals):
        got = numbers(drive.wait_for('an edge', lambda: app.value(app.find(name))))
        assert far(got, goal) < 3, f'{name} at {got}, the corner is at {goal}'
    return first, goals[0]


def keys_move_a_point(app, node):
    before = numbers(app.value(node))
    app.click(node)
    drive.key('Right')
    one = numbers(app.wait_value(node, lambda now: numbers(now) != before))
    drive.key('shift+Right')
    tenth = numbers(app.wait_value(node, lambda now: numbers(now) != one))
    drive.key('ctrl+Left')
    ten = numbers(app.wait_value(node, lambda now: numbers(now) != tenth))
    assert abs(one[0] - before[0] - 1) < 0.06 and abs(tenth[0] - one[0] - 0.1) < 0.06
    assert abs(tenth[0] - ten[0] - 10) < 0.06
    app.picture('mark-lens')
    drive.key('ctrl+Right', 'Left')


def lens_follows_a_drag(app, node):
    before = app.value(node)
    app.drag(node, 30, 20, release=False)
    app.picture('mark-drag')
    drive.key('Escape')
    app.wait_value(node, lambda now: numbers(now) == numbers(before))
    drive.xdo('mouseup', 1)


def scale_is_marked(app, truth):
    first, _ = corners_are_marked(app, truth)
    lens_follows_a_drag(app, first)
    keys_move_a_point(app, first)
    app.picture('mark-done')
    app.click(app.find('Use these points', 'push button'))
    app.find('Heel, lateral')
    app.into('Which foot?')
    app.click(app.find('near fore', 'push button'))
    app.back()
    app.find('Heel, lateral')
    app.picture('mark-traced')


def is_as_drawn(truth):
    hoof = kept()['hoof']
    line = [tuple(p) for p in truth['line']]
    wide = max(p[0] for p in line) - min(p[0] for p in line)
    assert abs(hoof['width_mm'] - wide) < 1.5, f"{hoof['width_mm']} mm wide, drawn {wide}"


def kept():
    return json.loads(drive.ask_book('select json from trace order by rowid desc limit 1'))


def stroke(app, area, points):
    """Draws with the pointer through POINTS, shares of the area's width and height."""
    box = app.at_rest(area)
    at = [(app.x0 + box.x + round(x * box.width), app.y0 + box.y + round(y * box.height))
          for x, y in points]
    app.point(*at[0])
    drive.xdo('mousedown', 1)
    for spot in at:
        app.point(*spot)
    app.picture('draw-stroke')
    drive.xdo('mouseup', 1)


def arch(middle_x, heel_y, half, high):
    """Heel to heel round the toe, as a hand would."""
    return [(middle_x - half * math.cos(math.pi * i / 24),
             heel_y - high * math.sin(math.pi * i / 24) ** 0.7) for i in range(25)]


def line_is_drawn(app):
    area = app.find('Photo to draw on')
    drive.wait_for('its place', lambda: area.seen())
    app.click(app.find('as I draw it'))
    app.picture('draw-begin')
    stroke(app, area, arch(0.5, 0.66, 0.085, 0.30))
    app.find('Heel, lateral')
    app.picture('draw-drawn')


def summary(app):
    """The one line of the measures."""
    for node in app.walk():
        if re.match(r'[\d.]+ × [\d.]+ mm · ', node.name or ''):
            return node.name
    return None


def stretch_is_drawn_anew_and_undone(app, truth):
    app.find('Heel, lateral')
    before = drive.wait_for('the measures', lambda: summary(app))
    app.click(app.find('Tracing'))
    app.click(app.find_seen('Draw the outline…'))
    area = app.find('Photo to draw on')
    drive.wait_for('its place', lambda: area.seen())
    app.click(app.find('as I draw it'))
    box = app.at_rest(area)
    scale = min((box.width - 48) / PAPER[0], (box.height - 48) / PAPER[1])
    line = truth['line'][len(truth['line']) // 4:3 * len(truth['line']) // 4]
    points = [(0.5 + scale * (x - PAPER[0] / 2) / box.width,
               0.5 + scale * (y - 5 - PAPER[1] / 2) / box.height)
              for x, y in line[::max(len(line) // 30, 1)]]
    stroke(app, area, points)
    after = drive.wait_for('a longer hoof', lambda: summary(app) != before and summary(app))
    app.picture('redrawn')
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: summary(app) == before)
    drive.key('ctrl+shift+z')
    drive.wait_for('it redone', lambda: summary(app) == after)
    app.click(app.find('Done', 'push button'))
    app.find('Heel, lateral')
    return after


def main():
    photo, truth = scene('two', tags=0, sheets=2, seed=5)
    app = drive.App(photo)
    scale_is_marked(app, truth)
    app.close()
    is_as_drawn(truth)

    photo, _ = scene('noline', no_line=1, seed=6)
    app = drive.App(photo)
    line_is_drawn(app)
    app.close()
    assert kept()['asked'] and len(kept()['outline_mm']) > 20

    photo, truth = scene('line', seed=7)
    app = drive.App(photo)
    after = stretch_is_drawn_anew_and_undone(app, truth)
    app.close()
    app = drive.App()
    drive.wait_for('what was drawn', lambda: summary(app) == after)
    app.close()


drive.on_a_desk(main)
