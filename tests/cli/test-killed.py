#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`plan` killed while it writes: test-killed.py PRITCHEL [COUNT [SEED]].

Into one folder, where somebody else's file lies too, or one that is not there, run after run with other figures,
each killed at a random moment once its hidden folder is seen. What then stands there is of one run, and the report
stands by its whole set only. A run that is left alone leaves its own set and nothing hidden. By hand with a count of
1000; what was met is printed."""
import collections
import json
import math
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

PRITCHEL, COUNT = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 60
CHANCE = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 28)
WEBS = ('23', '24', '25', '26')
EIGHT = ('template.pdf', 'template.svg', 'template.png', 'bar.pdf', 'stages.svg', 'card.pdf', 'report.txt', 'report.json')
ASKED = ('template.dxf', 'pages.pdf')
PREFIX = '.pritchel-set-'
HERE = tempfile.mkdtemp(prefix='pritchel-killed-')
ENV = dict(os.environ, HOME=HERE, XDG_DATA_HOME=HERE, XDG_CONFIG_HOME=HERE)
OUTLINE, FOLDER, MINE = HERE + '/outline.json', HERE + '/shoe', HERE + '/shoe/mine.txt'


def draw_outline():
    """A plain foot: half an ellipse ahead of the widest line, a longer one behind it, open at the heels."""
    points = []
    for i in range(121):
        a = math.radians(-36 + 252 * i / 120)
        points.append([105 + 64 * math.cos(a), 150 - (66 if a > 0 and a < math.pi else 108) * math.sin(a)])
    with open(OUTLINE, 'w', encoding='utf-8') as file:
        json.dump({'outline_mm': points}, file)


def plan(kind, folder):
    """The command for a run of KIND: its web, and whether it writes the DXF and chosen pages."""
    web, more = kind
    return [PRITCHEL, 'plan', OUTLINE, '--foot', 'LF', '--style', 'quarter-clipped', '--set', 'web.toe=' + web, '--bar',
            '3/8 x 1', '--anyway', '-o', folder] + ['--dxf', '--pages', 'card,bar'] * more


def content(path):
    """A file's bytes but for the time a PDF tells, None when it is not there."""
    try:
        with open(path, 'rb') as file:
            return re.sub(rb'/CreationDate \([^)]*\)', b'', file.read())
    except FileNotFoundError:
        return None


def is_ours(name):
    return name in EIGHT + ASKED


def webs_of(known, folder):
    """Which runs the files in FOLDER are of, by their names."""
    found = {}
    for name in filter(is_ours, os.listdir(folder) if os.path.isdir(folder) else []):
        data = content(os.path.join(folder, name))
        found[name] = known[name][data] if data in known[name] else 'broken'
    return found


def hidden():
    return [name for folder in (HERE, FOLDER) if os.path.isdir(folder) for name in os.listdir(folder)
            if name.startswith(PREFIX)]


def killed(kind, longest, rests):
    """Runs KIND and kills it once a hidden folder beyond RESTS is there. Did the signal end it?"""
    done = subprocess.Popen(plan(kind, FOLDER), env=ENV, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    while done.poll() is None and set(hidden()) <= rests:
        time.sleep(0.0002)
    time.sleep(CHANCE.uniform(0, longest))
    done.kill()
    return done.wait() == -signal.SIGKILL


def whole_run(kind):
    subprocess.run(plan(kind, FOLDER), env=ENV, check=True, stdout=subprocess.DEVNULL)


def learn():
    """What each file of each run is, and how long the writing takes."""
    known = collections.defaultdict(dict)
    for web in WEBS:
        subprocess.run(plan((web, True), HERE + '/known'), env=ENV, check=True, stdout=subprocess.DEVNULL)
        for name in EIGHT + ASKED:
            known[name][content(f'{HERE}/known/{name}')] = web
        shutil.rmtree(HERE + '/known')
    assert all(len(files) == len(WEBS) for files in known.values()), 'two runs write the same'
    took = []
    for web in WEBS:
        run = subprocess.Popen(plan((web, True), FOLDER), env=ENV, stdout=subprocess.DEVNULL)
        while not hidden() and run.poll() is None:
            time.sleep(0.0002)
        start = time.monotonic()
        while hidden() and run.poll() is None:      # not until it ends: a program under a sanitizer ends slowly
            time.sleep(0.0002)
        took.append(time.monotonic() - start)
        assert run.wait() == 0
    return known, max(took)


def look(known, may_be, kind):
    """What a killed run of KIND has left where a set of one of MAY_BE was: 'old', 'new', 'part' or 'nothing'."""
    found = webs_of(known, FOLDER)
    webs = set(found.values())
    assert len(webs) <= 1, f'mixed: {found}'
    assert webs <= may_be | {kind[0]}, (found, may_be, kind)
    if 'report.json' in found:
        assert set(EIGHT) <= set(found), f'a report without its set: {found}'
    whole = set(EIGHT) <= set(found)
    return 'nothing' if not found else 'part' if not whole else 'new' if webs == {kind[0]} else 'old'


def prepare(known, n):
    """Every third run finds no folder, every third a set that a run left alone has put there beside somebody's own
    file, every third what a killed run has left. The web that stands there for sure; None where there is none."""
    if n % 3 == 0:
        shutil.rmtree(FOLDER, ignore_errors=True)
        return None
    if n % 3 == 2:
        return None
    web = WEBS[n % 4]
    whole_run((web, n % 2 == 0))
    assert set(webs_of(known, FOLDER).values()) == {web} and not hidden(), (web, os.listdir(FOLDER))
    with open(MINE, 'w', encoding='utf-8') as file:
        file.write('mine')
    return web


def main():
    draw_outline()
    known, longest = learn()
    met, kills, runs, may_be = collections.Counter(), 0, 0, set()
    while kills < COUNT:
        web = prepare(known, runs)
        may_be = {web} if runs % 3 == 1 else set() if runs % 3 == 0 else may_be
        kind = (CHANCE.choice([other for other in WEBS if other != web]), CHANCE.random() < 0.5)
        if killed(kind, longest, set(hidden())):
            kills += 1
            met[look(known, may_be, kind)] += 1
        may_be |= {kind[0]}
        assert runs % 3 == 0 or content(MINE) == b'mine'
        runs += 1
    whole_run((WEBS[0], False))
    assert set(webs_of(known, FOLDER).values()) == {WEBS[0]} and not hidden()
    assert met['old'] and met['new'], met
    print(f'{kills} of {runs} runs killed while they wrote; what stood there then: {dict(met)}')


try:
    main()
finally:
    shutil.rmtree(HERE, ignore_errors=True)
