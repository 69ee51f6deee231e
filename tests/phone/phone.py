# SPDX-License-Identifier: GPL-3.0-or-later
"""A program and a phone to test pritchel-phone between: the program's end of its line, and plain HTTP by hand. Nothing here goes
further than 127.0.0.1 and ::1."""
import array
import json
import os
import socket
import struct
import subprocess
import threading
import time

LIMIT = int(os.environ.get('PRITCHEL_PATIENCE', '120'))
PHONE = os.environ['PRITCHEL_PHONE']


class Server:
    """pritchel-phone as the program starts it."""

    def __init__(self, address='127.0.0.1', minutes='10', shoe=(), **env):
        self.start(address, minutes, shoe, env)
        opened = self.next('open')
        self.url = opened['url']
        self.code, self.side = opened['code'], opened['side']
        self.host = self.url.split('/')[2]
        self.path = '/' + self.url.split('/')[3] + '/'
        self.token = self.path.strip('/')
        name, _, port = self.host.rpartition(':')
        self.place = (name.strip('[]'), int(port))

    def start(self, address, minutes, shoe, env):
        ours, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        os.set_inheritable(theirs.fileno(), True)
        start = ('import os, sys; os.dup2(int(sys.argv[1]), 3); os.execv(sys.argv[2], sys.argv[2:])')
        self.process = subprocess.Popen(
            ['/usr/bin/python3', '-c', start, str(theirs.fileno()), PHONE, 'serve', address, minutes, '0', '0', *shoe],
            pass_fds=[theirs.fileno()] if theirs.fileno() != 3 else [3], env={**os.environ, **env})
        theirs.close()
        ours.settimeout(LIMIT)
        self.line = ours
        self.told = []

    def hear(self):
        """The next packet and the file that came with it, or None."""
        data, ancillary, _, _ = self.line.recvmsg(1 << 16, socket.CMSG_SPACE(4))
        if not data:
            return None
        file = None
        for level, kind, body in ancillary:
            if (level, kind) == (socket.SOL_SOCKET, socket.SCM_RIGHTS):
                file = array.array('i', body)[0]
        told = json.loads(data)
        told['file'] = file
        self.told.append(told)
        return told

    def next(self, what):
        """Waits for a packet that tells WHAT."""
        while True:
            told = self.hear()
            assert told, f'it ended before it told "{what}"'
            if told['what'] == what:
                return told

    def photo(self):
        """The next photo: what is told, and its bytes."""
        told = self.next('photo')
        with open(f'/proc/self/fd/{told["file"]}', 'rb') as file:
            told['bytes'] = file.read()
        os.close(told['file'])
        return told

    def order(self, do, phone):
        self.line.send(json.dumps({'do': do, 'phone': phone}).encode())

    def memory(self):
        """Bytes it holds now."""
        with open(f'/proc/{self.process.pid}/statm') as file:
            return int(file.read().split()[1]) * os.sysconf('SC_PAGESIZE')

    def close(self):
        self.line.close()
        return self.process.wait(LIMIT)


def refused_address(address):
    """Why it cannot listen at ADDRESS, as it tells."""
    server = Server.__new__(Server)
    server.start(address, '10', (), {})
    why = server.next('end')['why']
    server.close()
    return why


class Answer:
    def __init__(self, data):
        head, _, self.body = data.partition(b'\r\n\r\n')
        lines = head.decode('latin-1').split('\r\n')
        self.status = int(lines[0].split()[1]) if lines[0] else 0
        self.headers = [tuple(line.split(': ', 1)) for line in lines[1:]]
        self.text = self.body.decode('utf-8', 'replace')

    def __getitem__(self, name):
        return next((value for key, value in self.headers if key.lower() == name.lower()), None)


def read_all(sock):
    parts = []
    try:
        while part := sock.recv(1 << 16):
            parts.append(part)
    except ConnectionResetError:
        pass
    return b''.join(parts)


def connect(server):
    return socket.create_connection(server.place, timeout=LIMIT)


def raw(server, data):
    """What comes back for DATA, as it is."""
    with connect(server) as sock:
        try:
            sock.sendall(data)
        except (BrokenPipeError, ConnectionResetError):
            pass
        return read_all(sock)


def form(parts, boundary='b0undary'):
    """PARTS: (name, file name or None, bytes)."""
    out = b''
    for name, file, data in parts:
        out += f'--{boundary}\r\nContent-Disposition: form-data; name="{name}"'.encode()
        if file is not None:
            out += b'; filename="' + (file if isinstance(file, bytes) else file.encode()) + b'"\r\nContent-Type: image/jpeg'
        out += b'\r\n\r\n' + data + b'\r\n'
    return out + f'--{boundary}--\r\n'.encode()


class Phone:
    """A browser that keeps its cookie."""

    def __init__(self, server, language='en', host=None):
        self.server, self.language, self.cookie = server, language, None
        self.host = host or server.host

    def ask(self, method, path, headers=(), body=b''):
        lines = [f'{method} {path} HTTP/1.1', f'Host: {self.host}', f'Accept-Language: {self.language}', *headers]
        if self.cookie:
            lines.append('Cookie: ' + self.cookie)
        if body:
            lines.append(f'Content-Length: {len(body)}')
        answer = Answer(raw(self.server, '\r\n'.join(lines).encode() + b'\r\n\r\n' + body))
        for name, value in answer.headers:
            if name.lower() == 'set-cookie':
                self.cookie = value.split(';')[0]
        return answer

    def get(self, part=''):
        return self.ask('GET', self.server.path + part)

    def post(self, parts, query='', boundary='b0undary', headers=()):
        return self.ask('POST', self.server.path + query,
                        [f'Content-Type: multipart/form-data; boundary={boundary}', *headers], form(parts, boundary))


class Relay:
    """A network between a browser and SERVER that can tear: what passes it is told the server's own name in place of the relay's,
    which is as long."""

    def __init__(self, server):
        self.server, self.slow, self.torn, self.open = server, threading.Event(), False, set()
        self.listening = socket.create_server(('127.0.0.1', 0))
        self.host = '127.0.0.1:%d' % self.listening.getsockname()[1]
        assert len(self.host) == len(server.host)
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self):
        while True:
            try:
                near, _ = self.listening.accept()
            except OSError:
                return
            if self.torn:
                near.close()
                continue
            far = socket.create_connection(self.server.place)
            self.open |= {near, far}
            threading.Thread(target=self._pass, args=(near, far, True), daemon=True).start()
            threading.Thread(target=self._pass, args=(far, near, False), daemon=True).start()

    def _pass(self, one, other, up):
        try:
            while data := one.recv(1 << 14):
                other.sendall(data.replace(self.host.encode(), self.server.host.encode()) if up else data)
                if up:
                    self.slow.wait(0.02)
            other.shutdown(socket.SHUT_WR)
        except OSError:
            pass

    def tear(self):
        self.torn = True
        for sock in self.open:
            try:
                sock.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack('ii', 1, 0))      # at once, as a lost network
                sock.shutdown(socket.SHUT_RDWR)
            except OSError:
                pass
            sock.close()
        self.open = set()

    def mend(self):
        """And it is no longer slow."""
        self.slow.set()
        self.torn = False

    def close(self):
        self.listening.shutdown(socket.SHUT_RDWR)
        self.listening.close()
        self.tear()


def wait_for(what, look):
    end = time.monotonic() + LIMIT
    while not (got := look()):
        assert time.monotonic() < end, f'waited in vain for {what}'
        time.sleep(0.02)
    return got
