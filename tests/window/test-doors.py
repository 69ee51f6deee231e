# SPDX-License-Identifier: GPL-3.0-or-later
"""Two windows on one book, each on a screen and a bus of its own: the second reads, says who writes, shows what the first one does,
refuses what would write, keeps what is done on its board, and takes over when the first is killed. A command reads meanwhile."""
import os
import sqlite3
import subprocess
import sys

import drive

WORDS = '-writer'


class Other:
    """A window nobody looks at."""

    def __init__(self, *args):
        read, write = os.pipe()
        self.screen = subprocess.Popen(['Xvfb', '-displayfd', str(write), '-screen', '0', '1200x800x24', '-noreset',
                                        '-nolisten', 'tcp'], pass_fds=[write], stdout=subprocess.DEVNULL,
                                       stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as pipe:
            number = pipe.readline().strip()
        env = dict(os.environ, DISPLAY=':' + number, GTK_A11Y='none')
        self.bus = subprocess.Popen(['dbus-run-session', '--', os.environ['PRITCHEL_WINDOW'], *args], env=env,
                                    cwd=drive.home(), stderr=subprocess.DEVNULL)
        drive.wait_for('the other window', lambda: self.process() and os.path.exists(drive.book_file() + WORDS))

    def process(self):
        """Its number, as it has written it down."""
        try:
            with open(drive.book_file() + WORDS, encoding='utf-8') as words:
                lines = words.read().split('\n')
        except FileNotFoundError:
            return None
        number = int(lines[1])
        with open(f'/proc/{number}/cmdline', encoding='utf-8') as line:
            return number if lines[0] in line.read() else None

    def kill(self):
        os.kill(self.process(), 9)
        self.bus.wait()
        self.screen.terminate()
        self.screen.wait()


def plan(foot):
    return drive.ask_book(f'select json from plan where foot = {foot}')


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    drive.wait_for('that it stands', lambda: drive.peek_book("select key from setting where key like '%-foot'") == 'last-foot')
    app.close()
    assert os.listdir(os.path.dirname(drive.book_file())).count('book.pritchel-writer') == 0, 'nothing stays beside it'
    before = plan(1)
    other = Other()
    app = drive.App()
    app.says(f'This book is being written by pritchel-window (process {other.process()} on ')
    app.find('Heel, lateral')
    app.picture('book-read')
    seen = app.one_step()
    app.says('What you change on the board stays here')
    app.picture('book-read-changed')
    assert plan(1) == before, 'nothing is written'

    told = subprocess.run([os.environ['PRITCHEL_COMMAND'], 'check', '--book', drive.book_file(), '1'],
                          capture_output=True, text=True, check=False)
    assert told.returncode in (0, 1) and 'book' not in told.stderr, told

    other.kill()
    app.says('The other program has ended')
    drive.wait_for('what was done on the board', lambda: drive.peek_book('select json from plan where foot = 1') != before)
    app.picture('book-taken-over')
    heel = app.find('Heel, lateral')
    assert app.value(heel) == seen
    drive.take_keyboard(app.xid)
    drive.key('ctrl+z')      # the step is still there
    app.wait_value(heel, lambda now: now != seen)
    drive.wait_for('that in the book', lambda: drive.peek_book('select json from plan where foot = 1') == before)
    app.close()
    with sqlite3.connect(drive.book_file()) as book:
        assert book.execute('pragma integrity_check').fetchone()[0] == 'ok'
        assert book.execute('select count(*) from foot').fetchone()[0] == 1
    book.close()
    follows(sys.argv[1])
    damaged()


def follows(photo):
    """What the other window takes in meanwhile stands in the list here."""
    other = Other(photo)
    app = drive.App()
    app.says('This book is being written by')
    drive.wait_for('the other foot', lambda: drive.ask_book('select count(*) from foot') == 2)
    app.find('Heel, lateral')
    app.picture('book-followed')
    app.one_step()
    drive.take_keyboard(app.xid)
    drive.key('ctrl+q')      # not without being asked
    app.into('Not in any file')
    app.says('What you changed is not in the book yet')
    app.picture('book-close')
    drive.key('Escape')
    drive.window_goes('Not in any file')
    app.back()
    other.kill()
    app.says('The other program has ended')
    app.close()


def damaged():
    """A book that cannot be opened is saved as far as it goes, and the work goes on in that."""
    book = drive.book_file()
    with sqlite3.connect(book) as db:
        page = db.execute("select rootpage from sqlite_schema where name = 'setting'").fetchone()[0]
    db.close()
    with open(book, 'r+b') as file:
        file.seek((page - 1) * 4096)
        file.write(b'x' * 4096)
        file.seek(0)
        before = file.read()
    app = drive.App()
    app.says('is damaged, and is left as it is')
    app.picture('book-damaged')
    app.click(app.find_seen('Save what can be read', 'push button'))
    app.says('Saved: 1 of 1 horses, ')
    app.picture('book-saved')
    drive.wait_for('the horse', lambda: any(node.name == 'No name yet' and node.seen() for node in app.walk()))
    app.close()
    with open(book, 'rb') as file:
        assert file.read() == before, 'the damaged book is as it was'


drive.on_a_desk(main)
