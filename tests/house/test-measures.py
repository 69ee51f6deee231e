# SPDX-License-Identifier: GPL-3.0-or-later
"""How large what stands in the house may be: folders, files, functions, in sources of src."""
import collections
import os
import re
import statistics
import unittest

import house

FOLDER_MOST = 26
FUNCTION_MEDIAN, FUNCTION_95, FUNCTION_MOST = 11, 25, 60
FILE_MEDIAN, FILE_MOST = 230, 600

# What is still larger: folder or file -> why. What has come down is taken off the list.
TOO_LARGE = {}


def functions(path):
    """Name -> lines, from the line of its name to the brace that closes it. The house's form puts the name and
    both braces at the start of a line."""
    found, head = {}, None
    for at, line in enumerate(house.text(path).splitlines()):
        name = re.match(r'(\w+) \(', line)
        if name:
            head = name[1], at
        elif line == '}' and head:
            found[head[0]] = at - head[1] + 1
            head = None
        elif line.rstrip().endswith(';') and not line.startswith((' ', '\t')):
            head = None                     # it was a declaration
    return found


def share(values, part):
    """The smallest of VALUES that PART of them do not pass."""
    ordered = sorted(values)
    return ordered[max(0, -int(-part * len(ordered) // 1) - 1)]


class Measures(unittest.TestCase):
    def keeps_to_the_list(self, large, all_of_them):
        self.assertFalse(large - set(TOO_LARGE), 'too large')
        self.assertFalse((set(TOO_LARGE) & all_of_them) - large, 'no longer too large: take it off the list')

    def test_functions(self):
        lines = {f'{path}: {name}': n for path in house.sources(endings='.c') for name, n in functions(path).items()}
        median, most95, most = statistics.median(lines.values()), share(lines.values(), 0.95), max(lines.values())
        print(f'{len(lines)} functions: median {median:g}, 95 % at most {most95}, longest {most}'
              f' ({max(lines, key=lines.get)})')
        self.assertGreater(len(lines), 500, 'they are not found any more')
        self.assertLessEqual(median, FUNCTION_MEDIAN)
        self.assertLessEqual(most95, FUNCTION_95)
        self.assertFalse({name: n for name, n in lines.items() if n > FUNCTION_MOST})

    def test_files(self):
        lines = {path: len(house.text(path).splitlines()) for path in house.sources()}
        median = statistics.median(n for path, n in lines.items() if path.endswith('.c'))
        print(f'{len(lines)} files: median of the .c {median:g} lines, longest {max(lines.values())}'
              f' ({max(lines, key=lines.get)})')
        self.assertLessEqual(median, FILE_MEDIAN)
        self.keeps_to_the_list({path for path, n in lines.items() if n > FILE_MOST}, set(lines))

    def test_folders(self):
        count = collections.Counter(os.path.dirname(path) for path in house.sources())
        print(f'{len(count)} folders: most sources in one {max(count.values())} ({max(count, key=count.get)})')
        self.keeps_to_the_list({folder for folder, n in count.items() if n > FOLDER_MOST}, set(count))


if __name__ == '__main__':
    house.main()
