# SPDX-License-Identifier: GPL-3.0-or-later
"""Where photos go, and that it can be read: an own photo leaves the demo horse; a new visit shows an empty board under its own
name; a foot that the visit has already is offered a new visit, with one way back; what is undone is no longer offered."""
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

    app.close()


drive.on_a_desk(main)
