# SPDX-License-Identifier: GPL-3.0-or-later
"""A desk to test the window on: a display of its own, a window manager, a session bus, and a hand
that moves the real pointer and presses real keys. What is on the screen is found through the
accessibility tree, as a screen reader finds it. Nothing here asserts a time; waiting polls up to
a generous limit."""
import json
import os
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

import tree

LIMIT = int(os.environ.get('PRITCHEL_PATIENCE', '120'))    # seconds anything may take, slow machines and sanitizers included
HERE = os.path.dirname(os.path.abspath(__file__))


def wait_for(what, look, limit=LIMIT):
    """Polls until LOOK() gives something true, and returns that; the longer it takes, the less often, as every look costs
    the program as much as it costs us."""
    end, pause = time.monotonic() + limit, 0.04
    while True:
        try:
            got, trouble = look(), None
        except (NameError, AttributeError):      # ours
            raise
        except Exception as now:                 # what is looked at changes under one's hands: look again
            got, trouble = None, now
        if got:
            return got
        if time.monotonic() > end:
            raise AssertionError(f'waited in vain for {what}' + (f' ({trouble})' if trouble else ''))
        time.sleep(pause)
        pause = min(pause * 1.25, 0.25)


def on_a_desk(main, size='1500x900', still=True):
    """Runs MAIN() on a display and a session bus of its own, and leaves nothing. STILL: as for a person who
    wants nothing to slide or unfold, so that there is nothing to wait for."""
    if os.environ.get('PRITCHEL_DESK'):
        try:
            main()
        except BaseException:
            picture('lost-' + os.path.basename(sys.argv[0]), tempfile.gettempdir())
            raise
        finally:
            for app in App.running:
                app.kill()
        return
    read, write = os.pipe()
    x = subprocess.Popen(['Xvfb', '-displayfd', str(write), '-screen', '0', size + 'x24', '-noreset', '-nolisten',
                          'tcp'], pass_fds=[write], stdout=subprocess.DEVNULL,
                         stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read) as pipe:
        number = pipe.readline().strip()
    home = tempfile.mkdtemp(prefix='pritchel-desk-')
    os.makedirs(home + '/config/gtk-4.0')
    with open(home + '/config/gtk-4.0/settings.ini', 'w') as settings:
        settings.write(f'[Settings]\ngtk-enable-animations={0 if still else 1}\n')
    env = dict(os.environ, DISPLAY=':' + number, PRITCHEL_DESK=home, HOME=home,
               XDG_DATA_HOME=home + '/data', XDG_CONFIG_HOME=home + '/config',
               XDG_CACHE_HOME=home + '/cache', XDG_RUNTIME_DIR=home, GSETTINGS_BACKEND='memory',
               GIO_USE_VFS='local', GSK_RENDERER='cairo',
               GDK_DEBUG='gl-disable', GDK_BACKEND='x11', GTK_A11Y='atspi', GTK_USE_PORTAL='0', NO_AT_BRIDGE='0')
    env.pop('GTK_THEME', None)
    env.pop('G_DEBUG', None)      # for the program only: the bindings of the tree warn of nothing
    wm = subprocess.Popen(['openbox', '--sm-disable'], env=env, stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL)
    try:
        # a window shown while the manager is still taking the screen over may stay hidden for ever
        wait_for('the window manager', lambda: b'window id' in subprocess.run(
            ['xprop', '-root', '_NET_CLIENT_LIST'], env=env, capture_output=True, check=True, timeout=LIMIT).stdout)
        done = subprocess.run(['dbus-run-session', '--', sys.executable, *sys.argv], env=env,
                              check=False)
    finally:
        for process in (wm, x):
            process.terminate()
            process.wait()
        shutil.rmtree(home, ignore_errors=True)
    sys.exit(done.returncode)


def xdo(*words):
    return subprocess.run(['xdotool', *map(str, words)], check=True, capture_output=True,
                          text=True, timeout=LIMIT).stdout


def xdo_or_nothing(*words):
    return subprocess.run(['xdotool', *map(str, words)], check=False, capture_output=True,
                          text=True, timeout=LIMIT).stdout


def key(*keys):
    xdo('key', '--delay', 2, *keys)        # not --clearmodifiers: that lets go of the pointer's button too


def type_text(text):
    xdo('type', '--delay', 2, text)


def number(text):
    """The first number in TEXT, whichever decimal mark the locale gives it."""
    return float(re.search(r'-?\d+([.,]\d+)?', text).group().replace(',', '.'))


def windows(*search):
    """Those on the screen that SEARCH, in the words of xdotool, finds. It stumbles over a window that goes while it
    looks, and is asked again."""
    while True:
        told = subprocess.run(['xdotool', 'search', '--onlyvisible', *search], check=False, capture_output=True,
                              text=True, timeout=LIMIT)
        if 'X Error' not in told.stderr:
            return told.stdout.split()


