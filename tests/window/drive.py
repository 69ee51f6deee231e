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

LIMIT = int(os.environ.get('PRITCHEL_PATIENCE', '120'))    # seconds anything may take, slow machines and sanitizers included
HERE = os.path.dirname(os.path.abspath(__file__))


def wait_for(what, look, limit=LIMIT):
    """Polls until LOOK() gives something true, and returns that."""
    end = time.monotonic() + limit
    while True:
        try:
            got = look()
        except Exception as trouble:      # the tree changes under one's hands: look again
            got, last = None, trouble
        else:
            last = None
        if got:
            return got
        if time.monotonic() > end:
            raise AssertionError(f'waited in vain for {what}' + (f' ({last})' if last else ''))
        time.sleep(0.05)


def on_a_desk(main, size='1366x860'):
    """Runs MAIN(desk folder) on a display and a session bus of its own, and leaves nothing."""
    if os.environ.get('PRITCHEL_DESK'):
        try:
            main()
        finally:
            for app in App.running:
                app.kill()
        return
    read, write = os.pipe()
    x = subprocess.Popen(['Xvfb', '-displayfd', str(write), '-screen', '0', size + 'x24', '-nolisten',
                          'tcp'], pass_fds=[write], stdout=subprocess.DEVNULL,
                         stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read) as pipe:
        number = pipe.readline().strip()
    home = tempfile.mkdtemp(prefix='pritchel-desk-')
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
                          text=True, timeout=30).stdout


def xdo_or_nothing(*words):
    return subprocess.run(['xdotool', *map(str, words)], check=False, capture_output=True,
                          text=True, timeout=30).stdout


def key(*keys):
    for one in keys:
        xdo('key', one)        # not --clearmodifiers: that lets go of the pointer's button too


def type_text(text):
    xdo('type', '--delay', '15', text)


def number(text):
    """The first number in TEXT, whichever decimal mark the locale gives it."""
    return float(re.search(r'-?\d+([.,]\d+)?', text).group().replace(',', '.'))


def window_comes(title):
    """Waits for a window called TITLE (a pattern) and gives it the keyboard."""
    found = wait_for(f'the window "{title}"',
                     lambda: xdo_or_nothing('search', '--onlyvisible', '--name', title).split())
    xdo('windowactivate', found[-1])


def window_goes(title):
    wait_for(f'"{title}" to go',
             lambda: not xdo_or_nothing('search', '--onlyvisible', '--name', title).split())


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


