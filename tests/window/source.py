# SPDX-License-Identifier: GPL-3.0-or-later
"""A small window of another program: its files can be dragged out of it, and are on the clipboard."""
import sys

import gi
gi.require_version('Gtk', '4.0')
gi.require_version('Gdk', '4.0')
from gi.repository import Gdk, Gio, GObject, Gtk    # noqa: E402


def content(names):
    files = Gdk.FileList.new_from_list([Gio.File.new_for_path(name) for name in names])
    value = GObject.Value(Gdk.FileList, files)
    return Gdk.ContentProvider.new_for_value(value)


def activate(app):
    window = Gtk.ApplicationWindow(application=app, title='files to take', default_width=160,
                                   default_height=120)
    label = Gtk.Label(label='files')
    drag = Gtk.DragSource(actions=Gdk.DragAction.COPY)
    drag.connect('prepare', lambda *_: content(sys.argv[1:]))
    label.add_controller(drag)
    window.set_child(label)
    window.present()
    window.get_clipboard().set_content(content(sys.argv[1:]))


app = Gtk.Application(application_id='org.pritchel.TestSource', flags=Gio.ApplicationFlags.NON_UNIQUE)
app.connect('activate', activate)
app.run([])
