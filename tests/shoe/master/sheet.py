#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every style that is made for a foot on one picture, both faces, as the program prints them: sheet.py PRITCHEL
FEET-MAKER FOLDER [--foot NAME] [--style ID] [--across N] [--dpi N]. Writes FOLDER/FOOT.png for a pony, a riding horse
and a draught foot, fore and hind, or the feet named. The drawings are cut from the pages of template.pdf; needs
pdftoppm."""
import argparse
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

import shoes

FEET = ['pony-fore', 'pony-hind', 'contest-130', 'riding-hind', 'draught-fore', 'draught-hind']
AROUND_MM = 27          # of the shoe that is shown beside it, for its figures and the letters L and M
INK = 250               # darker is drawn


def rule_below_title(page):
    """Row of the page's first long line, which closes its title."""
    long = (page.min(axis=2) < 160).sum(axis=1) > 0.8 * page.shape[1]
    return int(np.argmax(long)) if long.any() else 0


def axis_column(page, top):
    """Column of the dashed centre line: the one where ink and paper change most often, below the title. Lines of figures are
    whole, and letters are few in a column."""
    part = page[top:, page.shape[1] // 5: page.shape[1] * 4 // 5].min(axis=2) < INK
    return page.shape[1] // 5 + int((part[1:] != part[:-1]).sum(axis=0).argmax())


def drawing(page, report, dpi):
    """The shoe with a little around it, found by the centre line and the shoe's size in the report."""
    points = np.array([p for ring in report['shoe']['figure_mm'] for p in ring]
                      + [p for c in report['shoe']['clips'] for p in c['ring_mm']] + report['hoof']['outline_mm'])
    px = dpi / 25.4
    half, tall = (np.abs(points[:, 0]).max() + AROUND_MM) * px, np.ptp(points[:, 1]) * px
    top = rule_below_title(page) + 3
    middle = axis_column(page, top)
    band = page[top:, max(0, int(middle - 0.5 * half)): int(middle + 0.5 * half)].min(axis=2) < INK
    rows = np.flatnonzero(band.any(axis=1))
    # lettering stands above the drawing: its first row with ink at the centre line begins the shoe
    line = np.flatnonzero((page[top:, middle - 1: middle + 2].min(axis=2) < INK).any(axis=1))
    first = top + int(line[0] if len(line) else rows[0])
    return page[max(0, first - int(7 * px)): first + int(tall + 32 * px), max(0, int(middle - half)): int(middle + half)]


def pages(program, foot, style, unit_bar, folder, dpi):
    """Foot surface and ground surface, cut out; or nothing when the program refuses."""
    out = os.path.join(folder, f'{foot.name}-{style}')
    command = [program, 'plan', foot.path, '--style', style, '--bar', unit_bar, '--page', 'a3', '--anyway', '-o', out]
    if shoes.is_contest(style):
        command += ['--given', shoes.CONTEST_GIVEN['mm']]
    done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    if done.returncode:
        print(f'{foot.name} {style}: {done.stderr.decode().strip()}', file=sys.stderr)
        return []
    subprocess.run(['pdftoppm', '-r', str(dpi), '-png', os.path.join(out, 'template.pdf'), os.path.join(out, 'page')],
                   check=True)
    with open(os.path.join(out, 'report.json'), encoding='utf-8') as file:
        report = shoes.json.load(file)
    names = sorted(name for name in os.listdir(out) if name.startswith('page'))
    return [drawing(cv2.imread(os.path.join(out, name)), report, dpi) for name in names[:2]]


def cell(picture, size, label):
    """PICTURE in the middle of a white cell, with a line of text above."""
    wide, tall = size
    out = np.full((tall + 26, wide, 3), 255, np.uint8)
    h, w = picture.shape[:2]
    x, y = (wide - w) // 2, 26
    out[y:y + h, x:x + w] = picture
    cv2.putText(out, label, (8, 18), cv2.FONT_HERSHEY_SIMPLEX, 0.5, (0, 0, 0), 1, cv2.LINE_AA)
    return out


def contact(cut, across):
    """CUT: (label, picture) each; ACROSS in a row."""
    size = max(p.shape[1] for _, p in cut) + 8, max(p.shape[0] for _, p in cut) + 4
    cells = [cell(picture, size, label) for label, picture in cut]
    while len(cells) % across:
        cells.append(np.full_like(cells[0], 255))
    return np.vstack([np.hstack(cells[i:i + across]) for i in range(0, len(cells), across)])


def main():
    parser = argparse.ArgumentParser(description='Draw every style on a foot, both faces.')
    parser.add_argument('program')
    parser.add_argument('maker')
    parser.add_argument('folder')
    parser.add_argument('--foot', action='append')
    parser.add_argument('--style', action='append')
    parser.add_argument('--across', type=int, default=6)
    parser.add_argument('--dpi', type=int, default=60)
    args = parser.parse_args()
    os.makedirs(args.folder, exist_ok=True)
    with tempfile.TemporaryDirectory() as work:
        table = shoes.feet(args.maker, work)
        for foot in [f for f in table if f.name in (args.foot or FEET)]:
            cut = []
            for style, made_for in shoes.styles().items():
                if shoes.fits(style, made_for, foot) and (not args.style or style in args.style):
                    bar = shoes.CONTEST_BAR['mm'] if shoes.is_contest(style) else foot.bar('mm')
                    for face, picture in zip(('foot', 'ground'), pages(args.program, foot, style, bar, work, args.dpi)):
                        cut.append((f'{style}: {face}', picture))
            if cut:
                cv2.imwrite(os.path.join(args.folder, foot.name + '.png'), contact(cut, args.across))


if __name__ == '__main__':
    main()
