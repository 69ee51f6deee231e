# SPDX-License-Identifier: GPL-3.0-or-later
"""Bar into shoe: a slider that is hidden at first. Moved by pointer and by keyboard, the board shows what the iron is
at that moment of the work, and nothing to take hold of; at its end the iron that is seen is the shoe's; put away, the
shoe is there to be shaped again."""
import subprocess
import sys

import drive

SLIDER, BUTTON = 'From stock to shoe', 'From stock to shoe, heat by heat'


SEEN = 330          # px of the board's height that nothing covers, with the slider or without it


class Board:
    """What the board shows, pixel by pixel."""

    def __init__(self, app):
        box = app.find('Board').box()
        left, top, _, _ = drive.geometry(app.xid)
        size = f'{box.width}x{SEEN}+{left + app.x0 + box.x}+{top + app.y0 + box.y}'
        self.data = subprocess.run(['import', '-window', 'root', '-crop', size, '-depth', '8', 'rgb:-'], check=True,
                                   capture_output=True).stdout

    def count(self, colour):
        return sum(self.data[i:i + 3] == colour for i in range(0, len(self.data), 3))


def colour_at(app, x, y):
    left, top, _, _ = drive.geometry(app.xid)
    return subprocess.run(['import', '-window', 'root', '-crop', f'1x1+{left + x}+{top + y}', '-depth', '8', 'rgb:-'],
                          check=True, capture_output=True).stdout


def zoom(app):
    """Of the view, in hundredths of true size."""
    return next(drive.number(node.name) for node in app.walk() if node.role == 'label' and node.name.endswith('%') and node.seen())


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1280, 720)
    app.click(app.find('Photo', 'push button'))
    app.click(app.find('Zoom out', 'push button'))            # a view that stays as it is
    app.at_rest(app.find('Heel, medial'))
    outer, inner = (app.middle(app.find(name, 'push button')) for name in ('Toe', 'Web at the toe'))
    steel = colour_at(app, outer[0] + 14, (outer[1] + inner[1]) // 2)
    shoe, near = Board(app), zoom(app)
    assert shoe.count(steel) > 3000, 'the iron has not this colour'
    assert not any(node.name == SLIDER and node.seen() for node in app.walk())

    app.click(app.find(BUTTON, 'push button'))
    slider = app.find_seen(SLIDER, 'slider')
    app.wait_value(slider, lambda now: now == 'The bar stock')
    app.says('The bar stock')
    drive.wait_for('the handles to go', lambda: not app.is_there('Heel, medial'))
    app.picture('stages-bar')
    bar = Board(app)
    assert bar.data != shoe.data

    app.click(slider)                                         # the middle of the way
    half = app.wait_value(slider, lambda now: now.startswith('Heat '))
    drive.wait_for('another picture', lambda: Board(app).data != bar.data)
    before = Board(app)
    app.picture('stages-half')
    drive.key('Right', 'Right')
    drive.wait_for('the next picture', lambda: Board(app).data != before.data)
    drive.key('Page_Up', 'Page_Up')
    app.wait_value(slider, lambda now: now != half)
    x, y = app.middle(slider)
    before = app.value(slider)
    app.go_to(x, y)
    drive.xdo('mousedown', 1, 'mousemove_relative', 60, 0, 'mousemove_relative', 60, 0, 'mouseup', 1)
    app.wait_value(slider, lambda now: now != before)

    drive.key('End')
    app.wait_value(slider, lambda now: now == 'The finished shoe')
    # bar and shoe are seen whole, from as far away as that takes
    far = zoom(app) / near
    assert far < 0.95, far
    drive.wait_for('the shoe\'s iron', lambda: abs(Board(app).count(steel) / shoe.count(steel) / far ** 2 - 1) < 0.12)      # handles lie on one of them
    app.picture('stages-shoe')
    assert abs(bar.count(steel) / Board(app).count(steel) - 1) > 0.06, 'the bar is seen as the shoe is'

    app.click(app.find(BUTTON, 'push button'))
    drive.wait_for('the slider to go', lambda: not any(node.name == SLIDER and node.seen() for node in app.walk()))
    app.find_seen('Heel, medial')
    assert zoom(app) == near, 'the view that was chosen before is not had back'
    app.close()


drive.on_a_desk(main)
