# SPDX-License-Identifier: GPL-3.0-or-later
"""The screenshots, taken with the same hand that tests the window. Everything is the demo's: its photo,
and a horse that nobody owns."""
import gettext
import os
import shutil
import subprocess
import sys
import time

import drive

SIZE = (1366, 860)
BUILD = os.path.dirname(os.environ['PRITCHEL_WINDOW'])


def settle():
    time.sleep(1.5)          # popovers and folds have come to rest


def start(*args, **env):
    for folder in ('/data', '/config'):
        shutil.rmtree(drive.home() + folder, ignore_errors=True)
    app = drive.App(*args, **env)
    app.fill_screen(*SIZE)
    return app


def name_the_horse(app, name, _=str):
    """In the book, which gives way to the details again; the pointer rests where nothing lights up."""
    drive.key('F9')
    label = drive.wait_for('the name', lambda: [node for node in app.walk()
                                                if node.name == _('No name yet') and node.seen()][-1])
    app.click(label)
    drive.key('ctrl+a')
    drive.type_text(name)
    drive.key('Return')
    app.find(name + ' · ' + _('near fore'), 'frame')
    drive.key('F8')
    app.point(SIZE[0] // 2, 300)
    settle()


def on_the_board(photo, _=str, **env):
    app = start(photo, **env)
    app.find(_('Board'))
    drive.wait_for('the shoe', lambda: app.is_there(_('Measures')))
    name_the_horse(app, 'Pipwick', _)
    return app


def first_start():
    app = start()
    settle()
    app.picture('first-start')
    app.kill()


def light(photo):
    app = on_the_board(photo)
    app.picture('board')
    drive.key('ctrl+t')
    settle()
    app.picture('ground')
    drive.key('ctrl+t')
    app.prefer('Inches')
    settle()
    app.picture('inch')
    app.prefer('Millimetres')
    drive.key('ctrl+shift+p')
    app.into('Print preview')
    settle()
    app.picture('preview')
    drive.key('Escape')
    app.back()
    app.choose_style('toe-extension-clipped')
    app.point(SIZE[0] // 2, 300)
    settle()
    app.picture('toe-extension')
    app.kill()


def finding(photo):
    app = on_the_board(photo)
    app.drag(app.find('Heel, medial'), 0, 30)
    settle()
    chip = next(node for node in app.walk()
                if node.role == 'push button' and node.name.startswith('heels'))
    app.click(chip)
    settle()
    drive.key('Return')
    settle()
    app.click(chip)
    settle()
    app.picture('finding')
    app.kill()


def work(photo):
    """The order of work by heats, and the iron on its way."""
    app = on_the_board(photo)
    app.click(app.find('Shoe', 'push button'))
    app.click(app.find('Order of work', 'push button'))
    app.point(SIZE[0] // 2, 300)
    settle()
    app.click(app.find('From stock to shoe, heat by heat', 'push button'))
    slider = app.find_seen('From stock to shoe', 'slider')
    app.click(slider)
    settle()
    app.picture('heats')
    app.kill()


def forged(photo):
    """A shoe forged by the plan, a little wrong, back on it."""
    home = drive.home()
    subprocess.run([BUILD + '/pritchel', 'plan', photo, '-o', home + '/plan'], check=True, capture_output=True)
    told = subprocess.run([BUILD + '/tests/seen/shoe-maker', 'rusty', '6', home + '/forged.jpg', home + '/plan/report.json'],
                          check=True, capture_output=True, text=True).stdout
    app = on_the_board(photo)
    app.click(app.find('Shoe', 'push button'))
    app.click(app.find('After the fire', 'push button'))
    if 'foot surface' in told:
        app.choose(app.find_seen('Face up', 'combo box'), 'Down')
    app.click(app.find_seen('Thickness of the shoe', 'text'))
    drive.key('ctrl+a')
    drive.type_text(told.split(', ')[2].split()[0])
    app.click(app.find_seen('Photo of the forged shoe…', 'push button'))
    app.open_file('Open a photo of the forged shoe', home + '/forged.jpg')
    app.find_seen('Between plan and forged shoe', 'slider')
    app.point(SIZE[0] // 2, 300)
    settle()
    app.picture('forged')
    app.kill()


def main():
    photo = sys.argv[1]
    german = gettext.translation('pritchel', BUILD + '/po', ['de']).gettext
    first_start()
    light(photo)
    finding(photo)
    work(photo)
    forged(photo)
    app = on_the_board(photo, german, LANGUAGE='de')
    app.picture('german')
    app.kill()
    app = on_the_board(photo, GTK_THEME='Adwaita:dark')
    app.picture('board-dark')
    app.kill()


drive.on_a_desk(main, f'{SIZE[0]}x{SIZE[1]}')
