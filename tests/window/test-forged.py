# SPDX-License-Identifier: GPL-3.0-or-later
"""After the fire: a photo of the forged shoe is laid on its plan, tells what it is off by, is kept with its photo, and goes
again; a photo without a shoe is refused in a sentence and changes nothing."""
import json
import os
import subprocess
import sys

import drive

SEED = '1'       # 8.8 mm thick, the foot surface up, one branch opened


def shoe_of_the_plan():
    """The photo, and how thick the shoe is."""
    report = drive.home() + '/plan'
    subprocess.run([os.environ['PRITCHEL_COMMAND'], 'plan', sys.argv[1], '-o', report], check=True, capture_output=True)
    photo = drive.home() + '/forged.jpg'
    told = subprocess.run([os.environ['PRITCHEL_SHOES'], 'steel', SEED, photo, report + '/report.json'], check=True,
                          capture_output=True, text=True).stdout
    return photo, told.split(', ')[2].split()[0], 'foot surface' in told


def choose(app, photo):
    app.click(app.find_seen('Photo of the forged shoe…', 'push button'))
    app.open_file('Open a photo of the forged shoe', photo)


def press(app, name):
    """By keyboard, as it may lie below what is in sight."""
    before = None
    for _ in range(60):
        node = app.keyboard_in('the next stop', lambda n: n.path != before)
        if node.name.startswith(name):
            drive.key('space')
            return
        before = node.path
        drive.key('Tab')
    raise AssertionError(f'"{name}" is not reached')


def attempts():
    return drive.peek_book('select count(*) from attempt')


def main():
    photo, thick, foot_up = shoe_of_the_plan()
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.click(app.find_seen('Shoe', 'push button'))          # folded, all parts are in sight
    app.click(app.find_seen('After the fire', 'push button'))
    if foot_up:
        app.choose(app.find_seen('Face up', 'combo box'), 'Down')
    app.click(app.find_seen('Thickness of the shoe', 'text'))
    drive.key('ctrl+a')
    drive.type_text(thick)
    choose(app, sys.argv[1])
    app.says('shoe')                      # a tracing is none
    assert app.is_there('Heel, lateral')
    drive.key('Escape')

    choose(app, photo)
    app.find_seen('Between plan and forged shoe', 'slider')
    drive.wait_for('nothing to take hold of', lambda: not app.is_there('Heel, lateral'))
    length = drive.wait_for('its length', lambda: next(
        (node.name for node in app.walk() if 'mm (' in node.name and node.seen()), None))
    assert abs(drive.number(length) - 138.2) < 3, length
    app.picture('forged')
    for key in ('Home', 'End'):
        app.click(app.find_seen('Between plan and forged shoe', 'slider'))
        drive.key(key)
        app.picture(f'forged-{key}')
    assert attempts() == 0
    press(app, 'Keep it with this visit')
    drive.wait_for('the attempt', lambda: attempts() == 1)
    app.says(' at most')
    assert drive.peek_book('select length(photo) from attempt') == os.path.getsize(photo)
    found = json.loads(drive.peek_book('select compared from attempt'))
    assert len(found['offsets']) > 100 and found['seen']['face'] == ('foot' if foot_up else 'ground')
    press(app, 'Back to the plan')
    app.find('Heel, lateral')
    app.close()


drive.on_a_desk(main)
