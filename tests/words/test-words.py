# SPDX-License-Identifier: GPL-3.0-or-later
"""Every text a person sees is listed, and there in every language; a program run from its build folder
speaks the language it is asked for."""
import gettext
import glob
import os
import subprocess
import sys
import tempfile
import unittest

PRITCHEL, ROOT = sys.argv[1:3]
PO = os.path.join(ROOT, 'po')
# what meson's preset "glib" gives to xgettext
KEYWORDS = ['_', 'N_', 'C_:1c,2', 'NC_:1c,2', 'g_dcgettext:2', 'g_dngettext:2,3', 'g_dpgettext2:2c,3']
# what stands on a foot's small picture: its name in two letters
FEET = {'de': 'VL VR HL HR', 'en_US': 'LF RF LH RH', 'es': 'MI MD PI PD', 'fr': 'AG AD PG PD', 'nl': 'LV RV LA RA'}
LANGUAGES = {'de': 'Befehl', 'en_US': 'command', 'es': 'orden', 'fr': 'commande', 'nl': 'opdracht'}


def read(name):
    with open(name, encoding='utf-8') as file:
        return file.read()


def run(*words, env=None):
    return subprocess.run(words, env=env, capture_output=True, text=True, timeout=120, check=False)


class Words(unittest.TestCase):
    def test_lists_are_current(self):
        with tempfile.TemporaryDirectory() as folder:
            done = run('sh', os.path.join(PO, 'list.sh'), folder)
            self.assertEqual(done.returncode, 0, done.stderr)
            for name in ('POTFILES.in', 'texts.h'):
                self.assertEqual(read(os.path.join(folder, name)), read(os.path.join(PO, name)),
                                 'run sh po/list.sh')

    def test_every_language_is_complete(self):
        named = {line for line in read(os.path.join(PO, 'LINGUAS')).split('\n') if line and line[0] != '#'}
        self.assertEqual(named, set(LANGUAGES))
        self.assertEqual({os.path.basename(file)[:-3] for file in glob.glob(PO + '/*.po')}, named)
        with tempfile.TemporaryDirectory() as folder:
            pot = os.path.join(folder, 'now.pot')
            done = run('xgettext', '--from-code=UTF-8', '--add-comments', *['--keyword=' + key for key in KEYWORDS],
                       '-D', ROOT, '-f', os.path.join(PO, 'POTFILES.in'), '-o', pot)
            self.assertEqual(done.returncode, 0, done.stderr)
            for language in named:
                file = os.path.join(PO, language + '.po')
                done = run('msgfmt', '--check', '--check-accelerators=_', '-o', '/dev/null', file)
                self.assertEqual((done.returncode, done.stderr), (0, ''))
                done = run('msgcmp', file, pot)      # missing, fuzzy and empty ones are errors
                self.assertEqual(done.returncode, 0, done.stderr)

    def catalog(self, language):
        with tempfile.TemporaryDirectory() as folder:
            file = os.path.join(folder, 'now.mo')
            self.assertEqual(run('msgfmt', '-o', file, os.path.join(PO, language + '.po')).returncode, 0)
            with open(file, 'rb') as words:
                return gettext.GNUTranslations(words)

    def test_feet_have_the_letters_of_the_language(self):
        self.assertEqual(set(FEET), set(LANGUAGES))
        for language, letters in FEET.items():
            words = self.catalog(language)
            self.assertEqual(' '.join(words.pgettext('a foot in two letters', foot) for foot in ('LF', 'RF', 'LH', 'RH')),
                             letters)

    def test_american(self):
        """The sides are left and right, unless near and off are chosen; stock is told by its thickness first."""
        words = self.catalog('en_US')
        self.assertEqual(words.gettext('near fore'), 'left front')
        self.assertEqual(words.pgettext('near and off', 'near fore'), 'near front')
        self.assertEqual(words.pgettext('section', '%s × %s'), '%2$s × %1$s')
        for text in words._catalog.values():
            for british in ('centre', 'aluminium', 'galvanised', 'veterinary surgeon', 'millimetre', 'colour', 'steel rule ', 'bevelled'):
                self.assertNotIn(british, text.lower(), text)

    def test_it_speaks_them(self):
        for language, word in LANGUAGES.items():
            done = run(PRITCHEL, 'unheard-of', env=dict(os.environ, LC_ALL='C.UTF-8', LANGUAGE=language))
            self.assertEqual(done.returncode, 2)
            self.assertIn(word, done.stderr, language)


unittest.main(argv=sys.argv[:1])
