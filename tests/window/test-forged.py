# SPDX-License-Identifier: GPL-3.0-or-later
"""After the fire: a photo of the forged shoe is laid on its plan, tells what it is off by, is kept with its photo, and goes
again; a photo without a shoe is refused in a sentence and changes nothing."""
import json
import os
import re
import subprocess
import sys

import drive

SEED = '1'       # 8.8 mm thick, the foot surface up, one branch opened


def shoe_of_the_plan():
    """The photo, how thick the shoe is, whether its foot surface is up, and a cut a little longer than the plan asks for, mm."""
    report = drive.home() + '/plan'
    subprocess.run([os.environ['PRITCHEL_COMMAND'], 'plan', sys.argv[1], '-o', report], check=True, capture_output=True)
    photo = drive.home() + '/forged.jpg'
    told = subprocess.run([os.environ['PRITCHEL_SHOES'], 'steel', SEED, photo, report + '/report.json'], check=True,
                          capture_output=True, text=True).stdout
    with open(report + '/report.json', encoding='utf-8') as file:
        needed = json.load(file)['iron']['needed_mm']
    return photo, told.split(', ')[2].split()[0], 'foot surface' in told, 1.09 * needed


def choose(app, photo):
    app.click(app.find_seen('Photo of the forged shoe…', 'push button'))
    app.open_file('Open a photo of the forged shoe', photo)


def press(app, name):
    """By keyboard, as it may lie below what is in sight."""
    before = None
    for _ in range(60):
        node = app.keyboard_in('the next stop', lambda n: n.path != before)
        if node.name.startswith(name):
            if node.role != 'text':
                drive.key('space')
            return
        before = node.path
        drive.key('Tab')
    raise AssertionError(f'"{name}" is not reached')


SHEET = 210, 297        # mm, as the photo laid flat is


def seen_rings(photo, thick, foot_up):
    """The edges as the command finds them, sheet mm."""
    told = subprocess.run([os.environ['PRITCHEL_COMMAND'], 'trace', photo, '--shoe', '--thickness', thick + 'mm', '--face',
                           'foot' if foot_up else 'ground', '--json', '-'], check=True, capture_output=True, text=True).stdout
    return json.loads(told)['seen']


def size_told(app):
    """The forged shoe's length, the first of the sizes, mm; it may have been scrolled out of sight."""
    return drive.wait_for('its length', lambda: next(
        (drive.number(node.name) for node in app.walk() if re.match(r'[\d.]+ mm \([+−±]', node.name or '')), None))


