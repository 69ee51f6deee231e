# SPDX-License-Identifier: GPL-3.0-or-later
"""What a finding offers, the hoof's wall, locks and the order of work: each is one step back, and in the
book when it is on the screen."""
import json
import sys

import drive

TALL = (1466, 1360)      # all lines of a part are in sight


def plan():
    return json.loads(drive.peek_book('select json from plan'))


def trace():
    return json.loads(drive.peek_book('select json from trace'))


def chip(app, word):
    return drive.wait_for('the chip ' + word, lambda: next(
        node for node in app.walk() if node.role in ('push button', 'push button')
        and node.name.startswith(word)))


def open_part(app, title):
    app.click(app.find(title, 'push button'))


def type_into(app, node, text):
    app.click(node)
    drive.key('ctrl+a')
    drive.type_text(text)
    drive.key('Return')


def heels(kept):
    return kept['heel.past.medial'], kept['heel.past.lateral']


def offer_mends_and_is_undone(app):
    heel = app.find('Heel, medial')
    before = app.value(heel)
    app.drag(heel, 0, 36)
    out = app.wait_value(heel, lambda now: drive.number(now) > drive.number(before) + 7.5)
    dragged = drive.wait_for('it in the book', lambda: abs(heels(plan())[0] - drive.number(out)) < 0.051 and plan())
    app.click(chip(app, 'heels'))
    offer = app.find('Bring both heels level', 'push button')
    drive.wait_for('its place', lambda: offer.seen())
    app.picture('offer')
    app.click_popup(offer)
    lateral = app.find('Heel, lateral')
    app.wait_value(lateral, lambda now: drive.number(now) > drive.number(before) + 5)
    drive.wait_for('the finding to go', lambda: not app.is_there('Bring both heels level'))
    assert heels(plan()) != heels(dragged), 'what was taken is in the book'
    app.click(app.find('Board'))
    drive.key('ctrl+z')
    drive.wait_for('the heels as dragged', lambda: heels(plan()) == heels(dragged))
    drive.key('ctrl+z')
    app.wait_value(heel, lambda now: now == before)


def wall_moves_the_nails(app):
    open_part(app, 'Measures')
    entry = app.find('Wall at the toe', 'text')
    drive.wait_for('its place', lambda: entry.seen())
    before, kept = plan(), trace()
    type_into(app, entry, '14')
    drive.wait_for('the wall in the book', lambda: abs(trace()['hoof']['wall_toe_mm'] - 14) < 1e-6)
    assert plan()['nails.inset.medial'] > before['nails.inset.medial'] + 0.2, 'the nails follow the white line'
    type_into(app, entry, '99')
    drive.wait_for('the complaint', lambda: any(node.name.startswith('A wall is between')
                                                for node in app.walk()))
    drive.key('ctrl+a')
    drive.type_text('14')
    drive.key('Return')
    app.picture('wall')
    app.click(app.find('Board'))
    drive.key('ctrl+z')
    drive.wait_for('the wall as before', lambda: trace()['hoof']['wall_toe_mm'] == kept['hoof']['wall_toe_mm']
                   and plan() == before)


def figure_is_put_back(app):
    """The way back stands beside a line only while there is one to go."""
    open_part(app, 'Shoe')
    entry = app.find('Web at the toe', 'text')
    drive.wait_for('the part', lambda: entry.seen())
    before = plan()['web.toe']
    assert not app.is_there('Put back: Web, toe')
    type_into(app, entry, '26')
    drive.wait_for('it in the book', lambda: plan()['web.toe'] == 26)
    back = app.find('Put back: Web, toe', 'push button')
    drive.wait_for('the way back', lambda: back.seen())
    app.picture('reset')
    app.click(back)
    drive.wait_for('the usual web', lambda: plan()['web.toe'] == before)
    drive.wait_for('the way back to go', lambda: not app.is_there('Put back: Web, toe'))
    step(app, 'ctrl+z', 'the typed web', lambda: plan()['web.toe'] == 26)
    step(app, 'ctrl+z', 'the web as before', lambda: plan()['web.toe'] == before)
    open_part(app, 'Shoe')


