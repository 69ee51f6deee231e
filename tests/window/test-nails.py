# SPDX-License-Identifier: GPL-3.0-or-later
"""Nails of one's own: kept under a name, in every shoe from then on, chosen and left again, forgotten; and the lines of the
panel that are of no use in this shoe are not there."""
import json
import sys

import drive


def plan():
    return json.loads(drive.peek_book('select json from plan'))


def kept():
    try:
        with open(drive.home() + '/data/pritchel/nails.json', encoding='utf-8') as file:
            return {nail['name']: nail for nail in json.load(file)['nails']}
    except FileNotFoundError:
        return {}


def types(app, name, text):
    app.click(app.find_seen(name, 'text'))
    drive.key('ctrl+a')
    drive.type_text(text)
    drive.key('Return')


def opens(app, part, opened):
    """PART of the panel; OPENED, which is open and may have pushed it out of sight, is closed first."""
    app.click(app.find_seen(opened))
    app.click(app.find_seen(part))


def keeps(app, name):
    app.click(app.find_seen('Save as my own…'))
    app.keyboard_in('the name', lambda node: node.role == 'text')
    drive.type_text(name)
    drive.key('Return')
    drive.wait_for('the nails', lambda: name in kept())


def own_nails(app):
    opens(app, 'Nailing', 'Shoe')
    usual = plan()
    types(app, 'Nail head width', '4.8')
    types(app, 'Nail head depth', '6')
    drive.wait_for('the depth', lambda: plan()['nails.head_depth'] == 6)
    assert plan()['crease.width'] == 4.8, 'the crease is as wide as the heads'
    keeps(app, 'mine')
    drive.wait_for('the name', lambda: plan().get('nail') == 'mine')
    assert kept()['mine']['head_width'] == 4.8 and kept()['mine']['head_depth'] == 6, kept()
    app.picture('own-nails')
    app.choose(app.find_seen('Nails in use', 'combo box'), 'Up')
    drive.wait_for('nails by size', lambda: 'nail' not in plan())
    assert abs(plan()['nails.head_width'] - usual['nails.head_width']) < 1e-9
    assert abs(plan()['crease.width'] - usual['crease.width']) < 1e-9
    drive.key('ctrl+z')
    drive.wait_for('the nails back', lambda: plan().get('nail') == 'mine' and plan()['crease.width'] == 4.8)


def stay_in_another_style(app):
    opens(app, 'Shoe', 'Nailing')
    app.find_seen('Style', 'combo box')
    app.choose_style('plain-hind')
    assert plan()['nail'] == 'mine' and plan()['nails.head_width'] == 4.8


def forgotten(app):
    opens(app, 'Nailing', 'Shoe')
    app.click(app.find_seen('Forget', 'push button'))
    app.says('“mine” is forgotten')
    assert kept() == {}
    assert plan()['nails.head_width'] == 4.8, 'the shoe stays as it is'
    assert plan()['clip.1.present'] == 0
    assert not any(node.name == 'Clip base 1' and node.seen() for node in app.walk()), 'there is no clip'


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    own_nails(app)
    stay_in_another_style(app)
    forgotten(app)
    app.close()


drive.on_a_desk(main)
