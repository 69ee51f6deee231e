# SPDX-License-Identifier: GPL-3.0-or-later
"""A photo from a phone: the dialog is opened, its code read off the screen by another library, a photo sent to the address in it as
a phone's browser would, and opened on the board."""
import http.cookiejar
import os
import socket
import subprocess
import sys
import tempfile
import urllib.error
import urllib.request

import drive

PHOTO = sys.argv[1]


def code_on_screen():
    """What zbar reads there."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(['import', '-window', 'root', folder + '/screen.png'], check=True)
        told = subprocess.run(['zbarimg', '-q', '--raw', folder + '/screen.png'], capture_output=True, text=True,
                              check=False)
        return told.stdout.strip()


def browser():
    return urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(
        http.cookiejar.CookieJar(policy=http.cookiejar.DefaultCookiePolicy(rfc2965=False))))


def form(data, again=None):
    head = '--b\r\nContent-Disposition: form-data; name="again"\r\n\r\n%s\r\n' % again if again else ''
    return (head.encode() + b'--b\r\nContent-Disposition: form-data; name="photo"; filename="../x"\r\n\r\n' + data
            + b'\r\n--b--\r\n')


def send(phone, url, data, again=None):
    request = urllib.request.Request(url + '?part', form(data, again), {'Content-Type': 'multipart/form-data; boundary=b'})
    return phone.open(request, timeout=drive.LIMIT).read().decode()


def half_a_photo(url, data):
    """A connection on which half of a photo has been sent."""
    _, _, host, path, _ = url.split('/')
    jar = http.cookiejar.CookieJar()
    urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(jar)).open(url).read()
    body, cookie = form(data), ''.join(f'{one.name}={one.value}' for one in jar)
    phone = socket.create_connection(host.rsplit(':', 1), timeout=drive.LIMIT)
    phone.sendall((f'POST /{path}/ HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\nContent-Length: {len(body)}\r\n'
                   'Content-Type: multipart/form-data; boundary=b\r\n\r\n').encode() + body[:len(body) // 2])
    return phone


def helpers(app):
    """Processes of ours that serve phones."""
    told = subprocess.run(['pgrep', '-P', str(app.process.pid), 'pritchel-phone'], capture_output=True, text=True,
                          check=False)
    return told.stdout.split()


def address_of(app):
    return drive.wait_for('the address', lambda: next(
        (node.name for node in app.walk() if node.name.startswith('http://') and node.seen()), None))


def shoe_of_the_plan():
    """Its photo, how thick it is, mm, whether its foot surface is up."""
    report, photo = drive.home() + '/plan', drive.home() + '/forged.jpg'
    subprocess.run([os.environ['PRITCHEL_COMMAND'], 'plan', PHOTO, '-o', report], check=True, capture_output=True)
    told = subprocess.run([os.environ['PRITCHEL_SHOES'], 'steel', '1', photo, report + '/report.json'], check=True,
                          capture_output=True, text=True).stdout
    return photo, told.split(', ')[2].split()[0], 'foot surface' in told


def forged(app):
    """The forged shoe, beside its photo from a file; a tracing in its place is told at once to be none."""
    photo, thick, foot_up = shoe_of_the_plan()
    app.fill_screen(1480, 880)
    app.click(app.find_seen('Shoe', 'push button'))
    app.click(app.find_seen('After the fire', 'push button'))
    if foot_up:
        app.choose(app.find_seen('Face up', 'combo box'), 'Down')
    app.click(app.find_seen('Thickness of the shoe', 'text'))
    drive.key('ctrl+a')
    drive.type_text(thick)
    app.click([node for node in app.walk() if node.name == 'From my phone…' and node.seen()][-1])   # not the start page's
    app.into('From my phone')
    url, phone = address_of(app), browser()
    assert 'Photograph the shoe' in phone.open(url, timeout=drive.LIMIT).read().decode()
    with open(PHOTO, 'rb') as file:
        assert 'class="again"' in send(phone, url, file.read())
    app.says('Take it again:')
    with open(photo, 'rb') as file:
        part = send(phone, url, file.read(), again=1)
    assert part.count('<li ') == 1 and 'the shoe, ' in part, part
    app.says('the shoe, ')
    app.picture('phone-shoe')
    app.click(app.find_seen('Open them'))
    drive.window_goes('^From my phone$')
    app.back()
    app.find_seen('Between plan and forged shoe', 'slider')


def refused(url):
    try:
        browser().open(url, timeout=drive.LIMIT)
    except urllib.error.URLError:
        return True
    return False


def main():
    os.environ['PRITCHEL_PHONE_ADDRESS'] = '127.0.0.1,::1'
    with open(PHOTO, 'rb') as file:
        good = file.read()
    app = drive.App()

    # from the start page; nothing is served before
    assert not helpers(app)
    app.click(app.find_seen('From my phone…', 'push button'))
    app.into('From my phone')
    url = address_of(app)
    assert url.startswith('http://127.0.0.1:'), url
    drive.wait_for('the code', lambda: code_on_screen() == 'QR-Code:' + url or code_on_screen() == url)
    app.picture('phone-open')

    # what to look at when nothing comes
    app.click(app.find_seen('Does nothing come?'))
    app.says('TCP port ' + url.split(':')[2].split('/')[0])
    app.picture('phone-hints')

    # another of the addresses
    app.choose(app.find('This computer’s address', 'combo box'), 'Down')
    drive.wait_for('the other address', lambda: address_of(app).startswith('http://[::1]:'))
    other = address_of(app)
    assert refused(url), 'the first address is served no longer'
    app.choose(app.find('This computer’s address', 'combo box'), 'Up')
    drive.wait_for('the first address', lambda: address_of(app).startswith('http://127.0.0.1:'))
    url = address_of(app)
    assert refused(other)

    # a phone
    phone = browser()
    phone.open(url, timeout=drive.LIMIT).read()
    app.says('A phone has opened the page.')
    part = send(phone, url, good)
    assert 'class="good"' in part and '128 mm' in part, part
    app.says('near fore, 128 mm wide')
    app.picture('phone-photo')

    # another one is asked about
    second = browser()
    code = second.open(url, timeout=drive.LIMIT).read().decode().split('class="code">')[1][:3]
    app.says(f'shows the number {code},')
    app.picture('phone-second')
    app.click(app.find_seen('Allow it'))
    drive.wait_for('leave to send', lambda: 'id="camera"' in second.open(url, timeout=drive.LIMIT).read().decode())

    # taken again: in the place of the first, and the board gets what was sent, one photo
    part = send(second, url, good, again=1)
    assert part.count('<li ') == 1, part
    drive.wait_for('the second in place of the first', lambda: not app.is_there('photo-1.jpg') and app.is_there('photo-2.jpg'))
    # one that is not wanted is left out, and the keyboard stays in the window
    part = send(second, url, good)
    assert part.count('<li ') == 2, part
    app.find_seen('photo-3.jpg')
    app.click(app.find_seen('Leave out', 'push button'))
    drive.wait_for('the newest to go', lambda: not app.is_there('photo-3.jpg'))
    app.keyboard_in('the button that opens', lambda node: 'Open them' in node.name)
    drive.key('space')
    drive.window_goes('^From my phone$')
    app.back()
    drive.wait_for('the photo in the book', lambda: drive.peek_book('select bytes from photo') == good)
    assert not helpers(app), 'it is served no longer'
    assert refused(url)
    app.picture('phone-board')

    forged(app)

    # left in the middle of a photo: nothing hangs, nothing is left
    app.menu('From my phone…')
    app.into('From my phone')
    url = address_of(app)
    half = half_a_photo(url, good)
    app.says('A phone has opened the page.')
    app.find_seen('A photo is coming…')
    app.picture('phone-coming')
    drive.key('Escape')
    drive.window_goes('^From my phone$')
    drive.wait_for('its end', lambda: not helpers(app))
    assert half.recv(1) == b'', 'the phone is not left waiting'
    half.close()

    # so when the program is killed
    app.back()
    app.menu('From my phone…')
    app.into('From my phone')
    half = half_a_photo(address_of(app), good)
    app.find_seen('A photo is coming…')
    served = helpers(app)
    app.kill()
    assert half.recv(1) == b''
    drive.wait_for('its end', lambda: not any(os.path.exists('/proc/' + pid) for pid in served))


drive.on_a_desk(main)
