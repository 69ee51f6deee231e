# SPDX-License-Identifier: GPL-3.0-or-later
"""From a bare start to a printed template, and through all that is done on the way, without a pointer: nothing here moves it
or presses one of its buttons."""
import json
import math
import os
import re

import drive
import tree

MOST_TABS = 150      # round all of the window and back


def no_pointer(*words):
    assert not {'mousemove', 'click', 'mousedown'} & set(words), 'the pointer is not touched'
    return real_xdo(*words)


real_xdo, drive.xdo = drive.xdo, no_pointer


def tab_to(app, name, keys='Tab'):
    """Goes on until what has the keyboard, or the entry or button it is the inside of, is called NAME."""
    before = None
    for _ in range(MOST_TABS):
        node = app.keyboard_in('the next stop', lambda n: n.path != before)
        if node.name.startswith(name) or node.parent and node.parent.name.startswith(name):
            return node
        before = node.path
        drive.key(keys)
    raise AssertionError(f'"{name}" is not reached')


def plan():
    return json.loads(drive.peek_book('select json from plan'))


def changed(before):
    return drive.wait_for('a change in the book', lambda: plan() != before and plan())


def outline():
    return json.loads(drive.peek_book('select json from trace'))['outline_mm']


def first_shoe(app):
    tab_to(app, 'Try the demo foot')
    drive.key('Return')
    app.find('Heel, lateral')
    drive.wait_for('the plan', lambda: drive.peek_book('select json from plan'))


def a_handle_is_moved(app):
    before = plan()
    node = tab_to(app, 'Heel, lateral')
    was = app.value(node)
    drive.key('Down', 'Down')
    assert ' mm' in app.wait_value(node, lambda now: now != was), 'its value is told, with the unit'
    changed(before)
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: plan() == before)


def a_finding_is_mended(app):
    """A heel pulled too far, and what is offered for it."""
    before = plan()
    tab_to(app, 'Heel, medial')
    drive.key('ctrl+Down', 'ctrl+Down')
    changed(before)
    drive.wait_for('the finding', lambda: any(node.name.startswith('heels') and 'fix' in node.name for node in app.walk()))
    pulled = plan()
    tab_to(app, 'heels', 'shift+Tab')
    drive.key('space')
    app.keyboard_in('a finding', lambda node: node.role == 'push button' and not node.name.startswith('heels'))
    tab_to(app, 'Bring')
    drive.key('Return')
    changed(pulled)
    drive.key('Escape')
    drive.wait_for('the list to go', lambda: len(drive.windows('--class', 'pritchel')) == 1)
    app.keyboard_in('the window', lambda node: True)
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: plan() == pulled)
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: plan() == before)


def a_style_is_chosen(app):
    before = plan()
    tab_to(app, 'Styles as pictures')
    drive.key('Return')
    app.into('Styles on this foot')
    drive.key('Tab', 'Right', 'Return')
    drive.window_goes('Styles on this foot')
    app.back()
    changed(before)
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: plan() == before)


def every_stop_has_a_name(app):
    """Once round the window. A name of the toolkit's own is a name nobody gave."""
    first = before = tab_to(app, 'Menu')
    for _ in range(MOST_TABS):
        drive.key('Tab')
        node = app.keyboard_in('the next stop', lambda n: n.path != before.path)
        named = node if node.name and not node.name.startswith('Gtk') else node.parent
        assert named.name and not named.name.startswith('Gtk'), f'{node.role} after "{before.name}" has no name'
        if node.path == first.path:
            return
        before = node
    raise AssertionError('no way round')


def the_horse_is_named(app):
    tab_to(app, 'Name of the horse')
    drive.key('Return', 'ctrl+a')
    drive.type_text('Pipwick')
    drive.key('Return')
    app.find('Pipwick · near fore', 'frame')


def pen_at(app, pen):
    """Where the pen stands, mm from the photo's left and top."""
    return [float(figure) for figure in re.findall(r'([\d.]+) mm', app.value(pen))]