def lock_keeps_the_toe_at_a_style(app):
    open_part(app, 'Shoe')
    toe = app.find('Toe', 'push button')
    app.find_seen('Lock toe', 'push button')
    before = app.value(toe)
    app.drag(toe, 0, -24)
    moved = app.wait_value(toe, lambda now: now != before)
    app.click(app.find('Lock toe', 'push button'))
    drive.wait_for('the lock in the book', lambda: plan()['locks'] == 1)
    app.wait_value(toe, lambda now: 'locked' in now)
    heel = app.find('Heel, medial')
    still = app.value(heel)
    app.drag(heel, 0, 14)
    app.wait_value(heel, lambda now: now != still)
    app.click(app.find('Lock heels', 'push button'))
    drive.wait_for('both locks in the book', lambda: plan()['locks'] == 1 + 8 + 16)
    past = heels(plan())
    knot = plan()['edge.toe.y']
    app.picture('locked')
    first = plan()['style']
    style = app.find('Style', 'combo box')
    app.click(style)
    drive.key('Down', 'Down', 'Return')
    drive.wait_for('another style', lambda: plan()['style'] != first)
    assert abs(plan()['edge.toe.y'] - knot) < 1e-9, (plan()['edge.toe.y'], knot)
    assert heels(plan()) == past, (heels(plan()), past)
    app.click(app.find('Board'))     # the list of styles has gone
    drive.key('ctrl+z')
    drive.wait_for('the first style', lambda: plan()['style'] == first)
    app.click(app.find('Lock heels', 'push button'))
    app.click(app.find('Lock toe', 'push button'))
    drive.wait_for('no lock', lambda: plan()['locks'] == 0)
    app.click(app.find('Fit the edge again', 'label'))
    app.wait_value(toe, lambda now: now not in (moved,) and 'locked' not in now)
    assert abs(plan()['edge.toe.y'] - knot) > 1, 'without the lock the fit moves the toe'


def heats_are_moved(app):
    """A step goes later by its button, which keeps the keyboard; a heat is parted; one undo each."""
    turn = 'Turn the medial branch to the template.'
    drive.wait_for('the heats', lambda: app.is_there('Heat 1: toe'))
    assert 'heats' not in plan()
    later = app.find('Later: ' + turn, 'push button')
    app.click(later)
    drive.wait_for('the order kept', lambda: 'crease.medial turn.medial' in plan().get('heats', ''))
    app.keyboard_in('the same step', lambda node: node.name == 'Later: ' + turn)
    drive.key('ctrl+z')
    drive.wait_for('the order as it was', lambda: 'heats' not in plan())
    app.click(app.find('A new heat from here: ' + turn, 'push button'))
    drive.wait_for('a heat more', lambda: ' / turn.medial' in plan().get('heats', ''))
    app.picture('heats')
    app.click(app.find('Heats as planned', 'push button'))
    drive.wait_for('the heats again', lambda: 'heats' not in plan())


def order_is_reworded(app):
    open_part(app, 'Shoe')           # folded, so that what lies below is in sight
    open_part(app, 'Order of work')
    assert 'order' not in plan()
    drive.key('Tab', 'space')        # "In your own words"
    text = app.find('Order of work, a step a line', 'text')
    drive.key('Tab')
    app.keyboard_in('the words', lambda node: node.name == text.name)
    drive.key('ctrl+a')
    drive.type_text('Light the fire')
    drive.key('Return')
    drive.type_text('Cut the bar')
    drive.wait_for('it in the book', lambda: plan().get('order') == 'Light the fire\nCut the bar')
    app.picture('order')
    drive.key('shift+Tab', 'space')  # "As planned"
    drive.wait_for('the plan again', lambda: 'order' not in plan())
    drive.wait_for('it on the screen', lambda: not app.is_there('2 steps, in your words'))
    drive.key('ctrl+z')
    drive.wait_for('the words again', lambda: plan().get('order') == 'Light the fire\nCut the bar')


def points_are_measured(app):
    """Across the toe it is as far as the web is wide; and while measuring nothing is taken hold of."""
    board, before = app.find('Board'), plan()
    app.click(board)
    drive.key('m')
    app.wait_value(board, lambda now: now.startswith('Click'))
    for end in ('Toe', 'Web at the toe'):
        app.click(app.find(end, 'push button'))
    told = app.wait_value(board, lambda now: now.endswith(' mm'))
    app.picture('measured')
    # two points, each good to half a pixel, at three pixels a millimetre
    assert abs(drive.number(told) - before['web.toe']) < 0.5, (told, before['web.toe'])
    drive.key('Escape')
    drive.wait_for('the end of it', lambda: app.value(board) == '')
    assert plan() == before


