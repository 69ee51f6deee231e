# SPDX-License-Identifier: GPL-3.0-or-later
"""A horse, a style and a photo with the longest names there may be, in every language of the program: on the smallest
screen the window stays as large as it is, all that always stands there is inside it, and what is told about a file of
such a name too."""
import json
import os
import sqlite3
import subprocess

import drive
import tree

WIDTH, HEIGHT = 1280, 720
MOST = 120                       # letters
NAMES = {'en': 'Donaudampfschifffahrtsgesellschaft', 'de': 'نجمة الصباح الجميلة ', 'es': 'Upper Meadow Bramble ',
         'fr': '青山绿水马蹄铁', 'nl': '🐴🧲🔥'}
BARE = {'push button', 'toggle button', 'label', 'text', 'combo box', 'check box', 'panel', 'list'}


def first_foot():
    app = drive.App()
    app.fill_screen(WIDTH, HEIGHT)
    app.click(app.find('Try the demo foot', 'push button'))
    app.find('Heel, lateral')
    app.close()


def call(name):
    """Horse, photo and style of the foot in the book."""
    folder = drive.home() + '/data/pritchel/styles'
    os.makedirs(folder, exist_ok=True)
    with open(folder + '/long.json', 'w', encoding='utf-8') as file:
        json.dump({'id': 'long', 'name': name, 'for': name, 'set': {'web.toe': 24}}, file)
    with sqlite3.connect(drive.book_file()) as book:
        book.execute('UPDATE horse SET name = ?', (name,))
        book.execute('UPDATE photo SET name = ?', (name + '.jpg',))
        for foot, plan in book.execute('SELECT foot, json FROM plan').fetchall():
            book.execute('UPDATE plan SET json = ? WHERE foot = ?', (json.dumps({**json.loads(plan), 'style': 'long'}), foot))
    book.close()


def is_under_the_pointer(app, nodes, node, box):
    """Would a pointer meet NODE where it lies? The tree keeps what a stack has put away, at its last place."""
    x, y = max(box.x, 0) + 3, max(box.y, 0) + 3
    _, path = app.window.tree.ask(app.window.path, tree.COMPONENT, 'GetAccessibleAtPoint',
                                  tree.GLib.Variant('(iiu)', (x, y, tree.IN_WINDOW)))[0]
    met = nodes.get(path)
    while met and met != node:
        met = met.parent
    return bool(met)


def all_inside(app):
    """The sides of what is seen lie in the window. What is scrolled away above or below may lie outside."""
    width, seen = app.window.box().width, 0
    nodes = {node.path: node for node in app.walk()}
    for node in nodes.values():
        try:
            box = node.box()
        except tree.GLib.Error:      # made when it is wanted: it has no place yet
            continue
        if node.role in BARE and box.width > 1 and box.height > 1:
            seen += 1
            inside = box.x >= 0 and box.x + box.width <= width
            assert inside or not is_under_the_pointer(app, nodes, node, box), (node.role, node.name[:40], box, width)
    assert seen > 40, seen
    return True


def comes_inside(app):
    """Once it has been laid out."""
    drive.wait_for('all inside the window', lambda: all_inside(app))


def a_photo_that_is_none(app, name):
    """Named as long as a file may be."""
    file = drive.home() + '/' + name.encode()[:240].decode(errors='ignore') + '.jpg'
    with open(file, 'w', encoding='utf-8') as out:
        out.write('a list of horses, not a picture')
    subprocess.run([os.environ['PRITCHEL_WINDOW'], file], check=True, timeout=drive.LIMIT)
    drive.wait_for('the message', lambda: any(node.role == 'label' and '.jpg' in node.name and node.seen()
                                              and node.box().height > 10 for node in app.walk()))


def main():
    first_foot()
    for language, letters in NAMES.items():
        name = (letters * MOST)[:MOST].strip()
        call(name)
        app = drive.App(LANGUAGE=language)
        app.fill_screen(WIDTH, HEIGHT)
        app.says(name[:20])
        comes_inside(app)
        app.picture('names-' + language)
        a_photo_that_is_none(app, name)
        comes_inside(app)
        assert drive.geometry(app.xid)[2:] == (WIDTH, HEIGHT), drive.geometry(app.xid)
        app.picture('names-told-' + language)
        app.close()


drive.on_a_desk(main, f'{WIDTH}x{HEIGHT}')
