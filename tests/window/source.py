# SPDX-License-Identifier: GPL-3.0-or-later
"""A small window of another program: its files can be dragged out of it, and are on the clipboard. Its title says
how far that has come."""
import sys

import gi
gi.require_version('Gtk', '4.0')
gi.require_version('Gdk', '4.0')
from gi.repository import Gdk, Gio, GObject, Gtk    # noqa: E402


def content(names):
    files = Gdk.FileList.new_from_list([Gio.File.new_for_path(name) for name in names])
    value = GObject.Value(Gdk.FileList, files)
    return Gdk.ContentProvider.new_for_value(value)


def watch(window, drag):
    """Held from the first pull on; wanted while what lies below would take it."""
    def told(*_):
        window.set_title('files wanted' if drag.get_selected_action() else 'files held')
    told()
    drag.connect('notify::selected-action', told)


def activate(app):
    window = Gtk.ApplicationWindow(application=app, title='files to take', default_width=160,
                                   default_height=120)
    label = Gtk.Label(label='files')
    drag = Gtk.DragSource(actions=Gdk.DragAction.COPY)
    drag.connect('prepare', lambda *_: content(sys.argv[1:]))
    drag.connect('drag-begin', lambda _, held: watch(window, held))
    drag.connect('drag-end', lambda *_: window.set_title('files to take'))
    label.add_controller(drag)
    window.set_child(label)
    window.present()
    window.get_clipboard().set_content(content(sys.argv[1:]))


app = Gtk.Application(application_id='org.pritchel.TestSource', flags=Gio.ApplicationFlags.NON_UNIQUE)
app.connect('activate', activate)
app.run([])