def bars_are_chosen(app):
    """A bar too short offers a narrower web; the rack's lines are taken with a click. One step each."""
    app.fill_screen(*TALL)
    open_part(app, 'Shoe')
    open_part(app, 'Stock')
    given = app.find('Given length', 'text')
    drive.wait_for('the part', lambda: given.seen())
    before = plan()
    type_into(app, given, '225 mm')
    offer = app.find('Narrow the web to suit the stock', 'push button')
    drive.wait_for('its place', lambda: offer.seen())
    app.picture('given')
    app.click(offer)
    drive.wait_for('a narrower web', lambda: plan()['web.quarter.medial'] < before['web.quarter.medial'])
    drive.wait_for('the offer to go', lambda: not app.is_there('Narrow the web to suit the stock'))
    drive.key('ctrl+z')
    drive.wait_for('the web as before', lambda: plan()['web.quarter.medial'] == before['web.quarter.medial'])
    drive.key('ctrl+z')
    drive.wait_for('no given length', lambda: plan() == before)
    app.click(app.find('Stock on the rack, least work first', 'label'))
    line = drive.wait_for('the rack', lambda: next(node for node in app.walk() if node.name.startswith(
        '20 × 10 mm:') and node.seen()))
    app.picture('rack')
    app.click(line)
    drive.wait_for('the bar taken', lambda: plan()['stock.width'] == 20 and plan()['stock.thickness'] == 10)
    app.click(app.find('Take off the rack', 'push button'))
    drive.wait_for('it off the rack', lambda: not any(node.name.startswith('20 × 10 mm:') for node in app.walk()))
    app.click(app.find('Put it back', 'push button'))
    drive.wait_for('it on the rack', lambda: any(node.name.startswith('20 × 10 mm:') for node in app.walk()))
    app.click(app.find('More stock…'))
    drive.type_text('23 x 10')
    drive.key('Return')
    drive.wait_for('a bar more', lambda: any(node.name.startswith('23 × 10 mm:') for node in app.walk()))
    step(app, 'ctrl+z', 'the bar as before', lambda: plan() == before)


def the_other_foot_is_traced():
    """As after a second photo: the same outline as the off fore of the visit, with a wider shoe, and an earlier
    visit with one wider still."""
    with drive.sqlite3.connect(drive.book_file()) as book:
        horse, = book.execute('select id from horse').fetchone()
        visit, = book.execute('select id from visit').fetchone()
        outline, = book.execute('select json from trace').fetchone()
        shoe, = book.execute('select json from plan').fetchone()
        off = book.execute("insert into foot (visit, foot, changed) values (?, 'RF', '2020-01-01T00:00:00Z')",
                           (visit,)).lastrowid
        book.execute('insert into trace values (?, ?)', (off, outline.replace('"LF"', '"RF"')))
        book.execute('insert into plan values (?, ?)', (off, json.dumps({**json.loads(shoe), 'web.toe': 25})))
        before = book.execute("insert into visit (horse, date) values (?, '2020-01-01')", (horse,)).lastrowid
        near = book.execute("insert into foot (visit, foot, changed) values (?, 'LF', '2020-01-01T00:00:00Z')",
                            (before,)).lastrowid
        book.execute('insert into plan values (?, ?)', (near, json.dumps({**json.loads(shoe), 'web.toe': 27})))
    return off


def step(app, keys, what, done):
    """A key for the window, given on the board, where it is nobody else's."""
    app.click(app.find('Board'))
    drive.key(keys)
    drive.wait_for(what, done)


def shoe_of(foot):
    return json.loads(drive.peek_book(f'select json from plan where foot = {foot}'))


def shoes_are_taken_over(app, off):
    """First the shoe of the last visit, then the other foot's; each one step, and the other foot's stays. The
    steps are still there after the other foot was open."""
    app.find('Web at the toe', 'text')
    today = plan()['web.toe']
    app.menu('Shoe from the last visit')
    drive.wait_for('the earlier shoe', lambda: plan()['web.toe'] == 27)
    step(app, 'ctrl+z', 'the shoe of today', lambda: plan()['web.toe'] == today)
    step(app, 'ctrl+shift+z', 'the earlier shoe', lambda: plan()['web.toe'] == 27)
    app.menu('Same shoe as the other foot')
    drive.wait_for('the shoe of the other foot', lambda: plan()['web.toe'] == 25)
    assert shoe_of(off)['web.toe'] == 25
    app.click(app.find('off fore', 'push button'))
    app.find('No name yet · off fore', 'frame')
    app.click(app.find('near fore', 'push button'))
    app.find('No name yet · near fore', 'frame')
    step(app, 'ctrl+z', 'the shoe of the last visit', lambda: plan()['web.toe'] == 27)
    step(app, 'ctrl+z', 'the shoe of today', lambda: plan()['web.toe'] == today)
    assert shoe_of(off)['web.toe'] == 25


def main():
    app = drive.App(sys.argv[1])
    offer_mends_and_is_undone(app)
    app.fill_screen(*TALL)
    wall_moves_the_nails(app)
    figure_is_put_back(app)
    lock_keeps_the_toe_at_a_style(app)
    order_is_reworded(app)
    app.click(app.find('In your own words'))
    heats_are_moved(app)
    points_are_measured(app)
    app.close()
    app = drive.App()
    app.find('2 steps, in your words')
    bars_are_chosen(app)
    app.close()
    off = the_other_foot_is_traced()
    app = drive.App()
    shoes_are_taken_over(app, off)
    app.picture('other-foot')
    app.close()


drive.on_a_desk(main, f'{TALL[0]}x{TALL[1]}')
