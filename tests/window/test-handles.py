# SPDX-License-Identifier: GPL-3.0-or-later
"""Every handle of a shoe with clips and an extension, and of one with a bar, is taken with the pointer: it moves
what it is called after and nothing else, is in the book when let go, and one step brings all back."""
import json
import math
import sys

import drive

# px, askew, so that each moves on the line it may move on: the edges up and out, the web across its branch,
# what sits on a branch down along it
OUT = (13, -19)
ACROSS = (22, 10)
ALONG = {'medial': (8, 18), 'lateral': (-8, 18)}
SEEN = 2               # px: it has moved

# what a handle is called -> what the parameters it moves begin with
MOVES = (('Web', 'web.'), ('Nail', 'nails.'), ('Start of the crease', 'crease.'), ('End of the crease', 'crease.'),
         ('Clip', 'clip'), ('Front of the extension', 'extension.'), ('Side of the extension', 'extension.'),
         ('Bar', 'bar.'), ('Heel quarter', 'edge.'), ('Heel', ('heel.', 'edge.heel.')), ('Toe', 'edge.'), ('Quarter', 'edge.'))


def plan():
    return json.loads(drive.peek_book('select json from plan'))


def trace():
    return json.loads(drive.peek_book('select json from trace'))


def handles(app):
    board = app.find('Board')
    return [node for node in board.kids() if node.role == 'push button']


def way(name, side):
    if name.startswith('Web'):
        return ACROSS
    return ALONG[side] if name.startswith(('Nail', 'Start', 'End', 'Clip')) else OUT


def is_taken(app, node):
    name = node.name
    side = next((side for side in ('medial', 'lateral') if name.endswith(side)), None)
    prefix = next(prefix for start, prefix in MOVES if name.startswith(start))
    before, place, value = plan(), app.middle(node), app.value(node)
    app.drag(node, *way(name, side))
    after = drive.wait_for(f'"{name}" in the book', lambda: plan() != before and plan())
    moved = {key for key in after if after[key] != before.get(key)}
    assert all(key.startswith(prefix) for key in moved), (name, moved)
    other = {'medial': 'lateral', 'lateral': 'medial'}.get(side, '-')
    assert not any(key.endswith(other) for key in moved), (name, moved)
    now = app.middle(node)
    assert max(abs(now[0] - place[0]), abs(now[1] - place[1])) > SEEN, (name, place, now)
    app.wait_value(node, lambda text: text != value)
    drive.key('ctrl+z')
    drive.wait_for(f'"{name}" as before', lambda: plan() == before)
    app.wait_value(node, lambda text: text == value)


def far(a, b):
    return math.hypot(a[0] - b[0], a[1] - b[1])


def marks_are_taken(app):
    """The demo's frog was read from its photo. Each mark goes as far as the pointer, however the foot turns meanwhile."""
    app.click(app.find('Measures', 'push button'))
    drive.wait_for('where the centre line comes from', lambda: app.says('by the frog'))
    switch = app.find('Move toe, buttress and frog marks')
    drive.wait_for('the switch', lambda: switch.seen())
    app.click(switch)
    drive.wait_for('the marks', lambda: app.is_there('Frog, apex'))
    heels = [app.find(f'Buttress, {side}', 'push button') for side in ('medial', 'lateral')]
    before = trace()
    places = [before['landmarks'][name] for name in ('heel_medial', 'heel_lateral')]
    mm = far(*places) / far(*(app.middle(node) for node in heels))
    for name, key in (('Frog, lateral edge', 'frog_lateral'), ('Frog, apex', 'frog_apex')):
        was = trace()['landmarks'][key]
        app.drag(app.find(name, 'push button'), 14, 9)
        now = drive.wait_for(f'"{name}" in the book', lambda: key in trace()['by_hand_mm'] and trace())
        assert abs(far(now['by_hand_mm'][key], was) - mm * math.hypot(14, 9)) < 0.5, (name, now['by_hand_mm'][key], was)
        assert now['hoof']['centre_line'] == 'frog'
    app.picture('marks-moved')
    for _ in range(2):
        drive.key('ctrl+z')
    drive.wait_for('the marks as they were', lambda: trace()['landmarks'] == before['landmarks'])
    app.click(switch)


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.choose_style('toe-extension-clipped')
    app.click(app.find('Zoom out', 'push button'))            # a view that stays as it is, however the shoe grows
    all_of_them = handles(app)
    kinds = {start for start, _ in MOVES if any(node.name.startswith(start) for node in all_of_them)}
    assert kinds == {start for start, _ in MOVES} - {'Bar'}, kinds
    for node in all_of_them:
        is_taken(app, node)
    app.picture('handles')
    app.choose_style('heart-bar')
    is_taken(app, app.find('Bar', 'push button'))
    marks_are_taken(app)
    app.close()


drive.on_a_desk(main)
