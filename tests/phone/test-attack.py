# SPDX-License-Identifier: GPL-3.0-or-later
"""Whoever is in the network sends what he likes: nothing crashes, nothing is kept in memory, nothing is written anywhere, and a phone
that is let in is served all the while. Seeded; on 127.0.0.1 alone. Run as test-attack.py PHOTO."""
import os
import random
import socket
import string
import sys
import tempfile
import threading
import unittest

import phone
from phone import Phone, Server, form

MOST_MORE = 60e6                      # bytes of memory
SANITIZED = bool(os.environ.get('PRITCHEL_SANITIZED'))      # what was freed is kept for a while

with open(sys.argv[1], 'rb') as file:
    GOOD = file.read()

chance = random.Random(20261130)


def some_bytes(most):
    return bytes(chance.randrange(256) for _ in range(chance.randrange(most)))


def some_text(most, letters=string.printable):
    return ''.join(chance.choice(letters) for _ in range(chance.randrange(most)))


def some_request(server):
    """One of many kinds; in a third of them the path is right, and only the rest is not."""
    path = chance.choice([server.path, '/', server.path + some_text(60), '/' + some_text(300), '*', '//../' + some_text(9), server.path * 99])
    method = chance.choice(['GET', 'POST', 'HEAD', 'get', 'PUT', some_text(12), '\x16\x03\x01'])
    version = chance.choice(['HTTP/1.1', 'HTTP/1.0', 'HTTP/9', '', some_text(20)])
    lines = [f'{method} {path} {version}']
    for _ in range(chance.randrange(12)):
        lines.append(chance.choice([
            f'Host: {server.host}', 'Host: ' + some_text(40), 'Content-Length: ' + chance.choice(['5', '-1', '99999999999999999999', 'x']),
            'Transfer-Encoding: chunked', 'Content-Type: multipart/form-data; boundary=' + some_text(90),
            'Cookie: pritchel=' + some_text(60), some_text(30) + ': ' + some_text(200), some_text(100), 'Expect: 100-continue',
            'Upgrade: websocket\r\nConnection: Upgrade', 'Range: bytes=0-', 'Accept-Language: ' + some_text(400), ' folded']))
    end = chance.choice(['\r\n\r\n', '\n\n', '\r\n', '', '\r\n\r\n'])
    return '\r\n'.join(lines).encode('utf-8', 'replace') + end.encode() + some_bytes(200)


def shoot(server, data):
    """Sent, and not waited for longer than it takes to be taken."""
    with socket.socket(socket.AF_INET) as sock:
        sock.settimeout(phone.LIMIT)
        sock.connect(server.place)
        try:
            sock.sendall(data)
            sock.shutdown(socket.SHUT_WR)
            while sock.recv(1 << 16):
                pass
        except OSError:
            pass