def geometry(xid):
    """Left, top, width and height of a window on the screen, px."""
    words = dict(line.split('=') for line in xdo('getwindowgeometry', '--shell', xid).split())
    return tuple(int(words[name]) for name in ('X', 'Y', 'WIDTH', 'HEIGHT'))


def take_keyboard(xid, or_any_of=None):
    """Brings a window to the front; what is typed from now on goes there, or to one that the search OR_ANY_OF
    finds, as a question keeps it that must be answered first."""
    def has_it():
        now = xdo_or_nothing('getwindowfocus').strip()
        if now == xid or or_any_of and now in windows(*or_any_of):
            return True
        xdo_or_nothing('windowactivate', xid)
        return False
    wait_for('the keyboard', has_it)


def window_comes(title):
    """Waits for a window called TITLE (a pattern) and gives it the keyboard."""
    take_keyboard(wait_for(f'the window "{title}"', lambda: windows('--name', title))[-1])


def window_goes(title):
    wait_for(f'"{title}" to go', lambda: not windows('--name', title))


def picture(name, otherwise=None):
    """Of the screen, for a person to look at, when PRITCHEL_PICTURES says where."""
    folder = os.environ.get('PRITCHEL_PICTURES', otherwise)
    if folder:
        subprocess.run(['import', '-window', 'root', f'{folder}/{name}.png'], check=True)


def home():
    return os.environ['PRITCHEL_DESK']


def book_file():
    return home() + '/data/pritchel/book.pritchel'


def ask_book(sql):
    """One answer out of the book as it lies on the disk."""
    with sqlite3.connect(f'file:{book_file()}?mode=ro', uri=True) as book:
        row = book.execute(sql).fetchone()
    return row and row[0]


def peek_book(sql):
    """The same while the program has the book, which it shares with nobody: what lies on the disk now."""
    with sqlite3.connect(f'file:{book_file()}?mode=ro&immutable=1', uri=True) as book:
        row = book.execute(sql).fetchone()
    return row and row[0]


def printed_file():
    """The PDF that is being printed to a file, once all of it is there."""
    def look():
        found = [os.path.join(folder, name) for folder, _, files in os.walk(home()) for name in files
                 if name.endswith('.pdf')]
        return found and subprocess.run(['pdfinfo', found[0]], capture_output=True).returncode == 0 and found[0]
    return wait_for('the printed file', look)


