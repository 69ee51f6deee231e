# SPDX-License-Identifier: GPL-3.0-or-later
"""A specimen, photographed with either face up, is asked about and opened as a job of its own: a plan of its size, its iron in
the photo under the plan, no foot's measures. It is there again after a restart, and the horse that was open stays as it was."""
import json
import os
import subprocess
import sys

import drive

SHOES = {'foot': '1', 'ground': '2'}       # seeds by the face that is up


def scene(seed):
    """A photo of a steel shoe: the file, and what its maker says of it."""
    photo = f'{drive.home()}/specimen-{seed}.jpg'
    told = subprocess.run([os.environ['PRITCHEL_SHOES'], 'steel', seed, photo], check=True, capture_output=True,
                          text=True).stdout
    return photo, told


def width_by_command(photo, thick, face):
    folder = f'{drive.home()}/by-command-{face}'
    subprocess.run([os.environ['PRITCHEL_COMMAND'], 'plan', photo, '--specimen', '--foot', 'RF', '--thickness', thick + 'mm',
                    '--face', face, '--anyway', '-o', folder], check=True, capture_output=True)
    with open(folder + '/report.json', encoding='utf-8') as file:
        return json.load(file)['plan']


def ask(app, photo, thick, face):
    app.menu('Plan from a specimen…')
    app.into('Plan from a specimen')
    app.click(app.find_seen('Photo of the specimen…', 'push button'))
    app.says('how thick the shoe is')
    app.choose(app.find_seen('Foot', 'combo box'), 'Down')
    if face == 'foot':
        app.choose(app.find_seen('Face up', 'combo box'), 'Down')
    app.click(app.find_seen('Thickness of the shoe', 'text'))
    drive.type_text(thick + ' mm')
    app.click(app.find_seen('Photo of the specimen…', 'push button'))
    app.open_file('Open a photo of the specimen', photo)


def plans():
    return drive.peek_book('select count(*) from plan')


def main():
    app = drive.App(sys.argv[1])
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    first = plans()
    before = drive.peek_book('select json from plan')
    for n, (face, seed) in enumerate(SHOES.items(), 1):
        photo, told = scene(seed)
        assert face + ' surface' in told, told
        thick = told.split(', ')[2].split()[0]
        ask(app, photo, thick, face)
        drive.wait_for('the plan in the book', lambda n=n: plans() == first + n)
        app.find('Heel, lateral')
        app.says('specimen')
        app.picture('specimen-' + face)
        kept = json.loads(drive.peek_book('select json from plan order by foot desc limit 1'))
        made = width_by_command(photo, thick, face)
        for name in ('web.toe', 'web.heel.lateral', 'heel.past.medial'):
            assert abs(kept[name] - made[name]) < 0.01, (face, name, kept[name], made[name])
        trace = json.loads(drive.peek_book('select json from trace order by foot desc limit 1'))
        assert trace['specimen'] and trace['foot'] == 'RF'
    assert drive.peek_book("select count(*) from horse where name = 'Specimens'") == 1
    assert drive.peek_book('select json from plan order by foot limit 1') == before
    app.close()
    app = drive.App()
    app.fill_screen(1480, 880)
    app.find('Heel, lateral')
    app.says('specimen')
    app.picture('specimen-again')
    app.close()


drive.on_a_desk(main)
