# SPDX-License-Identifier: GPL-3.0-or-later
"""A small screen, a screen of fine pixels, a dark one; every control has a name for who cannot see it;
and every window that can be opened opens, and closes with Escape."""
import sys

import drive

from actions import Actions

CONTROLS = {'push button', 'toggle button', 'check box', 'radio button', 'text', 'entry', 'combo box', 'slider',
            'spin button', 'menu item', 'password text'}
PARTS = ('Tracing', 'Measures', 'Shoe', 'Nailing', 'Stock', 'Order of work')


def nameless(root):
    """Controls on the screen without a name. What lies inside a control is the toolkit's own."""
    return [(node.role, [one.name for one in above(node)]) for node in root.walk() if node.role in CONTROLS
            and not node.name.strip() and node.seen() and not any(one.role in CONTROLS for one in above(node))]


def above(node):
    while node := node.parent:
        yield node


def everything_is_named(app):
    assert nameless(app.window) == [], nameless(app.window)
    for title in PARTS:
        head = app.find(title, 'push button')
        app.click(head)             # the one that was open folds
        part = head.parent
        drive.wait_for('the part ' + title, lambda: any(node.seen() for node in app.walk(part)
                                                        if node.role in ('text', 'push button')
                                                        and node != head))
        assert nameless(part) == [], (title, nameless(part))
        app.picture('named-' + title.split()[0].lower())
        app.click(head)             # folded: the others come into sight


def all_in_sight(app, width, height):
    """What always stands there stands inside the window."""
    for name in ('Print…', 'Export', 'Menu', 'Undo', 'Redo', 'Book', 'Board', 'Zoom in', 'Toe', 'Heel, medial',
                 'Heel, lateral'):
        box = app.at_rest(app.find(name))
        assert box.x >= 0 and box.y >= 0 and box.x + box.width <= width and box.y + box.height <= height, (name, box)


def windows_open_and_close(app):
    for keys, title in (('F1', 'Help'), ('ctrl+question', 'Keyboard shortcuts')):
        app.click(app.find('Board'))
        drive.key(keys)
        drive.window_comes(f'^{title}$')
        app.picture(title.lower())
        drive.key('Escape')
        drive.window_goes(f'^{title}$')
    for line, title in (('About Pritchel', 'About Pritchel'), ('Preferences…', 'Preferences')):
        app.menu(line)
        drive.window_comes(f'^{title}$')
        app.picture(title.split()[0].lower())
        drive.key('Escape')
        drive.window_goes(f'^{title}$')


def board_turns_dark(app):
    side = app.find('Tracing', 'push button')
    assert sum(app.colour(side)) > 3 * 200, app.colour(side)
    app.prefer('Dark')
    drive.wait_for('the dark', lambda: sum(app.colour(side)) < 3 * 90)
    app.picture('dark')


def handle_is_dragged(app, dy):
    """By DY of the program's pixels, down the board, away from the toe: as many mm as the view says."""
    heel = app.find('Heel, medial')
    before = app.value(heel)
    app.drag(heel, 0, dy)
    after = app.wait_value(heel, lambda now: now != before)
    app.click(app.find('Board'))
    drive.key('ctrl+z')
    app.wait_value(heel, lambda now: now == before)
    return drive.number(after) - drive.number(before)


def quits_from(app, action):
    """The program ends by its key while the window that ACTION opens has the keyboard."""
    Actions().press(action)
    app.into(drive.wait_for(action, lambda: next((one.name for one in app.tree.windows() if one != app.top), None)))
    drive.key('ctrl+q')
    code = app.process.wait(drive.LIMIT)
    assert code == 0, f'the program ended with {code}'


def main():
    app = drive.App()
    app.fill_screen(1280, 720)
    app.click(app.find('Try the demo foot', 'push button'))
    app.find('Heel, lateral')
    all_in_sight(app, 1280, 720)
    drive.key('F8')                 # a screen so small has the parts folded
    app.find_seen('Tracing', 'push button')
    everything_is_named(app)
    windows_open_and_close(app)
    plain = handle_is_dragged(app, 24)
    board_turns_dark(app)
    quits_from(app, 'practice')
    app = drive.App(GDK_SCALE='2')
    app.fill_screen(1280, 720)
    all_in_sight(app, 1280, 720)
    app.picture('scale-2')
    fine = handle_is_dragged(app, 24)
    # the same window in twice the pixels: the same hand's way is the same way on the foot
    assert abs(fine - plain) < 0.6, (plain, fine)
    app.close()


drive.on_a_desk(main, '2560x1440')
