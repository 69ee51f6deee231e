# SPDX-License-Identifier: GPL-3.0-or-later
"""The computer's address changes, its network goes and comes back, and it sleeps, while photos from a phone are awaited: the
dialog serves where the computer now is, says when that is nowhere, and leaves nothing behind. In a network of the test's own, where
one may be made; else the test is passed over."""
import os
import socket
import subprocess
import sys
import urllib.request

import drive

OWN = 'PRITCHEL_OWN_NETWORK'
SKIPPED = 77
NETWORK = ('ip link set lo up && ip link add phone type veth peer name wire && ip addr add 10.9.0.2/24 dev phone &&'
           ' ip link set wire up && ip link set phone up && ip route add default via 10.9.0.1')
MOVED = ('ip addr del 10.9.0.2/24 dev phone && ip addr add 10.9.0.3/24 dev phone && ip route add default via 10.9.0.1')


def shell(words):
    return subprocess.run(['sh', '-c', words], capture_output=True, check=False).returncode == 0


def page(url):
    return urllib.request.build_opener(urllib.request.ProxyHandler({})).open(url, timeout=drive.LIMIT).read()


def served(app, start):
    """The address that is shown, begins so, and answers: a change comes in several pieces, and each may be served anew."""
    def look():
        url = next(node.name for node in app.walk() if node.name.startswith(start) and node.seen())
        return page(url) and url
    return drive.wait_for(start, look)


def helpers(app):
    return subprocess.run(['pgrep', '-P', str(app.process.pid), 'pritchel-phone'], capture_output=True, text=True,
                          check=False).stdout.split()


def main():
    app = drive.App()
    app.click(app.find_seen('From my phone…', 'push button'))
    app.into('From my phone')
    first = served(app, 'http://10.9.0.2:')
    app.says('A phone has opened the page')

    # half of a photo is on its way when the address changes
    _, _, host, path, _ = first.split('/')
    phone = socket.create_connection(host.rsplit(':', 1), timeout=drive.LIMIT)
    phone.sendall(f'POST /{path}/ HTTP/1.1\r\nHost: {host}\r\nContent-Length: 100000\r\n\r\nhalf'.encode())
    assert shell(MOVED)
    app.says('Photos are listed here as they come')
    second = served(app, 'http://10.9.0.3:')
    assert second.split('/')[3] != path, 'another address is another secret'
    drive.wait_for('one to serve', lambda: len(helpers(app)) == 1)

    # no network, and one again
    assert shell('ip link set phone down')
    app.says('This computer is in no network')
    assert shell('ip link set phone up && ip route add default via 10.9.0.1')
    third = served(app, 'http://10.9.0.3:')

    # asleep for a while
    sleepers = [str(app.process.pid), *helpers(app)]
    subprocess.run(['kill', '-STOP', *sleepers], check=True)
    for pid in sleepers:
        drive.wait_for('it asleep', lambda pid=pid: open(f'/proc/{pid}/stat', encoding='ascii').read().rsplit(')', 1)[1].split()[0] == 'T')
    subprocess.run(['kill', '-CONT', *sleepers], check=True)
    assert page(third)

    drive.key('Escape')
    drive.window_goes('^From my phone$')
    drive.wait_for('nobody to serve', lambda: not helpers(app))
    app.back()
    app.close()


if not os.environ.get(OWN):
    if not shell(f"unshare -n sh -c '{NETWORK}'"):
        sys.exit(SKIPPED)
    os.environ[OWN] = '1'
    os.execvp('unshare', ['unshare', '-n', 'sh', '-c', NETWORK + ' && exec "$0" "$@"', sys.executable, *sys.argv])
drive.on_a_desk(main)
