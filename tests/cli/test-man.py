# SPDX-License-Identifier: GPL-3.0-or-later
"""The manual page names every command and every option that there is, and none that there is not."""
import re
import subprocess
import sys
import unittest

PROGRAM, PAGE = sys.argv[1:3]


def told(*words):
    return subprocess.run([PROGRAM, *words, '--help'], check=True, capture_output=True, text=True).stdout


def options(text):
    return set(re.findall(r'(?<![\w-])--([a-z][a-z-]*)', text)) - {'help'}


class Manual(unittest.TestCase):
    def setUp(self):
        with open(PAGE) as page:
            self.page = re.sub(r'\\f[BIR]', '', page.read()).replace('\\-', '-')
        self.commands = re.findall(r'^  pritchel ([a-z]+) ', told(), re.M)

    def test_commands(self):
        self.assertGreater(len(self.commands), 3)
        section = self.page.split('.SH COMMANDS')[1].split('.SH ')[0]
        self.assertEqual(re.findall(r'^\.BI? ([a-z]+)', section, re.M), self.commands)

    def test_options(self):
        there = set().union(*(options(told(command)) for command in self.commands))
        self.assertGreater(len(there), 20)
        self.assertEqual(options(self.page), there)

    def test_short_names(self):
        for command in self.commands:
            for short, name in re.findall(r'^  -([a-z]), --([a-z-]+)', told(command), re.M):
                if name != 'help':
                    self.assertRegex(self.page, rf'-{short}[^\n]*--{name}=', command)


unittest.main(argv=sys.argv[:1])
