# SPDX-License-Identifier: GPL-3.0-or-later
"""A horse's yard, owner, note and interval, a visit's day and note: typed, shown, found by, taken back; what is due is listed,
opens its horse, and goes into a calendar."""
import datetime
import os
import sys

import drive


def about_horse(app):
    app.click(app.find_seen('What can be done with this horse'))
    app.lines('About this horse…')
    app.into('About this horse')


def fill(app, name, text):
    app.click(app.find_seen(name, 'text'))
    drive.key('ctrl+a')
    drive.type_text(text)


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    today = datetime.date.today()
    about_horse(app)
    fill(app, 'Yard', 'Mill yard')
    fill(app, 'Owner', 'A. Ostler')
    app.choose(app.find_seen('Shod', 'combo box'), 'Down')          # every 3 weeks
    app.picture('about-horse')
    drive.key('alt+k')
    app.back()
    app.says('Mill yard · A. Ostler')
    due = today + datetime.timedelta(21)
    app.says(f'next due {due.day} ')
    assert drive.peek_book('select owner || yard || due_days from horse') == 'A. OstlerMill yard21'
    app.picture('diary')

    drive.key('ctrl+f')
    drive.type_text('ostl')
    drive.wait_for('the horse', lambda: not app.is_there('No horse here yet'))
    drive.type_text('x')
    app.find_seen('No horse here yet')
    drive.key('ctrl+a', 'Delete')
    drive.wait_for('the horse again', lambda: not app.is_there('No horse here yet'))

    app.click(app.find_seen(f'What can be done with the visit of {today.day} {today:%B %Y}'))
    app.lines('About this visit…')
    app.into('About this visit')
    app.choose(app.find_seen('Colour of the card', 'combo box'), 'Down', 'Down')
    app.find_seen('Card of the day: sky')
    app.click(app.find_seen('Note', 'text'))
    drive.type_text('lost the near hind')
    app.picture('about-visit')
    drive.key('alt+k')
    app.back()
    app.says('lost the near hind')
    app.find_seen('Card of the day: sky')
    app.picture('about-visit-kept')
    assert drive.peek_book('select colour from visit') == 2
    drive.key('ctrl+z')
    drive.wait_for('no note', lambda: drive.peek_book('select note || colour from visit') == '0')
    drive.wait_for('no card', lambda: not any(
        node.name == 'Card of the day: sky' and node.seen() for node in app.walk()))

    app.menu('What is due…')
    app.into('What is due')
    app.says('next due')
    app.picture('due')
    calendar = drive.home() + '/shoeing.ics'
    app.click(app.find_seen('As a calendar…', 'push button'))
    app.open_file('Keep what is due as a calendar', calendar)
    drive.wait_for('the calendar', lambda: os.path.exists(calendar))
    with open(calendar, encoding='utf-8', newline='') as file:
        text = file.read()
    assert f'DTSTART;VALUE=DATE:{due:%Y%m%d}\r\n' in text and 'LOCATION:Mill yard\r\n' in text, text
    app.close()


drive.on_a_desk(main)
