# SPDX-License-Identifier: GPL-3.0-or-later
"""Every screen of the program, to be looked through: each language in the light and in the dark, American English in inches,
English at scale 2 too, all at 1280 x 720; and of each language and look a sheet with all of them. `make.sh --every FOLDER` runs it."""
import gettext
import os
import shutil
import subprocess
import sys
import time

import drive
from actions import Actions

SIZE = (1280, 720)
SCALE = int(os.environ.get('PRITCHEL_SCALE', '1'))       # pixels of the screen to one of the program's
LANGUAGES = ('en', 'en_US', 'de', 'fr', 'nl', 'es')
# action of the window -> the window that opens; '' the same one
OPENED = ('preferences', 'print-preview', 'print-sheet', 'measure-printer', 'measure-screen', 'open-specimen', 'from-phone', 'all-feet', 'show-visits',
          'vet-sheet', 'practice', 'show-due', 'show-deleted', 'restore', 'show-help-overlay', 'about', 'help', 'print')
STAGES = ('draw-line', 'mark-scale')


def settle():
    time.sleep(0.9)          # what slides and unfolds has come to rest


class Album:
    """The pictures of one language and look."""

    def __init__(self, folder, name, inch=False, **env):
        self.folder, self.name, self.pictures, self.inch = folder, name, [], inch
        catalogue = os.path.dirname(os.environ['PRITCHEL_WINDOW']) + '/po'
        self.word = gettext.translation('pritchel', catalogue, [env['LANGUAGE']], fallback=True).gettext
        for part in ('/data', '/config'):
            shutil.rmtree(drive.home() + part, ignore_errors=True)
        self.env = {**env, 'GDK_SCALE': str(SCALE)}

    def start(self, *args):
        self.app = drive.App(*args, **self.env)
        self.app.fill_screen(SIZE[0], SIZE[1])
        self.actions = Actions()
        if self.inch:
            self.actions.choose('unit', 'inch')
        settle()

    def take(self, screen):
        path = f'{self.folder}/{self.name}-{screen}.png'
        subprocess.run(['import', '-window', 'root', path], check=True)
        self.pictures.append(path)

    def opened(self, action):
        """What ACTION opens, and back. The first print shows its cautions."""
        before = set(drive.windows('--class', 'pritchel'))
        self.actions.press(action)
        drive.wait_for(action, lambda: set(drive.windows('--class', 'pritchel')) - before)
        settle()
        self.take(action)
        drive.key('Escape')
        drive.wait_for(f'{action} to go', lambda: not set(drive.windows('--class', 'pritchel')) - before)

    def chosen(self, button, line, screen):
        """The window behind LINE of the menu that BUTTON opens, and back."""
        self.app.click(self.app.find_seen(button))
        self.app.lines(self.word(line).replace('_', ''))
        settle()
        self.take(screen)
        drive.key('Escape')
        settle()

    def pressed(self, name, screen):
        """The button called NAME in English."""
        button = self.app.find_seen(self.word(name), 'push button')
        self.app.click(button)
        settle()
        self.take(screen)

    def sheet(self):
        subprocess.run(['montage', *self.pictures, '-geometry', '640x360+6+6', '-tile', '4x',
                        f'{self.folder}/sheet-{self.name}.png'], check=True)


def all_screens(album, photo):
    album.start()
    album.take('start')
    album.app.close()
    album.start(photo)
    drive.wait_for('the shoe', lambda: any(node.role == 'push button' and node.value() for node in album.app.walk()))
    settle()
    album.take('board')
    album.actions.press('turn')
    settle()
    album.take('ground')
    album.actions.press('turn')
    for name, screen in (('Before and after', 'before-after'), ('From stock to shoe, heat by heat', 'stages')):
        album.pressed(name, screen)
        album.app.click(album.app.find_seen(album.word(name), 'push button'))
        settle()
    drive.key('F9')
    settle()
    album.take('book')
    day = next(node.name for node in album.app.walk() if node.name.startswith(
        album.word('What can be done with the visit of %s').split('%s')[0]) and node.seen())
    album.chosen(album.word('What can be done with this horse'), '_About this horse…', 'about-horse')
    album.chosen(day, '_About this visit…', 'about-visit')
    drive.key('F8')
    settle()
    album.take('details')
    album.pressed('Styles as pictures', 'styles')
    drive.key('Escape')
    settle()
    drive.key('F8')
    for action in STAGES:
        album.actions.press(action)
        settle()
        album.take(action)
        drive.key('Escape')
        settle()
    for action in OPENED:
        album.opened(action)
    album.app.kill()
    album.sheet()


def main():
    photo, folder = sys.argv[1:3]
    for language in LANGUAGES if SCALE == 1 else LANGUAGES[:1]:
        for look in ('light', 'dark'):
            env = {'LANGUAGE': language, **({'GTK_THEME': 'Adwaita:dark'} if look == 'dark' else {})}
            album = Album(folder, f'{language}-{look}' + ('-2x' if SCALE == 2 else ''), language == 'en_US', **env)
            all_screens(album, photo)
            print(album.name, len(album.pictures), flush=True)


drive.on_a_desk(main, f'{SIZE[0] * SCALE}x{SIZE[1] * SCALE}')
