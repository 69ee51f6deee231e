# SPDX-License-Identifier: GPL-3.0-or-later
"""The form of what is written: clang-format's, and each public type named once. And the window's parts are laid out
in ui/, not by hand."""
import collections
import os
import re
import shutil
import subprocess
import unittest
from xml.etree import ElementTree

import house

# Widgets made by hand in src/app: what is drawn, or made as many times as the data says. To get smaller.
WIDGETS_MOST = 59

# Values hung on objects by name in src/app: source -> why. To get shorter.
HUNG_ON = {}

# what gtk_..._new makes without its being a widget
NO_WIDGET = ('adjustment', 'application', 'alternative_trigger', 'bookmark_list', 'builder', 'bool_filter', 'callback_action',
             'cclosure', 'constant_expression', 'css_provider', 'custom_', 'directory_list', 'drag_source', 'drop_',
             'entry_buffer', 'event_controller', 'every_', 'file_chooser_native', 'file_filter', 'filter_list_model',
             'flatten_', 'gesture', 'icon_paintable', 'keyval_trigger', 'list_store', 'map_list_model', 'mnemonic_',
             'multi_', 'named_action', 'no_selection', 'numeric_', 'page_setup', 'paper_size', 'print_job', 'print_operation',
             'print_settings', 'property_expression', 'selection_', 'shortcut_controller', 'shortcut_new',
             'signal_', 'single_selection', 'size_group', 'slice_', 'snapshot', 'sort_list', 'string_', 'text_buffer',
             'text_tag', 'tree_', 'widget_paintable', 'window_group')
LAYOUTS = ('bin_layout', 'box_layout', 'center_layout', 'constraint', 'fixed_layout', 'grid_layout', 'overlay_layout')


def widgets(path):
    made = re.findall(r'\bgtk_(\w+?_new\w*) \(', house.text(path))
    by_type = re.findall(r'\bg_object_new \(GTK_TYPE_(\w+)', house.text(path))
    return [one for one in made if not one.startswith(NO_WIDGET + LAYOUTS)] + [
        one for one in by_type if not one.lower().startswith(NO_WIDGET + LAYOUTS)]


def types(path):
    """The types a header gives a name to, with what they are; one told of in advance is given it elsewhere."""
    code = re.sub(r'/\*.*?\*/', '', house.text(path), flags=re.S)
    named = re.findall(r'^typedef (?:struct|union|enum)(?: \w+)? \{.*?^\} (\w+);', code, re.M | re.S)
    named += re.findall(r'^struct _(\w+) \{', code, re.M)
    named += re.findall(r'^typedef [^{}]*?\(\*(\w+)\)', code, re.M)
    named += re.findall(r'^typedef (?!struct|union|enum)[^{}();]*?(\w+);', code, re.M)
    return named + re.findall(r'^G_DECLARE_\w+_TYPE \((\w+)', code, re.M)


TOP = ['DEVELOPERS.md', 'LICENSE', 'README.md', 'data', 'meson.build', 'po', 'screenshots', 'src', 'tests', 'ui']


class Form(unittest.TestCase):
    def test_nothing_else_lies_at_the_top(self):
        self.assertEqual(sorted(name for name in os.listdir(house.SOURCE) if not name.startswith('.')), TOP)

    def test_sources_are_as_the_formatter_leaves_them(self):
        formatter = shutil.which('clang-format')
        if not formatter:
            self.skipTest('clang-format is not there')
        version = subprocess.run([formatter, '--version'], check=True, capture_output=True, text=True).stdout
        if ' version 14.' not in version:
            self.skipTest('another version than 14 has other ideas: ' + version.strip())
        files = house.sources('src') + house.sources('tests')
        self.assertGreater(len(files), 200)
        told = subprocess.run([formatter, '--dry-run', '-Werror', '--ferror-limit=1', *files], cwd=house.SOURCE,
                              check=False, capture_output=True, text=True)
        wrong = sorted(set(re.findall(r'^([^ :\n]+):\d+:\d+: error', told.stderr, re.M)))
        self.assertEqual((told.returncode, wrong), (0, []), f'clang-format -i {" ".join(wrong)}')

    def test_public_types_are_named_once(self):
        where = collections.defaultdict(list)
        for path in house.sources(endings='.h'):
            if path.endswith('-private.h'):           # its struct is the one that is named beside it
                continue
            for name in types(path):
                where[name].append(path)
        self.assertGreater(len(where), 60, 'they are not found any more')
        self.assertFalse({name: paths for name, paths in where.items() if len(paths) > 1})


class Layout(unittest.TestCase):
    longMessage = False              # what would be told is all that was looked through

    def test_every_file_of_ui_is_in_the_program(self):
        listed = ElementTree.parse(os.path.join(house.SOURCE, 'data/pritchel.gresource.xml'))
        inside = {os.path.basename(one.text) for one in listed.iter('file') if one.text.endswith('.ui')}
        self.assertEqual(inside, set(os.listdir(os.path.join(house.SOURCE, 'ui'))))

    def test_every_file_of_ui_is_whole(self):
        """Well-formed, its ids its own, and each template is taken by the class it is for."""
        code = ''.join(house.text(path) for path in house.sources('src/app', '.c'))
        lists = ''.join(house.text('ui/' + name) for name in os.listdir(os.path.join(house.SOURCE, 'ui')))
        for name in sorted(os.listdir(os.path.join(house.SOURCE, 'ui'))):
            root = ElementTree.parse(os.path.join(house.SOURCE, 'ui', name)).getroot()
            self.assertEqual(root.tag, 'interface', name)
            ids = collections.Counter(one.get('id') for one in root.iter() if one.get('id'))
            self.assertFalse([one for one, n in ids.items() if n > 1], f'{name}: ids that are there twice')
            for template in root.iter('template'):
                if template.get('class') == 'GtkListItem':       # a row of a list, which names its file in its own
                    self.assertIn('/' + name, lists, f'{name}: no list takes it for its rows')
                    continue
                self.assertRegex(code, f'(?:/|PR_UI "){name}"', f'{name}: no class takes it as its template')
                self.assertRegex(code, rf'\b(?:G_DEFINE_\w*TYPE\w*) \({template.get("class")},', name)

    def test_no_more_widgets_by_hand(self):
        made = {path: widgets(path) for path in house.sources('src/app', '.c')}
        total = sum(map(len, made.values()))
        print(f'{total} widgets made by hand in src/app, at most {WIDGETS_MOST}; most in '
              + ', '.join(f'{os.path.basename(path)} {len(made[path])}' for path in sorted(
                  made, key=lambda path: -len(made[path]))[:5]))
        self.assertLessEqual(total, WIDGETS_MOST)

    def test_nothing_is_hung_on_an_object(self):
        hung = {path for path in house.sources('src/app', '.c') if 'g_object_set_data' in house.text(path)}
        self.assertEqual(hung, set(HUNG_ON), 'in the code, and in the list of exceptions')


if __name__ == '__main__':
    house.main()
