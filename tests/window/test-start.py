# SPDX-License-Identifier: GPL-3.0-or-later
"""The first start explains itself and offers a foot to try; a photo that is none is told in a
sentence and loses nothing; a horse can be named; and what was changed a moment ago is there even
when the program is killed."""
import os
import subprocess
import sys

import drive


def a_finding_is_read(app):
    chip = drive.wait_for('a chip', lambda: next(
        node for node in app.walk()
        if node.role == 'push button' and node.name.startswith('nails')))
    app.click(chip)
    drive.wait_for('a finding with its source', lambda: any(
        node.role == 'label' and 'Hunting' in node.name and node.seen()
        for node in app.walk()))
    app.picture('finding')
    drive.key('Escape')


def bad_photo_is_told(app):
    file = drive.home() + '/not-a-photo.jpg'
    with open(file, 'w') as out:
        out.write('a list of horses, not a picture')
    subprocess.run([os.environ['PRITCHEL_WINDOW'], file], check=True, timeout=drive.LIMIT)
    closing = app.find('Close the message', 'push button')
    drive.wait_for('the message', lambda: closing.seen() and
                   closing.box().height > 10)
    app.picture('message')
    assert app.find('Heel, lateral').seen(), 'the foot that was open is still there'
    app.click(closing)


def horse_is_named(app):
    name = drive.wait_for('the name', lambda: [
        node for node in app.walk()
        if node.name == 'Demo foot' and node.seen()][-1])
    app.click(name)
    drive.key('ctrl+a')
    drive.type_text('Bracken')
    drive.key('Return')
    app.find('Bracken · near fore', 'frame')


def main():
    app = drive.App()
    demo = app.find('Try the demo foot', 'push button')
    assert demo.seen()
    app.find('Print a tracing sheet…', 'push button')
    app.picture('first-start')
    app.click(demo)
    heel = app.find('Heel, lateral')
    a_finding_is_read(app)
    bad_photo_is_told(app)
    horse_is_named(app)
    before = app.value(heel)
    app.click(heel)
    drive.key('Down')
    after = app.wait_value(heel, lambda now: now != before)
    app.kill()

    assert drive.ask_book('select name from horse') == 'Bracken'
    assert drive.ask_book('select count(*) from foot') == 1
    app = drive.App()
    app.wait_value(app.find('Heel, lateral'), lambda now: now == after)
    app.find('Bracken · near fore', 'frame')
    app.close()


drive.on_a_desk(main)
