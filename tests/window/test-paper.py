# SPDX-License-Identifier: GPL-3.0-or-later
"""Paper from the window: through the desktop's print dialog into a file, and by saving a PDF. Both
are measured: the page is the paper's size, and the 100 mm check bar on it is 100 mm long."""
import os
import re
import subprocess
import sys

import drive

A4_PT = (595.28, 841.89)       # ISO 216 over 25.4 mm by 72 pt
DPI = 300


def pages_of(pdf):
    words = subprocess.run(['pdfinfo', pdf], check=True, capture_output=True, text=True).stdout
    size = re.search(r'Page size:\s+([\d.]+) x ([\d.]+)', words)
    return int(re.search(r'Pages:\s+(\d+)', words).group(1)), (float(size[1]), float(size[2]))


def grey(pdf, page):
    """One page as rows of bytes."""
    data = subprocess.run(['pdftoppm', '-gray', '-r', str(DPI), '-f', str(page), '-l', str(page), pdf],
                          check=True, capture_output=True).stdout
    _, size, _, rest = data.split(b'\n', 3)
    width, height = map(int, size.split())
    return [rest[y * width:(y + 1) * width] for y in range(height)]


def bars(rows):
    """Lengths of the straight lines at the foot of a page, mm: where the check bars are."""
    found = set()
    for row in rows[len(rows) * 5 // 6:]:
        for run in re.finditer(rb'[\x00-\x90]{900,}', row):
            found.add((run.end() - run.start()) / DPI * 25.4)
    return found


def is_true_size(pdf):
    n, size = pages_of(pdf)
    assert abs(size[0] - A4_PT[0]) < 1 and abs(size[1] - A4_PT[1]) < 1, f'{size} pt is not A4'
    found = bars(grey(pdf, 1))
    for length in (100, 4 * 25.4):
        assert any(abs(bar - length) < 0.5 for bar in found), f'no bar of {length} mm among {found}'
    return n


def print_to_file(app):
    drive.key('ctrl+p')
    drive.window_comes('Before the first print')
    app.picture('cautions')
    drive.key('Return')
    app.into('Print')
    app.click(app.find('Print to File'))
    app.picture('print')
    drive.key('alt+p')
    app.back()

    def written():
        for folder, _, files in os.walk(drive.home()):
            for name in files:
                if name.endswith('.pdf'):
                    return os.path.join(folder, name)
        return None
    pdf = drive.wait_for('the printed file', written)
    drive.wait_for('all of it', lambda: subprocess.run(['pdfinfo', pdf], capture_output=True)
                   .returncode == 0)
    return pdf


def save_pdf(app, file):
    drive.key('ctrl+e')
    drive.window_comes('Save the template')
    drive.key('ctrl+a')
    drive.type_text(file)
    drive.key('Return')
    drive.wait_for('the saved file', lambda: os.path.exists(file))
    drive.window_goes('Save the template')


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    pdf = print_to_file(app)
    n = is_true_size(pdf)
    assert n >= 4, f'{n} pages: both faces, the bar and the card are four at least'
    os.unlink(pdf)
    file = drive.home() + '/template.pdf'
    save_pdf(app, file)
    assert is_true_size(file) >= 2
    app.close()


drive.on_a_desk(main)
