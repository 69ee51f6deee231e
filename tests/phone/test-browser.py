# SPDX-License-Identifier: GPL-3.0-or-later
"""The page in a real browser of a phone's size: a photo of twelve megapixels through the control that opens the camera and through the
picker, with and without JavaScript, in German; taken again, broken off, allowed as a second phone. Run as test-browser.py PHOTO."""
import os
import re
import subprocess
import sys
import tempfile
import time
import unittest

import phone
from browser import Browser
from phone import Relay, Server, wait_for

PHOTO = os.path.abspath(sys.argv[1])


class Case(unittest.TestCase):
    def open(self, **how):
        server = Server()
        self.addCleanup(server.close)
        browser = Browser(**how)
        self.addCleanup(browser.close)
        browser.go(server.url)
        return server, browser

    def fits(self, browser):
        """Nothing sticks out to the side, and what is pressed is large enough for a thumb (WCAG 2.2, 2.5.5: 44)."""
        self.assertLessEqual(browser.run('return document.documentElement.scrollWidth'), 390)
        self.assertGreaterEqual(browser.box('label.button')['height'], 44)

    def cut(self):
        """A photo that will not do: its lower part is missing."""
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        subprocess.run(['convert', PHOTO, '-crop', '3000x1500+0+0', folder.name + '/cut.jpg'], check=True)
        return folder.name + '/cut.jpg'


    def long(self):
        """The same photo with more behind its end than the system takes in at once."""
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        with open(PHOTO, 'rb') as file, open(folder.name + '/long.jpg', 'wb') as out:
            out.write(file.read() + bytes(20 << 20))
        return folder.name + '/long.jpg'


class WithScript(Case):
    def test_camera_again_and_picker(self):
        server, browser = self.open()
        self.assertEqual(browser.text('h1'), 'Photograph the tracing')
        self.fits(browser)
        browser.picture('page-ready')
        self.assertEqual(browser.run('return document.querySelector("#camera").getAttribute("capture")'), 'environment')

        browser.choose('#camera', self.cut())
        browser.find('li.again')
        self.assertIn('Take it again: The sheet’s lower', browser.text('li.again p'), 'what is missing, and nothing of the pen')
        self.assertEqual(server.photo()['state'], 2)
        browser.picture('page-again')

        begun = time.monotonic()
        browser.choose('li.again input[type=file]', PHOTO)
        browser.find('li.good')
        print(f'verdict after {time.monotonic() - begun:.1f} s', end=' ')
        self.assertIn('near fore, 128 mm wide', browser.text('li.good p'))
        self.assertEqual(len(browser.all('li')), 1, 'in the place of the first')
        wait_for('the picture', lambda: browser.run('return document.querySelector("li img").naturalWidth') > 200)
        browser.picture('page-good')
        photo = server.photo()
        with open(PHOTO, 'rb') as file:
            self.assertEqual(photo['bytes'], file.read(), 'bytes as they were chosen')
        self.assertEqual(photo['instead'], 1)

        browser.choose('#pick', PHOTO, PHOTO, PHOTO)
        wait_for('all of them', lambda: len(browser.all('li.good')) == 4)
        self.assertTrue(browser.run('return document.querySelector("#now").hidden'))
        self.fits(browser)
        browser.run('window.scrollTo(0, 0)')
        browser.picture('page-several')

    def test_after_a_break_it_goes_on(self):
        server = Server()
        self.addCleanup(server.close)
        relay = Relay(server)
        self.addCleanup(relay.close)
        browser = Browser()
        self.addCleanup(browser.close)
        browser.go(server.url.replace(server.host, relay.host))
        browser.choose('#camera', self.long())
        wait_for('some of it', lambda: float(browser.run('return document.querySelector("#now progress").value')) > 0.1)
        self.assertIn('Sending', browser.text('#now'))
        browser.picture('page-sending')
        relay.tear()
        wait_for('the break', lambda: 'lost' in browser.text('#now'))
        browser.picture('page-lost')
        relay.mend()
        browser.find('li.good')
        self.assertEqual(len(browser.all('li')), 1)
        self.assertEqual(server.photo()['state'], 0)

    def test_german(self):
        server, browser = self.open(languages='de-DE,de')
        self.assertEqual(browser.run('return document.documentElement.lang'), 'de')
        browser.choose('#camera', PHOTO)
        self.assertIn('vorn links', browser.text('li p'))
        self.assertIn('near fore', server.photo()['words'])
        self.fits(browser)
        browser.picture('page-german')

    def test_second_phone(self):
        server = Server()
        self.addCleanup(server.close)
        phone.Phone(server).get()
        browser = Browser()
        self.addCleanup(browser.close)
        browser.go(server.url)
        told = server.next('ask')
        self.assertEqual(browser.text('.code'), told['code'])
        browser.picture('page-asked')
        server.order('allow', told['phone'])
        browser.find('#camera')

    def test_refused_phone(self):
        server = Server()
        self.addCleanup(server.close)
        phone.Phone(server).get()
        browser = Browser()
        self.addCleanup(browser.close)
        browser.go(server.url)
        server.order('refuse', server.next('ask')['phone'])
        wait_for('the refusal', lambda: 'does not take photos' in browser.text('main'))
        browser.picture('page-refused')


class WithoutScript(Case):
    def test_plain_forms(self):
        server, browser = self.open(script=False)
        self.assertFalse(re.search(r'\bjs\b', browser.call('GET', '/source').split('>')[1]), 'scripts are off')
        browser.picture('page-plain')
        browser.choose('#camera', PHOTO)
        browser.picture('page-plain-chosen')
        browser.tap('form:not(.second) button')
        browser.find('li.good')
        self.assertIn('near fore, 128 mm wide', browser.text('li.good p'))
        self.assertEqual(server.photo()['state'], 0)
        browser.picture('page-plain-good')
        browser.choose('#pick', PHOTO, self.cut())
        browser.tap('main > form.second button')
        wait_for('both', lambda: len(browser.all('li')) == 3)
        self.assertEqual(len(browser.all('li.again')), 1)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[2:], verbosity=2)
