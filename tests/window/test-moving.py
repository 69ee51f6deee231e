# SPDX-License-Identifier: GPL-3.0-or-later
"""Moving house: the book comes out as plain files; another book comes in foot by foot, with what differs shown side by side, and
goes again by one undo."""
import datetime
import os
import shutil
import sqlite3
import sys

import drive


def press(app, name):
    app.click(app.find_seen(name, 'push button'))


def change(book, *statements):
    with sqlite3.connect(book) as db:
        for statement in statements:
            db.execute(statement)
    db.close()


def other_book():
    """The same book as it went on elsewhere: another shoe on the foot, another owner, and one horse more."""
    other = shutil.copy(drive.book_file(), drive.home() + '/other.pritchel')
    change(other, "update plan set json = json_set(json, '$.\"web.toe\"', 25.5)",
           "update horse set owner = 'the mill', note = 'kicks'",
           "insert into horse (name) values ('Tansy')",
           "insert into visit (horse, date) values (last_insert_rowid(), '2026-11-02')",
           "insert into foot (visit, foot, changed) values (last_insert_rowid(), 'RH', '2026-11-02')")
    change(drive.book_file(), "update horse set owner = 'the smithy'")
    return other


def plain_files(app):
    out = drive.home() + '/out'
    os.mkdir(out)
    drive.key('ctrl+comma')
    app.into('Preferences')
    app.click(app.find_seen('Book'))
    app.picture('moving-preferences')
    press(app, 'Everything as plain files…')
    app.open_file('Write everything as plain files', out)
    folder = f'{out}/pritchel-{datetime.date.today():%Y-%m-%d}'
    drive.wait_for('the folder', lambda: os.path.exists(folder + '/index.csv'))
    with open(folder + '/index.csv', encoding='utf-8') as index:
        assert len(index.read().splitlines()) == 2
    drive.wait_for('its copy to go', lambda: os.listdir(out) == [os.path.basename(folder)])
    drive.window_comes('^Preferences$')
    drive.key('Escape')
    drive.window_goes('^Preferences$')
    app.back()
    app.says('The whole book was written as plain files')
    app.picture('moving-plain')


def ask(app, other):
    app.menu('Merge another book…')
    app.open_file('Merge another book', other)
    drive.window_comes('Import this file?')
    app.into('Import this file?')
    app.says('1 foot is new, 0 are the same in your book, 1 differs from the one you have.')
    app.says('Web at the toe: 22 mm')
    app.says('Web at the toe: 25.5 mm')
    app.says('Owner: the smithy')
    app.says('Owner: the mill')


def is_as_before():
    return (drive.peek_book("select count(*) from horse where deleted is null") == 1
            and drive.peek_book("select count(*) from foot f join visit v on v.id = f.visit join horse h on h.id = v.horse"
                                " where f.deleted is null and v.deleted is null and h.deleted is null") == 1
            and drive.peek_book('select owner from horse') == 'the smithy')


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.close()
    other = other_book()
    app = drive.App()
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    plain_files(app)

    ask(app, other)
    app.picture('moving-merge')
    drive.key('Escape')
    drive.window_goes('Import this file?')
    app.back()
    assert is_as_before()

    ask(app, other)
    app.click(app.find_seen('Take theirs'))
    app.picture('moving-theirs')
    drive.key('alt+i')
    drive.window_goes('Import this file?')
    app.back()
    drive.wait_for('the other horse', lambda: drive.peek_book("select count(*) from horse where deleted is null") == 2)
    assert drive.peek_book('select count(*) from foot where deleted is not null') == 1
    # the horse was left at both
    assert drive.peek_book('select owner from horse where id = 1') == 'the smithy'
    assert 'the mill' in drive.peek_book('select note from horse where id = 1')
    app.says('1 of yours was replaced')
    app.picture('moving-merged')
    drive.key('ctrl+z')
    drive.wait_for('all as before', is_as_before)
    app.find('Heel, lateral')
    app.close()
    with sqlite3.connect(f'file:{drive.book_file()}?mode=ro', uri=True) as book:
        assert book.execute('pragma integrity_check').fetchone()[0] == 'ok'


drive.on_a_desk(main)
