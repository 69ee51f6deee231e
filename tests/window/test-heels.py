# SPDX-License-Identifier: GPL-3.0-or-later
"""A tracing drawn closed whose shape does not tell the heels: both marks wait on the board, one is set with one click,
the other with the keyboard, each is one step that can be undone, and what was set is kept."""
import json
import os
import subprocess

import drive

MEDIAL, LATERAL = 'Buttress, medial', 'Buttress, lateral'


def scene():
    photo, truth = drive.home() + '/smooth.jpg', drive.home() + '/smooth.json'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, truth, 'width=1800', 'height=2400', 'closed=1', 'soft=0.9',
                    'seed=11'], check=True)
    return photo


def ranges():
    """How far off each heel may be, as the book has it."""
    return json.loads(drive.peek_book('select json from trace'))['heel_range_mm']


def kept_comes(what, test):
    drive.wait_for(what, lambda: test(ranges()))


def main():
    app = drive.App(scene())
    medial = app.find(MEDIAL)
    app.find(LATERAL)
    app.picture('heels-wait')
    assert 'not set' in app.value(medial), app.value(medial)
    kept_comes('two that wait', lambda r: r[0] > 0 and r[1] > 0)

    app.click(medial)
    kept_comes('one that is set', lambda r: (r[0] > 0) != (r[1] > 0))
    app.picture('heels-one')

    app.click(app.find('Board'))
    drive.key('Tab')
    while not app.keyboard_in('a handle', lambda node: node.role == 'push button').name == LATERAL:
        before = app.keyboard_in('a handle', lambda node: node.role == 'push button')
        drive.key('Tab')
        app.keyboard_in('the next handle', lambda node: node != before)
    drive.key('Return')
    kept_comes('both', lambda r: r == [0, 0])
    app.picture('heels-both')

    drive.key('ctrl+z')
    kept_comes('one again', lambda r: (r[0] > 0) != (r[1] > 0))
    drive.key('ctrl+z')
    kept_comes('both waiting', lambda r: r[0] > 0 and r[1] > 0)
    drive.key('ctrl+shift+z', 'ctrl+shift+z')
    kept_comes('both once more', lambda r: r == [0, 0])
    app.close()


drive.on_a_desk(main)
