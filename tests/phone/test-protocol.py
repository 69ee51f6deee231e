# SPDX-License-Identifier: GPL-3.0-or-later
"""What pritchel-phone answers, and to whom: HTTP as RFC 9110 has it, forms as RFC 7578 and RFC 2046 have them, one address, one token,
the first phone. Run as test-protocol.py PHOTO."""
import os
import socket
import subprocess
import sys
import tempfile
import unittest

import phone
from phone import Answer, Phone, Server, form, raw

with open(sys.argv[1], 'rb') as file:
    GOOD = file.read()


def has_six():
    try:
        with socket.socket(socket.AF_INET6) as sock:
            sock.bind(('::1', 0))
    except OSError:
        return False
    return True


class Case(unittest.TestCase):
    address = '127.0.0.1'

    def setUp(self):
        self.server = Server(self.address)
        self.addCleanup(self.server.close)

    def first(self, language='en'):
        one = Phone(self.server, language)
        self.assertEqual(one.get().status, 200)
        self.assertEqual(self.server.next('used')['what'], 'used')
        return one


class Page(Case):
    def test_code_is_read_back_by_another_library(self):
        border, side = 4, self.server.side
        pixels = bytearray(b'\xff' * ((side + 2 * border) * 8) ** 2)
        for at, dark in enumerate(self.server.code):
            if dark == '1':
                for y in range(8):
                    start = (((at // side) + border) * 8 + y) * (side + 2 * border) * 8 + ((at % side) + border) * 8
                    pixels[start:start + 8] = bytes(8)
        with tempfile.TemporaryDirectory() as folder:
            size = (side + 2 * border) * 8
            with open(folder + '/code.pgm', 'wb') as out:
                out.write(b'P5\n%d %d\n255\n' % (size, size) + pixels)
            told = subprocess.run(['zbarimg', '-q', '--raw', folder + '/code.pgm'], check=True, capture_output=True,
                                  text=True).stdout
        self.assertEqual(told.strip(), self.server.url)

    def test_nothing_from_elsewhere_and_nothing_kept(self):
        page = Phone(self.server).get()
        policy = page['Content-Security-Policy']
        self.assertIn("default-src 'none'", policy)
        self.assertIn("frame-ancestors 'none'", policy)
        self.assertNotIn('unsafe', policy)
        self.assertEqual(page['Cache-Control'], 'no-store')
        self.assertEqual(page['X-Content-Type-Options'], 'nosniff')
        self.assertIsNone(page['Access-Control-Allow-Origin'])
        self.assertNotIn('http://', page.text)
        self.assertNotIn('https://', page.text)
        nonce = policy.split("script-src 'nonce-")[1].split("'")[0]
        self.assertEqual(page.text.count(f'nonce="{nonce}"'), 2)
        again = Phone(self.server).get()
        self.assertNotIn(nonce, again['Content-Security-Policy'], 'new each time')

    def test_camera_and_picker_take_what_phones_take(self):
        page = Phone(self.server).get().text
        self.assertIn('capture="environment"', page)
        self.assertIn(' multiple ', page)
        for kind in ('image/jpeg', 'image/png', 'image/webp', 'image/heic', 'image/heif', '.heic', '.heif'):
            self.assertEqual(page.count(kind + ',') + page.count(kind + '"'), 2, kind)

    def test_token_is_new_each_time_and_long(self):
        other = Server(self.address)
        self.addCleanup(other.close)
        self.assertNotEqual(other.token, self.server.token)
        self.assertGreaterEqual(len(self.server.token) * 5, 128)     # base 32

    def test_language_of_the_phone(self):
        for wanted, got in (('de-AT,de;q=0.9', 'de'), ('fr;q=0.3,nl;q=0.8', 'nl'), ('en-US', 'en_US'), ('en-GB,de', 'en'),
                            ('xx,../../de;q=0.9,es;q=0.1', 'es'), ('', 'en'), ('tlh', 'en')):
            page = Phone(self.server, wanted).get().text
            if wanted.startswith('de'):
                self.assertIn('html lang="de"', page)
            self.assertIn(f'<html lang="{got}">', page, wanted)

    def test_verdict_comes_in_the_language_of_the_phone_and_of_the_screen(self):
        one = self.first('de')
        part = one.post([('photo', 'x.jpg', GOOD)], '?part')
        self.assertIn('vorn links', part.text)
        self.assertIn('near fore', self.server.photo()['words'])


class Sending(Case):
    def test_bytes_as_sent_and_verdict(self):
        one = self.first()
        part = one.post([('key', None, b'0a1b'), ('photo', 'x.jpg', GOOD)], '?part')
        self.assertEqual(part.status, 200)
        self.assertIn('class="good" data-key="0a1b"', part.text)
        self.assertIn('near fore, 128 mm wide', part.text)
        photo = self.server.photo()
        self.assertEqual(photo['bytes'], GOOD)
        self.assertEqual((photo['id'], photo['instead'], photo['ending'], photo['state']), (1, 0, 'jpg', 0))
        picture = one.get('photo/1')
        self.assertEqual(picture['Content-Type'], 'image/jpeg')
        self.assertTrue(picture.body.startswith(b'\xff\xd8\xff'))
        self.assertEqual(one.get('list').text, part.text)

    def test_the_corner_mark_that_is_missing_is_named(self):
        one = self.first()
        for where, corner in (('440,740 710,980', 'upper left'), ('1900,530 2210,790', 'upper right'),
                              ('2250,2930 2640,3300', 'lower right'), ('340,3060 650,3420', 'lower left')):
            covered = subprocess.run(['convert', 'jpg:-', '-fill', '#d8d4cb', '-draw', 'rectangle ' + where, 'jpg:-'], input=GOOD,
                                     check=True, capture_output=True).stdout
            part = one.post([('photo', 'x.jpg', covered)], '?part').text
            self.assertIn(f'{corner} corner mark', part.split('</li>')[0], where)
            self.assertIn(f'{corner} corner mark is not in the picture.', self.server.photo()['words'])

    def test_plain_form_leads_back_to_the_page(self):
        one = self.first()
        answer = one.post([('photo', 'x.jpg', GOOD), ('photo', 'y.jpg', GOOD), ('photo', '', b'')])
        self.assertEqual((answer.status, answer['Location']), (303, './'))
        self.assertEqual(one.get().text.count('class="good"'), 2)
        self.assertEqual([self.server.photo()['id'] for _ in range(2)], [1, 2])

    def test_taken_again_it_goes_in_the_place_of_the_first(self):
        one = self.first()
        one.post([('photo', 'x.jpg', GOOD[:len(GOOD) // 2])])
        self.assertEqual(self.server.photo()['state'], 2)
        self.assertIn('class="again"', one.get('list').text)
        part = one.post([('again', None, b'1'), ('photo', 'x.jpg', GOOD)], '?part').text
        self.assertEqual((part.count('<li '), part.count('class="good"')), (1, 1))
        photo = self.server.photo()
        self.assertEqual((photo['id'], photo['instead']), (2, 1))
        self.assertEqual(one.get('photo/1').status, 404)

    def test_the_same_photo_again_after_a_break_is_there_once(self):
        one = self.first()
        for _ in range(2):
            part = one.post([('key', None, b'77'), ('photo', 'x.jpg', GOOD)], '?part').text
        self.assertEqual(part.count('<li '), 1)
        self.assertNotIn('problem', part)

    def test_a_broken_one_leaves_nothing(self):
        one = self.first()
        body = form([('photo', 'x.jpg', GOOD)])
        with phone.connect(self.server) as sock:
            sock.sendall((f'POST {self.server.path} HTTP/1.1\r\nHost: {self.server.host}\r\nCookie: {one.cookie}\r\n'
                          'Content-Type: multipart/form-data; boundary=b0undary\r\n'
                          f'Content-Length: {len(body)}\r\n\r\n').encode() + body[:len(body) // 2])
            self.server.next('coming')
        phone.wait_for('its end', lambda: self.server.next('coming')['share'] == 0)
        self.assertNotIn('<li ', one.get('list').text)

    def test_what_is_no_photo_is_told_once_and_not_kept(self):
        one = self.first()
        one.post([('photo', 'x.jpg', b'%PDF-1.7 hello')])
        self.assertIn('class="problem"', one.get().text)
        page = one.get().text
        self.assertNotIn('class="problem"', page)
        self.assertNotIn('<li ', page)

    def test_forms_that_are_none(self):
        one = self.first()
        for body, boundary in ((b'', 'b0undary'), (b'--b0undary', 'b0undary'), (form([('photo', 'x', GOOD[:99])])[:-8], 'b0undary'),
                               (form([('photo', 'x', GOOD[:99])]), 'other'), (b'\r\n' * 500, 'b0undary'),
                               (b'--b0undary\r\n' + b'A: b\r\n' * 2000 + b'\r\nx\r\n--b0undary--', 'b0undary'),
                               (b'--b0undary' + b' ' * 200 + b'\r\n\r\nx\r\n--b0undary--', 'b0undary')):
            answer = one.ask('POST', self.server.path + '?part',
                             [f'Content-Type: multipart/form-data; boundary={boundary}'] + ([] if body else ['Content-Length: 0']), body)
            self.assertEqual(answer.status, 200, body[:40])
            self.assertIn('class="problem"', answer.text, body[:40])
            self.assertNotIn('<li ', answer.text)

    def test_no_more_than_twenty(self):
        one = self.first()
        small = GOOD[:2000]
        part = one.post([('photo', 'x.jpg', small)] * 21, '?part').text
        self.assertEqual(part.count('<li '), 20)
        self.assertIn('class="problem"', part)
        part = one.post([('photo', 'x.jpg', small)], '?part').text
        self.assertEqual(part.count('<li '), 20)
        self.assertIn('class="problem"', part)
        part = one.post([('again', None, b'3'), ('photo', 'x.jpg', small)], '?part').text
        self.assertEqual(part.count('<li '), 20)
        self.assertNotIn('class="problem"', part)

    def test_a_shoe(self):
        server = Server(self.address, shoe=('10', '1', '0'))
        self.addCleanup(server.close)
        one = Phone(server)
        self.assertIn('Photograph the shoe', one.get().text)
        server.next('used')
        one.post([('photo', 'x.jpg', GOOD)])           # on which there is none
        self.assertEqual(server.photo()['state'], 2)


class Locked(Case):
    def test_no_way_in_but_the_token(self):
        wrong = self.server.token[:-1] + ('a' if self.server.token[-1] != 'a' else 'b')
        for path in ('/', '/favicon.ico', '/' + wrong + '/', '/' + self.server.token, '/' + self.server.token + 'x/',
                     f'/{wrong}/../{self.server.token}/', f'/x/../{self.server.token}/', '//', f'http://{self.server.host}/'):
            self.assertEqual(Phone(self.server).ask('GET', path).status, 404, path)

    def test_nothing_below_it_but_the_page_and_its_parts(self):
        one = self.first()
        for path in ('x', 'photo/', 'photo/0', 'photo/99', '../', '%2e%2e/', 'list/', 'etc/passwd',
                     '../../../../etc/passwd'):
            self.assertIn(one.get(path).status, (404, 400), path)

    def test_methods(self):
        one = self.first()
        for method in ('HEAD', 'PUT', 'DELETE', 'OPTIONS', 'TRACE', 'CONNECT', 'PATCH', 'get', 'G'):
            self.assertEqual(one.ask(method, self.server.path).status, 405, method)

    def test_host_must_be_the_address(self):
        one = self.first()
        for host in ('localhost' + self.server.host[-6:], 'example.org', '127.0.0.1', '', self.server.host + '.'):
            one.host = host
            self.assertIn(one.get().status, (421, 400), host)
            self.assertIn(one.post([('photo', 'x', GOOD[:500])]).status, (421, 400), host)

    def test_pages_of_others_cannot_send(self):
        one = self.first()
        self.assertEqual(one.post([('photo', 'x', GOOD[:500])], headers=['Origin: http://example.org']).status, 403)
        self.assertEqual(one.post([('photo', 'x', GOOD[:500])], headers=['Origin: null']).status, 403)
        self.assertEqual(one.post([('photo', 'x', GOOD[:500])], headers=[f'Origin: http://{self.server.host}']).status, 303)
        self.assertIn('SameSite=Strict', Phone(self.server).get()['Set-Cookie'])

    def test_what_may_be_sent(self):
        one = self.first()
        kind = 'Content-Type: multipart/form-data; boundary=b'
        for headers, status in (([kind, 'Transfer-Encoding: chunked'], 411), ([kind], 411),
                                ([kind, 'Content-Length: 99999999999999'], 413),
                                (['Content-Type: image/jpeg', 'Content-Length: 5'], 415),
                                (['Content-Type: multipart/form-data', 'Content-Length: 5'], 415),
                                (['Content-Type: multipart/form-data; boundary=' + 'b' * 71, 'Content-Length: 5'], 415)):
            self.assertEqual(one.ask('POST', self.server.path, headers).status, status, headers)

    def test_first_phone_is_in_and_others_are_asked_about(self):
        first, second, third = self.first(), Phone(self.server), Phone(self.server)
        page = second.get()
        told = self.server.next('ask')
        self.assertIn(f'class="code">{told["code"]}<', page.text)
        for part in ('list', 'photo/1'):
            self.assertEqual(second.get(part).status, 403)
        self.assertEqual(second.post([('photo', 'x', GOOD[:500])]).status, 403)
        self.assertEqual(Phone(self.server).post([('photo', 'x', GOOD[:500])]).status, 403, 'without a cookie')
        self.server.order('allow', told['phone'])
        phone.wait_for('leave', lambda: 'id="camera"' in second.get().text)
        third.get()
        self.server.order('refuse', self.server.next('ask')['phone'])
        phone.wait_for('the refusal', lambda: 'does not take photos' in third.get().text)
        self.assertEqual(third.post([('photo', 'x', GOOD[:500])]).status, 403)
        self.assertIn('id="camera"', first.get().text)

    def test_phones_are_counted(self):
        for _ in range(8):
            Phone(self.server).get()
        self.assertIn('Too many phones', Phone(self.server).get().text)

    def test_one_address_only(self):
        port = self.server.place[1]
        with socket.socket() as sock:
            sock.settimeout(phone.LIMIT)
            self.assertNotEqual(sock.connect_ex(('127.0.0.2', port)), 0)
        told = subprocess.run(['cat', f'/proc/{self.server.process.pid}/net/tcp'], capture_output=True, text=True).stdout
        self.assertIn(f'0100007F:{port:04X} 00000000:0000 0A', told, 'it listens at that address')

    def test_at_most_four_at_a_time_and_more_wait(self):
        one = self.first()
        idle = [phone.connect(self.server) for _ in range(12)]
        self.addCleanup(lambda: [sock.close() for sock in idle])
        self.assertEqual(one.get().status, 200, 'those who ask for nothing make room')

    def test_it_ends_when_it_is_not_needed(self):
        self.server.line.close()
        self.assertEqual(self.server.process.wait(phone.LIMIT), 0)


@unittest.skipUnless(has_six(), 'this machine has no IPv6')
class Six(Case):
    address = '::1'

    def test_page_and_photo(self):
        self.assertTrue(self.server.url.startswith('http://[::1]:'))
        one = self.first()
        self.assertIn('class="good"', one.post([('photo', 'x.jpg', GOOD)], '?part').text)


class NoSuchAddress(unittest.TestCase):
    def test_it_says_so(self):
        for address in ('192.0.2.1', 'nonsense', ''):       # RFC 5737: nobody's
            self.assertEqual(phone.refused_address(address), 1)      # PR_PHONE_END_ADDRESS


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[2:], verbosity=2)
