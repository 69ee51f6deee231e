#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds a sharp scene against its truth with OpenCV: check-scene.py SCENE-MAKER.

Fiducial corners (found by OpenCV's aruco module) lie within 0.3 px of where the true camera puts
them; their numbers tell paper and foot; across the stroke the ink's centre of gravity lies within
0.1 mm of the true line."""
import json
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

TAG_MM, MARGIN_MM, BASE = 24.0, 10.0, 40
PAPERS = {"A4": (210, 297), "Letter": (215.9, 279.4), "A3": (297, 420), "Tabloid": (279.4, 431.8)}
FEET = ["any", "LF", "RF", "LH", "RH"]


def project(camera, points):
    """Sheet mm to photo pixels: homography, then photo = c + (q - c)(1 + k1 r2)."""
    h = np.array(camera["h"]).reshape(3, 3)
    p = np.column_stack([points, np.ones(len(points))]) @ h.T
    d = p[:, :2] / p[:, 2:] - camera["centre"]
    r2 = (d ** 2).sum(axis=1, keepdims=True) / camera["radius"] ** 2
    return camera["centre"] + d * (1 + camera["k1"] * r2)


def make(maker, folder, **options):
    photo, truth = os.path.join(folder, "s.jpg"), os.path.join(folder, "s.json")
    subprocess.run([maker, photo, truth] + [f"{k}={v}" for k, v in options.items()], check=True)
    with open(truth, encoding="utf-8") as f:
        return cv2.imread(photo), json.load(f)


def tag_corners(paper, corner):
    width, height = PAPERS[paper]
    x = width - MARGIN_MM - TAG_MM if corner in (1, 2) else MARGIN_MM
    y = height - MARGIN_MM - TAG_MM if corner >= 2 else MARGIN_MM
    return np.array([(x, y), (x + TAG_MM, y), (x + TAG_MM, y + TAG_MM), (x, y + TAG_MM)])


def found_tags(picture):
    params = cv2.aruco.DetectorParameters_create()
    params.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    params.cornerRefinementWinSize = 7
    family = cv2.aruco.Dictionary_get(cv2.aruco.DICT_APRILTAG_36h11)
    corners, ids, _ = cv2.aruco.detectMarkers(cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY), family,
                                              parameters=params)
    return {} if ids is None else {int(i): c[0] for i, c in zip(ids.ravel(), corners)}


def check_tags(picture, truth):
    """Greatest distance in px between found and true corners; the order of a found tag's
    corners is OpenCV's own, so each true corner takes the nearest found one."""
    options = truth["options"]
    tags, worst = found_tags(picture), 0.0
    first = BASE + (list(PAPERS).index(options["paper"]) * 5 + FEET.index(options["foot"])) * 4
    assert sorted(tags) == list(range(first, first + 4)), (sorted(tags), first)
    for corner in range(4):
        want = project(truth["camera"], tag_corners(options["paper"], corner))
        dist = np.linalg.norm(want[:, None] - tags[first + corner][None], axis=2).min(axis=1)
        worst = max(worst, dist.max())
    return worst


def check_line(picture, truth, reach=2.2, step=0.05):
    """Offsets in mm of the ink's centre of gravity from the true line along its normal, and by how
    much that moves the line as a whole."""
    grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY).astype(np.float32)
    line = np.array(truth["line"])
    along = np.gradient(line, axis=0)
    normal = np.column_stack([-along[:, 1], along[:, 0]])
    normal /= np.linalg.norm(normal, axis=1, keepdims=True)
    at = np.arange(-reach, reach + step / 2, step)
    points = (line[:, None] + at[None, :, None] * normal[:, None]).reshape(-1, 2)
    px = project(truth["camera"], points).astype(np.float32).reshape(len(line), len(at), 2)
    value = cv2.remap(grey, px[..., 0], px[..., 1], cv2.INTER_LINEAR)
    ink = np.clip(np.percentile(value, 90, axis=1, keepdims=True) - 12 - value, 0, None)
    off = (ink * at).sum(axis=1) / ink.sum(axis=1)
    inside = slice(12, -12)              # the round ends of the stroke pull the balance along it
    return off[inside], np.abs(2 * (off[:, None] * normal)[inside].mean(axis=0)).max()


def main():
    maker, failed = sys.argv[1], 0
    sharp = {"blur_px": 0.6, "noise": 1, "jpeg_quality": 96}
    cases = [
        {"seed": 1, "foot": "LF", "paper": "A4"},
        {"seed": 2, "foot": "RF", "paper": "Letter", "tilt_deg": 30, "k1": -0.05, "turn_deg": -15},
        {"seed": 3, "foot": "RH", "paper": "A3", "k1": 0.03, "pen": "pencil", "bench": "concrete"},
        {"seed": 4, "foot": "LH", "paper": "Tabloid", "pen": "ballpoint", "bench": "rubber"},
        {"seed": 5, "foot": "any", "paper": "A4", "width": 1800, "height": 2400, "turn_deg": 95},
    ]
    with tempfile.TemporaryDirectory() as folder:
        for case in cases:
            picture, truth = make(maker, folder, **sharp, **case)
            corner = check_tags(picture, truth)
            off, moved = check_line(picture, truth)
            # grain and tremor make single stations stray; the whole may neither grow nor move
            far = np.percentile(np.abs(off), 99)
            good = corner < 0.3 and far < 0.1 and abs(off.mean()) < 0.005 and moved < 0.005
            failed += not good
            print(f"{'ok' if good else 'BAD'} {case['paper']} {case['foot']}: corners {corner:.3f} px, "
                  f"line mean {off.mean():+.4f}, moved {moved:.4f}, 99 % {far:.3f} mm")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
