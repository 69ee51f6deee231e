#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The plainest way from a photo to an outline that OpenCV offers, for photo-to-outline.py to hold the program
against: read, corners, warp at 8 px per mm, adaptive threshold, close, components, contour. No lens term, no
sub-pixel middle, no heels, no doubts: less than what it is compared with. Prints its own time, ms, without the
interpreter's start, and how many points the contour has.
    plain-pipeline.py PHOTO tags|plain WIDTH HEIGHT   (of the sheet, mm)"""
import sys
import time

import cv2
import numpy as np

SCALE = 8
INSET = 10.0  # of the fiducials' outer corners from the sheet's, mm: as good as any for a time


def tag_corners(grey):
    detector = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    corners, ids, _ = cv2.aruco.detectMarkers(grey, detector)
    middle = np.array([c[0].mean(0) for c in corners], np.float32)
    if len(middle) < 4:
        raise SystemExit("no four fiducials")
    return middle[:4]


def sheet_corners(grey):
    small = cv2.resize(grey, None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA)
    _, light = cv2.threshold(cv2.GaussianBlur(small, (5, 5), 0), 0, 255, cv2.THRESH_OTSU)
    rings, _ = cv2.findContours(light, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    ring = max(rings, key=cv2.contourArea)
    four = cv2.approxPolyDP(ring, 0.02 * cv2.arcLength(ring, True), True)
    if len(four) != 4:
        four = cv2.boxPoints(cv2.minAreaRect(ring)).reshape(4, 1, 2)
    return four[:, 0].astype(np.float32) * 4


def trace(file, tags, size):
    photo = cv2.imread(file)
    grey = cv2.cvtColor(photo, cv2.COLOR_BGR2GRAY)
    px = tag_corners(grey) if tags else sheet_corners(grey)
    middle = px.mean(0)
    px = px[np.argsort(np.arctan2(px[:, 1] - middle[1], px[:, 0] - middle[0]))]
    inset = INSET if tags else 0
    mm = np.array([[inset, inset], [size[0] - inset, inset], [size[0] - inset, size[1] - inset],
                   [inset, size[1] - inset]], np.float32)
    flat = cv2.warpPerspective(photo, cv2.getPerspectiveTransform(px, mm * SCALE),
                               (int(size[0] * SCALE), int(size[1] * SCALE)))
    flat = cv2.cvtColor(flat, cv2.COLOR_BGR2GRAY)
    ink = cv2.adaptiveThreshold(flat, 255, cv2.ADAPTIVE_THRESH_GAUSSIAN_C, cv2.THRESH_BINARY_INV, 61, 12)
    ink = cv2.morphologyEx(ink, cv2.MORPH_CLOSE, np.ones((5, 5)))
    _, label, stats, _ = cv2.connectedComponentsWithStats(ink)
    largest = 1 + int(np.argmax(stats[1:, cv2.CC_STAT_AREA]))
    rings, _ = cv2.findContours((label == largest).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    return max(rings, key=len)


start = time.perf_counter()
ring = trace(sys.argv[1], sys.argv[2] == "tags", (float(sys.argv[3]), float(sys.argv[4])))
print(f"{(time.perf_counter() - start) * 1000:.1f} {len(ring)}")
