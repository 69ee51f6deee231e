# SPDX-License-Identifier: GPL-3.0-or-later
"""Where photos go, and that it can be read: an own photo leaves the demo horse; a new visit shows an empty board under its own
name; a foot that the visit has already is offered a new visit, with one way back; what is undone is no longer offered."""
import os
import subprocess
import sys

import drive


def peek(question):
    return drive.peek_book(question)


def opened(app, title):
    return app.find(title, 'frame')


def another_photo(app, file):
    drive.key('ctrl+o')
    app.open_file('Open a photo of a tracing', file)
    app.back()


def another_photo_asked(app, file):
    drive.key('ctrl+o')
    app.open_file('Open a photo of a tracing', file)
    app.into('Which foot?')


def plain_sheet():
    """A foot on paper without a print: nothing tells which foot it is."""
    photo = drive.home() + '/plain.jpg'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, drive.home() + '/truth.json', 'width=1500', 'height=2000', 'tags=0',
                    'seed=21'], check=True)
    return photo


def main():
    photo = sys.argv[1]
    app = drive.App()
    app.fill_screen(1480, 880)
    app.click(app.find('Try the demo foot', 'push button'))
    opened(app, 'Demo foot · near fore')
    another_photo(app, photo)
    opened(app, 'No name yet · near fore')
    assert peek("select count(*) from foot join visit on visit.id = visit join horse on horse.id = horse"
                " where name = 'Demo foot'") == 1
    assert peek("select due_days from horse where name = 'Demo foot'") == -1
    app.picture('filing-own')

    app.click(app.find_seen('New visit', 'push button'))
    opened(app, 'No name yet')
    drive.wait_for('an empty board', lambda: not any(
        node.name == 'Heel, lateral' and node.seen() for node in app.walk()))
    app.picture('filing-new-visit')
    another_photo(app, photo)
    opened(app, 'No name yet · near fore')
    assert peek('select count(*) from visit') == 3

    another_photo_asked(app, plain_sheet())
    app.picture('filing-any')
    app.click(app.find('near fore', 'push button'))
    app.keyboard_in('the button', lambda node: 'new visit' in node.name)
    app.picture('filing-taken')
    drive.key('Return')
    app.window = app.top          # read before anything else: a toast does not stay
    app.says('is in a new visit now')
    app.back()
    opened(app, 'No name yet · near fore')
    assert peek('select count(*) from visit') == 4
    app.picture('filing-moved')
    drive.key('ctrl+z')
    opened(app, 'No name yet · any foot')
    drive.wait_for('the toast to go', lambda: not any(
        'is in a new visit now' in (node.name or '') and node.seen() for node in app.walk()))
    assert peek('select count(*) from visit') == 3
    app.close()


drive.on_a_desk(main)
