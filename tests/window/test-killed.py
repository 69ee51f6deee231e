# SPDX-License-Identifier: GPL-3.0-or-later
"""The window killed in the middle of real edits, made with real keys: test-killed.py PHOTO [COUNT [SEED]]. The book is sound
each time, and what the screen showed last is there, or the step that was under way."""
import os
import random
import sqlite3
import subprocess
import sys
import time

import drive

COUNT = int(sys.argv[2]) if len(sys.argv) > 2 else 20
CHANCE = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 17)
LONGEST = 0.06      # s; a step takes some hundredths


def heel(app):
    return app.find('Heel, lateral')


def edits(app):
    """Some steps one way and back, each seen before the next, then one step, or the way back over all of them, that is
    not waited for. What was seen first and last."""
    handle = heel(app)
    app.click(handle)
    first = seen = app.value(handle)
    for _ in range(CHANCE.randrange(1, 4)):
        before = seen
        drive.key(CHANCE.choice(['Down', 'Up']))
        seen = app.wait_value(handle, lambda now, was=before: now != was)
    hand = subprocess.Popen(['xdotool', 'key', CHANCE.choice(['Down', 'Up', 'ctrl+z'])])
    time.sleep(CHANCE.uniform(0, LONGEST))
    app.kill()
    hand.wait()
    return first, seen


def is_sound():
    with sqlite3.connect(drive.book_file()) as book:      # takes back what was half written
        assert book.execute('pragma integrity_check').fetchone()[0] == 'ok'
        assert book.execute('select count(*) from foot').fetchone()[0] == 1
    book.close()


def main():
    app = drive.App(sys.argv[1])
    heel(app)
    met = {'as seen': 0, 'one step on': 0}
    for _ in range(COUNT):
        drive.wait_for('that it stands', lambda: drive.peek_book("select key from setting where key like '%-foot'") == 'last-foot')
        first, seen = edits(app)
        is_sound()
        app = drive.App()
        now = app.value(heel(app))
        met['as seen' if now == seen else 'one step on'] += 1
        far = abs(drive.number(now) - drive.number(seen))
        assert now == first or far < 1.1, (first, seen, now)      # mm: a step is 1 at most
    app.close()
    assert not os.path.exists(drive.book_file() + '-writer')
    print(f'killed {COUNT} times: {met}')


drive.on_a_desk(main)
