# SPDX-License-Identifier: GPL-3.0-or-later
"""A foot is deleted from the menu at its place, a visit with the Delete key, a horse from the menu beside its name: each
says so with a way back that brings it to the board again; and what was deleted can be put back from the list of it."""
import sys

import drive

def open_feet():
    return drive.peek_book('select count(*) from foot where deleted is null')

def board_is(app, there):
    drive.wait_for('the board' if there else 'an empty board', lambda: app.is_there('Heel, lateral') == there)

def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')

    thumb = app.find('near fore', 'push button')
    app.point(*app.middle(thumb))
    drive.xdo('click', '3')

    app.lines('Delete this foot')
    board_is(app, False)
    app.find_seen('Undo')
    app.picture('delete-foot')
    assert open_feet() == 0
    app.click(app.find_seen('Undo'))
    board_is(app, True)
    assert open_feet() == 1

    more = next(node for node in app.walk() if node.name.startswith('What can be done with the visit'))
    app.click(more)
    app.find_seen('Delete this visit')
    drive.key('Escape')
    app.keyboard_in('the menu button', lambda node: 'the visit of' in node.name or node.parent.name == more.name)
    drive.key('Delete')
    board_is(app, False)
    drive.key('ctrl+z')
    board_is(app, True)

    app.click(app.find_seen('What can be done with this horse'))

    app.lines('Delete this horse')
    board_is(app, False)
    app.menu('What was deleted…')
    app.into('What was deleted')
    app.picture('deleted')
    app.click(app.find_seen('Put back: No name yet, with all visits'))
    app.find_seen('Nothing was deleted in the last 30 days.')
    drive.key('Escape')
    app.back()
    assert drive.peek_book('select count(*) from horse where deleted is null') == 1
    app.close()

drive.on_a_desk(main)
