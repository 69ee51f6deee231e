# SPDX-License-Identifier: GPL-3.0-or-later
"""A foot is written as a small book and taken into an empty book at another desk: asked first, then merged and
shown. What it is called does not matter, its bytes do. With photos beside it each goes where it belongs."""
import os
import shutil
import sqlite3
import subprocess
import sys
import time

import drive

ASKED = 'Import this file?'


def ask(book, sql):
    with sqlite3.connect(f'file:{book}?mode=ro&immutable=1', uri=True) as db:
        row = db.execute(sql).fetchone()
    return row and row[0]


def name_the_horse(app, name):
    label = drive.wait_for('the name', lambda: [
        node for node in app.walk() if node.name == 'No name yet' and node.seen()][-1])
    app.click(label)
    drive.key('ctrl+a')
    drive.type_text(name)
    drive.key('Return')
    app.find(f'{name} · near fore', 'frame')


def send(app):
    """The proposed name is taken as it is."""
    app.click(app.find('Export'))
    app.lines('Export this foot for a colleague…')
    app.into('Export this foot for a colleague')
    app.keyboard_in('the name', lambda node: node.role == 'text')
    app.picture('send')
    drive.key('Return')
    file = drive.home() + f'/pipwick-lf-{time.strftime("%Y-%m-%d")}.pritchel'
    drive.wait_for('the sent foot', lambda: os.path.exists(file))
    drive.window_goes('Export this foot for a colleague')
    app.back()
    return file


class Other:
    """Another person's desk: a book of its own."""

    def __init__(self, name):
        self.data = f'{drive.home()}/{name}'
        self.book = self.data + '/pritchel/book.pritchel'

    def open(self, *files):
        return drive.App(*files, XDG_DATA_HOME=self.data)


def is_asked(app, picture, *words):
    drive.window_comes('Import this file?')
    app.into(ASKED)
    for word in words:
        drive.wait_for(word, lambda: any(word in node.name for node in app.walk()))
    app.picture(picture)


def answer(app, key):
    drive.key(key)
    drive.window_goes('Import this file?')
    app.back()


def refused_then_taken(sent, horse, day):
    """By a name that says photo; only the second answer changes the book."""
    disguised = shutil.copy(sent, drive.home() + '/from a friend.jpg')
    other = Other('second')
    app = other.open(disguised)
    is_asked(app, 'take-in', f'{horse}, near fore, {day}')
    answer(app, 'Escape')
    assert ask(other.book, 'select count(*) from horse') == 0
    subprocess.run([os.environ['PRITCHEL_WINDOW'], disguised], check=True, timeout=drive.LIMIT)
    is_asked(app, 'take-in-again', f'{horse}, near fore, {day}')
    answer(app, 'alt+i')
    heel = app.find('Heel, lateral')
    app.find(f'{horse} · near fore', 'frame')
    told = app.value(heel)
    assert ask(other.book, 'select count(*) from foot') == 1
    app.close()
    app = other.open()                 # it is in the book, not only on the screen
    app.find(f'{horse} · near fore', 'frame')
    app.wait_value(app.find('Heel, lateral'), lambda now: now == told)
    app.close()
    return told


def the_same_again_and_another_form(sent):
    """Taken in twice it is there once; where the shoe has changed meanwhile both are there, and both in reach."""
    other = Other('second')
    app = other.open(sent)
    is_asked(app, 'take-in-known', 'Pipwick')
    answer(app, 'alt+i')
    heel = app.find('Heel, lateral')
    assert ask(other.book, 'select count(*) from foot') == 1
    before = app.value(heel)
    app.click(heel)
    drive.key('Down')
    app.wait_value(heel, lambda now: now != before)
    subprocess.run([os.environ['PRITCHEL_WINDOW'], sent], check=True, timeout=drive.LIMIT)
    is_asked(app, 'take-in-changed', 'Pipwick')
    answer(app, 'alt+i')
    app.wait_value(app.find('Heel, lateral'), lambda now: now == before)
    assert ask(other.book, 'select count(*) from foot') == 2
    app.picture('twice')
    thumbs = drive.wait_for('both', lambda: (lambda found: found if len(found) == 2 else None)(
        [node for node in app.walk() if node.name == 'near fore' and 'button' in node.role]))
    app.click(thumbs[0])
    app.wait_value(app.find('Heel, lateral'), lambda now: now != before)
    app.close()


