# SPDX-License-Identifier: GPL-3.0-or-later
"""What a person prefers is there at the next start, whichever book is open: unit, look, larger text, a faded shoe, the book
put aside, the window's size and that it was maximized. The book holds none of it."""
import json
import re
import subprocess
import sys

import drive

KEPT = {'GSETTINGS_BACKEND': 'keyfile'}      # in the desk's own XDG_CONFIG_HOME


def book_is_shown(app):
    """Does anything stand to the left of the board?"""
    return app.find('Board').box().x > 100


def ground(app):
    """How bright the header is, 0 to 255: from the screen itself."""
    shot = subprocess.run(['import', '-window', app.xid, '-crop', '40x4+330+5', '-resize', '1x1!', 'txt:-'],
                          check=True, capture_output=True, text=True).stdout
    return sum(int(part, 16) for part in re.search(r'#(\w\w)(\w\w)(\w\w)', shot).groups()) / 3


def letters(app):
    """How high a line of them is, px."""
    return app.find('Tracing', 'label').box().height


def iron(app):
    """How bright it is in the middle of the toe's web, 0 to 255, the pointer elsewhere."""
    (x, outer), (_, inner) = (app.middle(app.find(name, 'push button')) for name in ('Toe', 'Web at the toe'))
    left, top, _, _ = drive.geometry(app.xid)
    told = subprocess.run(['import', '-window', 'root', '-crop', f'1x1+{left + x + 9}+{top + (outer + inner) // 2}', '-depth',
                           '8', 'rgb:-'], check=True, capture_output=True).stdout
    return sum(told) / 3


def the_shoe_is_faded(app):
    before = iron(app)
    app.click(app.find_seen('What is shown'))
    for name in ('photo', 'tracing', 'shoe'):
        app.find_seen('Strength of the ' + name, 'slider')
    at = app.keyboard_in('the list', lambda node: node.name == 'Photo')
    while at.name != 'Strength of the shoe':
        drive.key('Tab')
        at = app.keyboard_in('the next line', lambda node: node != at)
    app.picture('faded')
    drive.key('Home')
    drive.wait_for('the photo through the shoe', lambda: abs(iron(app) - before) > 25)
    drive.key('Escape')


def type_into(app, node, text):
    app.click(node)
    app.keyboard_in('the entry', lambda focus: focus.parent == node or focus == node)
    drive.key('ctrl+a')
    drive.type_text(text)
    drive.key('Return')


def entry(app, name):
    return app.find_seen(name, 'entry' if name.startswith('Find') else 'text')


def own_file(name):
    try:
        with open(f"{drive.home()}/config/pritchel/{name}.json", encoding='utf-8') as file:
            return json.load(file)
    except FileNotFoundError:
        return {}


def limits_rack_and_losses(app):
    """What is set on the pages of the preferences holds at once, is kept in a person's own files, and has a way back."""
    chip = lambda: next(node.name for node in app.walk(app.top) if node.name.startswith('heels'))
    before = chip()
    drive.key('ctrl+comma')
    app.into('Preferences')
    app.click(app.find_seen('Limits'))
    cover = 'Metal under the buttress, at least: to check'
    type_into(app, entry(app, 'Find a limit'), 'buttress, at l')
    drive.wait_for('fewer limits', lambda: not any(node.name.startswith('Edge inside the wall: ') and node.seen()
                                                   for node in app.walk()))
    type_into(app, entry(app, cover), '40 %')
    drive.wait_for('the limit', lambda: own_file('limits').get('heel.cover', {}).get('look') == 0.4)
    drive.wait_for('other findings', lambda: chip() != before)
    type_into(app, entry(app, cover), 'wide')
    app.says('is no figure')
    drive.key('Escape')
    app.click(app.find_seen('Metal under the buttress, at least: Back to the program\'s own'))
    drive.wait_for('our own again', lambda: own_file('limits') == {} and chip() == before)
    app.picture('limits')

    app.click(app.find_seen('Rack'))
    bars = lambda: [bar['section'] for bar in own_file('rack').get('bars', ())]
    type_into(app, entry(app, 'section, such as 3/8 x 1'), '19 x 7 mm')
    drive.wait_for('the bar', lambda: '19 × 7 mm' in bars())
    app.click(app.find_seen('Take “19 × 7 mm” off the rack'))
    drive.wait_for('the bar to go', lambda: '19 × 7 mm' not in bars())
    app.click(app.find_seen('Put it back'))
    drive.wait_for('the bar', lambda: '19 × 7 mm' in bars())

    app.click(app.find_seen('Losses'))
    type_into(app, entry(app, 'Loss to scale and grinding'), '55 %')
    app.says('it takes 0 % to 20 %')
    type_into(app, entry(app, 'Loss to scale and grinding'), '4.5 %')
    drive.wait_for('the trouble to go', lambda: not any('it takes' in node.name and node.seen() for node in app.walk()))
    app.click(app.find_seen('Book'))
    app.says('book.pritchel')
    drive.key('Escape')
    app.back()


def main():
    app = drive.App(sys.argv[1], **KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel), app.value(heel)
    drive.wait_for('a light window with the book', lambda: book_is_shown(app) and ground(app) > 180)
    limits_rack_and_losses(app)
    app.prefer('Inches')
    app.wait_value(heel, lambda now: ' mm ' not in now)
    app.prefer('Dark')
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    usual = letters(app)
    app.prefer('Larger text')
    drive.wait_for('larger letters', lambda: letters(app) > 1.15 * usual)
    the_shoe_is_faded(app)
    app.click(app.find('Board'))
    drive.key('F9')
    drive.wait_for('the book to go', lambda: not book_is_shown(app))
    app.resize(1100, 700)
    app.close()

    app = drive.App(**KEPT)
    heel = app.find('Heel, lateral')
    assert ' mm ' not in app.value(heel), app.value(heel)
    drive.wait_for('no book', lambda: not book_is_shown(app))
    drive.wait_for('a dark window', lambda: ground(app) < 80)
    app.wait_size(1100, 700)
    app.picture('preferences')
    app.click(app.find('Maximize', 'push button'))
    drive.wait_for('the whole screen', lambda: app.window.box().width > 1470)
    app.close()
    assert drive.ask_book("select group_concat(key) from setting") == 'last-foot'

    app = drive.App(**KEPT)
    drive.wait_for('the whole screen', lambda: app.window.box().width > 1470)
    app.find('Heel, lateral')
    drive.wait_for('larger letters', lambda: letters(app) > 1.15 * usual)
    assert iron(app) > 100, 'the shoe is as it was: dark'
    app.picture('kept')
    app.close()
    app = drive.App(GSETTINGS_BACKEND='memory')       # another person's desk
    heel = app.find('Heel, lateral')
    assert ' mm ' in app.value(heel), app.value(heel)
    drive.wait_for('the book', lambda: book_is_shown(app))
    app.close()


drive.on_a_desk(main)
