# SPDX-License-Identifier: GPL-3.0-or-later
"""All feet of a visit in a window of their own: the feet that have a shoe can be opened by button and on the drawing, the page goes
out as it is shown, and what is changed meanwhile is on it."""
import datetime
import os
import sqlite3
import subprocess
import sys

import drive
import tree


def second_foot():
    """The same tracing and shoe as an off fore of the same visit."""
    with sqlite3.connect(drive.book_file()) as db:
        foot = db.execute("insert into foot (visit, foot, changed) select visit, 'RF', changed from foot").lastrowid
        for part in ('trace', 'plan'):
            db.execute(f'insert into {part} (foot, json) select {foot}, json from {part}')
    db.close()


def title(app):
    return next(node for node in app.walk() if node.name.startswith('All four feet: '))


def is_open(app, foot):
    app.find(f'No name yet · {foot}', 'frame')


def into_feet(app):
    day = f'{datetime.date.today().day} {datetime.date.today():%B %Y}'
    drive.window_comes('All four feet')
    app.into(f'All four feet: No name yet, {day}')


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.close()
    second_foot()
    app = drive.App()
    app.fill_screen(1480, 880)
    is_open(app, 'near fore')

    app.menu('All four feet…')
    into_feet(app)
    for foot, there in (('near fore', True), ('off fore', True), ('near hind', False), ('off hind', False)):
        assert app.find_seen(foot, 'push button').has(tree.SENSITIVE) == there, foot
    app.picture('visit-feet')
    file = drive.home() + '/feet.pdf'
    drive.key('alt+e')
    app.open_file('Export all four feet', file)
    drive.wait_for('the page', lambda: os.path.exists(file))
    text = subprocess.run(['pdftotext', '-layout', file, '-'], capture_output=True, text=True, check=True).stdout
    assert text.count('no shoe in this visit') == 2 and 'Fullered front' in text, text

    into_feet(app)
    app.says('feet.pdf was written to ')
    app.click(app.find_seen('off fore', 'push button'))
    drive.window_goes('All four feet')
    app.back()
    is_open(app, 'off fore')

    # from the visit's own menu; then the near fore is pressed where it is drawn, left and above
    app.click(app.find_seen(f'What can be done with the visit of {datetime.date.today().day} {datetime.date.today():%B %Y}'))
    app.lines('All four feet…')
    into_feet(app)
    page = app.find_seen('All four feet')
    x, y, width, _ = page.box()
    app.point(x + width / 4, y + 300)
    drive.xdo('click', 1)
    drive.window_goes('All four feet')
    app.back()
    is_open(app, 'near fore')
    app.close()


drive.on_a_desk(main)
