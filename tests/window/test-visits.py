# SPDX-License-Identifier: GPL-3.0-or-later
"""Two visits side by side: the earlier one's change in figures, each way of laying, left on right, shoes; one foot over time;
saved as values, picture and pages; and the earlier visit as a ghost on the board. The earlier visit is the later one with its
wall taken in by 2 mm all round, so what must be told is known."""
import csv
import json
import math
import os
import subprocess
import sys

import drive

TAKEN_IN = 2.0


def taken_in(outline, by):
    """The line moved inward by BY mm, square to itself."""
    middle = [sum(p[i] for p in outline) / len(outline) for i in (0, 1)]
    out = []
    for i, (x, y) in enumerate(outline):
        a, b = outline[max(i - 3, 0)], outline[min(i + 3, len(outline) - 1)]
        dx, dy = b[0] - a[0], b[1] - a[1]
        n = math.hypot(dx, dy)
        nx, ny = -dy / n, dx / n
        if (x - middle[0]) * nx + (y - middle[1]) * ny > 0:
            nx, ny = -nx, -ny
        out.append([x + by * nx, y + by * ny])
    return out


def add_visits():
    """Six weeks before the visit there is the same foot, smaller, with the same shoe; twelve weeks before, a foot without a
    line; and on the first of them a hind foot."""
    with drive.sqlite3.connect(drive.book_file()) as book:
        foot, visit, horse, date = book.execute(
            'select foot.id, visit.id, horse, date from foot join visit on visit.id = foot.visit').fetchone()
        trace = json.loads(book.execute('select json from trace where foot = ?', (foot,)).fetchone()[0])
        plan = book.execute('select json from plan where foot = ?', (foot,)).fetchone()[0]
        trace['outline_mm'] = taken_in(trace['outline_mm'], TAKEN_IN)
        for name in ('landmarks', 'by_hand_mm', 'drawn'):
            trace.pop(name, None)
        for name, side, text in (('2026-03-02', 'LF', trace), ('2026-01-19', 'LF', None), ('2026-03-02', 'LH', trace)):
            row = book.execute('select id from visit where date = ?', (name,)).fetchone()
            at = row[0] if row else book.execute('insert into visit (horse, date) values (?, ?)',
                                                 (horse, name)).lastrowid
            one = book.execute('insert into foot (visit, foot, changed) values (?, ?, ?)', (at, side, date)).lastrowid
            if text:
                book.execute('insert into trace values (?, ?)', (one, json.dumps(text)))
                book.execute('insert into plan values (?, ?)', (one, plan))


def figure(app, label):
    """The figure beside LABEL in the window."""
    nodes = list(app.walk())
    at = next(i for i, node in enumerate(nodes) if node.name == label and node.role == 'label' and node.seen())
    return nodes[at + 1].name


def signed(text):
    return drive.number(text.replace('\u2212', '-').replace('+', '').replace('±', ''))


def told(app, way):
    """Laid that WAY, the change at all five places is what the wall was taken in by."""
    for label in ('Toe', 'Quarter, medial', 'Quarter, lateral', 'Heel, medial', 'Heel, lateral'):
        assert abs(signed(figure(app, label)) - TAKEN_IN) < 0.3, (way, label, figure(app, label))


def save(app, name, line):
    """By its menu, into FILE; returns its path."""
    path = f'{drive.home()}/{name}'
    app.click(app.find_seen('Save…'))
    app.lines(line)
    app.open_file('Save what is shown of the visits', path)
    app.into('Visits side by side')
    drive.wait_for(name, lambda: os.path.exists(path))
    return path


def side_by_side(app):
    app.menu('Visits side by side…')
    app.into('Visits side by side')
    app.says('Best fit: even growth shows')
    app.picture('visits-two')
    told(app, 'best fit')
    def way(*keys):
        app.choose(app.find_seen('How they are laid on each other', 'combo box'), *keys)

    way('Home')
    app.says("The earlier foot's frog is not marked")
    way('Home', 'Down')
    app.says('The earlier foot has no toe tick')
    way('End')
    app.says('Best fit: even growth shows')
    picture = save(app, 'two.png', 'Picture…')
    with open(picture, 'rb') as file:
        assert file.read(8) == b'\x89PNG\r\n\x1a\n'
    app.choose(app.find_seen('What is compared', 'combo box'), 'End')
    drive.wait_for('the shoes', lambda: figure(app, 'Web at the toe'))
    app.picture('visits-shoes')
    app.choose(app.find_seen('What is compared', 'combo box'), 'Home')
    app.choose(app.find_seen('Earlier foot', 'combo box'), 'End')
    app.says('has no tracing yet')
    app.choose(app.find_seen('Later foot', 'combo box'), 'Home', 'Down', 'Down')    # the hind foot, alone of its kind
    app.says('the only foot of its kind')
    app.choose(app.find_seen('Later foot', 'combo box'), 'Home', 'Down')
    app.says('has no tracing yet')                                                  # the one before it
    app.choose(app.find_seen('Earlier foot', 'combo box'), 'Home')                  # a later one: they change places
    app.says('Best fit: even growth shows')
    told(app, 'turned round')
    assert figure(app, 'Dashed line').startswith('2 March 2026'), figure(app, 'Dashed line')


def over_time(app):
    app.click(app.find_seen('Over time'))
    app.says('2 March 2026')
    app.picture('visits-time')
    values = save(app, 'visits.csv', 'Table, comma separated…')
    with open(values, encoding='utf-8', newline='') as file:
        rows = list(csv.DictReader(file))
    assert [row['foot'] for row in rows] == ['LF', 'LF'] and rows[0]['date'] == '2026-03-02', rows
    assert abs(float(rows[1]['width_mm']) - float(rows[0]['width_mm']) - 2 * TAKEN_IN) < 0.3, rows
    pages = save(app, 'visits.pdf', 'PDF…')
    said = subprocess.run(['pdftotext', pages, '-'], capture_output=True, text=True, check=True).stdout
    assert '2026-03-02' in said and 'median' in said, said
    drive.key('Escape')
    app.back()


def ghost(app):
    app.click(app.find_seen('What is shown'))
    app.find_seen('Visit of 2 March 2026')
    at = app.keyboard_in('the list', lambda node: node.name == 'Photo')
    while at.name != 'Visit of 2 March 2026':
        drive.key('Tab')
        at = app.keyboard_in('the next line', lambda node: node != at)
    drive.key('space')
    drive.wait_for('the ghost', lambda: app.find('Visit of 2 March 2026').has(drive.tree.CHECKED))
    app.picture('visits-layers')
    drive.key('Escape')
    app.picture('visits-ghost')


def from_the_visit(app):
    more = next(node for node in app.walk() if node.name == 'What can be done with the visit of 2 March 2026')
    app.click(more)
    app.lines('Side by side…')
    app.into('Visits side by side')
    app.says('This foot has no tracing yet')        # there is none before it
    drive.key('Escape')
    app.back()


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    drive.wait_for('the plan', lambda: drive.peek_book('select count(*) from plan') == 1)
    app.close()
    add_visits()
    app = drive.App()
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    side_by_side(app)
    over_time(app)
    ghost(app)
    from_the_visit(app)
    app.close()


drive.on_a_desk(main)
