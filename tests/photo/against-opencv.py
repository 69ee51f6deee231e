#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The camera's fit against OpenCV: findHomography, and undistortPoints for the lens term."""
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
rng = np.random.default_rng(7)


def homography():
    """Sheet corners somewhere sensible in the photo."""
    mm = np.array([[0, 0], [210, 0], [210, 297], [0, 297]], np.float32)
    px = np.array([[300, 400], [2600, 420], [2700, 3600], [250, 3500]], np.float32)
    return cv2.getPerspectiveTransform(mm, (px + rng.uniform(-150, 150, (4, 2))).astype(np.float32))


def case(n, noise, k1):
    h = homography()
    mm = rng.uniform([5, 5], [205, 292], (n, 2))
    px = cv2.perspectiveTransform(mm[None], h)[0]
    if k1:
        # our term, r over the half diagonal, as OpenCV's k1 with a camera matrix of R
        k = np.array([[R, 0, CENTRE[0]], [0, R, CENTRE[1]], [0, 0, 1]])
        flat = np.c_[(px - CENTRE) / R, np.ones(n)]
        px, _ = cv2.projectPoints(flat, np.zeros(3), np.zeros(3), k, np.array([k1, 0, 0, 0, 0.0]))
        px = px[:, 0]
    return mm, px + rng.normal(0, noise, (n, 2)) if noise else px


def ask(program, mm, px, lens):
    text = f"{W} {H} {len(mm)} {int(lens)}\n"
    text += "".join(f"{a!r} {b!r} {c!r} {d!r}\n" for (a, b), (c, d) in
                    zip(mm.tolist(), px.tolist()))
    out = subprocess.run([program], input=text, capture_output=True, text=True, check=True).stdout
    v = np.array([float(x) for x in out.split()])
    return v[:9].reshape(3, 3), v[9], v[10:].reshape(-1, 2)


def main(program):
    worst = 0.0
    for trial in range(30):
        mm, px = case(int(rng.integers(6, 30)), 0.3, 0)
        h, k1, _ = ask(program, mm, px, False)
        want, _ = cv2.findHomography(mm, px, 0)
        grid = np.mgrid[0:211:21, 0:298:33].reshape(2, -1).T.astype(float)
        a = cv2.perspectiveTransform(grid[None], h)[0]
        b = cv2.perspectiveTransform(grid[None], want / want[2, 2])[0]
        worst = max(worst, np.abs(a - b).max())
        assert k1 == 0
    assert worst < 0.02, f"homographies differ by {worst} px"
    for k1 in (-0.09, -0.03, 0.05, 0.09):
        mm, px = case(40, 0, k1)
        h, got, back = ask(program, mm, px, True)
        assert abs(got - k1) < 1e-6, (got, k1)
        assert np.abs(back - mm).max() < 1e-5
        k = np.array([[R, 0, CENTRE[0]], [0, R, CENTRE[1]], [0, 0, 1]])
        term = (cv2.TERM_CRITERIA_COUNT | cv2.TERM_CRITERIA_EPS, 100, 1e-12)
        flat = cv2.undistortPointsIter(px[:, None], k, np.array([k1, 0, 0, 0, 0.0]), None, k, term)
        again = cv2.perspectiveTransform(flat, np.linalg.inv(h))[:, 0]
        assert np.abs(again - mm).max() < 1e-3, np.abs(again - mm).max()
    print(f"camera against OpenCV: homographies within {worst:.5f} px")


main(sys.argv[1])
