# SPDX-License-Identifier: GPL-3.0-or-later
"""After the fire: a photo of the forged shoe is laid on its plan, tells what it is off by, is kept with its photo, and goes
again; a photo without a shoe is refused in a sentence and changes nothing."""
import json
import os
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
    return photo, told.split(', ')[2].split()[0], 'foot surface' in told, 1.05 * needed


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
    assert len(found['offsets']) > 100 and found['seen']['face'] == ('foot' if foot_up else 'ground')
    press(app, 'Back to the plan')
    app.find('Heel, lateral')
    on_the_vets_sheet(app)
    cut_by_own(app)
    app.close()


drive.on_a_desk(main)
