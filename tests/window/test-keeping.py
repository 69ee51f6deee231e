# SPDX-License-Identifier: GPL-3.0-or-later
"""The book taken away under the window, by a hand that deletes, replaces and restores files: it is said at once,
work goes on, and both ways on lead to where they say. And a program killed while it opened a foot opens the book
without it, says why, and opens it when asked."""
import os
import shutil
import sqlite3
import subprocess
import sys
import time

import drive

DIALOG = 'Save as a new book'
ASKED = 'Not in any file'
NOTED = "select key from setting where key like '%-foot'"


def killed_while_opening():
    """As often as it takes to meet that moment."""
    while True:
        process = subprocess.Popen([os.environ['PRITCHEL_WINDOW']], cwd=drive.home())
        opened = False
        end = time.monotonic() + drive.LIMIT
        while time.monotonic() < end and not opened:
            try:
                now = drive.peek_book(NOTED)
            except sqlite3.Error:      # it is being written
                continue
            if now == 'opening-foot':
                process.kill()
            opened = process.poll() is not None
        process.kill()
        process.wait()
        with sqlite3.connect(drive.book_file()) as book:      # takes back what was half written
            key = book.execute(NOTED).fetchone()[0]
        book.close()
        if key == 'opening-foot':
            return


def foot_is_offered_again():
    killed_while_opening()
    app = drive.App()
    app.says('The program ended while this foot was being opened: No name yet, near fore')
    assert not app.is_there('Heel, lateral'), 'it is not opened unasked'
    app.picture('halted')
    app.click(app.find('Open it again', 'push button'))
    app.find('Heel, lateral')
    drive.wait_for('that it stands', lambda: drive.peek_book(NOTED) == 'last-foot')
    drive.wait_for('the banner to go', lambda: not any(
        'The program ended' in node.name and node.seen() for node in app.walk()))
    app.kill()
    app = drive.App()
    app.find('Heel, lateral')
    return app


def save_as_new(app, name):
    app.into(DIALOG)
    if name:
        drive.key('ctrl+a')
        drive.type_text(name)
    drive.key('Return')
    drive.window_goes(DIALOG)
    app.back()


def deleted(app):
    app.one_step()
    os.unlink(drive.book_file())
    app.says('was deleted or moved away')
    app.picture('book-deleted')
    value = app.one_step()
    app.says('was deleted or moved away')
    app.click(app.find_seen('Save as a new book…', 'push button'))
    save_as_new(app, None)      # the name that is offered: where it was
    app.says('From now on everything is kept in')
    assert os.stat(drive.book_file()).st_mode & 0o777 == 0o600
    assert any(node.name == 'Heel, lateral' and app.value(node) == value for node in app.walk())
    app.one_step()
    assert drive.peek_book('select count(*) from plan') == 1


def replaced(app, theirs):
    before = drive.peek_book('select json from plan')
    shutil.copy(theirs, drive.book_file() + '.sync')
    os.rename(drive.book_file() + '.sync', drive.book_file())
    app.says('Another file was put in the place')
    app.one_step()
    assert drive.peek_book('select name from horse') == 'Theirs', 'nothing is written into it'
    app.click(app.find_seen('Take the other one…', 'push button'))
    app.into(ASKED)
    drive.key('Escape')
    drive.window_goes(ASKED)
    app.back()
    app.click(app.find_seen('Save as a new book…', 'push button'))
    save_as_new(app, drive.home() + '/mine.pritchel')
    app.says('From now on everything is kept in')
    with sqlite3.connect(f'file:{drive.home()}/mine.pritchel?mode=ro&immutable=1', uri=True) as book:
        assert book.execute('select json from plan').fetchone()[0] != before
    return drive.home() + '/mine.pritchel'


def restored(app, mine, theirs):
    app.one_step()
    shutil.copyfile(theirs, mine)
    app.says('Another program wrote over the book')
    assert not any('everything is kept' in node.name and node.seen() for node in app.walk()), 'no longer so'
    app.one_step()
    app.picture('book-written-over')
    app.click(app.find_seen('Take the other one…', 'push button'))
    app.into(ASKED)
    app.picture('not-in-any-file')
    app.click(app.find('Take the other one', 'push button'))
    drive.window_goes(ASKED)
    app.back()
    drive.wait_for('their horse', lambda: any(node.name == 'Theirs' and node.seen() for node in app.walk()))
    assert not app.is_there('Heel, lateral') or not app.find('Heel, lateral').seen()


def closing_asks(app, mine):
    os.unlink(mine)
    app.says('was deleted or moved away')
    drive.take_keyboard(app.xid)
    drive.key('ctrl+q')
    app.into(ASKED)
    app.click(app.find('Close without it', 'push button'))
    assert app.process.wait(drive.LIMIT) == 0


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    drive.wait_for('that it stands', lambda: drive.peek_book(NOTED) == 'last-foot')
    app.close()
    theirs = drive.home() + '/theirs.pritchel'
    shutil.copy(drive.book_file(), theirs)
    with sqlite3.connect(theirs) as book:
        book.execute('delete from foot')
        book.execute("update horse set name = 'Theirs'")
        book.execute('delete from setting')
    book.close()
    app = foot_is_offered_again()
    deleted(app)
    mine = replaced(app, theirs)
    restored(app, mine, theirs)
    closing_asks(app, mine)


drive.on_a_desk(main)
