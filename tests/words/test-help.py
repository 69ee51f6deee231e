# SPDX-License-Identifier: GPL-3.0-or-later
"""The help's pages lead to each other and to pictures that are there; every key they name is one that the window has; and
what the window opens with F1 is a page. In each language they are all there, and call buttons and keys what the window
calls them in that language."""
import collections
import gettext
import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as tree

ROOT = sys.argv[1]
HELP = os.path.join(ROOT, 'data/help')
MALLARD = '{http://projectmallard.org/1.0/}'
# keys that have another name in a language than in English
KEYS = {'nl': {'Space': 'spatiebalk'},
        'de': {'Ctrl': 'Strg', 'Shift': 'Umschalt', 'Enter': 'Eingabetaste', 'Escape': 'Esc', 'Delete': 'Entf', 'Space': 'Leertaste'},
        'es': {'Shift': 'Mayús', 'Enter': 'Intro', 'Escape': 'Esc', 'Delete': 'Supr', 'Space': 'Espacio'},
        'fr': {'Shift': 'Maj', 'Enter': 'Entrée', 'Escape': 'Échap', 'Delete': 'Suppr', 'Space': 'Espace'}}


def text(*path):
    with open(os.path.join(ROOT, *path), encoding='utf-8') as file:
        return file.read()


def listed(*path):
    return {line for line in text(*path).split('\n') if line and line[0] != '#'}


LANGUAGES = sorted(listed('data/help/LINGUAS'))


def run(*words):
    return subprocess.run(words, capture_output=True, text=True, timeout=60, check=False)


def read(folder):
    return {os.path.basename(path)[:-5]: tree.parse(path).getroot() for path in glob.glob(os.path.join(folder, '*.page'))}


def sources():
    return sorted(glob.glob(os.path.join(HELP, 'C/*.page')))


