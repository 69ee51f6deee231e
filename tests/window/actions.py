# SPDX-License-Identifier: GPL-3.0-or-later
"""The window's actions by their names, whatever its buttons are called in the language of now."""
from gi.repository import Gio, GLib


class Actions:
    """Of the window, by their names: what is written on the buttons is another in each language."""

    def __init__(self):
        self.bus = Gio.bus_get_sync(Gio.BusType.SESSION)

    def _call(self, method, args):
        return self.bus.call_sync('org.pritchel.Pritchel', '/org/pritchel/Pritchel/window/1', 'org.gtk.Actions', method, args,
                                  None, 0, -1, None).unpack()

    def press(self, name):
        self._call('Activate', GLib.Variant('(sava{sv})', (name, [], {})))

    def choose(self, name, state):
        self._call('Activate', GLib.Variant('(sava{sv})', (name, [GLib.Variant('s', state)], {})))

    def is_on(self, name):
        return self._call('Describe', GLib.Variant('(s)', (name,)))[0][2][0]
