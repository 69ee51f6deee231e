# SPDX-License-Identifier: GPL-3.0-or-later
"""Photos come in as a person brings them: pasted, dropped from another window, several at once. Their
sheets sort them by foot into one visit, and what is there is not replaced unasked."""
import itertools
import os
import subprocess
import sys

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
        self.id = drive.wait_for('the source', lambda: drive.windows('--name', '^files to take$'))[0]
        drive.xdo('windowmove', self.id, 1180, 690)
        drive.wait_for('its corner', lambda: drive.geometry(self.id)[0] > 1100)

    def is_called(self, title):
        drive.wait_for(title, lambda: drive.windows('--name', f'^{title}$'))

    def drag_onto(self, x, y):
        drive.take_keyboard(self.id)
        drive.xdo('mousemove', '--window', self.id, 100, 90, 'mousedown', 1)
        there = itertools.cycle([(12, -9), (-12, 9)])

        def pulled():
            """What pulls before the press has come through pulls nothing: to and fro until it is held."""
            drive.xdo('mousemove_relative', '--', *next(there))
            return drive.windows('--name', '^files held$')
        drive.wait_for('files held', pulled)
        for i in range(1, 9):
            drive.xdo('mousemove', 1200 + (x - 1200) * i // 8, 720 + (y - 720) * i // 8)
        self.is_called('files wanted')
        drive.xdo('mouseup', 1)
        self.is_called('files to take')

    def close(self):
        self.process.terminate()
        self.process.wait()


def is_open(app, title):
    app.find('Heel, lateral')
    app.find(title, 'frame')


def file_is_pasted(app):
    source = Source(scene('left', foot='LF', seed=11))
    drive.take_keyboard(app.xid)
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
