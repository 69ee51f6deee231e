# SPDX-License-Identifier: GPL-3.0-or-later
"""Two feet drawn on one sheet: the other one's line lies dashed on the board and is taken by one press, undone by one
step; it is filed as a foot of its own, which is open then; or it is left out."""
import json
import os
import subprocess

import drive


def scene():
    photo, truth = drive.home() + '/two.jpg', drive.home() + '/two.json'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, truth, 'width=1800', 'height=2400', 'paper=A3', 'hoof_length=130',
                    'hoof_width=122', 'other_mm[0]=4', 'other_mm[1]=165', 'at_mm[1]=-80'], check=True)
    return photo


def traces():
    return json.loads(drive.peek_book("select '[' || group_concat(json) || ']' from (select json from trace order by foot)"))


def middle(points):
    return [sum(p[i] for p in points) / len(points) for i in (0, 1)]


def kept_comes(what, good):
    return drive.wait_for(what, lambda: good(traces()) and traces())


def main():
    app = drive.App(scene())
    take = app.find_seen('Take that outline')
    first = kept_comes('two lines', lambda t: len(t) == 1 and len(t[0]['others']) == 1)[0]
    here, there = middle(first['outline_mm']), middle(first['others'][0]['outline_mm'])
    app.picture('two-feet')

    def line_is_at(place):
        return lambda t: sum(abs(a - b) for a, b in zip(middle(t[0]['outline_mm']), place)) < 0.1

    app.click(take)
    kept_comes('the other line', line_is_at(there))
    app.find_seen('Undo')
    app.picture('two-feet-taken')
    drive.key('ctrl+z')
    kept_comes('the first line', line_is_at(here))

    app.click(app.find_seen('Leave it out'))
    kept_comes('one line', lambda t: 'others' not in t[0])
    drive.key('ctrl+z')
    kept_comes('both', lambda t: len(t[0].get('others', [])) == 1)

    app.click(app.find_seen('File it as another foot'))
    both = kept_comes('a foot of its own', lambda t: len(t) == 2)
    assert all('others' not in t for t in both)
    assert sum(abs(a - b) for a, b in zip(middle(both[0]['outline_mm']), here)) < 0.1
    assert sum(abs(a - b) for a, b in zip(middle(both[1]['outline_mm']), there)) < 0.1
    app.close()


drive.on_a_desk(main)
