# SPDX-License-Identifier: GPL-3.0-or-later
"""A book as folders of plain files, read back with what Python has and held against the book's own tables: every part is there,
byte for byte, under names that every file system takes, whatever the horses are called."""
import csv
import datetime
import json
import os
import re
import shutil
import sqlite3
import stat
import subprocess
import sys
import tempfile
import time
import unicodedata
import unittest

PROGRAM, MAKER = sys.argv[1:3]
TODAY = 'pritchel-' + datetime.date.today().isoformat()

# Microsoft, "Naming Files, Paths, and Namespaces": names and characters that cannot be
DEVICES = {'con', 'prn', 'aux', 'nul', *(f'{port}{n}' for port in ('com', 'lpt') for n in '123456789¹²³')}
FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]')

HOSTILE = ['../../../etc', '/etc/passwd', '..', '.', '...', '.hidden', 'a/b', 'A/B', 'a\\b', 'CON', 'con', 'Nul.txt', 'COM¹', 'lpt9 .x',
           'name.', 'name', 'NAME ', 'x' * 300, 'é' * 120, 'Stra\u00dfe', 'STRASSE', 'Zo\u00eb', 'Zoe\u0308', 'horse.json', 'practice',
           'Index.CSV', '\x1b[31mred', 'over\u202eturned', '-rf', '$(touch here)', '=1+1', 'a\u0000b'.replace('\u0000', ''), '*?<>|"',
           '\u05d1\u05d5\u05e0\u05d9', '\u540d' * 60, '~', '%2e%2e%2f']


def made(folder, hostile=()):
    book = os.path.join(folder, 'book.pritchel')
    subprocess.run([MAKER, book], check=True)
    with sqlite3.connect(book) as db:
        for name in hostile:
            horse = db.execute('insert into horse (name) values (?)', (name,)).lastrowid
            for day in ('2026-11-20', '2026-11-20', '../../../x', 'CON'):
                visit = db.execute('insert into visit (horse, date) values (?, ?)', (horse, day)).lastrowid
                db.execute("insert into foot (visit, foot, changed) values (?, 'LF', '2026-11-20')", (visit,))
    db.close()
    return book


def plain(book, out, **how):
    return subprocess.run([PROGRAM, 'book', 'plain', book, '-o', out], capture_output=True, text=True, timeout=120, check=False, **how)


def listed(folder):
    with open(os.path.join(folder, 'index.csv'), encoding='utf-8', newline='') as file:
        return list(csv.DictReader(file, strict=True))


def read(*path):
    with open(os.path.join(*path), 'rb') as file:
        return file.read()


