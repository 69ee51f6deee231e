# SPDX-License-Identifier: GPL-3.0-or-later
"""What a person prefers is there at the next start, whichever book is open: unit, look, the book put aside, the
window's size and that it was maximized. The book holds none of it."""
import re
import subprocess
import sys

import drive

KEPT = {'GSETTINGS_BACKEND': 'keyfile'}      # in the desk's own XDG_CONFIG_HOME


def book_is_shown(app):
    """Does anything stand to the left of the board?"""
    return app.find('Board').box().x > 100


def ground(app):
    """How bright the header is, 0 to 255: from the screen itself."""
    shot = subprocess.run(['import', '-window', app.xid, '-crop', '40x6+200+12', '-resize', '1x1!', 'txt:-'],
                          check=True, capture_output=True, text=True).stdout
    return sum(int(part, 16) for part in re.search(r'#(\w\w)(\w\w)(\w\w)', shot).groups()) / 3


def main():
    app = drive.App(sys.argv[1], **KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel), app.value(heel)
    drive.wait_for('a light window with the book', lambda: book_is_shown(app) and ground(app) > 180)
    app.menu('Lengths', 'Inches')
    app.wait_value(heel, lambda now: ' mm ' not in now)
    app.menu('Appearance', 'Dark')
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    app.click(app.find('Board'))
    drive.key('F9')
    drive.wait_for('the book to go', lambda: not book_is_shown(app))
    app.resize(1100, 700)
    app.close()

    app = drive.App(**KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' not in app.value(heel), app.value(heel)
    drive.wait_for('no book', lambda: not book_is_shown(app))
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    app.wait_size(1100, 700)
    app.picture('preferences')
    app.click(app.find('Maximize', 'push button'))
    drive.wait_for('the whole screen', lambda: app.window.box().width > 1470)
    app.close()
    assert drive.ask_book("select group_concat(key) from setting") == 'last-foot'

    app = drive.App(**KEPT)
    drive.wait_for('the whole screen', lambda: app.window.box().width > 1470)
    app.find('Heel, lateral')
    app.close()
    app = drive.App(GSETTINGS_BACKEND='memory')       # another person's desk
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel), app.value(heel)
    drive.wait_for('the book', lambda: book_is_shown(app))
    app.close()


drive.on_a_desk(main)
