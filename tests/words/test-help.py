# SPDX-License-Identifier: GPL-3.0-or-later
"""The help's pages lead to each other and to pictures that are there; every key they name is one that the window has; and
what the window opens with F1 is a page."""
import glob
import os
import re
import sys
import unittest
import xml.etree.ElementTree as tree

ROOT = sys.argv[1]
MALLARD = '{http://projectmallard.org/1.0/}'


def text(*path):
    with open(os.path.join(ROOT, *path)) as file:
        return file.read()


class Help(unittest.TestCase):
    def setUp(self):
        self.pages = {os.path.basename(path)[:-5]: tree.parse(path).getroot()
                      for path in glob.glob(os.path.join(ROOT, 'data/help/C/*.page'))}
        self.assertGreater(len(self.pages), 8)

    def test_ids_and_guides(self):
        sections = {s.get('id') for s in self.pages['index'].iter(MALLARD + 'section')}
        for name, page in self.pages.items():
            self.assertEqual(page.get('id'), name)
            for link in page.iter(MALLARD + 'link'):
                guide, _, section = link.get('xref').partition('#')
                self.assertIn(guide, self.pages, name)
                self.assertIn(section, sections, name)

    def test_all_are_installed(self):
        listed = re.search(r"foreach page : \[(.*?)\]", text('data/meson.build'), re.S).group(1)
        self.assertEqual(set(re.findall(r"'([a-z-]+)'", listed)), set(self.pages))

    def test_pictures(self):
        installed = re.findall(r"'\.\./screenshots/([a-z-]+\.png)'", text('data/meson.build'))
        used = {media.get('src').split('/')[1] for page in self.pages.values() for media in page.iter(MALLARD + 'media')}
        self.assertEqual(used, set(installed))
        for name in used:
            self.assertTrue(os.path.exists(os.path.join(ROOT, 'screenshots', name)), name)

    def test_keys(self):
        known = text('src/app/window/pr-application.c') + text('ui/help-overlay.ui').replace('&lt;', '<').replace('&gt;', '>')
        known = known.lower()
        for name, page in self.pages.items():
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
            self.assertIn(page, self.pages)


unittest.main(argv=sys.argv[:1])
