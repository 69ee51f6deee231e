# SPDX-License-Identifier: GPL-3.0-or-later
"""Every style stands in the gallery under the feet it is made for, drawn on this foot; one is chosen by pointer, another by
keyboard, each one step; nothing else of the foot changes by looking."""
import json
import os
import sys

import drive

STYLES = os.path.join(os.path.dirname(os.path.abspath(__file__)), '../../data/styles')


def plan():
    return json.loads(drive.peek_book('select json from plan'))


def named():
    """Names by id."""
    out = {}
    for file in sorted(name for name in os.listdir(STYLES) if name.endswith('.json')):
        with open(os.path.join(STYLES, file), encoding='utf-8') as text:
            style = json.load(text)
            out[style['id']] = style['name']
    return out


def open_gallery(app):
    app.click(app.find_seen('Styles as pictures'))
    app.into('Styles on this foot')


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    before = drive.wait_for('the plan', lambda: drive.peek_book('select json from plan') and plan())
    names = named()
    open_gallery(app)
    for name in names.values():
        app.find(name)
    app.picture('styles-gallery')
    assert plan() == before
    app.click(app.find_seen(names['toe-clipped']))
    app.back()
    drive.wait_for('the style that was chosen', lambda: plan()['style'] == 'toe-clipped')
    drive.key('ctrl+z')
    drive.wait_for('the style before', lambda: plan() == before)

    open_gallery(app)
    app.find_seen(names['toe-clipped'])
    drive.key('Tab')
    app.keyboard_in('the gallery', lambda node: node.name in names.values())
    drive.key('Right')
    there = app.keyboard_in('another style', lambda node: node.name in names.values() and node.name != names['plain-front'])
    drive.key('Return')
    app.back()
    drive.wait_for('the style at the keyboard', lambda: names[plan()['style']] == there.name)
    app.close()


drive.on_a_desk(main)