def photo_beside_it(sent, photo):
    """The question comes first; the photo does not end up under the horse that was sent."""
    other = Other('third')
    app = other.open(photo, sent)
    is_asked(app, 'take-in-and-photo', 'Pipwick')
    answer(app, 'alt+i')
    app.find('No name yet · near fore', 'frame')
    app.find('Heel, lateral')
    app.close()
    got = ask(other.book, "select group_concat(name || ' ' || foot) from (select name, foot from foot join visit on "
                          'visit.id = foot.visit join horse on horse.id = visit.horse order by horse.id)')
    assert got == 'Pipwick LF,No name yet LF', got


def broken_is_told(sent):
    """Cut short in the mail, and a photo with it: told in a sentence that stays, and the photo is opened."""
    broken = drive.home() + '/broken.pritchel'
    with open(sent, 'rb') as whole, open(broken, 'wb') as out:
        out.write(whole.read()[:9000])
    other = Other('fourth')
    app = other.open(broken, sys.argv[1])
    app.find('Heel, lateral')
    drive.wait_for('the sentence', lambda: any('broken.pritchel is cut short' in node.name
                                               for node in app.walk()))
    app.says('broken.pritchel is cut short')
    board = app.find('Board').box()
    time.sleep(1)                       # time for it to slide away again, which it must not
    app.says('broken.pritchel is cut short')
    assert app.find('Board').box() == board, 'it lies over the board, which stays where it is'
    app.picture('broken')
    app.close()


def changed(sent, name, *sql):
    """A copy of what was sent, with SQL done to it."""
    file = shutil.copy(sent, f'{drive.home()}/{name}.pritchel')
    db = sqlite3.connect(file)
    for line in sql:
        db.execute(line)
    db.commit()
    db.close()
    return file


def many_are_listed_and_counted(sent):
    """Two hundred by name, the rest by number; taken in, they are all there."""
    copies = ('WITH RECURSIVE c (x) AS (SELECT 2 UNION ALL SELECT x + 1 FROM c LIMIT 249) ')
    file = changed(sent, 'many', copies + "INSERT INTO foot (id, visit, foot, changed) SELECT x, 1, 'LF', '' FROM c",
                   copies + "INSERT INTO photo SELECT x, 'a.jpg', randomblob (20000) FROM c")
    other = Other('fifth')
    app = other.open(file)
    is_asked(app, 'take-in-many', '250 feet are in the file', 'and 50 more')
    answer(app, 'alt+i')
    drive.wait_for('all of them', lambda: ask(other.book, 'select count(*) from foot') == 250)
    app.close()


def a_scale_that_cannot_be(sent):
    """A stranger's foot whose scale would once have ended the program, at this start and at every other."""
    file = changed(sent, 'stranger', """UPDATE trace SET json = json_set (json, '$.scale.px_per_mm', 1e12)""")
    other = Other('sixth')
    app = other.open(file)
    is_asked(app, 'take-in-stranger', 'Pipwick')
    answer(app, 'alt+i')
    drive.wait_for('the sentence', lambda: any('pixels per mm: 1e+12' in node.name for node in app.walk()))
    app.picture('stranger')
    app.close()
    assert ask(other.book, 'select count(*) from foot') == 1
    app = other.open(sent)              # the next start is as any other, and so is the good one
    is_asked(app, 'take-in-after', 'Pipwick')
    answer(app, 'alt+i')
    app.find('Heel, lateral')
    app.close()


def a_schema_of_its_own(sent):
    file = changed(sent, 'trigger', 'CREATE TRIGGER t AFTER INSERT ON foot BEGIN DELETE FROM horse; END')
    other = Other('seventh')
    app = other.open(file)
    drive.wait_for('the sentence', lambda: any('is not as Pritchel writes a book' in node.name for node in app.walk()))
    app.close()
    assert ask(other.book, 'select count(*) from horse') == 0


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    name_the_horse(app, 'Pipwick')
    sent = send(app)
    day = drive.wait_for('the day', lambda: next(
        node.name for node in app.walk() if node.name[:1].isdigit() and node.name[-5:-2] == ' 20'))
    app.close()
    assert ask(sent, 'select count(*) from foot') == 1
    refused_then_taken(sent, 'Pipwick', day)
    the_same_again_and_another_form(sent)
    photo_beside_it(sent, sys.argv[1])
    broken_is_told(sent)
    many_are_listed_and_counted(sent)
    a_scale_that_cannot_be(sent)
    a_schema_of_its_own(sent)


drive.on_a_desk(main)
