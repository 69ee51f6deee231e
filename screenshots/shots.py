# SPDX-License-Identifier: GPL-3.0-or-later
"""The screenshots, taken with the same hand that tests the window."""
import shutil
import sys
import time

import drive

SIZE = (1366, 860)


def settle():
    time.sleep(1.2)          # popovers and folds have come to rest


def start(*args, **env):
    shutil.rmtree(drive.home() + '/data', ignore_errors=True)
    app = drive.App(*args, **env)
    app.fill_screen(*SIZE)
    return app


def name_the_horse(app, name):
    label = drive.wait_for('the name', lambda: [node for node in app.walk()
                                                if node.get_name() == 'No name yet'][-1])
    app.click(label)
    drive.key('ctrl+a')
    drive.type_text(name)
    drive.key('Return')
    app.find(name + ' · near fore', 'frame')


def main():
    photo = sys.argv[1]
    app = start()
    settle()
    app.picture('first-start')
    app.kill()

    app = start(photo)
    heel = app.find('Heel, medial')
    name_the_horse(app, 'Pipwick')
    settle()
    app.point(SIZE[0] // 2, 300)
    settle()
    app.picture('board')
    drive.key('ctrl+t')
    settle()
    app.picture('ground')
    drive.key('ctrl+t')
    app.drag(heel, 0, 30)
    settle()
    chip = next(node for node in app.walk()
                if node.get_role_name() == 'push button' and node.get_name().startswith('heels'))
    app.click(chip)
    settle()
    drive.key('Return')
    settle()
    app.click(chip)
    settle()
    app.picture('finding')
    app.kill()

    app = start(photo, GTK_THEME='Adwaita:dark')
    app.find('Heel, lateral')
    name_the_horse(app, 'Pipwick')
    settle()
    app.picture('board-dark')
    app.kill()


drive.on_a_desk(main, f'{SIZE[0]}x{SIZE[1]}')
