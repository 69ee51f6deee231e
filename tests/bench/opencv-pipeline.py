#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The same work done plainly with OpenCV, for bench-photo to be held against: read the photo, find
the printed sheet by its fiducials, lay it flat at 8 px per mm, even out the light, binarise, thin,
take the long curve. No lens term, no sub-pixel middle, no gaps bridged, no doubts told: less than
what it is compared with. Prints the median time of ROUNDS runs, ms, and how many points the
curve has.
    opencv-pipeline.py PHOTO ROUNDS WIDTH HEIGHT TAG... (sheet mm; a tag: its id and corners)"""
import sys
import time

try:
    import cv2
    import numpy as np
except ImportError:
    sys.exit(77)

SCALE = 8.0


def thin(ink):
    if hasattr(cv2, "ximgproc"):
        return cv2.ximgproc.thinning(ink)
    cross = cv2.getStructuringElement(cv2.MORPH_CROSS, (3, 3))
    skeleton = np.zeros_like(ink)
    while cv2.countNonZero(ink):
        eroded = cv2.erode(ink, cross)
        skeleton |= cv2.subtract(ink, cv2.dilate(eroded, cross))
        ink = eroded
    return skeleton


def trace(file, tags, size):
    photo = cv2.imread(file)
    grey = cv2.cvtColor(photo, cv2.COLOR_BGR2GRAY)
    detector = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    options = cv2.aruco.DetectorParameters_create()
    options.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    corners, ids, _ = cv2.aruco.detectMarkers(grey, detector, parameters=options)
    px = np.concatenate([c[0] for c, i in zip(corners, ids.ravel()) if i in tags])
    mm = np.concatenate([tags[i] for i in ids.ravel() if i in tags])
    h, _ = cv2.findHomography(px, mm * SCALE)
    flat = cv2.warpPerspective(photo, h, (int(size[0] * SCALE), int(size[1] * SCALE)))
    flat = cv2.cvtColor(flat, cv2.COLOR_BGR2GRAY)
    paper = cv2.GaussianBlur(cv2.morphologyEx(flat, cv2.MORPH_CLOSE, np.ones((81, 81))), (0, 0), 12)
    even = cv2.divide(flat, paper, scale=255)
    ink = cv2.adaptiveThreshold(even, 255, cv2.ADAPTIVE_THRESH_GAUSSIAN_C, cv2.THRESH_BINARY_INV,
                                61, 12)
    ink = cv2.morphologyEx(ink, cv2.MORPH_OPEN, np.ones((3, 3)))
    line = thin(ink)
    rings, _ = cv2.findContours(line, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    return max(rings, key=lambda r: cv2.arcLength(r, False))


def main():
    numbers = sys.argv[5:]
    tags = {}
    for k in range(0, len(numbers), 9):
        tags[int(numbers[k])] = np.array(numbers[k + 1:k + 9], np.float64).reshape(4, 2)
    times = []
    for _ in range(int(sys.argv[2])):
        start = time.perf_counter()
        curve = trace(sys.argv[1], tags, (float(sys.argv[3]), float(sys.argv[4])))
        times.append((time.perf_counter() - start) * 1000)
    print(f"{sorted(times)[len(times) // 2]:.0f} {len(curve)}")


main()
