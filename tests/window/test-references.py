# SPDX-License-Identifier: GPL-3.0-or-later
"""A fiducial that stands up from the sheet: the panel says that reference points do not fit and by how much, and
the hoof is as large as on the flat sheet."""
import os
import re
import subprocess

import cv2
import drive

MOVED = (9, -6)


def scene():
    photo = drive.home() + '/flat.jpg'
    subprocess.run([os.environ['PRITCHEL_SCENES'], photo, drive.home() + '/truth.json', 'width=1500',
                    'height=2000', 'seed=8'], check=True)
    return photo


def bent(photo):
    """The picture of the fiducial nearest to the top right corner moved a little."""
    picture = cv2.imread(photo)
    family = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    corners = cv2.aruco.detectMarkers(picture, family)[0]
    tag = max((c.reshape(4, 2) for c in corners), key=lambda c: c[:, 0].mean() - c[:, 1].mean())
    (x0, y0), (x1, y1) = tag.min(0).astype(int) - 12, tag.max(0).astype(int) + 12
    moved = picture.copy()
    moved[y0 + MOVED[1]:y1 + MOVED[1], x0 + MOVED[0]:x1 + MOVED[0]] = picture[y0:y1, x0:x1]
    cv2.imwrite(drive.home() + '/bent.jpg', moved, [cv2.IMWRITE_JPEG_QUALITY, 95])
    return drive.home() + '/bent.jpg'


def words(app, pattern):
    return next((found for found in (re.match(pattern, node.name or '') for node in app.walk()) if found),
                None)


def facts(photo):
    app = drive.App(photo)
    size = drive.wait_for('the measures', lambda: words(app, r'([\d.]+) × ([\d.]+) mm · '))
    app.click(app.find('Tracing', 'label'))
    points = drive.wait_for('the reference points', lambda: words(app, r'(\d+), the worst ([\d.]+) mm off'))
    outliers = app.is_there('Do not fit, ringed')
    app.picture('references')
    app.close()
    return float(size[1]), int(points[1]), float(points[2]), outliers


def main():
    flat = scene()
    width, points, worst, outliers = facts(flat)
    assert points == 16 and worst < 0.1 and not outliers, (points, worst, outliers)
    again, points, worst, outliers = facts(bent(flat))
    assert points == 16 and worst > 0.8 and outliers, (points, worst, outliers)
    assert abs(again - width) < 0.2, (width, again)


drive.on_a_desk(main)
