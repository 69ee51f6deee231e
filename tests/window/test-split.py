# SPDX-License-Identifier: GPL-3.0-or-later
"""A line across the board: to its left the foot as it came, to its right the shoe. By pointer and by keyboard; what it
stands at is told."""
import subprocess
import sys

import drive

SHOE = (212, 216, 220)       # what fills a shoe in the light


def iron(app, left, right):
    """Share of the shoe's own colour among the board's pixels between two shares of its width."""
    box = app.find('Board').box()
    x, y, _, _ = drive.geometry(app.xid)
    area = (int(box.width * (right - left)), box.height - 80, x + app.x0 + box.x + int(box.width * left),
            y + app.y0 + box.y + 10)
    data = subprocess.run(['import', '-window', 'root', '-crop', '%dx%d+%d+%d' % area, '-depth', '8', 'rgb:-'],
                          check=True, capture_output=True).stdout
    n = sum(all(abs(data[i + c] - SHOE[c]) < 6 for c in range(3)) for i in range(0, len(data), 12))
    return n / (len(data) / 12)



def main():
    app = drive.App(sys.argv[1])
    app.find('Heel, lateral')
    both = drive.wait_for('the shoe', lambda: iron(app, 0, 0.5) > 0.02 and iron(app, 0.5, 1) > 0.02)
    assert both
    app.click(app.find_seen('Before and after', 'push button'))
    line = app.find_seen('Before and after', 'slider')
    drive.wait_for('half of the shoe', lambda: iron(app, 0, 0.49) < 0.001 and iron(app, 0.51, 1) > 0.02)
    assert not any(node.name == 'Heel, lateral' and node.seen() for node in app.walk()), 'nothing to take hold of'
    app.picture('split')

    box = line.box()
    x, y = app.x0 + box.x + box.width // 2, app.y0 + box.y + box.height // 2
    app.go_to(x, y)
    drive.xdo('mousedown', 1, *app._to(x - box.width // 8, y), *app._to(x - box.width // 4, y))
    drive.wait_for('more of the shoe', lambda: iron(app, 0.26, 0.49) > 0.02 and iron(app, 0, 0.24) < 0.001)
    drive.xdo('mouseup', 1)
    app.keyboard_in('the line', lambda node: node.role == 'slider')
    drive.key('End')
    drive.wait_for('no shoe', lambda: iron(app, 0, 1) < 0.001)
    drive.key('Home')
    drive.wait_for('all of the shoe', lambda: iron(app, 0, 0.5) > 0.02 and iron(app, 0.5, 1) > 0.02)
    app.click(app.find_seen('Before and after', 'push button'))
    app.find_seen('Heel, lateral')
    app.close()


drive.on_a_desk(main)
