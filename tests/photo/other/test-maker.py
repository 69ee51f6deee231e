#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""That maker and judge tell the truth: what the truth says lies where the photo shows it, and a wrong answer is seen.
Run as `test-maker.py PRITCHEL`."""
import json
import os
import shutil
import sys
import tempfile
import unittest

try:
    import cv2
    import numpy as np
except ImportError:
    print("OpenCV for Python is not here: skipped")
    sys.exit(77)
if shutil.which("pdftoppm") is None:
    print("pdftoppm is not here: skipped")
    sys.exit(77)

sys.dont_write_bytecode = True
import foot
import judge
import lens
import maker
import scene

PROGRAM = os.path.abspath(sys.argv.pop(1))
MARGIN = 10.0  # mm, PR_TAG_MARGIN_MM


def camera(bow=0.0, k1=0.07, off=(9.0, -5.0)):
    cam = lens.Camera(3000, 4000, 3100, k1, off)
    cam.bow_axis, cam.bow_mid, cam.bow_half, cam.bow_rise = 1, 148.5, 148.5, bow
    cam.fill(np.array([[0, 0], [210, 0], [210, 297], [0, 297.0]]), (105, 148), 0.5, 1.1, 0.2, 0.85)
    return cam


class Cameras(unittest.TestCase):
    def test_there_and_back(self):
        p = np.random.default_rng(1).uniform([0, 0], [210, 297], (200, 2))
        for bow in (0.0, 9.0, -6.0):
            cam = camera(bow)
            self.assertLess(np.abs(cam.to_sheet(cam.to_photo(p)) - p).max(), 2e-4 if bow else 1e-8)

    def test_a_bowed_sheet_keeps_its_length(self):
        cam = camera(12.0)
        line = cam.surface(np.c_[np.full(2000, 50.0), np.linspace(0, 297, 2000)])
        self.assertAlmostEqual(np.linalg.norm(np.diff(line, axis=0), axis=1).sum(), 297, 3)
        self.assertAlmostEqual(np.ptp(line[:, 2]), 12, 3)


class Framing(unittest.TestCase):
    def test_one_edge_is_out_and_the_fiducials_are_in(self):
        for seed in range(8):
            s = scene.Scene(np.random.default_rng(seed), 1, "")
            s.lost_edge, s.tilt, s.roll = seed % 4, np.radians(seed), 0.0
            cam = s.camera()
            w, h = s.size
            last = np.array([cam.width, cam.height]) - 1
            corners, tags = (cam.to_photo(np.array([[m, m], [w - m, m], [w - m, h - m], [m, h - m]], float))
                             for m in (0, MARGIN))
            room = [np.minimum(p, last - p).min(1) for p in (corners, tags)]
            lost = s.on_side(s.lost_edge)[:, 0] > 0
            self.assertLess(room[0][lost].max(), -5)
            self.assertGreater(min(room[0][~lost].min(), room[1].min()), 8)


class Photos(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.dir = tempfile.TemporaryDirectory()
        path = os.path.join(cls.dir.name, "000")
        tile = lens.noise_tile(np.random.default_rng(1))
        maker.make("closed-cleft", 1, 11, PROGRAM, path, tile)
        cls.grey = cv2.imread(path + ".jpg", cv2.IMREAD_GRAYSCALE)
        with open(path + ".json", encoding="utf-8") as f:
            cls.truth = json.load(f)
        cls.cam = lens.Camera.from_told(cls.truth["camera"])

    @classmethod
    def tearDownClass(cls):
        cls.dir.cleanup()

    def test_ink_is_where_the_line_is(self):
        line = foot.even(np.array(self.truth["feet"][0]["line_mm"]))[20:-20:8]
        d = np.gradient(line, axis=0)
        n = np.c_[-d[:, 1], d[:, 0]] / np.hypot(*d.T)[:, None]
        across = np.linspace(-2.2, 2.2, 45)
        px = self.cam.to_photo((line[:, None] + n[:, None] * across[None, :, None]).reshape(-1, 2)).astype(np.float32)
        seen = cv2.remap(self.grey, px[:, 0], px[:, 1], cv2.INTER_LINEAR).reshape(len(line), -1).astype(float)
        ink = np.clip(np.median(seen, axis=1)[:, None] - seen, 0, None) ** 2
        middle = (ink * across).sum(1) / ink.sum(1)
        self.assertLess(abs(np.median(middle)), 0.05)
        self.assertLess(np.linalg.norm(np.linalg.lstsq(n, middle, rcond=None)[0]), 0.05)
        self.assertLess(np.percentile(np.abs(middle), 90), 0.35)

    def test_fiducials_are_where_the_sheet_says(self):
        w, h = self.truth["size_mm"]
        near = MARGIN
        want = np.array([[near, near], [w - near, near], [w - near, h - near], [near, h - near]])
        found, ids, _ = cv2.aruco.detectMarkers(self.grey, cv2.aruco.Dictionary_get(cv2.aruco.DICT_APRILTAG_36h11))
        self.assertEqual(len(found), 4)
        got = self.cam.to_sheet(np.array(found).reshape(-1, 2))
        for corner in want:
            self.assertLess(np.hypot(*(got - corner).T).min(), 0.35)


def answer(truth, cam, line):
    """What a program would say that found LINE and the true scale."""
    c = np.array([[0, 0], [210, 0], [210, 297], [0, 297.0]])
    flat = lens.Camera.from_told({**cam.told(), "k1": 0.0})
    h = cv2.getPerspectiveTransform(c.astype(np.float32), flat.to_photo(c).astype(np.float32))
    return {"scale": {"verdict": "good", "why": "", "lens_k1": cam.k1, "reasons": []}, "closed": False, "doubt": [],
            "camera": {"h": h.ravel().tolist(), "centre_x": cam.middle[0], "centre_y": cam.middle[1],
                       "radius": cam.radius}, "outline_mm": line.tolist()}


class Judging(unittest.TestCase):
    def setUp(self):
        self.cam = camera(off=(0.0, 0.0))
        f = foot.Foot(np.random.default_rng(2), 130).put(0, (105, 140))
        self.truth = {"camera": self.cam.told(), "hidden_mm": [], "closed": False, "sheet": "plain", "expected": {}, "feet": [
            {"line_mm": f.line.tolist(), "heels_mm": f.heels.tolist(), "toe_mm": f.toe.tolist(), "bulbs_mm": None}]}
        self.line = f.line[::3]

    def faults(self, line, **more):
        d = answer(self.truth, self.cam, line)
        d.update(more)
        self.m = judge.measure(d, self.truth)
        return judge.faults(self.m, self.truth)

    def test_the_truth_has_no_fault(self):
        self.assertEqual(self.faults(self.line), [])
        self.assertLess(self.m["line"], 0.01)
        self.assertLess(abs(self.m["scale"]), 0.01)

    def test_a_heel_cut_off_is_seen_unless_doubted(self):
        self.assertTrue(any("heel" in f for f in self.faults(self.line[12:])))
        total = foot.length(self.line[12:])
        doubt = [{"from_mm": 0, "to_mm": 15, "why": ""}]
        self.assertEqual(self.faults(self.line[12:], doubt=doubt), [], f"{total:.0f} mm")

    def test_a_wrong_scale_is_seen(self):
        mid = self.line.mean(0)
        d = answer(self.truth, self.cam, self.line)
        h = np.array(d["camera"]["h"]).reshape(3, 3) @ np.array([[1 / 1.02, 0, 0], [0, 1 / 1.02, 0], [0, 0, 1]])
        found = self.faults(self.line * 1.02, camera={**d["camera"], "h": h.ravel().tolist()})
        self.assertTrue(any("scale" in f for f in found), mid)
        self.assertAlmostEqual(self.m["scale"], 2, 2)
        self.assertLess(self.m["ink"], 0.01)

    def test_a_line_beside_the_ink_is_seen(self):
        off = self.line.copy()
        off[150:200] += [3, 3]
        self.assertTrue(any("silence" in f for f in self.faults(off)))


if __name__ == "__main__":
    unittest.main()
