# SPDX-License-Identifier: GPL-3.0-or-later
"""Paper from the window: through the desktop's print dialog into a file, in the preview, and saved in
each format. All are measured: the page is the paper's size, and the 100 mm check bar on it is 100 mm
long, or longer by what is kept for the printer."""
import os
import re
import shutil
import struct
import subprocess
import sys
import time
from xml.etree import ElementTree

import drive
from measure import A4_PT, DPI, LETTER_PT, grey, is_true_size, runs, words_of

STEM = 'no-name-yet-lf-' + time.strftime('%Y-%m-%d')


def through_the_dialog(app):
    """The print dialog is there: to a file."""
    app.print_on('Print to File')
    app.back()
    return drive.printed_file()


def print_to_file(app):
    """What the dialog proposes tells the horse, the foot and the day."""
    drive.key('ctrl+p')
    drive.window_comes('Before the first print')
    app.picture('cautions')
    drive.key('Return')
    pdf = through_the_dialog(app)
    app.says('was written to ')
    assert os.path.basename(pdf) == STEM + '-template.pdf', pdf
    return pdf


# --- a printer's correction ---

def keep_for(printer, across, down):
    folder = drive.home() + '/config/pritchel'
    os.makedirs(folder, exist_ok=True)
    with open(folder + '/printers.ini', 'w') as out:
        out.write(f'[{printer}]\nacross={across}\ndown={down}\n')


def is_corrected(app):
    """What is kept for the printer that is chosen is on the paper, and told there."""
    keep_for('Print to File', 1.03, 0.98)
    drive.key('ctrl+p')
    pdf = through_the_dialog(app)
    n = is_true_size(pdf, across=1.03, down=0.98)
    words = words_of(pdf)
    assert words.count('1.0300') == n and words.count('0.9800') == n, words
    os.unlink(pdf)


def sheet_is_corrected(app):
    app.menu('Print a tracing sheet…')
    app.into('Print a tracing sheet')
    drive.key('alt+p')
    pdf = through_the_dialog(app)
    found = {run / DPI * 25.4 for run in runs(grey(pdf, 1), 1100)}
    for length in (103, 4 * 25.4 * 1.03):
        assert any(abs(bar - length) < 0.3 for bar in found), f'no bar of {length} mm among {found}'
    assert '1.0300' in words_of(pdf)
    os.unlink(pdf)


def trouble_is_told(app):
    """A correction that would push the marks of the tracing sheet off the paper; then a broken file."""
    keep_for('Print to File', 1.09, 1)
    app.menu('Print a tracing sheet…')
    app.into('Print a tracing sheet')
    drive.key('alt+p')
    app.print_on('Print to File')
    app.back()
    app.says('corner marks would leave the paper')
    keep_for('Print to File', 'wide', 1)
    drive.key('ctrl+p')
    pdf = through_the_dialog(app)
    app.says('The correction for the printer Print to File cannot be used')
    is_true_size(pdf)
    os.unlink(pdf)
    os.unlink(drive.home() + '/config/pritchel/printers.ini')


# --- the preview ---

def screen(app):
    """What the window shows, grey, as rows of bytes."""
    data = subprocess.run(['import', '-window', app.xid, '-depth', '8', 'pgm:-'], check=True,
                          capture_output=True).stdout
    _, size, _, rest = data.split(b'\n', 3)
    width, height = map(int, size.split())
    return [rest[y * width:(y + 1) * width] for y in range(height)]


def page_on_screen(app):
    """Width and height of the white page in pixels, and its rows."""
    rows = screen(app)
    whites = [(max(re.finditer(rb'\xff+', row), key=lambda run: run.end() - run.start(), default=None), y)
              for y, row in enumerate(rows)]
    widest = max((run for run, _ in whites if run), key=lambda run: run.end() - run.start())
    left, right = widest.span()
    tall = [y for y, row in enumerate(rows) if row[left] == 255 and row[right - 1] == 255]
    return right - left, len(tall), [rows[y][left:right] for y in tall]


def is_of_shape(app, paper):
    width, height, _ = page_on_screen(app)
    return abs(height / width - paper[1] / paper[0]) < 0.02


