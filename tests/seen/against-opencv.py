#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Pose and height against OpenCV: solvePnP for where the camera stands, projectPoints for points above the sheet."""
import subprocess
import sys

try:
    import cv2
    import numpy as np
except ImportError:
    print("OpenCV for Python is not here: skipped")
    sys.exit(77)

W, H = 3000, 4000
CENTRE = np.array([(W - 1) / 2, (H - 1) / 2])
R = np.hypot(W, H) / 2
rng = np.random.default_rng(11)
SHEET = np.array([[x, y, 0.0] for x in (10, 34, 105, 176, 200) for y in (10, 34, 148, 263, 287)])


def stand(tilt, far):
    """Rotation and translation that look on the sheet's middle from FAR mm, TILT degrees off its normal."""
    way, turn = rng.uniform(0, 2 * np.pi), rng.uniform(-0.2, 0.2)
    lean = cv2.Rodrigues(np.radians(tilt) * np.array([np.cos(way), np.sin(way), 0]))[0]
    rot = lean @ cv2.Rodrigues(np.array([0, 0, turn]))[0]
    return rot, np.array([rng.uniform(-20, 20), rng.uniform(-20, 20), far]) - rot @ np.array([105, 148.5, 0])


def ask(program, h, focal35, k1, points):
    text = f"{W} {H} {focal35!r} {k1!r}\n" + " ".join(repr(v) for v in h.ravel().tolist()) + f"\n{len(points)}\n"
    text += "".join("%r %r %r\n" % tuple(p) for p in points.tolist())
    out = subprocess.run([program], input=text, capture_output=True, text=True, check=True).stdout
    v = np.array([float(x) for x in out.split()])
    return v[:5], v[5:].reshape(-1, 2)


def main(program):
    worst_stand = worst_px = worst_f = 0.0
    for trial in range(40):
        tilt, f, k1 = rng.uniform(0, 30), rng.uniform(2700, 4200), rng.uniform(-0.09, 0.09)
        rot, t = stand(tilt, rng.uniform(400, 700))
        k = np.array([[f, 0, CENTRE[0]], [0, f, CENTRE[1]], [0, 0, 1]])
        lens = np.array([k1 * f * f / R / R, 0, 0, 0, 0])  # our term has r over the half diagonal
        h = k @ np.c_[rot[:, 0], rot[:, 1], t]
        points = rng.uniform([40, 60, 0], [170, 230, 14], (20, 3))
        told = f * 36 / H if tilt < 15 else 0.0
        pose, seen = ask(program, h / h[2, 2], told, k1, points)

        px, _ = cv2.projectPoints(SHEET, cv2.Rodrigues(rot)[0], t, k, lens)
        _, rv, tv = cv2.solvePnP(SHEET, px, k, lens)
        eye = -cv2.Rodrigues(rv)[0].T @ tv[:, 0]
        assert pose[1] == (1 if told else 0)
        worst_f = max(worst_f, abs(pose[0] / f - 1))
        worst_stand = max(worst_stand, np.abs(pose[2:5] - [eye[0], eye[1], -eye[2]]).max())
        # heights are above the sheet, whose z goes into it
        want, _ = cv2.projectPoints(points * [1, 1, -1], rv, tv, k, lens)
        worst_px = max(worst_px, np.abs(seen - want[:, 0]).max())
    assert worst_f < 1e-6, worst_f
    assert worst_stand < 0.01, f"the camera stands {worst_stand} mm elsewhere"
    assert worst_px < 0.01, f"points above the sheet are seen {worst_px} px elsewhere"
    print(f"pose within {worst_stand:.5f} mm, points above the sheet within {worst_px:.5f} px")


main(sys.argv[1])
