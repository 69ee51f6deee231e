# SPDX-License-Identifier: GPL-3.0-or-later
"""What is on a page, measured as another program draws it."""
import re
import subprocess

A4_PT = (595.28, 841.89)       # ISO 216 over 25.4 mm by 72 pt
LETTER_PT = (612, 792)
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


def runs(lines, least):
    """Lengths of the straight lines in it, in pixels."""
    found = set()
    for line in lines:
        for run in re.finditer(rb'[\x00-\x90]{%d,}' % least, line):
            found.add(run.end() - run.start())
    return found


def bars(rows):
    """Lengths of the straight lines at the foot of a page and up its right side, mm: where the check
    bars are."""
    strip = [bytes(column) for column in zip(*(row[len(row) * 5 // 6:] for row in rows))]
    return tuple({run / DPI * 25.4 for run in runs(lines, 900)}
                 for lines in (rows[len(rows) * 5 // 6:], strip))


def has_bars(pdf, across=1, down=1):
    """The check bars of its first page are as long as for a printer that needs that correction."""
    for found, factor in zip(bars(grey(pdf, 1)), (across, down)):
        for length in (100 * factor, 4 * 25.4 * factor):
            assert any(abs(bar - length) < 0.3 for bar in found), f'no bar of {length} mm among {found}'


def is_true_size(pdf, paper=A4_PT, across=1, down=1):
    """And the page is the paper's size. How many pages."""
    n, size = pages_of(pdf)
    assert abs(size[0] - paper[0]) < 1 and abs(size[1] - paper[1]) < 1, f'{size} pt is not {paper}'
    has_bars(pdf, across, down)
    return n


def words_of(pdf):
    return subprocess.run(['pdftotext', pdf, '-'], check=True, capture_output=True, text=True).stdout