def shows_a_page(app, paper, bar=100):
    """White paper of that shape with the check bar on it, to its scale: BAR mm long."""
    def look():
        width, _, rows = page_on_screen(app)
        length = bar * width / (paper[0] / 72 * 25.4)
        found = {run.end() - run.start() for row in rows[len(rows) * 3 // 4:]
                 for run in re.finditer(rb'[\x00-\xd0]{50,}', row)}
        assert any(abs(run - length) < 2 for run in found), f'no bar of {length} pixels: {found}'
        return rows
    drive.wait_for('a page of that shape', lambda: is_of_shape(app, paper))
    return drive.wait_for('the check bar', look)


def page_told(app, start):
    return drive.wait_for(f'"{start}"', lambda: next(
        node.name for node in app.walk()
        if node.role == 'label' and node.name.startswith(start)))


def preview_shows_the_pages(app, n):
    drive.key('ctrl+shift+p')
    app.into('Print preview')
    total = int(re.match(r'page 1 of (\d+)', page_told(app, 'page 1 of '))[1])
    assert total in (n - 1, n), f'{total} pages; with the cautions of the first print, which take room, {n}'
    n, names, pictures = total, [], []
    for i in range(1, n + 1):
        names.append(page_told(app, f'page {i} of {n}').split(' · ')[1])
        pictures.append(shows_a_page(app, A4_PT))
        app.picture(f'preview-{i}')
        drive.key('Page_Down' if i % 2 else 'Right')
    assert list(dict.fromkeys(names)) == ['foot surface', 'ground surface', 'silhouette', 'bar strip', 'card'], names
    assert all(pictures[i] != pictures[i + 1] for i in range(n - 1)), 'a page is shown twice'
    drive.key('Home')
    page_told(app, f'page 1 of {n}')
    drive.key('End', 'Page_Up')
    page_told(app, f'page {n - 1} of {n}')
    return n


def preview_prints_on_its_paper(app):
    app.choose(app.find('Paper', 'combo box'), 'Home', 'Down')
    shows_a_page(app, LETTER_PT)
    app.picture('preview-letter')
    drive.key('ctrl+p')
    pdf = through_the_dialog(app)
    is_true_size(pdf, LETTER_PT)
    os.unlink(pdf)


def dialogs_own_preview_is_ours(app):
    keep_for('Print to File', 1.05, 1)
    drive.key('ctrl+p')
    app.print_on('Print to File', 'alt+v')
    app.into('Print preview')
    page_told(app, 'page 1 of')
    shows_a_page(app, A4_PT, 105)
    drive.key('Escape')
    drive.window_goes('Print preview')
    app.back()
    os.unlink(drive.home() + '/config/pritchel/printers.ini')


# --- which pages ---

def tick(app, *names):
    """In the print dialog, on the tab of its own."""
    app.into('Print')
    app.click(app.find('Pages of the shoe'))
    for name in names:
        app.click(app.find_seen(name, 'check box'))
    app.picture('print-pages')
    app.click(app.find('General'))


def tick_by_keyboard(app, *names):
    """In the list that is open over the preview: it has the keyboard."""
    for name in names:
        while app.keyboard_in('a tick', lambda node: node.role == 'check box').name != name:
            before = app.keyboard_in('a tick', lambda node: node.role == 'check box').name
            drive.key('Tab')
            app.keyboard_in('the next tick', lambda node: node.role == 'check box' and node.name != before)
        drive.key('space')


def preview_chooses_pages(app, n):
    """A page that is not ticked is not shown, and the rest is counted anew; none at all is told."""
    drive.key('ctrl+shift+p')
    app.into('Print preview')
    page_told(app, f'page 1 of {n}')
    app.click(app.find('Pages'))
    tick_by_keyboard(app, 'Silhouette')
    page_told(app, f'page 1 of {n - 1}')
    app.picture('preview-pages')
    rest = ('Foot surface', 'Ground surface', 'Bar strip', 'Card for the anvil')
    tick_by_keyboard(app, *rest)
    app.says('No page of the shoe is ticked')
    tick_by_keyboard(app, *rest)
    page_told(app, f'page 1 of {n - 1}')
    drive.key('Escape')
    app.keyboard_in('the button of the list', lambda node: node.role != 'check box')
    drive.take_keyboard(app.xid)
    drive.key('Escape')
    drive.window_goes('Print preview')
    app.back()


def dialog_chooses_pages(app, n):
    """What was ticked last is kept; the dialog's own preview shows what is ticked there."""
    drive.key('ctrl+p')
    tick(app, 'Card for the anvil')
    pdf = through_the_dialog(app)
    words = words_of(pdf)
    assert 'silhouette' not in words and 'card' not in words.split() and 'bar strip' in words, words
    assert f'of {is_true_size(pdf)} ' in words
    os.unlink(pdf)
    drive.key('ctrl+p')
    tick(app, 'Foot surface', 'Ground surface', 'Bar strip')
    app.print_on('Print to File')
    app.back()
    app.says('No page of the shoe is ticked')
    drive.key('ctrl+p')
    tick(app, 'Silhouette', 'Card for the anvil')     # the three are still ticked: none is no choice to keep
    app.print_on('Print to File', 'alt+v')
    app.into('Print preview')
    page_told(app, f'page 1 of {n}')
    drive.key('Escape')
    drive.window_goes('Print preview')
    app.back()


def another_foot():
    """The same tracing and plan as the visit's off fore too, put into the book while nobody has it."""
    with drive.sqlite3.connect(drive.book_file()) as book:
        trace, = book.execute('select json from trace').fetchone()
        plan, = book.execute('select json from plan').fetchone()
        visit, = book.execute('select visit from foot').fetchone()
        foot = book.execute("insert into foot (visit, foot, changed) values (?, 'RF', '2026-01-15T00:00:00Z')",
                            (visit,)).lastrowid
        book.execute('insert into trace values (?, ?)', (foot, trace))
        book.execute('insert into plan values (?, ?)', (foot, plan))


def all_feet_in_one(app):
    """In the preview and on paper: both feet's pages one after the other, each under its own foot. What was learnt of
    the first print is not kept here: the cautions come again, and take their room."""
    drive.key('ctrl+shift+p')
    app.into('Print preview')
    one = int(page_told(app, 'page 1 of').split()[3])
    app.click(app.find('Pages'))
    tick_by_keyboard(app, 'All feet of this visit')
    told = drive.wait_for('both feet', lambda: next(
        node.name for node in app.walk()
        if node.role == 'label' and re.match(r'page 1 of \d+ · near fore, foot surface', node.name)))
    n = int(told.split()[3])
    assert n > one + 4, told
    app.picture('preview-feet')
    drive.key('Escape')
    app.keyboard_in('the button of the list', lambda node: node.role != 'check box')
    drive.take_keyboard(app.xid)
    drive.key('End')
    page_told(app, f'page {n} of {n} · off fore, card')
    drive.key('ctrl+p')
    drive.window_comes('Before the first print')
    drive.key('Return')
    pdf = through_the_dialog(app)
    words = words_of(pdf)
    told = set(re.findall(r'Page (\d+) of (\d+)', words))
    assert told == {(str(i + 1), str(n)) for i in range(n)}, (n, told)
    assert words.count('near fore') >= one and words.count('off fore') >= n - one, words
    os.unlink(pdf)


# --- files ---

def save_as(app, line, typed, ground=False):
    """TYPED into the save dialog that LINE of the menu opens."""
    app.click(app.find('Export'))
    app.lines(line)
    app.into('Export the template')
    if ground:
        app.choose(app.find('foot surface', 'label'), 'End')
        drive.key('alt+n')
    is_named(app, typed)


def is_named(app, typed):
    app.keyboard_in('the name', lambda node: node.role == 'text')
    app.picture('save')
    drive.key('ctrl+a')
    drive.type_text(typed)
    drive.key('Return')
    drive.window_goes('Export the template')
    app.back()


def file_comes(file):
    return drive.wait_for(file, lambda: os.path.exists(file) and open(file, 'rb').read())


def svg_is_true_size(app):
    stem = drive.home() + '/foot v1.2'
    save_as(app, 'Template as SVG…', stem)
    root = ElementTree.fromstring(file_comes(stem + '.svg'))
    width, height = root.get('width'), root.get('height')
    assert width.endswith('mm') and height.endswith('mm'), f'{width} x {height}'
    box = [float(part) for part in root.get('viewBox').split()]
    assert abs(box[2] - float(width[:-2])) < 0.01 and abs(box[3] - float(height[:-2])) < 0.01, box
    assert 160 < float(width[:-2]) < 230, f'{width}: a foot of 128 mm with what stands beside it'


def png_is_true_size(app):
    file = drive.home() + '/foot.PNG'
    save_as(app, 'Template as PNG…', file, ground=True)
    data = file_comes(file)
    at = data.index(b'pHYs')
    across, down, unit = struct.unpack('>IIB', data[at + 4:at + 13])
    assert across == down and unit == 1, 'no scale in it'
    per_mm = across / 1000
    picture = subprocess.run(['convert', file, '-depth', '8', 'pgm:-'], check=True,
                             capture_output=True).stdout
    _, size, _, rest = picture.split(b'\n', 3)
    width, height = map(int, size.split())
    rows = [rest[y * width:(y + 1) * width] for y in range(height * 5 // 6, height)]
    found = {run / per_mm for run in runs(rows, 900)}
    assert any(abs(bar - 100) < 0.2 for bar in found), f'no bar of 100 mm among {found}'
    assert not os.path.exists(file + '.png')


def dxf_is_there(app):
    stem = drive.home() + '/foot'
    save_as(app, 'Template as DXF…', stem)
    assert b'AC1009' in file_comes(stem + '.dxf')


def nothing_is_written_over_unasked(app):
    """The name without its ending: the desktop did not ask about the file that stands there."""
    stem = drive.home() + '/foot v1.2'
    before = open(stem + '.svg', 'rb').read()
    with open(stem + '.svg', 'wb') as out:
        out.write(b'mine')
    save_as(app, 'Template as SVG…', stem)
    app.says('is there already')
    assert open(stem + '.svg', 'rb').read() == b'mine' and before


def save_pdf(app, file):
    drive.key('ctrl+e')
    app.into('Export the template')
    is_named(app, file)
    drive.wait_for('the saved file', lambda: os.path.exists(file))
    app.says(os.path.basename(file) + ' was written to ')


EVERYTHING = ['bar.pdf', 'card.pdf', 'report.json', 'report.txt', 'stages.svg', 'template.dxf', 'template.pdf', 'template.png',
              'template.svg']


def save_all(app, folder):
    app.click(app.find('Export'))
    app.lines('Everything, to a folder…')
    app.into('Export everything to a folder')
    drive.key('ctrl+l')
    app.keyboard_in('the place', lambda node: node.role == 'text')
    drive.key('ctrl+a')
    drive.type_text(folder)
    app.picture('save-all')
    drive.key('Return')
    drive.window_goes('Export everything to a folder')


def is_asked(app, folder, key):
    save_all(app, folder)
    drive.window_comes('Replace what is there')
    app.picture('save-all-asked')
    drive.key(key)
    drive.window_goes('Replace what is there')
    app.back()


def names_in(folder, stem):
    return sorted(name[len(stem) + 1:] for name in os.listdir(folder) if name.startswith(stem + '-'))


def everything_is_kept_apart(app):
    """All files of one foot and day under one name. Where one is there it is asked: nothing, both, or instead."""
    folder = drive.home() + '/all'
    mine = f'{folder}/{STEM}-report.txt'
    os.mkdir(folder)
    save_all(app, folder)
    drive.wait_for('the files', lambda: names_in(folder, STEM) == EVERYTHING)
    app.back()
    with open(mine, 'w') as out:
        out.write('mine')
    is_asked(app, folder, 'Escape')
    assert names_in(folder, STEM) == EVERYTHING and open(mine).read() == 'mine'
    is_asked(app, folder, 'Return')
    drive.wait_for('the second ones', lambda: names_in(folder, STEM + '-2') == EVERYTHING)
    assert open(mine).read() == 'mine'
    is_asked(app, folder, 'alt+r')
    drive.wait_for('the first ones anew', lambda: open(mine).read() != 'mine')
    assert len(os.listdir(folder)) == 2 * len(EVERYTHING), os.listdir(folder)


def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    pdf = print_to_file(app)
    n = is_true_size(pdf)
    assert n >= 5, f'{n} pages: both faces, the silhouette, the bar and the card are five at least'
    os.unlink(pdf)
    is_corrected(app)
    sheet_is_corrected(app)
    trouble_is_told(app)
    n = preview_shows_the_pages(app, n)
    preview_prints_on_its_paper(app)
    dialogs_own_preview_is_ours(app)
    preview_chooses_pages(app, n)
    dialog_chooses_pages(app, n)
    svg_is_true_size(app)
    png_is_true_size(app)
    dxf_is_there(app)
    nothing_is_written_over_unasked(app)
    everything_is_kept_apart(app)
    file = drive.home() + '/template.pdf'
    save_pdf(app, file)
    assert is_true_size(file) >= 3
    os.unlink(file)
    shutil.rmtree(drive.home() + '/all')     # the next print is to be the only one
    app.close()
    another_foot()
    app = drive.App()
    app.find('Heel, lateral')
    all_feet_in_one(app)
    app.close()


drive.on_a_desk(main)
