# SPDX-License-Identifier: GPL-3.0-or-later
"""What a person prefers is there at the next start, whichever book is open: unit, look, the book put aside, the
window's size and that it was maximized. The book holds none of it."""
import re
import subprocess
import sys

import drive

KEPT = {'GSETTINGS_BACKEND': 'keyfile'}      # in the desk's own XDG_CONFIG_HOME


def lines(app):
    """Of the menu, as they stand on the screen."""
    return [node.get_name() for node in app.walk() if 'menu item' in node.get_role_name() and app.seen(node)]


def choose(app, submenu, name):
    """In the main menu, by keyboard."""
    app.click(app.find('Board'))
    drive.key('F10')
    drive.wait_for('the menu', lambda: submenu in lines(app))
    drive.key(*['Down'] * lines(app).index(submenu), 'Return')
    drive.wait_for('what is in it', lambda: lines(app).count(submenu) == 2 and name in lines(app))
    inside = lines(app)
    back = len(inside) - 1 - inside[::-1].index(submenu)     # the way back has the keyboard
    drive.key(*['Down'] * (inside.index(name) - back), 'Return')
    drive.wait_for('the menu to go', lambda: not lines(app))


def size(app):
    words = dict(line.split('=') for line in drive.xdo('getwindowgeometry', '--shell', app.xid).split())
    return int(words['WIDTH']), int(words['HEIGHT'])


def book_is_shown(app):
    """Does anything stand to the left of the board?"""
    return app.find('Board').get_extents(app.atspi.CoordType.WINDOW).x > 100


def ground(app):
    """How bright the header is, 0 to 255: from the screen itself."""
    shot = subprocess.run(['import', '-window', app.xid, '-crop', '40x6+200+12', '-resize', '1x1!', 'txt:-'],
                          check=True, capture_output=True, text=True).stdout
    return sum(int(part, 16) for part in re.search(r'#(\w\w)(\w\w)(\w\w)', shot).groups()) / 3


def main():
    app = drive.App(sys.argv[1], **KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel), app.value(heel)
    assert book_is_shown(app) and ground(app) > 180
    choose(app, 'Lengths', 'Inches')
    app.wait_value(heel, lambda now: ' mm ' not in now)
    choose(app, 'Look', 'Dark')
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    app.click(app.find('Board'))
    drive.key('F9')
    drive.wait_for('the book to go', lambda: not book_is_shown(app))
    drive.xdo('windowsize', app.xid, 1100, 700)
    drive.wait_for('the new size', lambda: size(app) == (1100, 700))
    app.close()

    app = drive.App(**KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' not in app.value(heel), app.value(heel)
    assert not book_is_shown(app)
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    assert size(app) == (1100, 700), size(app)
    app.picture('preferences')
    app.click(app.find('Maximize', 'push button'))
    drive.wait_for('the whole screen', lambda: size(app)[0] > 1340)
    app.close()
    assert drive.ask_book("select group_concat(key) from setting") == 'last-foot'

    app = drive.App(**KEPT)
    drive.wait_for('the whole screen', lambda: size(app)[0] > 1340)
    app.find('Heel, lateral')
    app.close()
    app = drive.App(GSETTINGS_BACKEND='memory')       # another person's desk
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel) and book_is_shown(app)
    app.close()


drive.on_a_desk(main)
