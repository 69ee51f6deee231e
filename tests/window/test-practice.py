# SPDX-License-Identifier: GPL-3.0-or-later
"""A run against the clock: begun from the menu, heats by the space bar and by a click anywhere on the face, a held key counts once;
the program is killed and the run is there when it begins again, and goes on; it is stopped, judged, deleted and had back. The face
is as large as reading it at four metres asks."""
import json
import os
import sys

import drive
import tree

PRACTICE = 'Practice'
FACE_LEAST_PX = 640              # PR_FACE_LEAST_PX in pr-practice-face.h
RUNS = 'select count(*) from run where deleted is null'


def record():
    return json.loads(drive.peek_book('select record from run order by id desc limit 1'))


def pressed(kind):
    return sum(press['kind'] == kind for press in record()['pressed'])


def wait_pressed(kind, n):
    drive.wait_for(f'{n} times "{kind}" in the book', lambda: pressed(kind) == n)


def face(app):
    return drive.wait_for('the face', lambda: next((node for node in app.walk() if node.role == 'timer' and node.seen()), None))


def start(app):
    app.menu('Practice…')
    app.into(PRACTICE)
    app.find_seen('One shoe against the clock', 'label')
    app.says('12 min · 1 shoe · any number of heats · without a striker')
    app.picture('practice-classes')
    drive.key('F1')
    app.into('Help')
    first = next(node for node in app.walk() if node.role == 'label' and node.seen())
    assert first.name == 'Practice', first.name
    drive.key('Escape')
    app.into(PRACTICE)
    app.click(app.find_seen('Start the clock', 'push button'))
    face(app)


def heats(app):
    app.keyboard_in('the face', lambda node: node.role == 'timer')
    drive.key('space')
    wait_pressed('heat', 1)
    x, y = app.middle(face(app))
    for n, (dx, dy) in enumerate(((0, 0), (-400, -150), (400, 150)), start=2):     # anywhere on it
        app.go_to(x + dx, y + dy)
        drive.xdo('click', 1)
        wait_pressed('heat', n)
    drive.xdo('keydown', 'space', 'sleep', 1.2, 'keyup', 'space')                  # it repeats
    wait_pressed('heat', 5)
    drive.key('Return')
    wait_pressed('step', 1)
    assert pressed('heat') == 5, record()
    drive.key('BackSpace')
    wait_pressed('step', 0)
    drive.key('Return')
    wait_pressed('step', 1)
    drive.wait_for('what is told', lambda: face(app).name.endswith(' minutes left, heat 5'))


def full_screen(app):
    drive.key('F11')
    drive.wait_for('the whole screen', lambda: drive.geometry(app.xid)[2:] == (1280, 720))
    box = drive.wait_for('a face as high', lambda: next(
        (b for b in [face(app).box()] if b.height >= FACE_LEAST_PX and b.width == 1280), None))
    assert box.height < 720, box
    app.picture('practice-clock')
    drive.key('Escape')
    drive.wait_for('the window', lambda: drive.geometry(app.xid)[3] < 720)


def killed(app):
    before = record()
    app.process.kill()
    app.process.wait()
    drive.App.running.remove(app)
    app = drive.App()
    app.into(PRACTICE)
    app.says('This run was going when Pritchel ended. Its clock has gone on.')
    app.picture('practice-found')
    assert record() == before, 'it was written to'
    assert face(app).name.endswith(' minutes left, heat 5'), face(app).name
    app.click(app.find_seen('Go on', 'push button'))
    drive.wait_for('the question to go', lambda: not any(node.name == 'Go on' and node.seen() for node in app.walk()))
    app.keyboard_in('the face', lambda node: node.role == 'timer')
    drive.key('space')
    wait_pressed('heat', 6)
    return app


def judged(app):
    drive.key('s')
    app.into('Scores and notes')
    wait_pressed('stop', 1)
    app.click(app.find_seen('Level', 'text'))
    drive.type_text('11')
    drive.key('alt+k')
    app.says('Level: write a mark from 0 to 10, or nothing.')
    finished = app.find_seen('The shoe was finished', 'check box')
    assert not finished.has(drive.tree.CHECKED), 'one step of many was done'
    app.click(finished)
    app.click(app.find_seen('Level', 'text'))
    drive.key('ctrl+a')
    drive.type_text('7.5')
    app.click(app.find_seen('Note', 'text'))
    drive.type_text('clip too thin')
    app.click(app.find_seen('A photo…', 'push button'))
    app.open_file('A photo of what was made', drive.book_file())
    app.into('Scores and notes')
    drive.wait_for('that it is none', lambda: any(
        node.role == 'label' and 'is not a photo' in node.name for node in app.walk()))
    app.click(app.find_seen('A photo…', 'push button'))
    app.open_file('A photo of what was made', os.path.abspath(sys.argv[1]))
    app.into('Scores and notes')
    app.find_seen('What was made')
    app.picture('practice-sheet')
    drive.key('alt+k')
    drive.window_goes('^Scores and notes$')
    app.into(PRACTICE)
    told = record()
    names = [one['name'] for one in told['class']['criteria']]
    assert told['scores'][names.index('Level')] == {'value': 7.5}, told
    assert told['scores'][names.index('In the time')] == {'value': 10, 'measured': True}, told
    assert told['note'] == 'clip too thin'
    assert drive.peek_book('select length (photo) from run') == os.path.getsize(sys.argv[1])
    assert len(told['steps']) > 5 and drive.peek_book('select foot from run') == drive.peek_book('select id from foot')
    app.says('6 heats · 2 of 10 judged, so far 8.5')          # (7.5 x 6 + 10 x 4) / 10
    app.says('Ten runs make a trend; so far there is 1.')
    app.says('Changed: the run of ')
    drive.key('ctrl+z')
    drive.wait_for('all of it taken back', lambda: record()['note'] == '' and drive.peek_book('select photo from run') is None)
    app.says('not finished · 6 heats')


def deleted(app):
    app.click(next(node for node in app.walk() if node.name.startswith('Delete: ') and node.role == 'push button'))
    app.says('Deleted: the run of ')
    drive.wait_for('no run', lambda: drive.peek_book(RUNS) == 0)
    app.click(app.find_seen('Undo', 'push button'))
    drive.wait_for('the run', lambda: drive.peek_book(RUNS) == 1)
    app.says('not finished · 6 heats')


def own_class(app):
    app.click(app.find_seen('A class of your own…', 'push button'))
    app.into('A class')
    drive.key('alt+k')
    app.says('A class needs a name; type a short one.')
    app.click(app.find_seen('Name', 'text'))
    drive.type_text('Sunday')
    app.picture('practice-class')
    drive.key('alt+k')
    drive.window_goes('^A class$')
    app.into(PRACTICE)
    drive.wait_for('the class', lambda: drive.peek_book("select count(*) from class where name = 'Sunday'") == 1)
    app.says('No run yet.')


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1280, 720)
    app.find('Heel, lateral')
    start(app)
    heats(app)
    full_screen(app)
    app = killed(app)
    judged(app)
    deleted(app)
    own_class(app)
    drive.key('Escape')
    drive.window_goes(f'^{PRACTICE}$')
    app.back()
    app.close()


drive.on_a_desk(main, size='1280x720')
