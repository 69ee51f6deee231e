# SPDX-License-Identifier: GPL-3.0-or-later
"""The tracing sheet from the window: a sheet for each of the four feet, on the paper that was chosen, at
its true size."""
import os
import re
import subprocess
import time

import drive

A4_PT = (595.28, 841.89)       # ISO 216 over 25.4 mm by 72 pt


def choose_all_four(app):
    foot = drive.wait_for('the choice of feet', lambda: next(
        node for node in app.walk()
        if node.get_name() == 'Foot' and node.get_role_name() == 'combo box'))
    app.click(foot)
    time.sleep(0.5)
    drive.key('End', 'Return')
    time.sleep(0.5)


def printed():
    for folder, _, files in os.walk(drive.home()):
        for name in files:
            if name.endswith('.pdf'):
                return os.path.join(folder, name)
    return None


def main():
    app = drive.App()
    app.click(app.find('Print a tracing sheet…', 'push button'))
    app.into('Print a tracing sheet')
    choose_all_four(app)
    app.picture('sheet-dialog')
    drive.key('alt+p')
    app.into('Print')
    app.click(app.find('Print to File'))
    drive.key('alt+p')
    app.back()
    pdf = drive.wait_for('the printed file', printed)
    words = drive.wait_for('all of it', lambda: subprocess.run(
        ['pdfinfo', pdf], capture_output=True, text=True).stdout)
    size = re.search(r'Page size:\s+([\d.]+) x ([\d.]+)', words)
    assert re.search(r'Pages:\s+4\b', words), words
    assert all(abs(float(size[i + 1]) - A4_PT[i]) < 1 for i in (0, 1)), words
    text = subprocess.run(['pdftotext', pdf, '-'], check=True, capture_output=True, text=True).stdout
    for code in ('LF', 'RF', 'LH', 'RH'):
        assert code in text, f'no sheet for {code}: {text}'
    app.close()


drive.on_a_desk(main)
