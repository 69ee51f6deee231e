# SPDX-License-Identifier: GPL-3.0-or-later
"""A real browser of a phone's size, driven through chromium-driver by the W3C WebDriver protocol. It has a profile of its own, which
goes with it, and nothing it could fetch from elsewhere is asked for."""
import base64
import json
import os
import shutil
import subprocess
import tempfile
import urllib.error
import urllib.request

from phone import LIMIT, wait_for

ELEMENT = 'element-6066-11e4-a52e-4f735466cecf'      # WebDriver, 11
OPENER = urllib.request.build_opener(urllib.request.ProxyHandler({}))


def there_is():
    return bool(shutil.which('chromedriver') and shutil.which('chromium'))


class Browser:
    def __init__(self, languages='en', script=True):
        self.home = tempfile.mkdtemp(prefix='pritchel-browser-')
        env = {**os.environ, 'HOME': self.home, 'XDG_CONFIG_HOME': self.home, 'XDG_CACHE_HOME': self.home}
        self.driver = subprocess.Popen(['chromedriver', '--port=0'], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                                       text=True, env=env)
        line = ''
        while 'successfully on port' not in line:
            line = self.driver.stdout.readline()
            assert line, 'chromedriver ended'
        self.base = 'http://127.0.0.1:' + ''.join(filter(str.isdigit, line.split('port')[1]))
        prefs = {'intl.accept_languages': languages, 'intl.selected_languages': languages}
        if not script:
            prefs['profile.managed_default_content_settings.javascript'] = 2
        args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-dev-shm-usage',
                '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-proxy-server',
                '--hide-scrollbars', '--accept-lang=' + languages, '--user-data-dir=' + self.home + '/profile',
                '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1']
        told = self.call('POST', '/session', {'capabilities': {'alwaysMatch': {
            'browserName': 'chrome',
            'goog:chromeOptions': {'binary': shutil.which('chromium'), 'args': args, 'prefs': prefs,
                                   'mobileEmulation': {'deviceMetrics': {'width': 390, 'height': 844, 'pixelRatio': 2}}}}}})
        self.base += '/session/' + told['sessionId']

    def call(self, method, path, body=None):
        request = urllib.request.Request(self.base + path, None if body is None else json.dumps(body).encode(),
                                         {'Content-Type': 'application/json'}, method=method)
        try:
            with OPENER.open(request, timeout=LIMIT) as answer:
                return json.load(answer)['value']
        except urllib.error.HTTPError as error:
            raise AssertionError(json.load(error)['value']['message'].split('\n')[0]) from None

    def go(self, url):
        self.call('POST', '/url', {'url': url})

    def all(self, css):
        return [one[ELEMENT] for one in self.call('POST', '/elements', {'using': 'css selector', 'value': css})]

    def find(self, css):
        return wait_for(css, lambda: self.all(css))[0]

    def text(self, css):
        """As a script in the page would read it, so that a page which is just being left is read as a whole."""
        return wait_for(css, lambda: self.run(f'const one = document.querySelector("{css}"); return one && one.innerText'))

    def choose(self, css, *files):
        """FILES in the control for files at CSS, as if they had been picked."""
        self.call('POST', f'/element/{self.find(css)}/value', {'text': '\n'.join(files)})

    def tap(self, css):
        """On what is in sight. By hand, since the driver's own click waits for a script of the page's, where they may be off."""
        box = self.box(css)
        at = {'x': box['x'] + box['width'] / 2, 'y': box['y'] + box['height'] / 2, 'button': 'left', 'clickCount': 1}
        for kind in ('mousePressed', 'mouseReleased'):
            self.devtools('Input.dispatchMouseEvent', type=kind, **at)

    def box(self, css):
        return self.call('GET', f'/element/{self.find(css)}/rect')

    def run(self, script):
        return self.call('POST', '/execute/sync', {'script': script, 'args': []})

    def devtools(self, command, **params):
        return self.call('POST', '/goog/cdp/execute', {'cmd': command, 'params': params})

    def picture(self, name):
        """For a person to look at, when PRITCHEL_PICTURES says where."""
        folder = os.environ.get('PRITCHEL_PICTURES')
        if folder:
            with open(f'{folder}/{name}.png', 'wb') as out:
                out.write(base64.b64decode(self.call('GET', '/screenshot')))

    def close(self):
        try:
            self.call('DELETE', '')
        finally:
            self.driver.terminate()
            self.driver.wait()
            self.driver.stdout.close()
            shutil.rmtree(self.home, ignore_errors=True)
