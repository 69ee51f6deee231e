# SPDX-License-Identifier: GPL-3.0-or-later
"""The accessibility tree of one program, read as a screen reader reads it. A tree of six hundred nodes asked one
by one takes a thousand and more answers of a program that may be busy; the toolkit also hands out what it has in
one answer (org.a11y.atspi.Cache), and only where that falls short are nodes asked for theirs: what has just come
is not in it yet, and what is hidden still is."""
import ast
import collections
import functools
import re

import gi
gi.require_version('Atspi', '2.0')
from gi.repository import Atspi, Gio, GLib    # noqa: E402

ACCESSIBLE, COMPONENT = 'org.a11y.atspi.Accessible', 'org.a11y.atspi.Component'
ROOT = '/org/a11y/atspi/accessible/root'
IN_WINDOW = 1                  # coordinates count from the window's corner (AtspiCoordType)
CHECKED, FOCUSED, SELECTED, SENSITIVE = 4, 12, 23, 24     # AtspiStateType

# One item of the cache, in the text form of a GVariant, which is read five times as fast as value by value: its path, its
# application's, its parent's, its place, the number of its children, interfaces, name, role, description, states.
STRING = r"""(?:'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*")"""
ITEM = re.compile(r"\(\('[^']*', '([^']*)'\), \('[^']*', '[^']*'\), \('[^']*', '([^']*)'\), (-?\d+), (-?\d+), "
                  rf"\[[^]]*\], ({STRING}), (\d+), {STRING}, \[(\d+)[^]]*\]\)")

Box = collections.namedtuple('Box', 'x y width height')


role_name = functools.cache(Atspi.role_get_name)


class Node:
    """What the program shows at one place: NAME and ROLE as they were when it was read; PARENT is a node."""

    def __init__(self, tree, path, name, role, states, parent=None):
        self.tree, self.path, self.name, self.parent = tree, path, name, parent
        self.role = role_name(role)
        self.states = states

    def __eq__(self, other):
        return isinstance(other, Node) and self.path == other.path

    def __hash__(self):
        return hash(self.path)

    def has(self, state):
        return bool(self.states >> state & 1)

    def value(self):
        """Its description, as it is now."""
        return self.tree.property(self.path, 'Description')

    def box(self):
        """Where it lies in its window, now."""
        return Box(*self.tree.ask(self.path, COMPONENT, 'GetExtents', GLib.Variant('(u)', (IN_WINDOW,)))[0])

    def seen(self):
        """Has it a place on the screen? (This toolkit does not tell "showing".)"""
        box = self.box()
        return box.width > 1 and box.height > 1

    def kids(self):
        return list(self.tree.children(self, {}))

    def walk(self):
        """This node and all below it, in the order of the screen."""
        return self.tree.walk(self)


def bus():
    """The bus of the accessibility tree, which is not the session's."""
    session = Gio.bus_get_sync(Gio.BusType.SESSION)
    address = session.call_sync('org.a11y.Bus', '/org/a11y/bus', 'org.a11y.Bus', 'GetAddress', None, None, 0, -1,
                                None).unpack()[0]
    flags = Gio.DBusConnectionFlags
    return Gio.DBusConnection.new_for_address_sync(
        address, flags.AUTHENTICATION_CLIENT | flags.MESSAGE_BUS_CONNECTION, None, None)


class Tree:
    """Of the program with process PID. Whatever is asked before the program has told the registry of itself raises.
    It is not asked anything before: a connection that is asked while it is still being made (g_dbus_connection's
    check_unclosed) warns, which ends the program, or leaves the question without an answer for ever."""

    connection = None

    def __init__(self, pid, patience):
        Tree.connection = Tree.connection or bus()
        self.pid, self.patience, self.name = pid, int(patience * 1000), None

    def _bus(self, method, args=None):
        name = 'org.freedesktop.DBus'
        return self.connection.call_sync(name, '/org/freedesktop/DBus', name, method, args, None, 0, -1, None).unpack()[0]

    def _owner(self):
        registry = 'org.a11y.atspi.Registry'
        told = self.connection.call_sync(registry, ROOT, ACCESSIBLE, 'GetChildren', None, None, 0, self.patience, None)
        for name, _ in told.unpack()[0]:
            try:
                if self.pid == self._bus('GetConnectionUnixProcessID', GLib.Variant('(s)', (name,))):
                    return name
            except GLib.Error:        # it left the bus meanwhile
                continue
        raise LookupError('it is not on the bus of the accessibility tree')

    def ask(self, path, interface, method, args=None):
        return self._ask(path, interface, method, args).unpack()

    def _ask(self, path, interface, method, args=None):
        self.name = self.name or self._owner()
        return self.connection.call_sync(self.name, path, interface, method, args, None, 0, self.patience, None)

    def property(self, path, name):
        return self.ask(path, 'org.freedesktop.DBus.Properties', 'Get', GLib.Variant('(ss)', (ACCESSIBLE, name)))[0]

    def _items(self):
        """What the toolkit has at hand: path -> (node, place among its siblings, number of children), and
        path -> paths of its children, hidden ones too."""
        items, below = {}, collections.defaultdict(list)
        answer = self._ask('/org/a11y/atspi/cache', 'org.a11y.atspi.Cache', 'GetItems').print_(False)
        for path, parent, place, count, name, role, states in ITEM.findall(answer):
            items[path] = (Node(self, path, ast.literal_eval(name) if '\\' in name else name[1:-1], int(role), int(states)), int(place), int(count))
            below[parent].append(path)
        return items, below

    def _fresh(self, path):
        """A node the toolkit did not have at hand."""
        return Node(self, path, self.property(path, 'Name'), self.ask(path, ACCESSIBLE, 'GetRole')[0],
                    self.ask(path, ACCESSIBLE, 'GetState')[0][0])

    def children(self, node, items, below=None):
        """Of NODE, by what is at hand as far as that is all there is to it."""
        known = sorted((below or {}).get(node.path, ()), key=lambda path: items[path][1])
        count = items[node.path][2] if node.path in items else None
        if count is None or [items[path][1] for path in known] != list(range(count)):
            known = [path for _, path in self.ask(node.path, ACCESSIBLE, 'GetChildren')[0]]
        for path in known:
            child = items[path][0] if path in items else self._fresh(path)
            child.parent = node
            yield child

    def walk(self, root):
        items, below = self._items()
        todo = [items[root.path][0] if root.path in items else self._fresh(root.path)]
        todo[0].parent = root.parent
        while todo:
            node = todo.pop()
            yield node
            todo += reversed(list(self.children(node, items, below)))

    def windows(self):
        root = Node(self, ROOT, '', 0, 0)
        return root.kids()
