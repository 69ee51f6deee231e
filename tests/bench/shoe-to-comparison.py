#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""From the photo of a forged shoe to its comparison with the plan, the whole command against the plainest pipeline that OpenCV
offers (undistort, warp, threshold, contour, distance transform; no height, no doubts, no branch, no words: less than what it is
compared with). 12 megapixels, one run. Printed, never asserted by the clock.
    shoe-to-comparison.py PRITCHEL SHOE-MAKER PHOTO-OF-FOOT [ROUNDS]
    shoe-to-comparison.py --pipeline PHOTO PLAN.json     (the pipeline itself: its own time, ms)"""
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time

KINDS = ("steel", "rusty", "scale", "above")
SCALE, SIZE, INSET = 8, (210, 297), 10.0


def pipeline(photo, plan):
    import cv2
    import numpy as np
    start = time.perf_counter()
    picture = cv2.imread(photo)
    h, w = picture.shape[:2]
    eye = np.array([[0.72 * w, 0, w / 2], [0, 0.72 * w, h / 2], [0, 0, 1]])
    picture = cv2.undistort(picture, eye, np.array([0.01, 0, 0, 0]))
    grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY)
    corners, _, _ = cv2.aruco.detectMarkers(grey, cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11))
    px = np.array([c[0].mean(0) for c in corners], np.float32)[:4]
    if len(px) < 4:
        sys.exit("no four fiducials")
    middle = px.mean(0)
    px = px[np.argsort(np.arctan2(px[:, 1] - middle[1], px[:, 0] - middle[0]))]
    mm = np.array([[INSET, INSET], [SIZE[0] - INSET, INSET], [SIZE[0] - INSET, SIZE[1] - INSET],
                   [INSET, SIZE[1] - INSET]], np.float32)
    flat = cv2.warpPerspective(picture, cv2.getPerspectiveTransform(px, mm * SCALE), (SIZE[0] * SCALE, SIZE[1] * SCALE))
    dark = cv2.GaussianBlur(cv2.cvtColor(flat, cv2.COLOR_BGR2GRAY), (5, 5), 0)
    _, iron = cv2.threshold(dark, 0, 255, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)
    rings, _ = cv2.findContours(iron, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    ring = max(rings, key=cv2.contourArea)[:, 0]
    outer = np.array(json.load(open(plan, encoding="utf-8"))["shoe"]["outer_mm"], np.float32)
    edge = np.full((SIZE[1] * SCALE, SIZE[0] * SCALE), 255, np.uint8)
    cv2.polylines(edge, [np.int32((outer * (1, -1) + (105, 148)) * SCALE)], False, 0)
    away = cv2.distanceTransform(edge, cv2.DIST_L2, 5) / SCALE
    off = away[np.clip(ring[:, 1], 0, edge.shape[0] - 1), np.clip(ring[:, 0], 0, edge.shape[1] - 1)]
    print(f"{(time.perf_counter() - start) * 1000:.1f} {off.mean():.2f}")


def clock(command):
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, text=True)
    return (time.perf_counter() - start) * 1000, done


def main():
    pritchel, maker, foot = sys.argv[1:4]
    rounds = int(sys.argv[4]) if len(sys.argv) > 4 else 5
    ratios, wholes, ours_all = [], [], []
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([pritchel, "plan", foot, "-o", folder], check=True, capture_output=True)
        plan, photo = folder + "/report.json", folder + "/shoe.jpg"
        for kind in KINDS:
            for seed in ("1", "2", "3"):
                told = subprocess.run([maker, kind, seed, photo, plan], check=True, capture_output=True, text=True).stdout
                thick, face = re.search(r"([\d.]+) mm thick, (\w+)", told).groups()
                ours, own, whole = [], [], []
                for _ in range(rounds):
                    ms, done = clock([pritchel, "compare", plan, photo, "--thickness", thick + "mm", "--face", face,
                                      "--json", folder + "/compare.json"])
                    assert done.returncode == 0, done.stderr
                    ours.append(ms)
                    ms, done = clock(["/usr/bin/python3", os.path.abspath(__file__), "--pipeline", photo, plan])
                    if done.returncode:
                        break
                    whole.append(ms)
                    own.append(float(done.stdout.split()[0]))
                if not own:
                    print(f"{kind} {seed}: ours {statistics.median(ours):.0f} ms, the pipeline finds no sheet")
                    continue
                took = [statistics.median(v) for v in (ours, own, whole)]
                ours_all.append(took[0])
                ratios.append(took[0] / took[1])
                wholes.append(took[0] / took[2])
                print(f"{kind:8} {seed} {took[0]:5.0f} ms, pipeline {took[1]:5.0f} ms (process {took[2]:5.0f}): "
                      f"ratio {ratios[-1]:.2f} ({wholes[-1]:.2f})", flush=True)
    print(f"median of {len(ratios)}: {statistics.median(ours_all):.0f} ms, worst {max(ours_all):.0f}; ratio "
          f"{statistics.median(ratios):.2f}, to the whole process {statistics.median(wholes):.2f}")


if sys.argv[1] == "--pipeline":
    pipeline(*sys.argv[2:4])
else:
    main()
