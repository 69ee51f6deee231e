# SPDX-License-Identifier: GPL-3.0-or-later
"""Photos come in as a person brings them: pasted, dropped from another window, several at once. Their
sheets sort them by foot into one visit, and what is there is not replaced unasked."""
import os
import subprocess
import sys
import time

import drive


def scene(name, **keys):
    photo = drive.home() + f'/{name}.jpg'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, drive.home() + '/truth.json', 'width=1500',
                    'height=2000', *(f'{key}={value}' for key, value in keys.items())], check=True)
    return photo


class Source:
    """Another program's window with FILES in it."""

    def __init__(self, *files):
        self.process = subprocess.Popen([sys.executable, drive.HERE + '/source.py', *files])
        ids = drive.wait_for('the source', lambda: drive.xdo_or_nothing(
            'search', '--onlyvisible', '--name', '^files to take$').split())
        self.id = ids[0]
        drive.xdo('windowmove', self.id, 1180, 690)
        time.sleep(0.5)

    def drag_onto(self, x, y):
        drive.xdo('windowactivate', self.id)
        drive.xdo('mousemove', '--window', self.id, 100, 90)
        time.sleep(0.2)
        drive.xdo('mousedown', 1)
        for step in ((4, 0), (8, -4), (12, -8)):
            drive.xdo('mousemove_relative', '--', *step)
            time.sleep(0.1)
        for i in range(1, 9):
            drive.xdo('mousemove', 1200 + (x - 1200) * i // 8, 720 + (y - 720) * i // 8)
            time.sleep(0.1)
        time.sleep(0.5)
        drive.xdo('mouseup', 1)

    def close(self):
        self.process.terminate()
        self.process.wait()


def is_open(app, title):
    app.find('Heel, lateral')
    app.find(title, 'frame')


def file_is_pasted(app):
    source = Source(scene('left', foot='LF', seed=11))
    drive.xdo('windowactivate', app.xid)
    drive.wait_for('the window in front', lambda: drive.xdo('getactivewindow').strip() == app.xid)
    drive.key('ctrl+v')
    is_open(app, 'No name yet · near fore')
    source.close()


def several_are_dropped(app):
    source = Source(scene('right', foot='RF', seed=12), scene('hind', foot='LH', seed=13))
    source.drag_onto(600, 400)
    is_open(app, 'No name yet · near hind')
    app.picture('dropped')
    source.close()


def same_foot_asks(app, photo):
    subprocess.run([os.environ['PRITCHEL_WINDOW'], photo], check=True, timeout=drive.LIMIT)
    drive.window_comes('Where does it go')
    app.picture('where')
    drive.key('Escape')
    drive.window_goes('Where does it go')


def main():
    app = drive.App()
    app.find('Try the demo foot', 'push button')
    file_is_pasted(app)
    several_are_dropped(app)
    same_foot_asks(app, drive.home() + '/left.jpg')
    app.close()
    assert drive.ask_book('select count(*) from visit') == 1
    feet = drive.ask_book("select group_concat(foot) from (select foot from foot order by id)")
    assert feet == 'LF,RF,LH', feet


drive.on_a_desk(main)