class App:
    """The program, run as a person runs it."""

    running = []

    def __init__(self, *args, **env):
        env = {**os.environ, 'G_DEBUG': 'fatal-warnings', **env}
        self.scale = int(env.get('GDK_SCALE', 1))    # the screen's pixels to one of the program's
        self.process = subprocess.Popen([os.environ['PRITCHEL_WINDOW'], *args], env=env, cwd=home())
        App.running.append(self)
        self.tree = tree.Tree(self.process.pid, LIMIT)
        self.top = wait_for('the window', self._first_window)
        self.back()

    def _first_window(self):
        if self.process.poll() is not None:
            raise SystemExit(f'the program ended with {self.process.returncode}')
        found = self.tree.windows()
        return found and found[0]

    def _turn_to(self, node, *search):
        """Where the tree's coordinates begin in NODE, a window of ours: they count from inside the
        window's own frame, which is even all round."""
        def look():
            box = node.box()
            for xid in windows(*search):       # what a resting pointer is told is a window of the program too
                _, _, width, height = geometry(xid)
                left, top = (width // self.scale - box.width) // 2, (height // self.scale - box.height) // 2
                if left == top and 0 <= left < 40 and box.width > 1:
                    return xid, left, top
            return None
        self.window = node
        self.xid, self.x0, self.y0 = wait_for('its place', look)
        take_keyboard(self.xid, or_any_of=('--class', 'pritchel'))

    def into(self, title):
        """Turns to another window of the program, by its title."""
        node = wait_for(f'the window "{title}"', lambda: next(
            (one for one in self.tree.windows() if one.name == title), None))
        self._turn_to(node, '--name', '^' + title.replace('?', '[?]') + '$')

    def back(self):
        self._turn_to(self.top, '--class', 'pritchel')

    def walk(self, root=None):
        return (root or self.window).walk()

    def find(self, name, role=None):
        return wait_for(f'"{name}"', lambda: next(
            (node for node in self.walk() if node.name == name and role in (None, node.role)), None))

    def find_seen(self, name, role=None):
        """The same, once it has a place on the screen."""
        return wait_for(f'"{name}" in sight', lambda: next(
            (node for node in self.walk() if node.name == name and role in (None, node.role) and node.seen()), None))

    def is_there(self, name):
        return any(node.name == name for node in self.walk())

    def says(self, words):
        """Waits until a label on the screen has WORDS in it."""
        return wait_for(f'"{words}"', lambda: next(
            (node for node in self.walk() if node.role == 'label' and words in node.name and node.seen()), None))

    def value(self, node):
        return node.value()

    def wait_value(self, node, good):
        def look():
            now = node.value()
            return (now,) if good(now) else None
        return wait_for('a value', look)[0]

    def keyboard_in(self, what, good):
        """Waits until what has the keyboard is GOOD(node), and returns it."""
        return wait_for(what, lambda: next(
            (node for node in self.walk() if node.has(tree.FOCUSED) and good(node)), None))

    def at_rest(self, node):
        """NODE's place once what slides or unfolds round it has come to rest, inside the window: it has not moved
        for a while, and that while is longer the longer the program takes to answer, as it then takes as much
        longer to lay out what has changed."""
        box, since, slowest = None, 0, 0

        def look():
            nonlocal box, since, slowest
            asked = time.monotonic()
            before, box, whole = box, node.box(), self.window.box()
            answered = time.monotonic()
            slowest = max(slowest, answered - asked)
            if box != before:
                since = answered
            inside = 0 <= box.x + box.width // 2 < whole.width and 0 <= box.y + box.height // 2 < whole.height
            return box if inside and box.width > 1 and answered - since > 0.1 + 10 * slowest else None
        return wait_for(f'"{node.name}" to come to rest in the window', look)

    def middle(self, node):
        box = self.at_rest(node)
        return self.x0 + box.x + box.width // 2, self.y0 + box.y + box.height // 2

    def _to(self, x, y):
        return 'mousemove', '--window', self.xid, x * self.scale, y * self.scale

    def point(self, x, y):
        xdo(*self._to(x, y))

    def go_to(self, x, y):
        """As a hand does, on a way that first leaves the place it is at: what the program says about a place where
        the pointer has rested covers the neighbours of that place until the pointer has gone."""
        def look():
            self.point(self.window.box().width // 2, 8)
            self.window.box()                  # an answer: it has seen the pointer leave
            self.point(x, y)
            under = re.search(r'WINDOW=(\d+)', xdo('getmouselocation', '--shell'))[1]
            return under == self.xid or under not in windows('--class', 'pritchel')
        wait_for('a free way', look)

    def click(self, node):
        self.go_to(*self.middle(node))
        xdo('click', 1)

    def click_popup(self, node):
        """In what has popped up. That is a window of its own; the tree tells only where NODE lies in it."""
        popover = node
        while popover.name != 'GtkPopover':
            popover = popover.parent

        def place():
            """Its window, and NODE's middle in it, px."""
            xid = next(one for one in reversed(windows('--class', 'pritchel')) if one != self.xid)
            inner, box = popover.box(), node.box()
            return (xid, geometry(xid), (box.x - inner.x + box.width // 2) * self.scale,
                    (box.y - inner.y + box.height // 2) * self.scale)
        seen = []

        def look():
            seen.append(place())
            return seen[-1] if seen[-3:] == [seen[-1]] * 3 else None
        xid, _, x, y = wait_for('what popped up', look)
        xdo('mousemove', '--window', xid, x, y, 'click', 1)

    def menu(self, *names):
        """By keyboard, each key only once the one before has done its work: the menu's key, then down to the
        line called NAME; a second name is a line of the menu that the first one opens."""
        take_keyboard(self.xid)
        key('F10')
        self.lines(*names)

    def prefer(self, *names):
        """Ticks each of NAMES in the preferences."""
        key('ctrl+comma')
        self.into('Preferences')
        for name in names:
            box = self.find_seen(name)
            was = box.has(tree.CHECKED) and box.role != 'radio button'
            self.click(box)
            wait_for(f'"{name}" chosen', lambda n=name, w=was: self.find(n).has(tree.CHECKED) != w)
        key('Escape')
        window_goes('^Preferences$')
        self.back()

    def lines(self, *names):
        """In the menu that is open, or opening."""
        line = None
        for name in names:
            wait_for(f'the line "{name}"', lambda: any(
                is_line(node) and node.name == name and node.seen() for node in self.walk()))
            line = self.keyboard_in('the menu', lambda node: is_line(node) and node != line)
            while line.name != name:
                key('Down')
                line = self.keyboard_in('the next line', lambda node: is_line(node) and node != line)
            key('Return')
        wait_for('the menu to go', lambda: not any(node.has(tree.FOCUSED) and is_line(node) for node in self.walk()))

    def choose(self, node, *keys):
        """KEYS in the list that NODE, a drop-down, opens, then Return. The list has no place in the tree: it is
        a window, which has the keyboard from the moment it is on the screen."""
        self.go_to(*self.middle(node))
        before = set(windows('--class', 'pritchel'))
        xdo('click', 1)
        come = wait_for('the list', lambda: set(windows('--class', 'pritchel')) - before)
        key(*keys, 'Return')
        wait_for('the list to go', lambda: not come & set(windows('--class', 'pritchel')))
        take_keyboard(self.xid, or_any_of=('--class', 'pritchel'))
        self.keyboard_in('the button of the list', lambda button: not is_line(button))

    def open_file(self, title, path):
        """In the desktop's dialog called TITLE, which is coming."""
        self.into(title)
        key('alt+Home')                   # out of what is recent, where no place can be typed
        key('ctrl+l')
        self.keyboard_in('the place', lambda node: node.role == 'text')
        key('ctrl+a')
        type_text(path)

        def gone():
            """The first Return may go to the list of names that completes what is typed: then it is pressed again."""
            if windows('--name', title):
                key('Return')
            for _ in range(20):
                if not windows('--name', title):
                    return True
                time.sleep(0.1)
            return False
        wait_for(f'"{title}" to go', gone)
        self.back()

    def print_on(self, printer, keys='alt+p'):
        """In the desktop's print dialog, which is coming; it lets one print once it knows what the printer can."""
        self.into('Print')
        self.click(self.find(printer))
        wait_for('leave to print', lambda: any(
            node.name == '_Print Print' and node.has(tree.SENSITIVE) for node in self.walk()))
        self.picture('print')
        key(keys)

    def choose_style(self, style):
        """By keyboard, as far along the list as it stands."""
        folder = os.path.join(HERE, '../../data/styles')
        names = []
        for file in sorted(name for name in os.listdir(folder) if name.endswith('.json')):
            with open(os.path.join(folder, file), encoding='utf-8') as text:
                names.append(json.load(text)['id'])

        def now():
            return json.loads(peek_book('select json from plan'))['style']

        def chosen():
            """From the top of the list: its own place is where it was left last, whatever is chosen. On a busy machine a
            key may come before the list takes the keyboard; then it is chosen from anew."""
            before = now()
            if before == style:
                return True
            self.choose(self.find('Style', 'combo box'), 'Home', *['Down'] * names.index(style))
            for _ in range(50):
                if now() != before:
                    break
                time.sleep(0.1)
            return now() == style
        wait_for('the style', chosen)

    def one_step(self, name='Heel, lateral'):
        """The handle of that name is pressed and moved on by an arrow; returns what it says then."""
        handle = self.find(name)
        before = self.value(handle)
        self.click(handle)
        key('Down')
        return self.wait_value(handle, lambda now: now != before)

    def drag(self, node, dx, dy, release=True):
        """With a real pointer, in small steps, as a hand does; let go only once NODE tells another value."""
        x, y = self.middle(node)
        before = node.value()
        steps = [(*self._to(x + dx * i // 10, y + dy * i // 10), 'sleep', 0.01) for i in range(1, 11)]
        self.go_to(x, y)
        xdo('mousedown', 1, *(word for step in steps for word in step))
        self.wait_value(node, lambda now: now != before)
        if release:
            xdo('mouseup', 1)

    def picture(self, name):
        picture(name)

    def close(self):
        take_keyboard(self.xid)
        key('ctrl+q')
        code = self.process.wait(LIMIT)
        assert code == 0, f'the program ended with {code}'

    def resize(self, width, height):
        """In the program's pixels; done once what is in it has been laid out for it."""
        xdo('windowsize', self.xid, width * self.scale, height * self.scale)
        self.wait_size(width, height)

    def wait_size(self, width, height):
        def told():
            box = self.window.box()
            return (geometry(self.xid)[2:] == (width * self.scale, height * self.scale)
                    and (box.width, box.height) == (width - 2 * self.x0, height - 2 * self.y0))
        wait_for(f'the window at {width} x {height}', told)

    def fill_screen(self, width, height):
        xdo('windowmove', self.xid, 0, 0)
        wait_for('its corner', lambda: geometry(self.xid)[:2] == (0, 0))
        self.resize(width, height)

    def colour(self, node):
        """What the screen shows in NODE's upper left corner, a little inside: red, green, blue."""
        box = node.box()
        left, top, _, _ = geometry(self.xid)
        x = left + (self.x0 + box.x + 4) * self.scale
        y = top + (self.y0 + box.y + 4) * self.scale
        told = subprocess.run(['import', '-window', 'root', '-crop', f'1x1+{x}+{y}', '-depth', '8', 'rgb:-'],
                              check=True, capture_output=True).stdout
        return tuple(told[:3])

    def kill(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()


def is_line(node):
    """Of a menu."""
    return 'menu item' in node.role
