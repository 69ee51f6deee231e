# SPDX-License-Identifier: GPL-3.0-or-later
"""The plan of the house: which rooms there are and what each may see, and what stands in them. Run as
`test-...py SOURCE BUILD`."""
import collections
import os
import re
import subprocess
import sys
import unittest

SOURCE = os.path.abspath(sys.argv[1])
BUILD = os.path.abspath(sys.argv[2])

# folder below src -> its archive or program in the build, and the rooms it may see, with all that those see
Room = collections.namedtuple('Room', 'archive sees')
ROOMS = {
    'core/plane': Room('libplane.a', ''),
    'core/plane/motion': Room('libplane-motion.a', 'core/plane'),
    'core/apart': Room('libapart.a', ''),
    'core/json': Room('libjson.a', 'core/plane'),
    'core/files': Room('libfiles.a', 'core/plane'),
    'core/limits': Room('liblimits.a', 'core/json core/files'),
    'core/sheet': Room('libsheet.a', 'core/plane'),
    'core/photo/image': Room('libphoto-image.a', 'core/sheet'),
    'core/photo/camera': Room('libphoto-camera.a', 'core/photo/image'),
    'core/photo/tracing': Room('libphoto-tracing.a', 'core/photo/camera'),
    'core/photo/scale': Room('libphoto-scale.a', 'core/photo/tracing'),
    'core/photo/ink': Room('libphoto-ink.a', 'core/photo/tracing'),
    'core/photo/line': Room('libphoto-line.a', 'core/photo/ink'),
    'core/photo/figure': Room('libphoto-figure.a', 'core/photo/camera'),
    'core/photo/marks': Room('libphoto-marks.a', 'core/photo/line'),
    'core/photo/trace': Room('libphoto-trace.a', 'core/photo/scale core/photo/marks core/photo/figure core/limits'),
    'core/photo/seen': Room('libphoto-seen.a', 'core/photo/trace'),
    'core/photo/redrawn': Room('libphoto-redrawn.a', 'core/photo/seen'),
    'core/hoof': Room('libhoof.a', 'core/photo/trace core/limits'),
    'core/plan': Room('libplan.a', 'core/hoof core/files'),
    'core/shoe': Room('libshoe.a', 'core/plan'),
    'core/section': Room('libsection.a', 'core/shoe'),
    'core/iron': Room('libiron.a', 'core/section'),
    'core/stage': Room('libstage.a', 'core/iron'),
    'core/checks': Room('libchecks.a', 'core/iron'),
    'core/job': Room('libjob.a', 'core/checks core/stage'),
    'core/compare/bars': Room('libcompare-bars.a', 'core/job'),
    'core/compare/branches': Room('libcompare-branches.a', 'core/shoe'),
    'core/compare': Room('libcompare.a', 'core/plane/motion core/compare/bars core/compare/branches core/photo/seen'),
    'core/learn': Room('liblearn.a', 'core/plane'),
    'core/paper/draw': Room('libpaper-draw.a', 'core/job'),
    'core/paper/card': Room('libpaper-card.a', 'core/job'),
    'core/paper/figures': Room('libpaper-figures.a', 'core/paper/draw core/paper/card'),
    'core/paper': Room('libpaper.a', 'core/paper/figures'),
    'core/paper/forged': Room('libpaper-forged.a', 'core/paper core/compare'),
    'core/book/hold': Room('libbook-hold.a', 'core/plane'),
    'core/paper/feet': Room('libpaper-feet.a', 'core/paper'),
    'core/paper/vet': Room('libpaper-vet.a', 'core/paper/forged core/vet'),
    'core/book': Room('libbook.a', 'core/sheet core/json core/book/hold'),
    'core/record': Room('librecord.a', 'core/compare core/learn core/book'),
    'core/plain': Room('libplain.a', 'core/paper core/record'),
    'core/visits': Room('libvisits.a', 'core/record'),
    'core/paper/visits': Room('libpaper-visits.a', 'core/paper/forged core/visits'),
    'decode': Room('pritchel-decode', 'core/photo/image core/apart'),  # no archive: the program itself
    'phone/wire': Room('libphone-wire.a', 'core/photo/seen core/json'),
    'phone/judge': Room('libphone-judge.a', 'phone/wire core/job core/apart'),
    'phone': Room('libphone.a', 'phone/judge'),
    'core/book/backup': Room('libbook-backup.a', 'core/book'),
    'core/book/roster': Room('libbook-roster.a', 'core/book'),
    'core/book/recover': Room('libbook-recover.a', 'core/book'),
    'core/book/merge': Room('libbook-merge.a', 'core/book'),
    'core/diary': Room('libdiary.a', 'core/book'),
    'core/practice': Room('libpractice.a', 'core/book'),
    'core/vet': Room('libvet.a', 'core/json'),
    'cli': Room('pritchel', 'core/paper/forged core/paper/feet core/learn core/record core/book/backup phone/wire core/book/recover core/plain'),
    'desk/prefs': Room('libdesk-prefs.a', 'core/paper/forged core/paper/feet core/learn core/record core/diary core/book/backup core/book/roster core/book/recover core/book/merge core/plain core/paper/visits'),
    'desk/words': Room('libdesk-words.a', 'desk/prefs'),
    'desk/intake': Room('libdesk-intake.a', 'core/photo/redrawn core/paper/forged core/paper/feet core/learn core/record core/diary core/book/backup core/book/recover core/book/merge core/plain'),
    'desk/errand': Room('libdesk-errand.a', 'core/paper/forged core/paper/feet core/learn core/record core/diary core/book/backup core/book/merge core/plain core/paper/visits'),
    'desk/places': Room('libdesk-places.a', 'desk/prefs'),
    'desk': Room('libpritchel-desk.a', 'desk/prefs desk/words desk/intake desk/errand desk/places'),
    'desk/moving': Room('libdesk-moving.a', 'desk'),
    'desk/practice': Room('libdesk-practice.a', 'desk core/practice'),
    'app/kit': Room('libapp-kit.a', 'desk'),
    'app/visits': Room('libapp-visits.a', 'app/kit'),
    'app/board': Room('libapp-board.a', 'app/visits'),
    'app/canvas': Room('libapp-canvas.a', 'app/kit'),
    'app/findings': Room('libapp-findings.a', 'app/kit'),
    'app/work': Room('libapp-work.a', 'app/kit'),
    'app/styles': Room('libapp-styles.a', 'app/kit'),
    'app/shoes': Room('libapp-shoes.a', 'app/kit'),
    'app/phone': Room('libapp-phone.a', 'app/kit phone/wire'),
    'app/panel': Room('libapp-panel.a', 'app/findings app/phone app/shoes app/styles app/work'),
    'app/book/lists': Room('libapp-book-lists.a', 'app/kit'),
    'app/book': Room('libapp-book.a', 'app/book/lists'),
    'app/out': Room('libapp-out.a', 'app/kit desk/moving'),
    'app/feet': Room('libapp-feet.a', 'app/out'),
    'app/vet': Room('libapp-vet.a', 'app/out core/paper/vet'),
    'app/preferences': Room('libapp-preferences.a', 'app/kit'),
    'app/practice': Room('libapp-practice.a', 'app/kit app/shoes desk/practice'),
    'app/window': Room('libapp-window.a', 'app/board app/canvas app/panel app/book app/feet app/vet app/preferences app/practice'),
}


