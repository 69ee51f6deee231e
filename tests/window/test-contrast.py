# SPDX-License-Identifier: GPL-3.0-or-later
"""What is on the screen can be seen, light and dark, computed from the screen's own pixels (WCAG 2.1: 1.4.3, 1.4.11 and
2.4.7): words stand out from what they lie on by 4.5 at least, the edges of what is filled in or chosen from by 3, and what
has the keyboard looks different from what has not by 3 along a good part of its edge. Words are at least 11 pt high."""
import subprocess

import numpy
import drive

import tree
from actions import Actions

WORDS, EDGES = 4.5, 3.0
LINE_PX = 17                  # a line of 11 pt letters, 14.7 px, in the fonts the tests have
FIELDS = {'text', 'combo box', 'check box', 'toggle button'}
PARTS = ('Tracing', 'Measures', 'Shoe', 'Nailing', 'Stock', 'Order of work')
BEYOND = 12                   # px: a field's edge lies within so much of what is in it
RING_PX = 24                  # of a ring, at least: the side of the smallest control is as long
PAGES = ('True size', 'Losses', 'Rack', 'Limits', 'Book')     # of the preferences
STOPS = 40                    # of Tab
WINDOWS = ('preferences', 'print-sheet', 'open-specimen', 'from-phone', 'all-feet', 'show-visits', 'vet-sheet', 'practice', 'show-due',
           'show-deleted', 'measure-printer', 'measure-screen')


def luminance(pixels):
    share = pixels / 255
    linear = numpy.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return linear @ [0.2126, 0.7152, 0.0722]


def contrast(one, other):
    a, b = luminance(numpy.asarray(one, float)), luminance(numpy.asarray(other, float))
    return (numpy.maximum(a, b) + 0.05) / (numpy.minimum(a, b) + 0.05)


class Screen:
    def __init__(self, app):
        self.app = app
        _, _, width, height = drive.geometry(app.xid)
        data = subprocess.run(['import', '-window', app.xid, '-depth', '8', 'rgb:-'], check=True, capture_output=True).stdout
        self.pixels = numpy.frombuffer(data, numpy.uint8).reshape(height, width, 3)

    def part(self, box, more=0):
        x, y = self.app.x0 + box.x, self.app.y0 + box.y
        return self.pixels[max(y - more, 0):y + box.height + more, max(x - more, 0):x + box.width + more]


def still(app):
    """The screen once it is twice the same."""
    def look():
        one, other = Screen(app), Screen(app)
        return one if numpy.array_equal(one.pixels, other.pixels) else None
    return drive.wait_for('a still screen', look)


def commonest(pixels):
    colours, count = numpy.unique(pixels.reshape(-1, 3), axis=0, return_counts=True)
    return colours[count.argmax()]


def words_stand_out(part):
    """By how much the boldest strokes do: thin ones are half ground."""
    return numpy.sort(contrast(part.reshape(-1, 3), commonest(part)))[-4:].min()


