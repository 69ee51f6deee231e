# SPDX-License-Identifier: GPL-3.0-or-later
"""A book of 200 horses: the foot that was open last is open again, its horse is marked in the list and in
sight there; any other one is found by name and opened by keyboard or pointer, and nothing but that opens one."""
import sys

import drive
import tree

HORSES = 200


def name(i):
    return f'Horse {i:03}'


def fill_the_book():
    """As many horses with a visit and a near fore each, all with the outline that is there; the one that was
    open last is called as if it stood far down the list."""
    with drive.sqlite3.connect(drive.book_file()) as book:
        trace, = book.execute('select json from trace').fetchone()
        plan, = book.execute('select json from plan').fetchone()
        book.execute('update horse set name = ?', (name(150) + ' b',))
        for i in range(HORSES):
            horse = book.execute('insert into horse (name) values (?)', (name(i),)).lastrowid
            visit = book.execute("insert into visit (horse, date) values (?, '2026-01-15')", (horse,)).lastrowid
            foot = book.execute("insert into foot (visit, foot, changed) values (?, 'LF', '2026-01-15T00:00:00Z')",
                                (visit,)).lastrowid
            book.execute('insert into trace values (?, ?)', (foot, trace))
            book.execute('insert into plan values (?, ?)', (foot, plan))
        book.execute("update horse set yard = 'M\u00fchlstra\u00dfe Mills', owner = 'A. \u00d6stler' where name in (?, ?)",
                     (name(12), name(13)))


def horses(app):
    """The rows of the list in their order, and those that are selected."""
    rows = [node for node in app.find('Horses', 'list').walk() if node.role == 'list item']
    names = [next(inner.name for inner in row.walk() if inner.name) for row in rows]
    return names, [text for row, text in zip(rows, names) if row.has(tree.SELECTED)], rows


def is_open(app, text):
    app.find(f'{text} · near fore', 'frame')
    app.find('Heel, lateral')
    drive.wait_for(f'{text} marked', lambda: horses(app)[1] == [text])


def in_sight(app, text):
    pane = app.find('Horses', 'list').box()

    def look():
        names, _, rows = horses(app)
        box = rows[names.index(text)].box()
        return box.height > 10 and pane.y - 2 <= box.y and box.y + box.height <= pane.y + pane.height + 2
    drive.wait_for(f'the row of {text} in sight', look)


def last_one_is_in_sight(app):
    text = name(150) + ' b'
    is_open(app, text)
    in_sight(app, text)
    app.picture('book-200')


def one_is_found(app):
    drive.key('ctrl+f')
    drive.type_text('e 07')
    found = [name(i) for i in (7, *range(70, 80), 107)]
    drive.wait_for('those that are found', lambda: horses(app)[0] == found)
    in_sight(app, name(7))
    app.picture('book-found')
    app.click(drive.wait_for('the row', lambda: horses(app)[2][found.index(name(73))]))
    is_open(app, name(73))


def keyboard_opens_only_with_return(app):
    """The arrow keys walk; what is open stays open until Return."""
    def at():
        names, _, rows = horses(app)
        return next((text for text, row in zip(names, rows) if row.has(tree.FOCUSED)), None)
    drive.key('ctrl+f', 'Tab', 'Tab')
    line = drive.wait_for('the keyboard in the list', at)
    while line != name(76):
        drive.key('Down')
        line = drive.wait_for('the next row', lambda: at() not in (None, line) and at())
    assert horses(app)[1] == [name(73)]
    drive.key('Return')
    is_open(app, name(76))


def words_are_found_wherever_they_stand(app):
    """Each in its own field, without accents, in any order; Down goes into the list, Return in the entry opens the first
    of those that are found, Escape shows all of them again."""
    drive.key('ctrl+f')
    drive.type_text('mills 12 ostl')
    drive.wait_for('the one that is found', lambda: horses(app)[0] == [name(12)])
    drive.key('Down')
    drive.wait_for('the keyboard in the list', lambda: horses(app)[2][0].has(tree.FOCUSED))
    drive.key('ctrl+f', 'Return')
    is_open(app, name(12))
    drive.key('ctrl+f', 'Escape')
    drive.wait_for('all of them', lambda: len(horses(app)[0]) > 100)
    is_open(app, name(12))


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    app.close()
    fill_the_book()
    app = drive.App()
    last_one_is_in_sight(app)
    one_is_found(app)
    keyboard_opens_only_with_return(app)
    words_are_found_wherever_they_stand(app)
    app.close()
    assert drive.ask_book('select count(*) from horse') == HORSES + 1


drive.on_a_desk(main)
