# SPDX-License-Identifier: GPL-3.0-or-later
"""A photo, or a book of feet, that is bad on purpose: the window answers while it is looked at, Stop ends that, and each is refused in
a sentence while the foot that is open stays as it is."""
import os
import sqlite3
import struct
import subprocess
import time

import drive


def photo(name, data, size=None):
    path = drive.home() + '/' + name
    with open(path, 'wb') as out:
        out.write(data)
        out.truncate(size or len(data))
    return path


def tiff(width, height):
    """A head that tells a size."""
    entries = ((256, 4, width), (257, 4, height))
    return (b'MM\0*\0\0\0\x08' + struct.pack('>H', len(entries))
            + b''.join(struct.pack('>HHII', tag, kind, 1, value) for tag, kind, value in entries) + bytes(100))


def slow_helper():
    """What decodes the photos that are decoded apart, told when to give up."""
    path = drive.home() + '/slow'
    with open(path, 'w', encoding='utf-8') as out:
        out.write(f'#!/bin/sh\ncd {drive.home()}\necho $$ > begun\nwhile [ ! -e go ]; do sleep 0.05; done\nexit 1\n')
    os.chmod(path, 0o755)
    return path


def hand_in(file):
    subprocess.run([os.environ['PRITCHEL_WINDOW'], file], check=True, timeout=drive.LIMIT)


def refused(app, words):
    """The sentence comes; the window tells what lies in it all the while."""
    slowest = 0

    def said():
        nonlocal slowest
        asked = time.monotonic()
        app.window.box()
        slowest = max(slowest, time.monotonic() - asked)
        return any(node.role == 'label' and words in node.name and node.seen() for node in app.walk())
    drive.wait_for(words, said)
    print(f'{words}: answered within {1000 * slowest:.0f} ms')


def begun():
    path = drive.home() + '/begun'
    drive.wait_for('the helper', lambda: os.path.exists(path) and os.path.getsize(path) > 0)
    with open(path, encoding='utf-8') as file:
        pid = int(file.read())
    os.unlink(path)
    return pid


def is_worked_with(app):
    """Another control acts while the photo is looked at."""
    heel = app.find('Heel, lateral')
    before = app.value(heel)
    app.click(heel)
    asked = time.monotonic()
    drive.key('Down')
    app.wait_value(heel, lambda now: now != before)
    print(f'a key acted within {1000 * (time.monotonic() - asked):.0f} ms')


def works_while_it_is_refused(app):
    hand_in(photo('slow.tif', tiff(640, 480)))
    begun()
    is_worked_with(app)
    assert app.find('Stop', 'push button').seen(), 'it is still looked at'
    open(drive.home() + '/go', 'w', encoding='utf-8').close()
    refused(app, 'slow.tif is damaged')
    os.unlink(drive.home() + '/go')


def is_stopped(app):
    hand_in(photo('stopped.tif', tiff(640, 480)))
    pid = begun()
    app.click(app.find_seen('Stop', 'push button'))
    drive.wait_for('the helper to end', lambda: not os.path.exists(f'/proc/{pid}'))
    is_worked_with(app)
    assert not any('stopped.tif' in node.name for node in app.walk()), 'what was stopped is not spoken of'


def each_is_refused(app):
    os.mkfifo(drive.home() + '/pipe.jpg')
    os.symlink('/dev/zero', drive.home() + '/zeros.jpg')
    for file, words in (
            (drive.home() + '/pipe.jpg', 'pipe.jpg is not a photo'),
            (drive.home() + '/zeros.jpg', 'zeros.jpg is not a photo'),
            (photo('large.jpg', b'\xff\xd8\xff\xe0', 257 << 20), 'large.jpg is larger than'),
            (photo('hole.jpg', b'\xff\xd8\xff\xe0', 256 << 20), 'hole.jpg is damaged'),
            (photo('svg.jpg', b"<svg xmlns='http://www.w3.org/2000/svg' width='9000' height='9000'/>"), 'svg.jpg is SVG'),
            (photo('wide.tif', tiff(60000, 60000)), 'wide.tif has 60000 by 60000 pixels')):
        hand_in(file)
        refused(app, words)


def book_of_notes(rows):
    """A sound database with nothing of a book in it, but much else."""
    path = drive.home() + '/notes.pritchel'
    with sqlite3.connect(path) as book:
        book.execute('CREATE TABLE note (text TEXT)')
        book.executemany('INSERT INTO note VALUES (?)', ((f'note {i} ' * 20,) for i in range(rows)))
    book.close()
    return path


def sent_feet_are_refused(app):
    for file, words in (
            (photo('large.pritchel', b'SQLite format 3\0', (500 << 20) + 1), 'large.pritchel'),
            (book_of_notes(100_000), 'notes.pritchel'),
            (photo('cut.pritchel', b'SQLite format 3\0' + bytes(4000)), 'cut.pritchel')):
        hand_in(file)
        refused(app, words)


def main():
    app = drive.App(PRITCHEL_DECODE=slow_helper())
    app.click(app.find('Try the demo foot', 'push button'))
    app.find('Heel, lateral')
    works_while_it_is_refused(app)
    app.click(app.find_seen('Close the message', 'push button'))
    is_stopped(app)
    each_is_refused(app)
    sent_feet_are_refused(app)
    app.find('Demo foot · near fore', 'frame')
    app.close()
    assert drive.ask_book('select count(*) from foot') == 1


drive.on_a_desk(main)
