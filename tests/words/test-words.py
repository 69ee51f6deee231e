# SPDX-License-Identifier: GPL-3.0-or-later
"""Every text a person sees is listed, and there in every language; a program run from its build folder
speaks the language it is asked for."""
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

    def test_it_speaks_them(self):
        for language, word in LANGUAGES.items():
            done = run(PRITCHEL, 'unheard-of', env=dict(os.environ, LC_ALL='C.UTF-8', LANGUAGE=language))
            self.assertEqual(done.returncode, 2)
            self.assertIn(word, done.stderr, language)


unittest.main(argv=sys.argv[:1])
