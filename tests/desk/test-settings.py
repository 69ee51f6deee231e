# SPDX-License-Identifier: GPL-3.0-or-later
"""Preferences: the schema is found wherever the program lies, an old or missing one harms nothing, what is
chosen is there for the next start, and what an earlier version kept in the book moves over once."""
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile

PROBE, COMPILED, SOURCE = sys.argv[1:4]
SCHEMA = os.path.basename(SOURCE)


class Desk:
    """A program folder and a home of its own; STORE is GIO's name for where settings go."""

    def __init__(self, folder, store='keyfile', **env):
        self.folder = folder
        os.makedirs(folder + '/bin')
        self.probe = shutil.copy(PROBE, folder + '/bin/probe')
        self.env = dict(os.environ, XDG_CONFIG_HOME=folder + '/config', XDG_DATA_HOME=folder + '/data',
                        XDG_DATA_DIRS=folder + '/nothing', **env)
        self.env.pop('GSETTINGS_BACKEND', None)
        self.env.pop('GSETTINGS_SCHEMA_DIR', None)
        if store:
            self.env['GSETTINGS_BACKEND'] = store

    def ask(self, *words, **env):
        run = subprocess.run([self.probe, *words], env=dict(self.env, **env), capture_output=True, text=True,
                             check=False)
        assert run.returncode == 0, f'{words}: {run.returncode}, {run.stderr}'
        return dict(line.split('=', 1) for line in run.stdout.splitlines())

    def schema(self, into):
        os.makedirs(self.folder + '/' + into, exist_ok=True)
        shutil.copy(COMPILED, self.folder + '/' + into + '/gschemas.compiled')

    def older_schema(self, into):
        """As a version would have it that knew nothing of the look."""
        text = open(SOURCE, encoding='utf-8').read()
        start, end = text.index('<key name="look"'), text.index('<key name="layers"')
        os.makedirs(self.folder + '/' + into)
        with open(f'{self.folder}/{into}/{SCHEMA}', 'w', encoding='utf-8') as out:
            out.write(text[:start] + text[end:])
        subprocess.run(['glib-compile-schemas', '--strict', self.folder + '/' + into], check=True)


def schema_is_found(folder):
    built, installed, nowhere = (Desk(f'{folder}/{name}') for name in ('built', 'installed', 'nowhere'))
    built.schema('bin/data')
    installed.schema('share/glib-2.0/schemas')
    assert built.ask('kept') == installed.ask('kept') == {'kept': '1'}
    assert nowhere.ask('kept') == {'kept': '0'}
    nowhere.schema('elsewhere/glib-2.0/schemas')
    assert nowhere.ask('kept', XDG_DATA_DIRS=nowhere.folder + '/elsewhere') == {'kept': '1'}


def code_and_schema_agree(folder):
    desk = Desk(folder + '/agree')
    bare = desk.ask('all')
    desk.schema('bin/data')
    assert desk.ask('kept', 'all') == {'kept': '1', **bare}
    assert len(bare) == open(SOURCE, encoding='utf-8').read().count('<key '), bare


def an_older_schema_is_passed_over(folder):
    desk = Desk(folder + '/older')
    desk.older_schema('old/glib-2.0/schemas')
    old = {'XDG_DATA_DIRS': desk.folder + '/old'}
    assert desk.ask('kept', 'set', 'look', "'dark'", 'all', **old)['look'] == 'dark'
    assert desk.ask('kept', **old) == {'kept': '0'}
    desk.schema('share/glib-2.0/schemas')
    assert desk.ask('kept', **old) == {'kept': '1'}


def what_is_chosen_is_kept(folder):
    desk = Desk(folder + '/chosen')
    assert desk.ask('set', 'unit', "'inch'", 'unit') == {'set': '1', 'inch': '1'}
    assert desk.ask('unit') == {'inch': '0'}, 'without a schema it lasts until the end'
    desk.schema('bin/data')
    desk.ask('set', 'unit', "'inch'")
    assert desk.ask('unit') == {'inch': '1'}
    for key, bad in (('screen-px-per-mm', '21.0'), ('look', "'pink'"), ('unit', '3'), ('window-width', '0'), ('print-pages', '0'), ('print-pages', '32')):
        before = desk.ask('all')
        assert desk.ask('set', key, bad) == {'set': '0'}, key
        assert desk.ask('all') == before, key


def a_desktop_without_dconf_keeps_them_too(folder):
    desk = Desk(folder + '/storeless', store=None, GIO_MODULE_DIR=folder + '/no-modules')
    desk.schema('bin/data')
    desk.ask('set', 'screen-px-per-mm', '4.25')
    assert desk.ask('all')['screen-px-per-mm'] == '4.2500'


def in_book(book):
    with sqlite3.connect(book) as db:
        return dict(db.execute('select key, value from setting'))


def lengths_are_as_the_region_has_them(folder):
    """LC_MEASUREMENT, as the C library has it: American English in inches, all others in millimetres."""
    desk = Desk(folder + '/region')
    for name in ('en_US', 'en_GB', 'de_DE'):
        made = subprocess.run(['localedef', '-i', name, '-f', 'UTF-8', f'{folder}/{name}.UTF-8'], capture_output=True)
        assert made.returncode in (0, 1), made.stderr       # 1: with warnings
    for name, inch in (('en_US', '1'), ('en_GB', '0'), ('de_DE', '0')):
        assert desk.ask('unit', LOCPATH=folder, LC_ALL=name + '.UTF-8') == {'inch': inch}, name


def books_of_before_are_taken_over(folder):
    desk = Desk(folder + '/before')
    book = desk.folder + '/book.pritchel'
    for key, value in (('look', 'dark'), ('unit', 'inch'), ('screen-px-per-mm', '3.5000'),
                       ('cautions-seen', '1'), ('layers', 'grid=0 photo=0.50'), ('last-foot', '7')):
        assert desk.ask('book', book, key, value) == {'book': '1'}
    assert desk.ask('take', book, 'all')['look'] == 'dark'
    assert len(in_book(book)) == 6, 'what lasts until the end only leaves the book as it is'
    desk.schema('bin/data')
    desk.ask('set', 'look', "'light'")
    got = desk.ask('take', book, 'all')
    assert (got['look'], got['unit'], got['cautions-seen']) == ('light', 'inch', '1'), got
    assert (got['screen-px-per-mm'], got['layers']) == ('3.5000', 'grid=0 photo=0.50'), got
    assert in_book(book) == {'last-foot': '7'}
    assert desk.ask('all') == got


def main():
    with tempfile.TemporaryDirectory(prefix='pritchel-settings-') as folder:
        schema_is_found(folder)
        code_and_schema_agree(folder)
        an_older_schema_is_passed_over(folder)
        what_is_chosen_is_kept(folder)
        a_desktop_without_dconf_keeps_them_too(folder)
        lengths_are_as_the_region_has_them(folder)
        books_of_before_are_taken_over(folder)


main()