class App:
    """The program, run as a person runs it."""

    running = []

    def __init__(self, *args, **env):
        import gi
        gi.require_version('Atspi', '2.0')
        from gi.repository import Atspi
        self.atspi = Atspi
        env = {**os.environ, 'G_DEBUG': 'fatal-warnings', **env}
        self.scale = int(env.get('GDK_SCALE', 1))    # the screen's pixels to one of the program's
        self.process = subprocess.Popen([os.environ['PRITCHEL_WINDOW'], *args], env=env, cwd=home())
        App.running.append(self)
        self.window = self.top = wait_for('the window', self._find_window)
        self.x0, self.y0 = wait_for('its place', self._place)

    def _find_window(self):
        if self.process.poll() is not None:
            raise SystemExit(f'the program ended with {self.process.returncode}')
        desktop = self.atspi.get_desktop(0)
        for i in range(desktop.get_child_count()):
            app = desktop.get_child_at_index(i)
            if app and app.get_process_id() == self.process.pid and app.get_child_count() > 0:
                return app.get_child_at_index(0)
        return None

    def _place(self, node=None, title=None):
        """Where the tree's coordinates begin in NODE, a window of ours: they count from inside the
        window's own frame, which is even all round."""
        search = ['--name', '^' + title.replace('?', '[?]') + '$'] if title else ['--class', 'pritchel']
        ids = xdo_or_nothing('search', '--onlyvisible', *search).split()
        if not ids:
            return None
        xdo('windowactivate', ids[0])
        words = dict(line.split('=') for line in xdo('getwindowgeometry', '--shell', ids[0]).split())
        box = (node or self.window).get_extents(self.atspi.CoordType.WINDOW)
        self.xid = ids[0]
        return tuple((int(words[side]) // self.scale - inner) // 2
                     for side, inner in (('WIDTH', box.width), ('HEIGHT', box.height)))

    def into(self, title):
        """Turns to another window of the program, by its title."""
        def look():
            app = self.top.get_parent()
            for i in range(app.get_child_count()):
                child = app.get_child_at_index(i)
                if child and child.get_name() == title:
                    return child
            return None
        self.window = wait_for(f'the window "{title}"', look)
        self.x0, self.y0 = wait_for('its place', lambda: self._place(self.window, title))

    def back(self):
        self.window = self.top
        self.x0, self.y0 = wait_for('its place', self._place)

    def walk(self, root=None):
        root = root or self.window
        yield root
        for i in range(root.get_child_count()):
            child = root.get_child_at_index(i)
            if child is not None:
                yield from self.walk(child)

    def seen(self, node):
        """Has it a place on the screen? (This toolkit does not tell "showing".)"""
        box = node.get_extents(self.atspi.CoordType.WINDOW)
        return box.width > 1 and box.height > 1

    def find(self, name, role=None):
        def look():
            for node in self.walk():
                if node.get_name() == name and (role is None or node.get_role_name() == role):
                    return node
            return None
        return wait_for(f'"{name}"', look)

    def is_there(self, name):
        return any(node.get_name() == name for node in self.walk())

    def value(self, node):
        node.clear_cache()
        return node.get_description()

    def wait_value(self, node, good):
        return wait_for('a value', lambda: good(self.value(node)) and self.value(node))

    def at_rest(self, node):
        """NODE's place once what slides or unfolds round it has come to rest."""
        def look():
            before = node.get_extents(self.atspi.CoordType.WINDOW)
            time.sleep(0.15)
            now = node.get_extents(self.atspi.CoordType.WINDOW)
            return (before.x, before.y, before.width, before.height) == (now.x, now.y, now.width, now.height) and now
        return wait_for('an end of the moving', look)

    def middle(self, node):
        box = self.at_rest(node)
        return self.x0 + box.x + box.width // 2, self.y0 + box.y + box.height // 2

    def point(self, x, y):
        xdo('mousemove', '--window', self.xid, x * self.scale, y * self.scale)

    def click(self, node):
        self.point(*self.middle(node))
        xdo('click', 1)

    def click_popup(self, node):
        """In what has popped up. That is a window of its own; the tree tells only where NODE lies in it."""
        popover = node
        while popover.get_name() != 'GtkPopover':
            popover = popover.get_parent()

        def popup():
            ids = xdo_or_nothing('search', '--onlyvisible', '--class', 'pritchel').split()
            return next((one for one in reversed(ids) if one != self.xid), None)
        inner = popover.get_extents(self.atspi.CoordType.WINDOW)
        box = node.get_extents(self.atspi.CoordType.WINDOW)
        xdo('mousemove', '--window', wait_for('what popped up', popup),
            (box.x - inner.x + box.width // 2) * self.scale,
            (box.y - inner.y + box.height // 2) * self.scale)
        xdo('click', 1)

    def menu(self, *names):
        """By keyboard, each key only once the one before has done its work: the menu's key, then down to the
        line called NAME; a second name is a line of the menu that the first one opens."""
        key('F10')
        for name in names:
            wait_for('the menu', lambda: any(node.get_name() == name and self.seen(node) for node in self.walk()))
            line = wait_for('a line', self._focused_line)
            while line != name:
                key('Down')
                line = wait_for('the next line', lambda: self._focused_line() not in (None, line) and self._focused_line())
            key('Return')
        wait_for('the menu to go', lambda: not self._focused_line())

    def _focused_line(self):
        """The name of the menu's line with the keyboard on it."""
        focused = self.atspi.StateType.FOCUSED
        return next((node.get_name() for node in self.walk() if 'menu item' in node.get_role_name()
                     and node.get_state_set().contains(focused)), None)

    def choose_style(self, style):
        """By keyboard, as far along the list as it stands."""
        folder = os.path.join(HERE, '../../data/styles')
        names = []
        for file in sorted(name for name in os.listdir(folder) if name.endswith('.json')):
            with open(os.path.join(folder, file), encoding='utf-8') as text:
                names.append(json.load(text)['id'])
        steps = names.index(style) - names.index(json.loads(peek_book('select json from plan'))['style'])
        self.click(self.find('Style', 'combo box'))
        wait_for('the list', lambda: any(node.get_role_name() == 'list item' and self.seen(node)
                                         for node in self.walk()))
        key(*['Down' if steps > 0 else 'Up'] * abs(steps), 'Return')
        wait_for('the style', lambda: json.loads(peek_book('select json from plan'))['style'] == style)

    def drag(self, node, dx, dy, release=True):
        """With a real pointer, in small steps, as a hand does."""
        x, y = self.middle(node)
        self.point(x, y)
        time.sleep(0.2)
        xdo('mousedown', 1)
        for i in range(1, 11):
            self.point(x + dx * i // 10, y + dy * i // 10)
            time.sleep(0.03)
        if release:
            xdo('mouseup', 1)

    def picture(self, name):
        """For a person to look at, when PRITCHEL_PICTURES says where."""
        folder = os.environ.get('PRITCHEL_PICTURES')
        if folder:
            subprocess.run(['import', '-window', 'root', f'{folder}/{name}.png'], check=True)

    def close(self):
        key('ctrl+q')
        code = self.process.wait(LIMIT)
        assert code == 0, f'the program ended with {code}'

    def fill_screen(self, width, height):
        xdo('windowmove', self.xid, 0, 0)
        xdo('windowsize', self.xid, width * self.scale, height * self.scale)
        wait_for('the new size', lambda: self.window.get_extents(self.atspi.CoordType.WINDOW).width
                 > width - 20)

    def colour(self, node):
        """What the screen shows in NODE's upper left corner, a little inside: red, green, blue."""
        box = node.get_extents(self.atspi.CoordType.WINDOW)
        words = dict(line.split('=') for line in xdo('getwindowgeometry', '--shell', self.xid).split())
        x = int(words['X']) + (self.x0 + box.x + 4) * self.scale
        y = int(words['Y']) + (self.y0 + box.y + 4) * self.scale
        told = subprocess.run(['import', '-window', 'root', '-crop', f'1x1+{x}+{y}', '-depth', '8', 'rgb:-'],
                              check=True, capture_output=True).stdout
        return tuple(told[:3])

    def kill(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