class Plain(unittest.TestCase):
    def setUp(self):
        self.home = tempfile.mkdtemp()
        self.out = os.path.join(self.home, 'out')

    def tearDown(self):
        shutil.rmtree(self.home)

    def written(self, book):
        done = plain(book, self.out)
        self.assertEqual(done.returncode, 0, done.stderr)
        return os.path.join(self.out, TODAY), done

    def rows(self, book, sql, *values):
        with sqlite3.connect(f'file:{book}?mode=ro', uri=True) as db:
            db.row_factory = sqlite3.Row
            found = db.execute(sql, values).fetchall()
        db.close()
        return found

    def test_every_part_is_there(self):
        book = made(self.home)
        folder, _ = self.written(book)
        feet = self.rows(book, '''select f.id, f.foot, h.name, h.yard, h.owner, v.date, photo.bytes, trace.json as trace, plan.json as plan
                         from foot f join visit v on v.id = f.visit join horse h on h.id = v.horse left join photo on photo.foot = f.id
                         left join trace on trace.foot = f.id left join plan on plan.foot = f.id where f.deleted is null
                         order by v.date, f.id''')
        index = listed(folder)
        self.assertEqual(len(index), len(feet))
        self.assertEqual(len({line['folder'] for line in index}), len(feet))
        self.assertGreaterEqual(len(feet), 7)
        for line, foot in zip(index, feet):
            self.assertEqual([line[name] for name in ('horse', 'yard', 'owner', 'date', 'foot')],
                             [foot[name] for name in ('name', 'yard', 'owner', 'date', 'foot')])
            self.one_foot(book, folder, line, foot)

    def one_foot(self, book, folder, line, foot):
        there = set(os.listdir(os.path.join(folder, line['folder']))) if foot['plan'] else set()
        for part, file in (('bytes', 'photo.jpg'), ('trace', 'trace.json'), ('plan', 'plan.json')):
            self.assertEqual(file in there, foot[part] is not None, file)
            if foot[part] is not None:
                was = foot[part] if part == 'bytes' else foot[part].encode()
                self.assertEqual(read(folder, line['folder'], file), was)
        self.assertEqual(line['left_out'], 'no')
        if foot['plan']:
            plan, report = (json.loads(read(folder, line['folder'], name)) for name in ('plan.json', 'report.json'))
            self.assertEqual(plan['style'], line['style'])
            self.assertEqual(report['plan']['style'], line['style'])
            told = subprocess.run(['pdfinfo', os.path.join(folder, line['folder'], 'template.pdf')], capture_output=True, text=True,
                                  check=True).stdout
            self.assertRegex(told, r'Page size: +595\.\d+ x 841\.\d+ pts \(A4\)')     # ISO 216: 210 x 297 mm
        attempts = self.rows(book, 'select * from attempt where foot = ? order by date, id', foot['id'])
        self.assertEqual(int(line['attempts']), len(attempts))
        for number, attempt in enumerate(attempts, 1):
            stem = os.path.join(folder, line['folder'], f'attempt-{number}')
            told = json.loads(read(stem + '.json'))
            for name in ('date', 'note', 'minutes', 'heats', 'off_mm', 'material', 'style_group', 'loss', 'lambda'):
                self.assertEqual(told[name], attempt[name], name)
            for name in ('cut', 'length', 'web_toe', 'web_heel_lateral'):
                self.assertEqual(told[name], attempt[name + '_mm'], name)
            for column, end in (('photo', '-photo.jpg'), ('compared', '-comparison.json')):
                self.assertEqual(os.path.exists(stem + end), attempt[column] is not None)
                if attempt[column] is not None:
                    was = attempt[column]
                    self.assertEqual(read(stem + end), was if isinstance(was, bytes) else was.encode())

    def test_horses_and_visits(self):
        book = made(self.home)
        with sqlite3.connect(book) as db:
            db.execute("update visit set colour = 3, vet = '{\"allowed\": true}' where date = '2026-11-20'")
            db.execute("insert into class (name, spec) values ('Two hours', '{\"minutes\": 120}')")
            db.execute("insert into run (class, foot, started, record, photo) values (1, 1, '2026-11-20T10:00:00Z', '{\"heats\": 5}', ?)",
                       (b'\x89PNG\r\n\x1a\n',))
        db.close()
        folder, _ = self.written(book)
        horse = json.loads(read(folder, 'Pipwick/horse.json'))
        was = self.rows(book, 'select * from horse')[0]
        for name in ('name', 'yard', 'owner', 'note', 'due_days'):
            self.assertEqual(horse[name], was[name])
        # from the newest visit on, by the calendar
        self.assertEqual(horse['next_due'], (datetime.date(2026, 11, 20) + datetime.timedelta(days=35)).isoformat())
        visit = json.loads(read(folder, 'Pipwick/2026-11-20.json'))
        self.assertEqual(visit, {'date': '2026-11-20', 'note': 'thrushy', 'colour': 3, 'vet': {'allowed': True}})
        self.assertEqual(json.loads(read(folder, 'practice/classes.json')),
                         [{'class': 1, 'name': 'Two hours', 'spec': {'minutes': 120}}])
        run = json.loads(read(folder, 'practice/2026-11-20T10-00-00Z.json'))
        self.assertEqual(run['record'], {'heats': 5})
        self.assertEqual(run['foot'], 'Pipwick/2026-11-20-LF')
        self.assertTrue(read(folder, 'practice/2026-11-20T10-00-00Z-photo.png'))

    def test_hostile_names(self):
        book = made(self.home, HOSTILE)
        folder, _ = self.written(book)
        self.assertEqual(os.listdir(self.out), [TODAY])
        horses = [json.loads(read(base, 'horse.json'))['name'] for base, _, files in os.walk(folder) if 'horse.json' in files]
        self.assertEqual(len(horses), len(HOSTILE) + 1)
        self.assertEqual(len(listed(folder)), 7 + 4 * len(HOSTILE))
        for base, folders, files in os.walk(folder):
            names = folders + files
            seen = {unicodedata.normalize('NFC', unicodedata.normalize('NFC', name).casefold()) for name in names}
            self.assertEqual(len(seen), len(names), names)
            for name in names:
                self.assertFalse(os.path.islink(os.path.join(base, name)))
                self.assertNotRegex(name, FORBIDDEN)
                self.assertNotIn(name.split('.')[0].rstrip().lower(), DEVICES)
                self.assertEqual(name, name.rstrip('. ').lstrip('. '))
                self.assertLessEqual(len(name.encode()), 200)
                self.assertEqual(name, unicodedata.normalize('NFC', name))
        for line in listed(folder):
            self.assertEqual(os.path.normpath(line['folder']), line['folder'])

    def test_damage_is_left_out_and_said(self):
        book = made(self.home)
        with sqlite3.connect(book) as db:
            db.execute("update plan set json = ? where foot = 1", ('[' * 5000,))
        db.close()
        folder, done = self.written(book)
        lines = {line['folder']: line for line in listed(folder)}
        self.assertEqual(lines['Pipwick/2026-11-20-LF']['left_out'], 'yes')
        self.assertEqual([line['left_out'] for line in lines.values()].count('yes'), 1)
        self.assertTrue(os.path.exists(os.path.join(folder, 'Pipwick/2026-11-20-LF/photo.jpg')))
        self.assertFalse(os.path.exists(os.path.join(folder, 'Pipwick/2026-11-20-LF/plan.json')))
        self.assertIn('index.csv', done.stderr)

    def test_nothing_is_replaced(self):
        book = made(self.home)
        folder, _ = self.written(book)
        with open(os.path.join(folder, 'mine'), 'w') as mine:
            mine.write('mine')
        before = sorted(os.listdir(folder))
        self.written(book)
        self.assertEqual(sorted(os.listdir(self.out)), [TODAY, TODAY + '-2'])
        self.assertEqual(sorted(os.listdir(folder)), before)
        mode = os.stat(folder).st_mode
        mask = os.umask(0)
        os.umask(mask)
        self.assertEqual(stat.S_IMODE(mode), 0o777 & ~mask)

    def test_a_failure_midway_leaves_nothing(self):
        book = made(self.home)
        # PATH_MAX is 4096 (limits.h): the first horse fits, and the longest name of its files does not
        folder = self.out + '/d' * 8
        while len(folder) < 4096 - 86:
            folder += '/' + 'd' * min(200, 4096 - 86 - len(folder) - 1 or 1)
        done = plain(book, folder)
        self.assertEqual(done.returncode, 1, done.stdout)
        self.assertEqual(len(done.stderr.strip().splitlines()), 1, done.stderr)
        self.assertIn('could not be written', done.stderr)
        self.assertEqual(os.listdir(folder), [])

    def test_a_kill_leaves_nothing_for_long(self):
        book = made(self.home, [f'horse {n}' for n in range(60)])
        os.makedirs(self.out)
        process = subprocess.Popen([PROGRAM, 'book', 'plain', book, '-o', self.out], stdout=subprocess.DEVNULL)
        end = time.monotonic() + 60
        while not any(name.startswith('.pritchel-tree-') for name in os.listdir(self.out)):
            self.assertLess(time.monotonic(), end)
        process.kill()
        process.wait()
        left = os.listdir(self.out)
        self.assertTrue(left)
        self.assertTrue(all(name.startswith('.pritchel-tree-') for name in left), left)
        self.written(book)
        self.assertEqual(os.listdir(self.out), [TODAY])

    def test_feet_of_a_visit_on_one_page(self):
        book = made(self.home)
        file = self.home + '/feet.pdf'
        for words, feet, empty in ((['1'], 4, 0), (['6'], 1, 3), (['1', '--page', 'a3'], 4, 0)):
            done = subprocess.run([PROGRAM, 'book', 'feet', book, *words, '-o', file], capture_output=True, text=True, check=False)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertIn(f'{feet} f', done.stdout)
            text = subprocess.run(['pdftotext', '-layout', file, '-'], capture_output=True, text=True, check=True).stdout
            self.assertIn('Pipwick', text)
            self.assertEqual(text.count('no shoe in this visit'), empty)
        before = read(file)
        for words in (['99'], ['x']):
            done = subprocess.run([PROGRAM, 'book', 'feet', book, *words, '-o', file], capture_output=True, text=True, check=False)
            self.assertEqual(done.returncode, 1 if words == ['99'] else 2)
            self.assertEqual(len(done.stderr.strip().splitlines()), 1, done.stderr)
        self.assertEqual(read(file), before)

    def test_misuse(self):
        book = made(self.home)
        for words, status in ((['plain', book], 2), (['plain'], 2), (['plane', book, '-o', self.out], 2), ([], 2),
                              (['plain', book, book, '-o', self.out], 2), (['plain', self.home + '/none', '-o', self.out], 1),
                              (['plain', PROGRAM, '-o', self.out], 1), (['plain', book, '-o', book], 1)):
            done = subprocess.run([PROGRAM, 'book', *words], capture_output=True, text=True, check=False)
            self.assertEqual(done.returncode, status, words)
            self.assertTrue(done.stderr.startswith('pritchel'), done.stderr)
        self.assertFalse(os.path.exists(self.out))


unittest.main(argv=sys.argv[:1])