def draw_toe(app, seen, out):
    """With the pointer, round the foremost part of the outer edge, OUT mm before it."""
    area = app.find_seen('Photo to draw on')
    box = app.at_rest(area)
    scale = min((box.width - 48) / SHEET[0], (box.height - 48) / SHEET[1])
    top = min(y for _, y in seen['outer_mm'])
    line = [(x, y - out) for x, y in seen['outer_mm'] if y < top + 22]
    at = [(app.x0 + box.x + round(box.width / 2 + scale * (x - SHEET[0] / 2)),
           app.y0 + box.y + round(box.height / 2 + scale * (y - SHEET[1] / 2)))
          for x, y in line[::max(len(line) // 40, 1)]]
    app.point(*at[0])
    drive.xdo('mousedown', 1)
    for spot in at:
        app.point(*spot)
    if out > 4:
        app.picture('edge-under-the-lens')
    drive.xdo('mouseup', 1)


def an_edge_is_drawn_anew(app, seen):
    """Drawn six millimetres beyond where the shoe has it, undone, then four; the length of that. The photo shows the upper edge
    further out by some part of a millimetre more, by which the shoe becomes less long."""
    before = size_told(app)
    press(app, 'Draw its edges by hand')
    app.find_seen('Draw the edges of the shoe')
    app.picture('edges')
    draw_toe(app, seen, 6)
    drive.wait_for('a longer shoe', lambda: 3.5 < size_told(app) - before < 6)
    app.picture('edge-drawn')
    drive.key('ctrl+z')
    drive.wait_for('the edge as it was', lambda: size_told(app) == before)
    draw_toe(app, seen, 4)
    drive.wait_for('a shoe less long', lambda: 1 < size_told(app) - before < 4)
    app.click(app.find_seen('Done', 'push button'))
    app.find_seen('Whole shoe', 'push button')
    return size_told(app)


def attempts():
    return drive.peek_book('select count(*) from attempt')


def needed():
    return json.loads(drive.peek_book('select json from plan'))['stock.own']


def cut_by_own(app):
    """Of a shoe that took more than the model says; told of in the part Stock, used when it is ticked, and undone."""
    off = drive.peek_book('select cut_mm / predicted_mm - 1 from attempt')
    assert 0.01 < off < 0.15, off
    app.click(app.find_seen('Stock', 'push button'))
    app.says('by your last 1 shoe')
    assert needed() == 0
    app.click(app.find_seen('Cut by my own figure', 'check box'))
    drive.wait_for('the own figure', lambda: abs(needed() - 0.8 * off) < 1e-4)     # of one attempt 4/5
    app.picture('own-figure')
    drive.key('ctrl+z')
    drive.wait_for('the model again', lambda: needed() == 0)
    drive.wait_for('no tick', lambda: not app.find('Cut by my own figure', 'check box').has(drive.tree.CHECKED))


def on_the_vets_sheet(app):
    """What is kept with the foot is the picture after, though the board shows the plan."""
    folder = drive.home() + '/vet'
    os.makedirs(folder)
    app.menu('Sheet for the vet…')
    app.into('Sheet for the vet')
    app.picture('forged-vet')
    drive.key('alt+e')
    app.into("Without the owner's permission?")
    drive.key('alt+g')
    app.open_file('Export the sheet for the vet', folder)
    drive.window_goes('^Sheet for the vet$')
    app.back()
    pdf = next(name for name in os.listdir(folder) if name.endswith('-vet.pdf'))
    said = subprocess.run(['pdftotext', '-layout', f'{folder}/{pdf}', '-'], check=True, capture_output=True, text=True).stdout
    assert 'After: the forged shoe on its plan' in said and 'As forged' in said, said


def main():
    photo, thick, foot_up, cut = shoe_of_the_plan()
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.click(app.find_seen('Shoe', 'push button'))          # folded, all parts are in sight
    app.click(app.find_seen('After the fire', 'push button'))
    if foot_up:
        app.choose(app.find_seen('Face up', 'combo box'), 'Down')
    app.click(app.find_seen('Thickness of the shoe', 'text'))
    drive.key('ctrl+a')
    drive.type_text(thick)
    choose(app, sys.argv[1])
    app.says('shoe')                      # a tracing is none
    assert app.is_there('Heel, lateral')
    drive.key('Escape')

    choose(app, photo)
    app.find_seen('Between plan and forged shoe', 'slider')
    drive.wait_for('nothing to take hold of', lambda: not app.is_there('Heel, lateral'))
    length = drive.wait_for('its length', lambda: next(
        (node.name for node in app.walk() if 'mm (' in node.name and node.seen()), None))
    assert abs(drive.number(length) - 138.2) < 3, length
    app.picture('forged')
    for key in ('Home', 'End'):
        app.click(app.find_seen('Between plan and forged shoe', 'slider'))
        drive.key(key)
        app.picture(f'forged-{key}')
    assert attempts() == 0
    drawn = an_edge_is_drawn_anew(app, seen_rings(photo, thick, foot_up))
    paper = drive.home() + '/on-paper.pdf'
    press(app, 'Export it')
    app.open_file('Export the comparison', paper)
    drive.wait_for('the comparison as a file', lambda: os.path.exists(paper))
    said = subprocess.run(['pdftotext', '-layout', paper, '-'], check=True, capture_output=True, text=True).stdout
    assert '1 : 1' in said or '1:1' in said, said
    press(app, 'Print it')
    app.into('Print')
    drive.key('Escape')
    drive.window_goes('Print')
    app.back()
    press(app, 'Length of the cut')
    drive.type_text(f'{cut:.0f} mm')
    press(app, 'Keep it with this visit')
    drive.wait_for('the attempt', lambda: attempts() == 1)
    app.says(' at most')
    assert drive.peek_book('select length(photo) from attempt') == os.path.getsize(photo)
    found = json.loads(drive.peek_book('select compared from attempt'))
    assert abs(found['summary']['length_mm'] - drawn) < 0.06, drawn
    assert len(found['offsets']) > 100 and found['seen']['face'] == ('foot' if foot_up else 'ground')
    press(app, 'Back to the plan')
    app.find('Heel, lateral')
    on_the_vets_sheet(app)
    cut_by_own(app)
    app.close()


drive.on_a_desk(main)