def pen_goes(app, pen, place):
    """As near to PLACE as the finest step of the arrows reaches; returns where that is."""
    for axis, keys in ((0, ('Left', 'Right')), (1, ('Up', 'Down'))):
        way = place[axis] - pen_at(app, pen)[axis]
        for hold, step in (('ctrl+', 10), ('', 2), ('shift+', 0.25)):
            times = int(abs(way) / step + (0.5 if step == 0.25 else 0))
            if times:
                aim = pen_at(app, pen)[axis] + math.copysign(times * step, way)
                drive.key(*[hold + keys[way > 0]] * times)
                drive.wait_for('the pen there', lambda: abs(pen_at(app, pen)[axis] - aim) < 0.11)
                way -= math.copysign(times * step, way)
    return pen_at(app, pen)


def side_at(line, y):
    """The leftmost place of LINE at that height."""
    return min(a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]) for a, b in zip(line, line[1:])
               if (a[1] - y) * (b[1] - y) <= 0 and a[1] != b[1])


def a_stroke_is_called_off(app, pen, before):
    drive.key('space')
    drive.wait_for('the pen', lambda: 'Pen down' in app.value(pen))
    drive.key(*['Right'] * 6, *['Down'] * 4)
    drive.key('Escape')
    drive.wait_for('the pen lifted', lambda: outline() == before)


def a_stroke_is_drawn(app, pen, before):
    """At the left quarter, 3 mm outside of where the line stood: there it goes now, and where nothing was drawn it stays."""
    middle = sum(y for _, y in before) / len(before)
    top, bottom = middle - 15, middle + 15
    pen_goes(app, pen, (side_at(before, top), top))
    drive.key('space')
    drive.wait_for('the pen', lambda: 'Pen down' in app.value(pen))
    drawn = pen_goes(app, pen, (side_at(before, middle) - 3, middle))[0]
    pen_goes(app, pen, (side_at(before, bottom), bottom))
    drive.key('space')
    after = drive.wait_for('the new line', lambda: outline() != before and outline())
    assert abs(side_at(after, middle) - drawn) < 0.6, (side_at(before, middle), side_at(after, middle), drawn)
    for y in (top - 12, bottom + 12):
        assert abs(side_at(after, y) - side_at(before, y)) < 0.05, y
    app.picture('pen')
    drive.key('ctrl+z')
    drive.wait_for('it undone', lambda: outline() == before)


def the_outline_is_drawn(app):
    """A stretch of it, with the pen that the arrows move."""
    before = outline()
    tab_to(app, 'Tracing')
    drive.key('space')
    tab_to(app, 'Draw the outline')
    drive.key('Return')
    pen = tab_to(app, 'Photo to draw on')
    a_stroke_is_called_off(app, pen, before)
    tab_to(app, 'to the ink beside my stroke', 'shift+Tab')
    drive.key('Right')
    tab_to(app, 'Photo to draw on')
    a_stroke_is_drawn(app, pen, before)
    drive.key('Escape')
    app.find_seen('Heel, lateral')


def it_is_printed(app):
    drive.key('ctrl+p')
    drive.window_comes('Before the first print')
    drive.key('Return')
    app.into('Print')
    app.find('Print to File')
    drive.key('Tab')
    app.keyboard_in('the printer', lambda node: node.role == 'table row')
    drive.key('space')
    drive.wait_for('leave to print', lambda: any(
        node.name == '_Print Print' and node.has(tree.SENSITIVE) for node in app.walk()))
    drive.key('alt+p')
    app.back()
    pdf = drive.printed_file()
    assert os.path.basename(pdf).startswith('pipwick-lf-'), pdf


def main():
    app = drive.App()
    first_shoe(app)
    a_handle_is_moved(app)
    a_finding_is_mended(app)
    a_style_is_chosen(app)
    every_stop_has_a_name(app)
    the_horse_is_named(app)
    the_outline_is_drawn(app)
    it_is_printed(app)
    app.close()


drive.on_a_desk(main)