class Help(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        """The pages of each language in a folder, as the build makes them, and what its po files say."""
        cls.folder = tempfile.TemporaryDirectory()
        cls.addClassCleanup(cls.folder.cleanup)
        cls.pages = {'C': read(os.path.join(HELP, 'C'))}
        cls.words, cls.window, cls.said = {}, {}, {}
        for language in LANGUAGES:
            cls.words[language] = cls.catalog(language, os.path.join(HELP, language, language + '.po'))
            cls.window[language] = cls.catalog(language + '-window', os.path.join(ROOT, 'po', language + '.po'))
            to = os.path.join(cls.folder.name, language)
            os.mkdir(to)
            cls.said[language] = run('itstool', '--strict', '-m', to + '.mo', '--lang', language, '-o', to, *sources())
            cls.pages[language] = read(to)

    @classmethod
    def catalog(cls, name, file):
        """Every text with its translation, without the context."""
        made = os.path.join(cls.folder.name, name + '.mo')
        done = run('msgfmt', '-o', made, file)
        if done.returncode:
            raise AssertionError(done.stderr)
        with open(made, 'rb') as words:
            catalog = gettext.GNUTranslations(words)._catalog
        return [((key if isinstance(key, str) else key[0]).split('\x04')[-1], value) for key, value in catalog.items() if key]

    def test_ids_and_guides(self):
        self.assertGreater(len(self.pages['C']), 8)
        for language, pages in self.pages.items():
            self.assertEqual(set(pages), set(self.pages['C']), language)
            sections = {s.get('id') for s in pages['index'].iter(MALLARD + 'section')}
            for name, page in pages.items():
                self.assertEqual(page.get('id'), name)
                for link in page.iter(MALLARD + 'link'):
                    guide, _, section = link.get('xref').partition('#')
                    self.assertIn(guide, pages, name)
                    self.assertIn(section, sections, name)

    def test_all_are_installed(self):
        build = text('data/help/meson.build')
        self.assertEqual(set(re.findall(r"'([a-z-]+)\.page'", build)), set(self.pages['C']))

    def test_pictures(self):
        installed = re.search(r'figures = \[(.*?)\]', text('data/help/meson.build'), re.S).group(1)
        for language, pages in self.pages.items():
            used = {media.get('src') for page in pages.values() for media in page.iter(MALLARD + 'media')}
            self.assertEqual(used, {'figures/' + name for name in re.findall(r"'([^']+)'", installed)}, language)
            for name in used:
                self.assertTrue(os.path.exists(os.path.join(ROOT, name.replace('figures', 'screenshots'))), name)

    def test_keys(self):
        known = text('src/app/window/pr-application.c') + text('ui/help-overlay.ui').replace('&lt;', '<').replace('&gt;', '>')
        known = known.lower()
        for name, page in self.pages['C'].items():
            for keys in page.iter(MALLARD + 'keyseq'):
                *mods, last = [key.text.lower() for key in keys.iter(MALLARD + 'key')]
                last = {'?': 'question'}.get(last, last)
                self.assertIn(''.join(f'<{mod}>' for mod in mods) + last, known, name)

    def test_where_one_is(self):
        code = text('src/app/window/pr-window-actions.c')
        body = code[code.index('help_page (PrWindowActions'):]
        opened = re.findall(r'"([a-z-]+)"', body[:body.index('\n}')])
        self.assertGreater(len(opened), 3)
        for page in opened:
            self.assertIn(page, self.pages['C'])

    @unittest.skipUnless(shutil.which('yelp-check'), 'yelp-check is not here')
    def test_form(self):
        for language in self.pages:
            folder = os.path.join(HELP if language == 'C' else self.folder.name, language)
            done = run('yelp-check', 'validate', *sorted(glob.glob(os.path.join(folder, '*.page'))))
            self.assertEqual((done.returncode, done.stdout), (0, ''), done.stdout + done.stderr)

    def test_languages_are_those_of_the_window(self):
        self.assertEqual(set(LANGUAGES), listed('po/LINGUAS'))
        self.assertEqual({os.path.basename(file)[:-3] for file in glob.glob(HELP + '/*/*.po')}, set(LANGUAGES))

    def test_each_is_complete(self):
        pot = os.path.join(self.folder.name, 'now.pot')
        done = run('itstool', '-o', pot, *sources())
        self.assertEqual(done.returncode, 0, done.stderr)
        for language in LANGUAGES:
            file = os.path.join(HELP, language, language + '.po')
            done = run('msgfmt', '--check', '-o', '/dev/null', file)
            self.assertEqual((done.returncode, done.stderr), (0, ''))
            done = run('msgcmp', file, pot)      # missing, fuzzy and empty ones are errors
            self.assertEqual(done.returncode, 0, done.stderr + 'run sh data/help/update.sh')

    def test_marks_are_kept(self):
        for language in LANGUAGES:
            self.assertEqual(self.said[language].returncode, 0, self.said[language].stderr)
            for told, tells in self.words[language]:
                self.assertCountEqual(re.findall('<[^>]*>', told), re.findall('<[^>]*>', tells), f'{language}: {tells}')
                for given in re.findall(r'<(?:cmd|file)>.*?<|<input>pritchel \w+', told):
                    self.assertIn(given, tells, language)

    def test_buttons_are_called_what_the_window_calls_them(self):
        for language in LANGUAGES:
            names = collections.defaultdict(set)
            for told, tells in self.window[language]:
                names[told.replace('_', '').lower()].add(tells.replace('_', '').lower())
            for page in self.pages['C'].values():
                for name in page.iter(MALLARD + 'gui'):
                    self.assertTrue(names[name.text.lower()], f'the window has no "{name.text}"')
            for told, tells in self.words[language]:
                there = [name.lower() for name in re.findall('<(?:gui|em)[^>]*>(.*?)<', tells)]
                for name in re.findall('<(?:gui|em)[^>]*>(.*?)<', told):
                    self.assertTrue(names[name.lower()] & set(there),
                                    f'{language}: the window calls "{name}" {names[name.lower()]}: {tells}')

    def test_keys_are_called_what_the_window_calls_them(self):
        for language in LANGUAGES:
            names = KEYS.get(language, {})
            for told, tells in self.words[language]:
                keys = re.findall('<key>(.*?)<', told)
                self.assertCountEqual([names.get(key, key) for key in keys], re.findall('<key>(.*?)<', tells),
                                      f'{language}: {tells}')
                for key in keys:
                    for here, there in self.window[language]:
                        if len(key) > 1 and re.search(rf'(?<=.)\b{key}\b', here):     # at the start it is a verb
                            self.assertRegex(there, rf'\b{names.get(key, key)}\b', language)

    def test_french_marks(self):
        for _, tells in self.words['fr']:
            if '<input>pritchel' not in tells:
                plain = re.sub('<[^>]*>', '', re.sub('<key>.</key>', '', tells)).replace('&amp;', '&')
                self.assertIsNone(re.search('[^\u00a0][;!?%»]|[^\u00a0]:(?!1)|«[^\u00a0]', plain), plain)
                self.assertNotIn("'", plain)

    def test_american(self):
        for _, tells in self.words['en_US']:
            for british in ('centre', 'colour', 'galvanised', 'veterinary surgeon', 'bank card', 'millimet', 'a rule '):
                self.assertNotIn(british, tells.lower(), tells)


unittest.main(argv=sys.argv[:1])