class Attack(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = folder.name
        self.server = Server(TMPDIR=self.folder)
        self.addCleanup(self.end)
        self.first = Phone(self.server)
        self.first.get()
        self.first.post([('photo', 'x.jpg', GOOD)])
        self.server.photo()
        self.before = self.server.memory()
        self.server.line.settimeout(None)
        self.reader = threading.Thread(target=self.read_line)      # as the program does
        self.reader.start()

    def read_line(self):
        while told := self.server.hear():
            if told['file'] is not None:
                os.close(told['file'])

    def end(self):
        self.assertIsNone(self.server.process.poll(), 'it has not crashed')
        self.server.line.shutdown(socket.SHUT_RDWR)
        self.reader.join()
        self.assertEqual(self.server.close(), 0)
        self.assertEqual(os.listdir(self.folder), [], 'nothing is written under a name')

    def still_well(self):
        """It serves as before, and holds little more."""
        self.assertIn('class="good"', self.first.get('list').text)
        more = self.server.memory() - self.before
        print(f'{more / 1e6:.1f} MB more', end=' ')
        if not SANITIZED:
            self.assertLess(more, MOST_MORE)

    def test_ten_thousand_requests_of_chance(self):
        for i in range(10000):
            shoot(self.server, some_request(self.server))
            if i % 1000 == 0:
                self.assertEqual(self.first.get('list').status, 200)
        self.still_well()

    def test_a_thousand_wrong_tokens(self):
        letters = string.ascii_lowercase + string.digits
        for i in range(1000):
            token = self.server.token
            if i % 2:
                token = ''.join(chance.choice(letters) for _ in token)
            else:
                at = chance.randrange(len(token))
                token = token[:at] + chance.choice([one for one in letters if one != token[at]]) + token[at + 1:]
            self.assertEqual(Phone(self.server).ask('GET', f'/{token}/').status, 404)
        self.still_well()

    def test_slow_ones_do_not_keep_a_phone_out(self):
        slow = []
        for i in range(200):
            sock = socket.create_connection(self.server.place, timeout=phone.LIMIT)
            sock.setblocking(False)
            slow.append(sock)
            try:
                sock.send(f'GET {self.server.path} HTTP/1.1\r\nHo'.encode()[:i])
            except OSError:
                pass
        self.addCleanup(lambda: [sock.close() for sock in slow])
        self.still_well()
        self.assertIn('class="good"', self.first.post([('photo', 'x.jpg', GOOD)], '?part').text)

    def test_slow_bodies_of_one_that_is_in(self):
        """Even from it no more than four at a time; a fifth waits until one has kept still for too long."""
        slow = [socket.create_connection(self.server.place, timeout=phone.LIMIT) for _ in range(4)]
        self.addCleanup(lambda: [sock.close() for sock in slow])
        for sock in slow:
            sock.sendall((f'POST {self.server.path} HTTP/1.1\r\nHost: {self.server.host}\r\nCookie: {self.first.cookie}\r\n'
                          'Content-Type: multipart/form-data; boundary=b\r\nContent-Length: 1000000\r\n\r\n--b').encode())
        self.still_well()

    def test_more_than_a_photo_may_be(self):
        """257 MB, in the middle of a form."""
        head = b'--b\r\nContent-Disposition: form-data; name="photo"; filename="x.jpg"\r\n\r\n'
        total, slice_ = 257 << 20, bytes(1 << 20)
        with phone.connect(self.server) as sock:
            sock.sendall((f'POST {self.server.path}?part HTTP/1.1\r\nHost: {self.server.host}\r\nCookie: {self.first.cookie}\r\n'
                          f'Content-Type: multipart/form-data; boundary=b\r\nContent-Length: {len(head) + total}\r\n\r\n').encode() + head)
            most = 0
            for i in range(257):
                sock.sendall(slice_)
                most = max(most, self.server.memory()) if i % 16 == 0 else most
            answer = phone.Answer(phone.read_all(sock))
        self.assertIn('256 MB', answer.text)
        self.assertEqual(answer.text.count('<li '), 1)
        if not SANITIZED:
            self.assertLess(most - self.before, MOST_MORE, 'while it comes')
        self.still_well()

    def test_heads_without_end(self):
        for data in (b'GET ', b'A' * (1 << 20), b'\0' * (1 << 20), f'GET {self.server.path} HTTP/1.1\r\n'.encode() + b'X: y\r\n' * (1 << 18)):
            shoot(self.server, data)
        self.still_well()

    def test_chunks_without_end(self):
        head = (f'POST {self.server.path} HTTP/1.1\r\nHost: {self.server.host}\r\nCookie: {self.first.cookie}\r\n'
                'Content-Type: multipart/form-data; boundary=b\r\nTransfer-Encoding: chunked\r\n\r\n').encode()
        chunk = b'10000\r\n' + bytes(65536) + b'\r\n'
        with phone.connect(self.server) as sock:
            sock.sendall(head)
            with self.assertRaises(OSError):          # it is not listened to for ever
                while True:
                    sock.sendall(chunk)
        self.still_well()

    def test_forms_of_chance(self):
        """From a phone that is in: cut off, mixed up, with names of every kind."""
        names = ['../../etc/passwd', '/etc/passwd', 'a\0b', '\x1b[2J', '‮gpj.exe', 'x' * 3000, '..', '.', '~', 'CON', '%2e%2e%2f', '"; rm']
        for i in range(300):
            parts = [(chance.choice(['photo', 'key', 'again', 'x', some_text(20)]), chance.choice(names + [None, some_text(40)]),
                      chance.choice([b'', some_bytes(300), GOOD[:300]])) for _ in range(chance.randrange(4))]
            body = bytearray(form(parts))
            for _ in range(chance.randrange(3)):
                if body:
                    body[chance.randrange(len(body))] = chance.randrange(256)
            if i % 3 == 0:
                body = body[:chance.randrange(len(body) + 1)]
            self.first.ask('POST', self.server.path + chance.choice(['', '?part', '?x=1']),
                           ['Content-Type: multipart/form-data; boundary=b0undary'] + ([] if body else ['Content-Length: 0']), bytes(body))
        self.still_well()

    def test_many_at_once(self):
        def some():
            for _ in range(40):
                shoot(self.server, request)
        request = f'GET {self.server.path} HTTP/1.1\r\nHost: {self.server.host}\r\nCookie: {self.first.cookie}\r\n\r\n'.encode()
        threads = [threading.Thread(target=some) for _ in range(20)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        self.still_well()


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[2:], verbosity=2)