def may_see(room):
    """All the rooms ROOM may see, itself among them."""
    seen, todo = set(), [room]
    while todo:
        one = todo.pop()
        if one not in seen:
            seen.add(one)
            todo += ROOMS[one].sees.split()
    return seen


def sources(folder='src', endings=('.c', '.h')):
    """Paths below the source's root, in order."""
    return sorted(os.path.relpath(os.path.join(where, name), SOURCE)
                  for where, _, names in os.walk(os.path.join(SOURCE, folder)) for name in names
                  if name.endswith(endings))


def text(path):
    with open(os.path.join(SOURCE, path), encoding='utf-8') as file:
        return file.read()


def room_of(path):
    """The folder of a source below src."""
    return os.path.dirname(path).removeprefix('src/')


def includes(path):
    return re.findall(r'^#include "([^"]+)"', text(path), re.M)


def objects(room):
    """The objects of ROOM in the build: source's file name -> object."""
    archive = ROOMS[room].archive
    if archive.endswith('.a'):
        folder = os.path.join(BUILD, 'src', room, archive + '.p')
        names = os.listdir(folder) if os.path.isdir(folder) else []
        return {name[:-2]: os.path.join(folder, name) for name in names if name.endswith('.c.o')}
    folder, start = os.path.join(BUILD, archive + '.p'), f'src_{room}_'
    return {name[len(start):-2]: os.path.join(folder, name) for name in os.listdir(folder) if name.startswith(start)}


def symbols(files):
    """Of objects, name -> file: what each defines for others, and what it wants of them."""
    if not files:
        return {}
    told = subprocess.run(['nm', '-g', '-A', *files.values()], check=True, capture_output=True, text=True).stdout
    found = {file: (set(), set()) for file in files.values()}
    for line in told.splitlines():
        file, rest = line.split(':', 1)
        kind, name = rest.split()[-2:]
        if kind != 'w':
            found[file][kind == 'U'].add(name)
    return {name: found[file] for name, file in files.items()}


def main():
    unittest.main(argv=sys.argv[:1], verbosity=2)
