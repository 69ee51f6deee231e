# SPDX-License-Identifier: GPL-3.0-or-later
"""1:1 says that it is a guess until the screen has been measured, and leads to the card. The card on the screen has
the shape of an ID-1 card (ISO/IEC 7810: 85.60 mm x 53.98 mm), the rule beside it the same scale; once it is told
to fit, what is 1:1 on the board has that scale too, and at the next start as well."""
import collections
import configparser
import subprocess
import sys

import drive

WIDTH_MM, HEIGHT_MM, RULE_MM = 85.60, 53.98, 100
CORNER_MM = 2.88, 3.48        # the published range of the corner's radius
KEPT = {'GSETTINGS_BACKEND': 'keyfile'}
ASKED = 'Measure this screen'


class Picture:
    """What a window shows, pixel by pixel."""

    def __init__(self, xid):
        data = subprocess.run(['import', '-window', xid, '-depth', '8', 'ppm:-'], check=True,
                              capture_output=True).stdout
        _, size, _, self.data = data.split(b'\n', 3)
        self.width, self.height = map(int, size.split())
        count = collections.Counter(self.at(x, y) for y in range(0, self.height, 2) for x in range(0, self.width, 2))
        self.ground, self.fill = [colour for colour, _ in count.most_common(2)]

    def at(self, x, y):
        i = 3 * (y * self.width + x)
        return self.data[i:i + 3]

    def run(self, x, y, dx, dy):
        """How far from there the ground begins."""
        n = 0
        while self.at(x + n * dx, y + n * dy) != self.ground:
            n += 1
        return n

    def card(self):
        """Its left, top, width and height, px."""
        rows = [y for y in range(self.height)
                if sum(self.at(x, y) == self.fill for x in range(0, self.width, 4)) > self.width // 16]
        y = rows[len(rows) // 2]
        across = [x for x in range(self.width) if self.at(x, y) == self.fill]
        x = across[len(across) // 2]
        left, up = self.run(x, y, -1, 0), self.run(x, y, 0, -1)
        return (x - left + 1, y - up + 1, left + self.run(x, y, 1, 0) - 1, up + self.run(x, y, 0, 1) - 1)

    def rule(self):
        """From its first line to its last, px: below the card, where every line reaches."""
        _, top, _, height = self.card()
        row = top + height + 34 + 26 - 4
        lines = [x for x in range(self.width) if self.at(x, row) != self.ground]
        return lines[-1] - lines[0]

    def corner(self):
        """Radius of the corner, px: along the card's diagonal the ground reaches (sqrt 2 - 1) r into it."""
        left, top, _, _ = self.card()
        n = 0
        while self.at(left + n, top + n) == self.ground:
            n += 1
        return n / (1 - 0.5 ** 0.5)


def dialog(app):
    drive.window_comes(ASKED)
    app.into(ASKED)
    return at_rest(app, lambda card: True)


def at_rest(app, good):
    """The picture once its card is GOOD and twice the same."""
    def look():
        picture = Picture(app.xid)
        card = picture.card()
        return picture if good(card) and card == Picture(app.xid).card() else None
    return drive.wait_for('the card', look)


def is_a_card(picture):
    """Returns px per mm; half a pixel of each edge may be shaded."""
    _, _, width, height = picture.card()
    k = width / WIDTH_MM
    assert abs(height - HEIGHT_MM * k) < 1.5, (width, height)
    assert abs(picture.rule() - RULE_MM * k) < 2.2, (width, picture.rule())
    assert CORNER_MM[0] * k - 3.5 < picture.corner() < CORNER_MM[1] * k + 3.5, picture.corner()
    return k


def px_apart(app, one, other):
    a, b = app.middle(app.find(one, 'push button')), app.middle(app.find(other, 'push button'))
    return ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5


def one_to_one_is_a_guess(app):
    app.find('≈ 1 : 1', 'push button')
    app.click(app.find('≈ 1 : 1', 'push button'))
    told = drive.wait_for('the sentence', lambda: next(
        node for node in app.walk() if 'has not been measured' in node.name))
    drive.wait_for('it on the screen', lambda: told.box().height > 10)
    app.picture('not-measured')
    app.click(app.find('Measure this screen…', 'push button'))


def slide(app, first):
    """With Page Up until the card has grown by a third, then finely: an arrow is less than a pixel."""
    k = is_a_card(first)
    for _ in range(40):
        drive.key('Page_Up')
        picture = at_rest(app, lambda card, least=k * WIDTH_MM: card[2] > least)
        k = is_a_card(picture)
        if k > 1.33 * first.card()[2] / WIDTH_MM:
            break
    width = picture.card()[2]
    drive.key('Right', 'Right', 'Right', 'Right')
    finer = at_rest(app, lambda card: card[2] != width)
    assert 1 <= finer.card()[2] - width <= 3, (finer.card()[2], width)
    app.picture('card')
    return is_a_card(finer)


def kept():
    file = configparser.ConfigParser()
    file.read(drive.home() + '/config/glib-2.0/settings/keyfile')
    return float(file['org/pritchel/Pritchel']['screen-px-per-mm'])


def main():
    app = drive.App(sys.argv[1], **KEPT)
    app.find('Heel, lateral')
    app.fill_screen(1480, 1160)                 # all of the foot is in sight at 1:1
    web = float(drive.peek_book("select json_extract(json, '$.\"web.toe\"') from plan"))
    one_to_one_is_a_guess(app)
    first = dialog(app)
    drive.key('Escape')
    drive.window_goes(ASKED)
    app.back()
    app.find('≈ 1 : 1', 'push button')
    app.click(app.find('Measure this screen…', 'push button'))
    first = dialog(app)
    k = slide(app, first)
    drive.key('Return')
    drive.window_goes(ASKED)
    app.back()
    app.find('1 : 1', 'push button')
    app.find('100 %', 'label')
    app.picture('measured')
    drive.wait_for('true size', lambda: abs(px_apart(app, 'Toe', 'Web at the toe') - web * k) < 2)
    app.close()
    assert abs(kept() - k) * WIDTH_MM < 1.2, (kept(), k)

    app = drive.App(**KEPT)
    app.find('Heel, lateral')
    app.fill_screen(1480, 1160)
    app.click(app.find('1 : 1', 'push button'))
    app.find('100 %', 'label')
    drive.wait_for('true size', lambda: abs(px_apart(app, 'Toe', 'Web at the toe') - web * k) < 2)
    assert not app.is_there('Measure this screen…'), 'it is measured already'
    app.close()


drive.on_a_desk(main, '1500x1200')
