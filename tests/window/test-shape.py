# SPDX-License-Identifier: GPL-3.0-or-later
"""A foot is opened, the shoe is shaped with pointer and keyboard, undone and redone, put back with
Escape; and what was on the screen at the end is there at the next start."""
import json
import sys

import drive


def plan():
    text = drive.ask_book('select json from plan')
    return json.loads(text)


def heel_is_dragged_undone_redone(app):
    heel = app.find('Heel, medial')
    before = app.value(heel)
    app.drag(heel, 0, 30)
    after = app.wait_value(heel, lambda now: now != before)
    assert drive.number(after) > drive.number(before) + 4, f'{before} -> {after}: 30 px down is a longer heel'
    app.picture('dragged')
    drive.key('ctrl+z')
    app.wait_value(heel, lambda now: now == before)
    drive.key('ctrl+shift+z')
    app.wait_value(heel, lambda now: now == after)
    return after


def toe_is_dragged(app):
    toe = app.find('Toe')
    before = app.value(toe)
    app.drag(toe, 0, -25)
    after = app.wait_value(toe, lambda now: now != before)
    assert 'outside' in after, f'{after}: 25 px up is ahead of the wall'
    drive.key('ctrl+z')
    app.wait_value(toe, lambda now: now == before)


def escape_puts_a_drag_back(app):
    heel = app.find('Heel, lateral')
    before = app.value(heel)
    app.drag(heel, 0, 40, release=False)
    app.wait_value(heel, lambda now: now != before)
    drive.key('Escape')
    app.wait_value(heel, lambda now: now == before)
    drive.xdo('mousemove_relative', '--', 0, -20)     # the pointer moves on: nothing is held
    drive.xdo('mouseup', 1)
    assert app.value(heel) == before


def arrows_nudge(app):
    """From the heel, Tab goes round the shoe; an arrow moves what has the keyboard by 0.5 mm."""
    heel = app.find('Heel, lateral')
    app.click(heel)
    drive.key('shift+Tab', 'Tab')
    before = app.value(heel)
    drive.key('Down')
    half = app.wait_value(heel, lambda now: now != before)
    assert abs(drive.number(half) - drive.number(before) - 0.5) < 0.051, f'{before} -> {half}'
    drive.key('shift+Down')
    tenth = app.wait_value(heel, lambda now: now != half)
    assert abs(drive.number(tenth) - drive.number(half) - 0.1) < 0.051, f'{half} -> {tenth}'
    drive.key('ctrl+Down')
    far = app.wait_value(heel, lambda now: now != tenth)
    assert abs(drive.number(far) - drive.number(tenth) - 5) < 0.051, f'{tenth} -> {far}'
    return far


def entry_speaks_up(app):
    """What cannot be used is told beside the entry, and nothing changes."""
    web = app.find('Web at the toe', 'text')
    app.click(web)
    drive.key('ctrl+a')
    drive.type_text('a horse')
    drive.key('Return')
    drive.wait_for('the complaint', lambda: any(
        node.role == 'label' and 'a horse' in node.name
        for node in app.walk()))
    drive.key('ctrl+a')
    drive.type_text('7/8')
    drive.key('Return')
    app.wait_value(app.find('Web at the toe', 'push button'), lambda now: '22.2' in now.replace(',', '.'))


def iron_is_cut_through(app):
    """Where the pointer rests on the web, and at the handle that has the keyboard: as wide as the web is there. Off the
    iron it goes."""
    board = app.find('Board')
    web = drive.number(app.value(app.find('Web at the toe', 'push button')))
    outer, inner = (app.middle(app.find(name, 'push button')) for name in ('Toe', 'Web at the toe'))
    across = (inner[1] - outer[1]) / 2
    app.go_to(outer[0] + 1.2 * across, (outer[1] + inner[1]) / 2 + 0.1 * across)
    told = app.wait_value(board, lambda now: '×' in now)
    assert abs(drive.number(told) - web) < 1, (told, web)
    app.picture('cut')
    app.go_to(outer[0], inner[1] + 4 * across)
    app.wait_value(board, lambda now: now == '')
    nail = app.find('Nail 1, medial', 'push button')
    app.click(nail)
    told = app.wait_value(board, lambda now: now.startswith('nail 1'))
    assert 'crease' in told, told
    app.picture('cut-at-a-nail')
    drive.key('Escape')
    app.wait_value(board, lambda now: now == '')


def main():
    app = drive.App(sys.argv[1])
    iron_is_cut_through(app)
    medial = heel_is_dragged_undone_redone(app)
    toe_is_dragged(app)
    escape_puts_a_drag_back(app)
    lateral = arrows_nudge(app)
    entry_speaks_up(app)
    app.picture('shaped')
    app.close()

    kept = plan()
    assert abs(kept['heel.past.medial'] - drive.number(medial)) < 0.051, (kept['heel.past.medial'], medial)
    assert abs(kept['heel.past.lateral'] - drive.number(lateral)) < 0.051
    assert abs(kept['web.toe'] - 7 / 8 * 25.4) < 1e-6, kept['web.toe']

    app = drive.App()
    app.wait_value(app.find('Heel, medial'), lambda now: now == medial)
    app.wait_value(app.find('Heel, lateral'), lambda now: now == lateral)
    app.picture('again')
    app.close()


drive.on_a_desk(main)
