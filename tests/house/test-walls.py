# SPDX-License-Identifier: GPL-3.0-or-later
"""Each room sees what the plan lets it see, by what its files include, by what its objects want of others and by
what its meson.build names; no file leads back to itself; and neither the desk nor the commands know a toolkit."""
import collections
import functools
import os
import re
import subprocess
import unittest

import house
from house import ROOMS

# Circles still there: the arrow that is to go -> why it is there. Without these arrows there is no circle, and each
# of them is needed: what has been cut is taken off the list.
CIRCLES = {}

# what a room is called in its meson.build
ROOM_WORDS = {'shelf': 'app/book', 'handset': 'app/phone', 'visits': 'core/visits', 'visits_paper': 'core/paper/visits', 'visits_app': 'app/visits', 'core': 'core/paper', 'photo': 'core/photo/trace'}


@functools.cache
def owners():
    """Header's file name -> its path. They are included by name alone."""
    found = collections.defaultdict(list)
    for path in house.sources(endings='.h'):
        found[os.path.basename(path)].append(path)
    return found


@functools.cache
def all_symbols():
    """Room -> source's file name -> what its object defines, and what it wants."""
    return {room: house.symbols(house.objects(room)) for room in ROOMS}


def definers():
    """Symbol -> (room, source's file name)."""
    return {symbol: (room, name) for room, files in all_symbols().items() for name, (defined, _) in files.items()
            for symbol in defined}


def node(path):
    """A .c and its header are one, and so is a header of the same name for its own room alone."""
    return re.sub(r'(-private)?\.[ch]$', '', path.removeprefix('src/'))


@functools.cache
def arrows():
    """File -> the files whose headers it includes."""
    found = collections.defaultdict(set)
    for path in house.sources():
        found[node(path)] |= {node(owners()[name][0]) for name in house.includes(path) if name in owners()}
    return {one: to - {one} for one, to in found.items()}


def shortest_way(graph, start, goal):
    before, todo = {start: None}, collections.deque([start])
    while todo:
        one = todo.popleft()
        if one == goal:
            way = [one]
            while before[way[-1]]:
                way.append(before[way[-1]])
            return way[::-1]
        for to in sorted(graph.get(one, ())):
            if to not in before:
                before[to] = one
                todo.append(to)
    return None


def circles(graph):
    """The shortest circle through each file that lies on one, each circle once, the shortest first."""
    ways = {}
    for one, leads_to in graph.items():
        for to in leads_to:
            way = shortest_way(graph, to, one)
            if way:
                least = way.index(min(way))
                ways.setdefault(frozenset(way), way[least:] + way[:least])
    return sorted(ways.values(), key=lambda way: (len(way), way))


def without(graph, cut):
    return {one: {to for to in leads_to if (one, to) not in cut} for one, leads_to in graph.items()}


class Walls(unittest.TestCase):
    longMessage = False              # what would be told is all that was looked through

    def test_every_source_is_in_a_room(self):
        for path in house.sources():
            self.assertIn(house.room_of(path), ROOMS, f'{path}: its folder is no room of the plan')

    def test_names_of_headers_are_their_own(self):
        for name, paths in owners().items():
            self.assertEqual(len(paths), 1, f'{name}: {paths}')

    def test_includes_keep_to_the_plan(self):
        for path in house.sources():
            room = house.room_of(path)
            for name in house.includes(path):
                if name.endswith('-resource.h') or name == 'config.h':       # made by the build
                    continue
                self.assertTrue(name in owners(), f'{path} includes {name}, which is nowhere in src')
                other = house.room_of(owners()[name][0])
                self.assertIn(other, house.may_see(room), f'{path} includes {name}: {room} may not see {other}')

    def test_symbols_keep_to_the_plan(self):
        defined = definers()
        for room, files in all_symbols().items():
            if os.path.isdir(os.path.join(house.SOURCE, 'src', room)):
                self.assertTrue(files, f'{room}: nothing of it in the build')
            for name, (_, wanted) in files.items():
                for symbol in wanted & set(defined):
                    self.assertIn(defined[symbol][0], house.may_see(room),
                                  f'{room}/{name} calls {symbol}: {room} may not see {defined[symbol][0]}')

    def test_build_names_what_the_plan_lets_it_see(self):
        by_word = {room.split('/')[-1]: room for room in ROOMS if room not in ('app/book', 'app/phone')} | ROOM_WORDS
        for room in ROOMS:
            path = f'src/{room}/meson.build'
            if not os.path.isfile(os.path.join(house.SOURCE, path)):
                continue
            for word in re.findall(r'dependencies:.*?\b(\w+)_room\b', house.text(path)):
                self.assertIn(word, by_word, path)
                self.assertIn(by_word[word], house.may_see(room), f'{path} names {word}_room')

    def test_no_file_leads_back_to_itself(self):
        left = circles(without(arrows(), set(CIRCLES)))
        self.assertFalse(left, '\n' + '\n'.join(' -> '.join([*way, way[0]]) for way in left))
        for one, to in CIRCLES:
            self.assertIn(to, arrows().get(one, ()), f'{one} no longer leads to {to}: take it off the list')
            self.assertTrue(circles(without(arrows(), set(CIRCLES) - {(one, to)})),
                            f'{one} -> {to} closes no circle any more: take it off the list')


class NoToolkit(unittest.TestCase):
    longMessage = False              # what would be told is all that was looked through

    def test_core_desk_and_commands_want_nothing_of_it(self):
        for room, files in all_symbols().items():
            if room.startswith('app/'):
                continue
            for name, (_, wanted) in files.items():
                toolkit = sorted(one for one in wanted if re.match(r'(gtk|gdk|gsk)_(?!pixbuf)', one))
                self.assertFalse(toolkit, f'{room}/{name}')

    def test_headers_of_it_are_included_by_the_window_alone(self):
        for path in house.sources():
            if not path.startswith('src/app/'):
                self.assertNotRegex(house.text(path), r'#include <(gtk|gdk|gsk)/', path)

    def test_commands_do_not_load_it(self):
        told = subprocess.run(['ldd', os.path.join(house.BUILD, 'pritchel')], check=True, capture_output=True,
                              text=True).stdout
        self.assertIn('libglib', told)
        self.assertNotRegex(told, r'libg[td]k-[34]')
        wanted = subprocess.run(['nm', '-D', '--undefined-only', os.path.join(house.BUILD, 'pritchel')], check=True,
                                capture_output=True, text=True).stdout
        self.assertIn('g_object_unref', wanted)
        self.assertNotRegex(wanted, r'\b(gtk|gdk|gsk)_(?!pixbuf)')


if __name__ == '__main__':
    house.main()