def edge_stands_out(screen, node, box):
    """Across the middle of the left side, against what lies outside. A field's own place is what is inside its edge."""
    row = screen.part(box, BEYOND)[BEYOND + box.height // 2, :BEYOND + (0 if node.role == 'text' else 4)]
    return contrast(row, row[0]).max()


def lies_in(screen, box):
    height, width, _ = screen.pixels.shape
    return (box.width > 3 and box.height > 3 and box.x >= 4 and box.y >= 0
            and box.x + box.width < width - 4 and box.y + box.height < height - 4)


def covered(app, nodes, node, box):
    """A pointer would not meet it there: it is scrolled away, or put away. What writes in a field is the toolkit's own, so
    that is asked beside it."""
    x = box.x - 4 if node.role in ('text', 'entry') else box.x + min(box.width // 2, 12)
    _, path = app.window.tree.ask(app.window.path, tree.COMPONENT, 'GetAccessibleAtPoint', tree.GLib.Variant(
        '(iiu)', (x, box.y + box.height // 2, tree.IN_WINDOW)))[0]
    met = nodes.get(path)
    while met and met != node:
        met = met.parent
    return not met


def can_be_used(node):
    while node:
        if node.role in FIELDS | {'push button'} and not node.has(tree.SENSITIVE):
            return False
        node = node.parent
    return True


def named(node):
    """A label with nothing in it goes by the toolkit's own name."""
    return node.name.strip() and not node.name.startswith('Gtk')


def looked_at(app):
    """How many of each role there are to be seen, all of which stand out."""
    screen, faint, seen = still(app), [], {}
    board = app.window == app.top and app.find('Board')
    nodes = {node.path: node for node in app.walk()}
    for node in nodes.values():
        if node.role not in FIELDS | {'label'} or node.parent == board or not can_be_used(node) or not named(node):
            continue
        try:
            box = node.box()
        except tree.GLib.Error:           # made when it is wanted: it has no place yet
            continue
        if not lies_in(screen, box) or covered(app, nodes, node, box):
            continue
        if node.role == 'label':
            found, least = words_stand_out(screen.part(box)), WORDS
            high = box.height
            assert high >= LINE_PX, (node.name, high)
        elif node.role != 'toggle button':
            found, least = edge_stands_out(screen, node, box), EDGES
        else:
            continue
        seen[node.role] = seen.get(node.role, 0) + 1
        if found < least:
            faint.append((node.role, node.name[:40], round(float(found), 2), tuple(box)))
    assert not faint, faint
    return seen


def all_stand_out(app, seen):
    """Once what unfolds has come to rest."""
    for role, many in drive.wait_for('all to stand out', lambda: looked_at(app)).items():
        seen[role] = seen.get(role, 0) + many


def every_part(app):
    seen = {}
    for title in PARTS:
        head = app.find_seen(title, 'push button')
        app.click(head)
        app.point(app.window.box().width // 2, 8)
        all_stand_out(app, seen)
        app.click(head)
    assert seen['label'] > 100 and seen['text'] > 12 and seen['combo box'] > 2, seen
    print(seen)


def other_windows(app):
    """What the menu opens, each as it comes."""
    actions, seen = Actions(), {}
    for action in WINDOWS:
        actions.press(action)
        app.into(drive.wait_for(action, lambda: next((one.name for one in app.tree.windows() if one != app.top), None)))
        for page in PAGES if action == 'preferences' else ():
            app.click(app.find_seen(page))
            all_stand_out(app, seen)
        all_stand_out(app, seen)
        title = app.window.name
        drive.key('Escape')
        drive.window_goes(title)
        app.back()
    assert seen['label'] > 100 and seen['text'] > 12 and seen['combo box'] > 3, seen
    print('other windows:', seen)


def ring_px(before, after, box):
    """How much looks different round BOX."""
    return int((contrast(before.part(box, BEYOND), after.part(box, BEYOND)) >= EDGES).sum())


def seen_after_all(app, at, then, without, box):
    """A still screen may be one on which the ring is still to be drawn: back to the stop AT, until it is, and on to THEN."""
    def back_and_on(key, node):
        drive.key(key)
        app.keyboard_in(node.name, lambda one: one == node)
    back_and_on('shift+Tab', at)
    try:
        drive.wait_for('the ring', lambda: ring_px(still(app), without, box) >= RING_PX, limit=drive.LIMIT / 4)
    except AssertionError:
        return False
    finally:
        back_and_on('Tab', then)
    return True


def focus_is_seen(app):
    """From stop to stop, each as it is with the keyboard and after it has left."""
    app.point(app.window.box().width // 2, 8)
    app.click(app.find('Tracing', 'push button'))
    app.point(app.window.box().width // 2, 8)
    before, at, names, unseen = None, None, set(), []
    for _ in range(STOPS):
        drive.key('Tab')
        now = app.keyboard_in('the next stop', lambda node: node != at)
        screen = still(app)
        if at and lies_in(screen, box) and not covered(app, {node.path: node for node in app.walk()}, at, box):
            if ring_px(before, screen, box) < RING_PX and not seen_after_all(app, at, now, screen, box):
                unseen.append((at.role, at.name))
            names.add(at.name)
        before, at, box = screen, now, now.box()
    assert not unseen, unseen
    assert len(names) > 20, names
    print(len(names), 'stops')


def main():
    app = drive.App()
    app.click(app.find('Try the demo foot', 'push button'))
    app.find('Heel, lateral')
    app.fill_screen(1480, 880)
    for look in ('Light', 'Dark'):
        app.prefer(look)
        app.click(app.find('Shoe', 'push button'))       # folded, as all are
        every_part(app)
        other_windows(app)
        focus_is_seen(app)
        app.click(app.find('Shoe', 'push button'))
        app.picture('contrast-' + look)
    app.close()


drive.on_a_desk(main)
