# SPDX-License-Identifier: GPL-3.0-or-later
"""A backup is made by itself and by hand; the book is restored from one after it was said what would go, and what it was stays
beside it."""
import datetime
import os
import sys

import drive


def folder():
    return os.path.join(os.path.dirname(drive.book_file()), 'backups')


def press(app, name):
    app.click(app.find_seen(name, 'push button'))


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.close()                       # of an empty book there is none
    assert not os.path.exists(folder())
    app = drive.App()
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    today = datetime.date.today()
    daily = os.path.join(folder(), f'book-{today:%Y-%m-%d}.pritchel')
    drive.wait_for("today's backup", lambda: os.path.exists(daily))
    drive.key('ctrl+comma')
    app.into('Preferences')
    app.click(app.find_seen('Book'))
    app.picture('backup')
    by_hand = drive.home() + '/elsewhere.pritchel'
    press(app, 'Back up to a file…')
    app.open_file('Back up the whole book', by_hand)
    drive.wait_for('the backup', lambda: os.path.exists(by_hand))
    app.into('Preferences')
    app.says('The whole book was written to ' + by_hand)
    app.picture('backup-told')
    app.click(app.find_seen('Book'))
    drive.key('F1')                   # about the page that is shown
    app.into('Help')
    first = next(node for node in app.walk() if node.role == 'label' and node.seen())
    assert first.name == 'The book', first.name
    app.picture('backup-help')
    drive.key('Escape')
    app.into('Preferences')
    drive.key('Escape')

    app.back()
    row = next(node for node in app.walk() if node.role == 'list item' and node.seen())
    app.go_to(*app.middle(row))
    drive.xdo('click', 3)
    app.lines('About this horse…')
    app.into('About this horse')
    app.click(app.find_seen('Yard', 'text'))
    drive.type_text('Mill yard')
    drive.key('alt+k')
    app.back()
    app.says('Mill yard')
    assert drive.peek_book('select yard from horse') == 'Mill yard'

    drive.key('ctrl+comma')
    app.into('Preferences')
    app.click(app.find_seen('Book'))
    press(app, 'Restore…')
    app.into('Restore the book')
    app.picture('restore')
    press(app, 'Another file…')
    app.open_file('Open a backup of the book', by_hand)
    app.into('Restore the book?')
    app.says('The book holds 1 horse')
    app.picture('restore-asked')
    drive.key('alt+r')
    drive.wait_for('the book of then', lambda: drive.peek_book('select yard from horse') == '')
    kept = drive.wait_for('what it was', lambda: [name for name in os.listdir(folder()) if name.startswith('before-restore')])
    assert len(kept) == 1, kept
    app.into('Preferences')
    drive.key('Escape')
    app.back()
    app.close()


drive.on_a_desk(main)
