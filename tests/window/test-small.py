# SPDX-License-Identifier: GPL-3.0-or-later
"""A small screen, in every language and in inches: the window can be as small as 960 x 600 whatever stands in it and whichever
pane is shown; at 1280 x 720 the board has 60 % of it, the panes being folded; and they come back where there is room again."""
import sys

import drive
from actions import Actions

LANGUAGES = ('en', 'de', 'es', 'fr', 'nl')
LEAST = 960, 600
SHARE = 0.60


def board(app):
    """What the handles lie on."""
    handle = drive.wait_for('a handle', lambda: next(
        node for node in app.walk() if node.role == 'push button' and ' mm' in (node.value() or '') or ' in' in (node.value() or '')))
    return handle.parent


def stays(app, what):
    """As small as was asked, once all is laid out."""
    app.resize(*LEAST)
    app.window.box()
    assert drive.geometry(app.xid)[2:] == LEAST, (what, drive.geometry(app.xid))


def panes(actions):
    return actions.is_on('book'), actions.is_on('side')


def everything_fits(app, language):
    actions = Actions()
    app.fill_screen(1280, 720)
    drive.wait_for('the panes to fold', lambda: panes(actions) == (False, False))
    box = app.at_rest(board(app))
    share = box.width * box.height / (1280 * 720)
    print(f'{language}: the board has {100 * share:.1f} %')
    assert share >= SHARE, (language, box, share)
    app.picture('small-' + language)
    stays(app, 'both folded')
    for pane, shown in (('side', (False, True)), ('book', (True, False))):
        actions.press(pane)
        drive.wait_for(pane, lambda: panes(actions) == shown)
        stays(app, pane)
        app.picture(f'small-{language}-{pane}')
    actions.press('side')
    for stage, role in (('draw-line', 'check box'), ('mark-scale', 'combo box')):
        actions.press(stage)
        drive.wait_for(stage, lambda: any(node.role == role and node.seen() and node.box().x < 500 for node in app.walk()))
        stays(app, stage)
        app.picture(f'small-{language}-{stage}')
    app.fill_screen(1460, 720)
    drive.wait_for('the panes', lambda: panes(actions) == (True, True))
    app.picture(f'small-{language}-back')


def main():
    photo = [sys.argv[1]]
    for language in LANGUAGES:
        app = drive.App(*photo, LANGUAGE=language)
        board(app)
        if language == 'en':
            app.prefer('Inches')
        everything_fits(app, language)
        app.close()
        photo = []


drive.on_a_desk(main)
