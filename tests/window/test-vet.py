# SPDX-License-Identifier: GPL-3.0-or-later
"""The sheet for the vet: without the owner's permission it asks before it writes, and says so on the sheet; what is typed is on the
page, kept with the visit, and one step back; nothing that is there is written over; it prints through the same dialog."""
import json
import os
import subprocess
import sys
import time

import drive
from measure import words_of

STEM = 'no-name-yet-lf-' + time.strftime('%Y-%m-%d')
TITLE = 'Sheet for the vet'
QUESTION = "Without the owner's permission?"


def open_sheet(app, by_visit=False):
    if by_visit:
        day = time.localtime()
        app.click(app.find_seen(f'What can be done with the visit of {day.tm_mday} {time.strftime("%B %Y", day)}'))
        app.lines('Sheet for the vet…')
    else:
        app.menu('Sheet for the vet…')
    app.into(TITLE)


def fill(app, name, text):
    app.click(app.find_seen(name, 'text'))
    drive.key('ctrl+a')
    drive.type_text(text)


def told():
    return json.loads(drive.peek_book('select vet from visit') or 'null')


def files(folder):
    return sorted(os.listdir(folder))


def save_into(app, folder, count):
    """COUNT files are there when it is done."""
    app.open_file('Export the sheet for the vet', folder)
    drive.wait_for('the files', lambda: len(files(folder)) == count)


def asked_first(app, folder):
    """No permission: a question; who leaves it writes nothing, who goes on has a sheet that says so."""
    open_sheet(app)
    app.picture('vet-empty')
    drive.key('alt+e')
    app.into(QUESTION)
    app.picture('vet-question')
    drive.key('Escape')
    drive.window_goes('^' + QUESTION.replace('?', '[?]') + '$')
    assert files(folder) == []
    app.into(TITLE)
    drive.key('alt+e')
    app.into(QUESTION)
    drive.key('alt+g')
    save_into(app, folder, 3)
    drive.window_goes('^' + TITLE + '$')
    app.back()
    app.says('The sheet and its two pictures were written to')
    assert files(folder) == [f'{STEM}-after.png', f'{STEM}-before.png', f'{STEM}-vet.pdf'], files(folder)
    words = words_of(f'{folder}/{STEM}-vet.pdf')
    assert 'No permission is recorded.' in words and 'it does not diagnose' in words, words
    assert 'Before: the tracing' in words and 'by the frog' in words, words
    assert told() is None


def today_is_filled_in(app):
    """Who writes down who allowed it was most often told so today."""
    open_sheet(app)
    fill(app, 'Allowed by', 'A. Ostler')
    app.picture('vet-today')
    drive.key('alt+k')
    drive.window_goes('^' + TITLE + '$')
    app.back()
    assert told()['allowed'] == {'by': 'A. Ostler', 'on': time.strftime('%Y-%m-%d'), 'for': ''}, told()
    drive.key('ctrl+z')
    drive.wait_for('what was before', lambda: told() is None)


def kept_and_written(app, folder):
    """With all of it told nothing is asked, and what is there stays."""
    open_sheet(app)
    fill(app, 'For the vet', 'Dr Wick')
    fill(app, 'Why this shoe', 'Shorter at the toe, as was asked for.')
    fill(app, 'Allowed by', 'A. Ostler')
    fill(app, 'On the day', 'soon')
    app.says('is not a date')
    drive.key('alt+k')
    app.says('is not a date')
    assert told() is None
    fill(app, 'On the day', '28.11.2026')
    fill(app, 'For what', 'both fore feet')
    drive.wait_for('no trouble', lambda: not any(
        'is not a date' in node.name and node.seen() for node in app.walk()))
    app.picture('vet-filled')
    before = {name: os.stat(f'{folder}/{name}').st_mtime_ns for name in files(folder)}
    drive.key('alt+e')
    save_into(app, folder, 6)
    drive.window_goes('^' + TITLE + '$')
    app.back()
    assert f'{STEM}-2-vet.pdf' in files(folder), files(folder)
    assert all(os.stat(f'{folder}/{name}').st_mtime_ns == then for name, then in before.items())
    pdf = f'{folder}/{STEM}-2-vet.pdf'
    words = words_of(pdf)
    for said in ('For: Dr Wick', 'Shorter at the toe, as was asked for.', 'A. Ostler', '2026-11-28', 'both fore feet'):
        assert said in words, (said, words)
    assert 'No permission' not in words and 'not recorded' not in words, words
    info = subprocess.run(['pdfinfo', pdf], check=True, capture_output=True, text=True).stdout
    assert 'Pages:           1\n' in info and 'A4' in info, info
    assert told() == {'for': 'Dr Wick', 'why': 'Shorter at the toe, as was asked for.',
                      'allowed': {'by': 'A. Ostler', 'on': '2026-11-28', 'for': 'both fore feet'}}
    drive.key('ctrl+z')
    drive.wait_for('what was before', lambda: told() is None)


def too_much_is_told(app):
    open_sheet(app, by_visit=True)
    app.click(app.find_seen('Why this shoe', 'text'))
    drive.xdo('type', '--delay', 0, 'reasons and more of them ' * 86)
    app.says('Too much was written for one page')
    drive.key('alt+p')
    app.says('Too much was written for one page')
    assert not drive.windows('--name', '^Print$')
    app.picture('vet-too-much')
    drive.key('Escape')
    drive.window_goes('^' + TITLE + '$')
    app.back()
    drive.key('ctrl+z')


def printed(app):
    open_sheet(app)
    drive.key('alt+p')
    app.into(QUESTION)
    drive.key('alt+g')
    app.print_on('Print to File')
    app.back()
    pdf = drive.wait_for('the printed file', lambda: next(
        (os.path.join(where, name) for where, _, names in os.walk(drive.home()) for name in names
         if name == STEM + '-vet.pdf' and 'out' not in where and subprocess.run(
             ['pdfinfo', os.path.join(where, name)], capture_output=True).returncode == 0), None))
    words = words_of(pdf)
    assert 'No permission is recorded.' in words and 'Before: the tracing' in words, words


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    folder = drive.home() + '/out'
    os.makedirs(folder)
    asked_first(app, folder)
    today_is_filled_in(app)
    kept_and_written(app, folder)
    too_much_is_told(app)
    printed(app)
    app.close()


drive.on_a_desk(main)
