# SPDX-License-Identifier: GPL-3.0-or-later
"""What is on the board is seen for what it is: a handle on which the pointer rests says its name, and is drawn as what it
is however the shoe changes under it; the ring round a finding's place goes with the finding; a shoe that outgrows the view
has it fitted anew, clear of the buttons; and a list of findings lies beside the places it tells of."""
import subprocess
import sys

import drive

SQUARE = ('Nail', 'Start of the crease', 'End of the crease')
HALF = 4                       # px from a handle's middle to its edge
RING = 20                      # px: its radius
STYLES = ('egg-bar', 'toe-extension-clipped', 'heart-bar', 'plain-front')


class Screen:
    """As it is now, pixel by pixel, in the window's own places."""

    def __init__(self, app):
        left, top, width, height = drive.geometry(app.xid)
        self.data = subprocess.run(['import', '-window', 'root', '-crop', f'{width}x{height}+{left}+{top}', '-depth', '8',
                                    'rgb:-'], check=True, capture_output=True).stdout
        self.width = width

    def at(self, x, y):
        i = 3 * (y * self.width + x)
        return tuple(self.data[i:i + 3])


def handles(app):
    return [node for node in app.find('Board').kids() if node.role == 'push button']


def alike(one, other):
    return max(abs(a - b) for a, b in zip(one, other)) < 40


def lies_free(app, node, places):
    return all(one is node or abs(x - places[node][0]) + abs(y - places[node][1]) > 26 for one, (x, y) in places.items())


def is_square(screen, x, y):
    """Its corners have the colour of its edge."""
    edge = screen.at(x + HALF, y)
    return sum(alike(edge, screen.at(x + dx, y + dy)) for dx in (-HALF, HALF) for dy in (-HALF, HALF)) >= 3


def drawn_as_what_they_are(app):
    app.point(app.window.box().width // 2, 8)
    places = {node: app.middle(node) for node in handles(app)}
    screen = Screen(app)
    free = [node for node in places if lies_free(app, node, places)]
    wrong = [node.name for node in free if is_square(screen, *places[node]) != node.name.startswith(SQUARE)]
    assert not wrong and len(free) > 8, (wrong, len(free))


def is_named_at_rest(app):
    """The bubble has two lines; a hand that only passes by sees none."""
    node = app.find('Web at the toe')
    x, y = app.middle(node)
    app.go_to(x, y)
    bubble = drive.wait_for('its name', lambda: next(
        (one for one in app.walk() if one.role == 'label' and one.name.startswith('Web at the toe\n') and one.seen()), None))
    app.picture('named')
    assert app.value(node) in bubble.name
    app.point(app.window.box().width // 2, 8)
    drive.wait_for('the name to go', lambda: not any(one.name.startswith('Web at the toe\n') and one.seen()
                                                     for one in app.walk() if one.role == 'label'))


def amber(screen, x, y):
    """How many of the places on a ring round there have its colour: the light look's amber."""
    around = [(RING, 0), (-RING, 0), (0, RING), (0, -RING), (14, 14), (-14, 14), (14, -14), (-14, -14)]
    return sum(any(alike(screen.at(x + dx + i, y + dy + j), (0x8a, 0x52, 0)) for i in (-1, 0, 1) for j in (-1, 0, 1))
               for dx, dy in around)


def ringed(app):
    """Handles with a ring round them."""
    return [node for node in handles(app) if amber(Screen(app), *app.middle(node)) >= 6]


def lies_beside_its_places(app, line):
    """The list is a window of its own; its findings are at the heels."""
    popover = line
    while popover.name != 'GtkPopover':
        popover = popover.parent
    left, top, _, _ = drive.geometry(app.xid)
    xid = drive.wait_for('the list', lambda: [one for one in drive.windows('--class', 'pritchel') if one != app.xid])[-1]
    x, y, width, height = drive.geometry(xid)
    for side in ('medial', 'lateral'):
        hx, hy = app.middle(app.find('Heel, ' + side))
        assert not (x < left + hx < x + width and y < top + hy < y + height), (side, hx, hy, x, y, width, height)


def ring_goes_with_its_finding(app):
    """Heels that are not level are shown at one of them; level again, there is nothing to show."""
    heel = app.find('Heel, medial')
    before = app.value(heel)
    app.drag(heel, 0, 48)
    app.wait_value(heel, lambda now: drive.number(now) > drive.number(before) + 5)
    app.click(next(node for node in app.walk() if node.role == 'push button' and node.name.startswith('heels')))
    line = drive.wait_for('the finding', lambda: next(
        node for node in app.walk() if node.role == 'label' and node.name.startswith('One heel ends') and node.seen()))
    app.picture('findings')
    lies_beside_its_places(app, line)
    app.click_popup(line)
    app.point(app.window.box().width // 2, 8)
    drive.wait_for('the ring', lambda: 'Heel' in ringed(app)[0].name)
    app.picture('ringed')
    drive.key('ctrl+z')
    app.wait_value(heel, lambda now: now == before)
    drive.wait_for('the ring to go', lambda: not ringed(app))


def fits(app):
    """Every handle of the edge, and the letters beyond, on the board; none under the buttons."""
    board = app.at_rest(app.find('Board'))
    bar = app.find('Zoom out', 'push button').parent.box()
    for node in handles(app):
        box = app.at_rest(node)
        assert box.x > board.x + 8 and box.x + box.width < board.x + board.width - 8, (node.name, box, board)
        assert box.y > board.y + 8 and box.y + box.height < board.y + board.height - 8, (node.name, box, board)
        middle = box.x + box.width // 2, box.y + box.height // 2
        assert middle[0] > bar.x + bar.width or middle[1] < bar.y, (node.name, box, bar)


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    drawn_as_what_they_are(app)
    is_named_at_rest(app)
    ring_goes_with_its_finding(app)
    for style in STYLES:
        app.choose_style(style)
        fits(app)
        drawn_as_what_they_are(app)
        app.picture('style-' + style)
    app.close()


drive.on_a_desk(main)
