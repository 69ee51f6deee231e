# SPDX-License-Identifier: GPL-3.0-or-later
"""One scene: a sheet or board with what is drawn and lies on it, photographed, and the truth about it. Sheet frame: mm from
the upper left corner of the paper as cut (of the board), x right, y down, as a printed sheet is read."""
import json
import cv2
import numpy as np
import foot as feet
import lens
import stroke
import surface
from surface import SCALE

PAD = 200  # px round the sheet for shadows and things that lie beside


class Scene:
    def __init__(self, rng, level, program):
        self.rng, self.level, self.program = rng, level, program
        self.name, self.size = "a4", surface.PAPERS["a4"]
        self.printed, self.side = False, str(rng.choice(["LF", "RF", "LH", "RH"]))
        self.print_scale, self.print_off, self.print_askew = (1.0, 1.0), (0.0, 0.0), 0.0
        self.sheet = self.hole = None
        self.feet, self.items, self.hidden = [], [], []
        self.glare = self.over = None
        self.pad = PAD
        self.options, self.truth = [], {}
        self.floor = str(rng.choice(["wood", "concrete", "rubber", "mat", "tiles", "real"]))
        self.tilt = np.radians(rng.uniform(*[(1, 14), (6, 28), (18, 40)][level]))
        self.k1 = rng.uniform(-1, 1) * [0.02, 0.05, 0.09][level]
        self.roll = np.radians(rng.normal(0, [3, 8, 15][level]))
        self.share = rng.uniform(*[(0.82, 0.94), (0.7, 0.94), (0.6, 0.92)][level])
        self.quality = int(rng.integers(*[(88, 96), (80, 93), (70, 90)][level]))
        self.noise = rng.uniform(*[(0.8, 1.8), (1.5, 4), (3, 7.5)][level])
        self.bright = rng.uniform(*[(205, 238), (165, 228), (135, 205)][level])
        self.bow = None
        self.lost_edge = None
        self.frame_points = None
        self.marks = None
        self.bow_wanted = 0.0

    # --- sheet and feet

    def field(self):
        """Where a foot may lie: low and high corner, mm."""
        w, h = self.size
        m = (13, 38) if self.printed else (9, 9)
        return np.array(m, float), np.array([w - m[0], h - m[1]])

    def add_foot(self, width=None, turn=None, box=None, **how):
        """A foot that lies inside the field or BOX. TURN in degrees, clockwise."""
        rng = self.rng
        low, high = self.field() if box is None else box
        base = turn if turn is not None else 0 if self.printed or rng.random() < 0.6 else rng.choice([90, 180, 270])
        width = width if width else rng.uniform(98, 158)
        hind = self.side[1] == "H"
        for _ in range(40):
            f = feet.Foot(rng, width, hind=hind, **how)
            f.put(base + rng.normal(0, [2, 5, 8][self.level]), (0, 0))
            p = np.vstack(f.strokes())
            room = (high - low) - (p.max(0) - p.min(0))
            if (room > 1).all():
                break
            width *= 0.96
        move = low + rng.uniform(0.15, 0.85, 2) * room - p.min(0)
        for name in ("line", "round", "toe"):
            if getattr(f, name) is not None:
                setattr(f, name, getattr(f, name) + move)
        f.frog, f.ticks = [q + move for q in f.frog], [q + move for q in f.ticks]
        f.turn = base
        self.feet.append(f)
        return f

    def blank(self, rules=None):
        self.sheet = surface.paper(self.rng, self.size, self.level, rules)
        if self.printed:
            grey = surface.printed(self.program, self.name, self.side)
            surface.print_on(self.rng, self.sheet, grey, *self.print_scale, self.print_off, self.print_askew)

    def ink(self, pen, bulb_weight=1.0, weight=1.0, dashed=False):
        """Draws all feet with one pen."""
        rng = self.rng
        for f in self.feet:
            wide, colour = stroke.draw(rng, self.sheet, SCALE, f.line, pen, weight=weight)
            if self.level and rng.random() < 0.25:
                self.go_over(f, pen, wide, weight, colour)
            if f.round is not None:
                keep = None
                if dashed:
                    keep = stroke.waves(rng, len(f.round), feet.STEP, 5, 30) > rng.uniform(-0.7, 0.1)
                thin = 1.0 if bulb_weight == 1 else rng.uniform(0.6, 1.0)
                stroke.draw(rng, self.sheet, SCALE, f.round, pen, wide * thin, bulb_weight * weight, colour, keep)
            for p in f.frog + f.ticks:
                stroke.draw(rng, self.sheet, SCALE, p, pen, wide * rng.uniform(0.6, 1.0), rng.uniform(0.7, 1) * weight, colour)
            f.wide = wide

    def go_over(self, f, pen, wide, weight, colour):
        """A stretch drawn a second time, not quite on the first."""
        rng, n = self.rng, len(f.line)
        a = rng.integers(40, n // 2)
        p = f.line[a:a + int(rng.uniform(25, 90) / feet.STEP)]
        off = np.sin(np.linspace(0, np.pi, len(p))) * rng.uniform(-0.45, 0.45) * wide
        d = np.gradient(p, axis=0) / feet.STEP
        stroke.draw(rng, self.sheet, SCALE, p + np.c_[-d[:, 1], d[:, 0]] * off[:, None], pen, wide * 0.9, weight, colour)

    def words(self, colour=(60, 50, 50)):
        """What is written beside: a name, a date, a length."""
        rng, f = self.rng, self.feet[0]
        low, high = self.field()
        p = np.vstack(f.strokes())
        rooms = [(low[1], p[:, 1].min() - 4), (p[:, 1].max() + 4, high[1])]
        for k, (a, b) in enumerate(rooms):
            if b - a > 11:
                text = str(rng.choice(stroke.NAMES)) if k == 0 else f"{rng.integers(1, 29)}.{rng.integers(1, 13)}.  {self.side}"
                at = (rng.uniform(low[0] + 3, low[0] + 40), rng.uniform(a + 8, b))
                stroke.write(rng, self.sheet, SCALE, at, text, rng.uniform(4, 8), colour)
        if self.printed:
            stroke.write(rng, self.sheet, SCALE, (52, 32), str(rng.choice(stroke.NAMES)), 4, colour)

    # --- what lies on the board

    def lay_item(self, bgra, at, turn):
        """A flat thing whose middle lies AT mm, turned TURN degrees; gives the way from its own mm to the sheet's."""
        c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
        half = np.array([bgra.shape[1], bgra.shape[0]]) / SCALE / 2
        self.items.append((bgra, np.array(at, float), np.radians(turn)))

        def place(p):
            q = np.asarray(p, float) - half
            return np.c_[c * q[:, 0] - s * q[:, 1], s * q[:, 0] + c * q[:, 1]] + at
        return place

    def compose(self):
        """All of it as BGRA, multiplied, and the corner's place."""
        h, w = self.sheet.shape[:2]
        rgb = np.zeros((h + 2 * self.pad, w + 2 * self.pad, 3), np.uint8)
        alpha = np.zeros(rgb.shape[:2], np.uint8)
        rgb[self.pad:self.pad + h, self.pad:self.pad + w] = self.sheet
        alpha[self.pad:self.pad + h, self.pad:self.pad + w] = 255 if self.hole is None else self.hole
        for bgra, at, turn in self.items:
            self.put_item(rgb, alpha, bgra, at, turn)
        ang, far = self.rng.uniform(0, 6.3), self.rng.uniform(0.4, 2.5) * SCALE
        small = cv2.resize(alpha, None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA)
        m = np.float32([[1, 0, far / 4 * np.cos(ang)], [0, 1, far / 4 * np.sin(ang)]])
        shade = cv2.GaussianBlur(cv2.warpAffine(small, m, small.shape[::-1]), (0, 0), 0.35 * far / 4 + 0.8)
        shade = cv2.resize(shade, (alpha.shape[1], alpha.shape[0])) // 3
        rgb[alpha == 0] = 0
        return np.dstack([rgb, np.maximum(alpha, shade)]), (-self.pad / SCALE, -self.pad / SCALE)

    def put_item(self, rgb, alpha, bgra, at, turn):
        c, s = np.cos(turn), np.sin(turn)
        m = np.array([[c, -s], [s, c]])
        mid = (np.array([bgra.shape[1], bgra.shape[0]]) - 1) / 2
        m = np.c_[m, at * SCALE + self.pad - 0.5 - m @ mid]
        size = (rgb.shape[1], rgb.shape[0])
        r = int(np.hypot(*bgra.shape[:2]) / 2) + 40
        x, y = (at * SCALE + self.pad).astype(int)
        x0, y0, x1, y1 = max(x - r, 0), max(y - r, 0), min(x + r, size[0]), min(y + r, size[1])
        m[:, 2] -= [x0, y0]
        over = cv2.warpAffine(bgra, m, (x1 - x0, y1 - y0), flags=cv2.INTER_LINEAR)
        a = over[:, :, 3:].astype(np.float32) / 255
        shade = cv2.GaussianBlur(cv2.warpAffine(over[:, :, 3], np.float32([[1, 0, 9], [0, 1, 12]]), (x1 - x0, y1 - y0)), (0, 0), 6)
        part = rgb[y0:y1, x0:x1]
        dim = 1 - 0.35 * shade[:, :, None].astype(np.float32) / 255
        part[:] = (part * dim * (1 - a) + over[:, :, :3] * a).astype(np.uint8)
        alpha[y0:y1, x0:x1] = np.maximum(alpha[y0:y1, x0:x1], over[:, :, 3])

    # --- the photo

    def corners(self):
        w, h = self.size
        return np.array([[0, 0], [w, 0], [w, h], [0, h]], float)

    def camera(self):
        rng = self.rng
        pts = self.corners() if self.frame_points is None else self.frame_points
        wide = np.ptp(pts[:, 0]) > np.ptp(pts[:, 1])
        turn = rng.choice([0, 90, 180, 270]) if rng.random() < 0.25 else 0
        size = (4000, 3000) if wide != (turn % 180 == 90) else (3000, 4000)
        off = rng.normal(0, 8, 2) if self.level else (0, 0)
        cam = lens.Camera(*size, rng.uniform(0.72, 0.95) * 4000, self.k1, tuple(off))
        if self.bow:
            cam.bow_axis, cam.bow_rise = self.bow
            cam.bow_mid, cam.bow_half = self.size[cam.bow_axis] / 2, self.size[cam.bow_axis] / 2
            cam.bow_rise = 0.0
        self.aim = (pts, pts.mean(0), self.tilt, rng.uniform(0, 2 * np.pi), self.roll + np.radians(turn), self.share)
        cam.fill(*self.aim)
        if self.bow:
            self.bend(cam)
        if self.lost_edge is not None:
            self.lose_edge(cam)
        return cam

    def bend(self, cam):
        """Raises the sheet's middle until its edges bow by as much as is wanted."""
        rise = 4.0
        for _ in range(12):
            cam.bow_rise = self.bow[1] * rise
            rise = float(np.clip(rise * np.clip(self.bow_wanted / max(self.bowing(cam), 1e-3), 0.3, 3), 0.3, 28))
        cam.bow_rise = self.bow[1] * rise
        cam.fill(*self.aim)
        self.truth.update(bow_mm=self.bowing(cam), rise_mm=rise)

    def bowing(self, cam):
        """How far the edges stray from straight, mm, for one who takes the sheet as flat by its corners."""
        c = self.corners()
        flat = lens.Camera.from_told({**cam.told(), "k1": 0.0})
        h = cv2.getPerspectiveTransform(flat.to_photo(c).astype(np.float32), c.astype(np.float32))
        worst = 0.0
        for k in range(4):
            edge = c[k] + np.linspace(0, 1, 41)[:, None] * (c[(k + 1) % 4] - c[k])
            seen = cv2.perspectiveTransform(flat.to_photo(edge)[None], h)[0]
            worst = max(worst, float(np.abs((seen - c[k])[:, (k + 1) % 2]).max()))
        return worst

    def lose_edge(self, cam):
        """Moves, comes nearer and turns the picture until one side of the sheet is just out of it, all along; what lies
        6 mm in stays."""
        side = self.on_side(self.lost_edge)
        inward = np.array([(1, 0), (-1, 0), (0, 1), (0, -1)][self.lost_edge]) * 6.0
        pts = self.corners() + inward * side
        target, far, roll, size = pts.mean(0), 500.0, self.aim[4], np.array([cam.width, cam.height])
        for _ in range(40):
            cam.aim(target, self.aim[2], self.aim[3], roll, far)
            px = cam.to_photo(pts)
            low, high = px.min(0), px.max(0)
            far *= ((high - low) / size).max() / 0.97
            edge = px[side[:, 0] > 0]
            n = int(np.argmax(np.abs(edge.mean(0) / size - 0.5)))  # the border of the picture that the side lies at
            border = size[n] - 1.0 if edge[:, n].mean() > size[n] / 2 else 0.0
            run = edge[1] - edge[0]
            askew = np.arctan2(run[n], run[1 - n])
            roll += 0.6 * (askew - np.pi * np.round(askew / np.pi)) * (1 if n == 1 else -1)
            want = cam.middle.copy()
            want[n] += edge[:, n].mean() - border
            want[1 - n] += (low[1 - n] + high[1 - n]) / 2 - cam.middle[1 - n]
            target = target + 0.7 * (cam.to_sheet(want[None])[0] - cam.to_sheet(cam.middle[None])[0])
        cam.aim(target, self.aim[2], self.aim[3], roll, far)

    def on_side(self, k):
        """Which corners lie on side K: left, right, top, bottom."""
        return np.array([[0, 3], [1, 2], [0, 1], [2, 3]][k] == np.arange(4)[:, None]).any(1)[:, None].astype(float)

    def finish(self, path, tile):
        rng = self.rng
        cam = self.camera()
        top, at = self.compose()
        ground = surface.FLOORS[self.floor](rng)
        light = lens.make_light(rng, cam, self.level) * (self.bright / 243)
        img = lens.shoot(cam, ground, surface.GROUND, rng.uniform(0, 6.3), top, SCALE, at, light)
        if self.over is not None:
            self.cover(img, cam, light)
        if self.glare is not None:
            self.shine(img, cam)
        img = lens.expose(rng, img, tile, self.noise, rng.uniform(*[(0.5, 0.9), (0.6, 1.2), (0.8, 1.7)][self.level]),
                          rng.uniform(0, 0.6))
        cv2.imwrite(path + ".jpg", img, [cv2.IMWRITE_JPEG_QUALITY, self.quality])
        self.write(path, cam)

    def cover(self, img, cam, light):
        """Lays what is held over the sheet: BGRA, px per mm, its point in mm that lies at a place, turned."""
        bgra, scale, own, at, turn = self.over
        mx, my = lens.grid_map(cam)
        c, s = np.cos(turn), np.sin(turn)
        ux, uy = c * (mx - at[0]) + s * (my - at[1]) + own[0], c * (my - at[1]) - s * (mx - at[0]) + own[1]
        x, y = lens.spread(ux * scale - 0.5), lens.spread(uy * scale - 0.5)
        for k in range(0, cam.height, 500):
            rows = slice(k, min(k + 500, cam.height))
            over = cv2.remap(bgra, x[rows], y[rows], cv2.INTER_LINEAR)
            if not over[:, :, 3].any():
                continue
            a = over[:, :, 3:].astype(np.float32) / 255
            lit = lens.lit_rows(light, cam, rows)
            img[rows] = np.clip(img[rows] * (1 - a) + over[:, :, :3] * lit * a, 0, 255).astype(np.uint8)

    def shine(self, img, cam):
        """A lamp's reflection: where it is strongest nothing of the ink is left."""
        at, size, long, turn = self.glare
        h, w = img.shape[0] // 8, img.shape[1] // 8
        y, x = np.mgrid[0:h, 0:w].astype(np.float32)
        p = cam.to_sheet(np.c_[x.ravel() * 8 + 3.5, y.ravel() * 8 + 3.5]) - at
        c, s = np.cos(turn), np.sin(turn)
        u, v = (c * p[:, 0] + s * p[:, 1]) / long, (c * p[:, 1] - s * p[:, 0]) / size
        far = np.sqrt(u * u + v * v).reshape(h, w).astype(np.float32)
        g = np.clip(1.3 * np.exp(-np.clip(far - 0.7, 0, 9) ** 2 * 1.6), 0, 1) * 0.93 + 0.07 * np.exp(-far * 0.5)
        big = cv2.resize(g, (img.shape[1], img.shape[0]))
        rows = np.where(g.max(1) > 0.004)[0]
        y0, y1 = max(rows[0] * 8 - 8, 0), min(rows[-1] * 8 + 16, img.shape[0])
        part = img[y0:y1]
        a = big[y0:y1, :, None]
        part[:] = np.clip(part * (1 - a) + 258 * a, 0, 255).astype(np.uint8)

    def write(self, path, cam):
        def rounded(p):
            return np.round(np.asarray(p), 3).tolist()
        f = self.feet[0]
        told = {"sheet": "printed" if self.printed else "plain", "paper": self.name, "size_mm": list(self.size),
                "foot": self.side, "level": ["easy", "field", "hard"][self.level], "options": self.options,
                "print_scale": list(self.print_scale), "hidden_mm": self.hidden, "expected": {}, "camera": cam.told(),
                "tilt_deg": float(np.degrees(self.tilt)), "closed": f.round is not None, "pen_mm": float(f.wide),
                "turn_deg": float(f.turn),
                "feet": [{"line_mm": rounded(g.line[::2]), "heels_mm": rounded(g.heels), "toe_mm": rounded(g.toe),
                          "bulbs_mm": rounded(g.round[::2]) if g.round is not None else None} for g in self.feet]}
        told.update(self.truth)
        if self.marks:
            told["points_px"] = rounded(cam.to_photo(self.marks[0]))
            hand = cam.to_photo(self.marks[0] + self.rng.normal(0, self.marks[1], self.marks[0].shape))
            told["options"] = self.options + ["--points", " ".join(f"{x:.1f},{y:.1f}" for x, y in hand)]
        with open(path + ".json", "w", encoding="utf-8") as out:
            json.dump(told, out)
