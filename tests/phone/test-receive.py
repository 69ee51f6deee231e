# SPDX-License-Identifier: GPL-3.0-or-later
"""`pritchel receive`: address and code on the terminal, photos in the folder as they were sent, under names of its own, and an end that
leaves nothing. Also what links what. Run as test-receive.py PHOTO."""
import os
import pty
import re
import signal
import subprocess
import sys
import tempfile
import unittest

import phone
from phone import LIMIT, Phone, wait_for

COMMAND = os.environ['PRITCHEL_COMMAND']
with open(sys.argv[1], 'rb') as file:
    GOOD = file.read()


class Receiver:
    """The command, and where it listens."""

    def __init__(self, folder, *words, **how):
        self.told = ''
        self.process = subprocess.Popen([COMMAND, 'receive', '-o', folder, *words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                        stdin=how.get('stdin', subprocess.DEVNULL), text=True,
                                        env={**os.environ, 'PRITCHEL_PHONE_ADDRESS': '127.0.0.1,::1'})
        url = self.until('http://').split('\n')[-1]
        self.host, token = url.split('/')[2:4]
        self.path = f'/{token}/'
        name, _, port = self.host.rpartition(':')
        self.place = (name.strip('[]'), int(port))

    def until(self, words):
        """All that has been told, once WORDS are in it."""
        while words not in self.told:
            line = self.process.stdout.readline()
            assert line, f'it ended before it told "{words}": {self.told}'
            self.told += line
        return self.told.strip()

    def end(self, how=signal.SIGINT):
        self.process.send_signal(how)
        self.told += self.process.communicate(timeout=LIMIT)[0]
        return self.process.returncode


class Case(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = folder.name + '/photos'

    def start(self, *words, **how):
        receiver = Receiver(self.folder, *words, **how)
        self.addCleanup(lambda: receiver.process.poll() is None and receiver.end())
        return receiver

    def test_photos_in_the_folder(self):
        os.mkdir(self.folder)
        with open(self.folder + '/photo-1.jpg', 'w') as file:
            file.write('mine')
        receiver = self.start()
        one = Phone(receiver)
        one.get()
        receiver.until('A phone has opened the page.')
        one.post([('photo', '../../photo.exe', GOOD)])
        receiver.until('photo-2.jpg: Good: near fore, 128 mm wide')
        one.post([('again', None, b'1'), ('photo', 'x', GOOD)])
        receiver.until('photo-3.jpg, in place of ')
        self.assertEqual(receiver.end(), 0)
        self.assertEqual(sorted(os.listdir(self.folder)), ['photo-1.jpg', 'photo-2.jpg', 'photo-3.jpg'])
        for name in ('photo-2.jpg', 'photo-3.jpg'):
            with open(f'{self.folder}/{name}', 'rb') as file:
                self.assertEqual(file.read(), GOOD)
        with open(self.folder + '/photo-1.jpg') as file:
            self.assertEqual(file.read(), 'mine')

    def test_code_on_the_terminal(self):
        receiver = self.start()
        receiver.until('Ctrl-C')
        lines = [line for line in receiver.told.split('\n') if line and set(line) <= set('█▀▄ ')]
        rows = []
        for line in lines:
            rows.append([letter in '█▀' for letter in line])
            rows.append([letter in '█▄' for letter in line])
        size = len(rows[0]) * 8
        pixels = b''.join(bytes(255 * light for light in row for _ in range(8)) * 8 for row in rows)
        with open(self.folder + '/../code.pgm', 'wb') as out:
            out.write(b'P5\n%d %d\n255\n' % (size, len(rows) * 8) + pixels)
        told = subprocess.run(['zbarimg', '-q', '--raw', self.folder + '/../code.pgm'], check=True, capture_output=True, text=True).stdout
        self.assertEqual(told.strip(), f'http://{receiver.host}{receiver.path}')

    def test_every_way_to_end_it(self):
        for how in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL):
            receiver = self.start()
            one = Phone(receiver)
            one.get()
            receiver.until('A phone has opened')
            helper = subprocess.run(['pgrep', '-P', str(receiver.process.pid)], check=True, capture_output=True, text=True).stdout.split()
            self.assertEqual(receiver.end(how), -9 if how == signal.SIGKILL else 0)
            wait_for('its end', lambda: not any(os.path.exists('/proc/' + pid) for pid in helper))
            self.assertEqual(os.listdir(self.folder), [])

    def test_another_phone_is_asked_about(self):
        try:
            ours, theirs = pty.openpty()
        except OSError as why:       # a root that was made by hand may have none
            self.skipTest(str(why))
        self.addCleanup(os.close, ours)
        self.addCleanup(os.close, theirs)
        receiver = self.start(stdin=theirs)
        Phone(receiver).get()
        second, third = Phone(receiver), Phone(receiver)
        second.get()
        receiver.until('Type y or n.')
        os.write(ours, b'y\n')
        wait_for('leave', lambda: 'id="camera"' in second.get().text)
        third.get()
        receiver.until(re.search('class="code">([0-9]+)', third.get().text)[1])
        os.write(ours, b'n\n')
        wait_for('the refusal', lambda: 'does not take' in third.get().text)

    def test_nobody_to_be_asked(self):
        receiver = self.start()
        Phone(receiver).get()
        second = Phone(receiver)
        second.get()
        receiver.until('It is refused')
        wait_for('the refusal', lambda: 'does not take' in second.get().text)

    def test_what_cannot_be(self):
        for words, status, told in (([], 2, '--output'), (['-o', 'x', '--minutes', '0'], 2, '1440'), (['-o', 'x', 'y'], 2, '--output'),
                                    (['-o', '/proc/x'], 1, '/proc/x'), (['-o', self.folder, '-a', '192.0.2.1'], 1, 'another')):
            done = subprocess.run([COMMAND, 'receive', *words], capture_output=True, text=True, timeout=LIMIT,
                                  cwd=os.path.dirname(self.folder))
            self.assertEqual(done.returncode, status, (words, done.stderr))
            self.assertIn(told, done.stderr)
            self.assertEqual(done.stderr.count('\n'), 1)

    def test_a_folder_that_goes(self):
        receiver = self.start()
        one = Phone(receiver)
        one.get()
        os.rmdir(self.folder)
        one.post([('photo', 'x', GOOD)])
        self.assertEqual(receiver.process.wait(LIMIT), 1)
        self.assertIn('photos could not be written', receiver.process.stdout.read())

    def test_only_the_helper_links_what_it_needs(self):
        for program, links in ((COMMAND, False), (os.environ['PRITCHEL_PHONE'], True)):
            told = subprocess.run(['ldd', program], check=True, capture_output=True, text=True).stdout
            self.assertIn('libglib', told)
            for library in ('libsoup', 'libqrencode'):
                self.assertEqual(library in told, links, program)
            self.assertNotIn('libgtk', told)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[2:], verbosity=2)
