# SPDX-License-Identifier: GPL-3.0-or-later
"""Kinds where the scale, the paper, the ground or the sheet itself is out of the ordinary."""
import numpy as np
import cv2
import foot as feet
import stroke
import surface
from kinds import blank, choose_paper, dress, pen_for
from stroke import PENS
from surface import SCALE

LENS_LEFT = 0.004  # k1 that a phone's own mending leaves; chosen
CHALKS = ["chalk", "chalk", "paint", "white-gel"]
# mm; leaves of no standard we know: books, pads, wrapping paper
LEAVES = [(170, 240), (127, 203), (200, 250), (195, 270), (229, 305), (240, 320), (160, 160), (280, 380), (155, 235)]


def printed_at(sx, sy):
    """Every fourth with one edge out of the picture."""
    def kind(s, number):
        rng = s.rng
        choose_paper(s, True)
        s.print_scale = (sx, sy) if rng.random() < 0.5 or sx == sy else (sy, sx)
        s.print_off, s.print_askew = tuple(rng.normal(0, 0.4, 2)), rng.normal(0, 0.08)
        if number % 4 == 3:
            s.lost_edge = int(rng.integers(4))
            s.tilt, s.roll = np.radians(rng.uniform(0, 10)), np.radians(rng.normal(0, 0.6))
        s.add_foot(frog=rng.random() < 0.3)
        blank(s)
        s.ink(pen_for(s))
        dress(s)
        s.truth["edges"] = 3 if s.lost_edge is not None else 4
        s.truth["expected"] = {"clean": True} if sx == sy == 1 else {"print": [sx, sy]}
    return kind


def paper_wrong(s, number):
    rng = s.rng
    s.printed = False
    mode = number % 5
    if mode in (1, 3):  # a book, a pad
        s.name, s.size = "none", LEAVES[rng.integers(len(LEAVES))]
        shape = max(s.size) / min(s.size)
        told = [p for p, (w, h) in surface.PAPERS.items() if abs(np.log(h / w / shape)) > 0.025
                or abs(h / max(s.size) - 1) > 0.25]
        told = str(rng.choice(told))
    elif mode == 4:  # the right shape, so wrong a size that no hoof is as large or as small
        s.name, told = "a4", ["a3", "a5"][rng.integers(2)]
    else:
        s.name = str(rng.choice(["a4", "letter", "legal", "a5", "tabloid"]))
        same = {"a4": ("a4", "a3", "a5"), "a5": ("a4", "a3", "a5"), "a3": ("a4", "a3", "a5")}.get(s.name, (s.name,))
        told = str(rng.choice([p for p in surface.PAPERS if p not in same]))
    if s.name != "none":
        s.size = surface.PAPERS[s.name]
    room = min(s.size) - 20
    width = min(rng.uniform(98, 150), room * 0.94)
    if mode == 4:
        width = rng.uniform(142, 156) if told == "a3" else rng.uniform(96, 103)
    s.add_foot(width=width)
    s.blank(str(rng.choice(["lines", "grid"])) if s.name == "none" and rng.random() < 0.5 else None)
    s.ink(pen_for(s))
    s.options = ["--paper", told] + (["--foot", s.side] if rng.random() < 0.5 else [])
    s.truth.update(told=told, same_shape=mode == 4, expected={"question": True})


def toe_sideways(s, number):
    rng = s.rng
    choose_paper(s, True, ("a4", "letter", "a3"))
    turn = int([90, 270, 180][(number + number // 3) % 3]) + rng.uniform(-12, 12)
    closed = rng.random() < 0.3
    s.add_foot(turn=turn, frog=rng.random() < 0.4, manner=str(rng.choice(["stepped", "cleft"])) if closed else None)
    blank(s)
    s.ink(pen_for(s))
    dress(s)
    s.truth["expected"] = {"turned": True}


# --- dark ground, boards: the scale lies beside ---------------------------------------------------------------------

def marked(s, way, size, sigma):
    """Corners of a thing of SIZE mm in its own frame, as the camera will see them and a hand marks them."""
    w, h = size
    s.marks = (way(np.array([[0, 0], [w, 0], [w, h], [0, h]], float)), sigma)


def beside(s, thing, turn):
    """Where a thing of THING mm may lie: right of the foot or below it, as it would not touch it."""
    p = np.vstack(s.feet[0].strokes())
    low, high = p.min(0), p.max(0)
    half = np.abs(np.cos(np.radians(turn))) * thing[0] / 2 + np.abs(np.sin(np.radians(turn))) * thing[1] / 2
    tall = np.abs(np.sin(np.radians(turn))) * thing[0] / 2 + np.abs(np.cos(np.radians(turn))) * thing[1] / 2
    gap = s.rng.uniform(6, 20)
    if high[0] + gap + 2 * half < s.size[0] - 2:
        return np.array([high[0] + gap + half, (low[1] + high[1]) / 2 + s.rng.uniform(-15, 15)])
    return np.array([(low[0] + high[0]) / 2 + s.rng.uniform(-15, 15), high[1] + gap + tall])


def lay_scale(s, method):
    """A card, a plate or a ruler beside the foot, and the options that tell of it. Four corners tell nothing of the lens, and
    a k1 of 0.015 alone makes the foot 1 % wrong; so these are taken with phones that mend theirs."""
    rng = s.rng
    s.k1 = rng.uniform(-LENS_LEFT, LENS_LEFT)
    if method == "ruler":
        item, size, turn = surface.ruler(rng), (310, 30), 0.0
        at = np.array([s.size[0] / 2, np.vstack(s.feet[0].strokes())[:, 1].max() + rng.uniform(24, 34)])
        way = s.lay_item(item, at, rng.uniform(-2, 2))
        s.marks = (way(np.array([[5, 0], [305, 0]], float)), 0.12)
        s.options = ["--scale", "ruler", "--side", "300"]
        s.truth["line_most"] = 0.8  # a ruler tells nothing of the tilt
    else:
        size = surface.CARD if method == "card" else (150, 100)
        turn = rng.choice([0, 90]) + rng.normal(0, 10)
        if method == "card":
            item = surface.bank_card(rng)
        else:
            tone = surface.lumps(rng, (int(100 * SCALE), int(150 * SCALE)), 200, 2)
            item = np.dstack([surface.coloured(1 + 0.01 * tone, [(215, 220, 222), (120, 190, 215)][rng.integers(2)]),
                              np.full(tone.shape, 255, np.uint8)])
        way = s.lay_item(item, beside(s, size, turn), turn)
        marked(s, way, size, 0.35)
        s.options = ["--scale", method] + (["--side", "150x100"] if method == "rect" else [])
    pts = np.vstack(s.feet[0].strokes() + [s.marks[0]])
    low, high = pts.min(0) - 8, pts.max(0) + 8
    s.frame_points = np.array([low, [high[0], low[1]], high, [low[0], high[1]]])
    s.truth["scale_by"] = method


def on_dark(s, kind, size):
    s.size, s.name = size, "none"
    s.sheet = surface.dark(s.rng, kind, size)
    s.floor = "rubber" if kind == "mat" else s.floor


def dark_chalk(s, number):
    rng = s.rng
    method = ["card", "rect", "frame", "card", "strip", "ruler"][(number + number // 6) % 6]
    ground = str(rng.choice(["slate", "card", "mat"]))
    s.bright = max(s.bright, 170)
    if method in ("frame", "strip"):
        return dark_fiducials(s, ground, method)
    if method == "ruler":
        s.tilt = np.radians(rng.uniform(0, 1.5))
    wide = 330 if method == "ruler" else 360
    on_dark(s, ground, (wide, 300))
    s.add_foot(width=rng.uniform(105, 150), turn=0 if rng.random() < 0.7 else 180,
               box=(np.array([25.0, 20]), np.array([190.0 if method != "ruler" else 300.0, 225.0])))
    s.ink(pen_for(s, CHALKS), weight=rng.uniform(0.85, 1.1))
    lay_scale(s, method)
    s.truth["ground"] = ground


def dark_fiducials(s, ground, method):
    """The program's sheet with its middle cut out, or only its head, laid on the ground that is drawn on."""
    rng = s.rng
    name = str(rng.choice(["a4", "letter"]))
    paper, at = surface.PAPERS[name], np.array([45.0, 40.0])
    on_dark(s, ground, (paper[0] + 90, paper[1] + 80))
    low, high = np.array([20.0, 42.0]), np.array([paper[0] - 20.0, paper[1] - 42.0])
    s.add_foot(width=rng.uniform(100, 145), turn=0, box=(low + at, high + at))
    s.ink(pen_for(s, CHALKS), weight=rng.uniform(0.85, 1.1))
    leaf = surface.paper(rng, paper, min(s.level, 1))
    surface.print_on(rng, leaf, surface.printed(s.program, name, s.side))
    h, w = leaf.shape[:2]
    keep = np.full((h, w), 255, np.uint8)
    if method == "frame":
        keep[int(40 * SCALE):int((paper[1] - 40) * SCALE), int(17 * SCALE):int((paper[0] - 17) * SCALE)] = 0
    else:
        keep[int(39 * SCALE):] = 0
    y, x = (np.round(at[::-1] * SCALE)).astype(int)
    part = s.sheet[y:y + h, x:x + w]
    part[keep > 0] = leaf[keep > 0]
    pts = np.array([[0, 0], [paper[0], 0], paper, [0, paper[1]]], float) + at
    s.frame_points = pts
    s.truth.update(scale_by=method, ground=ground)


def board_card(s, number):
    """A rim all in the picture, or partly."""
    rng = s.rng
    size = (rng.uniform(300, 380), rng.uniform(230, 290))
    s.size, s.name = tuple(np.round(size)), "none"
    s.sheet = surface.sacking(rng, s.size) if rng.random() < 0.3 else surface.cardboard(rng, s.size)
    s.add_foot(width=rng.uniform(100, 145), turn=0 if rng.random() < 0.7 else 180,
               box=(np.array([14.0, 12.0]), np.array([190.0, s.size[1] - 12])))
    s.ink(pen_for(s, ["felt", "chisel", "carpenter", "crayon"]))
    lay_scale(s, "card")
    if number % 2 == 0:
        s.frame_points = None


# --- what is hidden, bent, short, double ----------------------------------------------------------------------------

HAND = 4.0  # px per mm of a hand: it lies nearer than what the lens is set to


def hand(rng, n):
    """N fingers, the back of the hand, the wrist and a sleeve, tips at the top: BGRA."""
    w, h = int(150 * HAND), int(420 * HAND)
    height, body = np.zeros((h, w), np.float32), np.zeros((h, w), np.uint8)
    y, x = np.mgrid[0:h, 0:w].astype(np.float32) / HAND
    first = 75 - (n - 1) * 9.2
    for k in range(4):
        out = k < n
        mid, top, r = first + k * 18.4, (2.5 * abs(k - (n - 1) / 2) if out else 62 + 2 * k), rng.uniform(7.6, 9.2)
        far = np.hypot(x - mid, np.minimum(y - top - r, 0))
        inside = (far < r) & (y < 120)
        height[inside] = np.maximum(height, 0.62 + 0.38 * np.sqrt(np.clip(1 - (far / r) ** 2, 0, 1)))[inside]
        body |= inside.astype(np.uint8)
    palm = (((x - first - 22) / 44) ** 2 + ((y - 140) / 52) ** 2 < 1) | ((np.abs(x - first - 22) < 31) & (y > 150))
    height[palm] = np.maximum(height, 0.9)[palm]
    body |= palm.astype(np.uint8)
    tone = cv2.GaussianBlur(height, (0, 0), 1.2 * HAND) + 0.02 * surface.lumps(rng, (h, w), 40, 3)
    out = surface.coloured(tone, [(140, 170, 220), (95, 125, 180), (60, 85, 130), (150, 165, 205)][rng.integers(4)])
    sleeve = y > 235 + 2 * np.sin(x / 6)
    out[sleeve] = surface.coloured(0.8 + 0.1 * surface.lumps(rng, (h, w), 24, 3), [(90, 60, 40), (60, 75, 60), (50, 50, 55)][rng.integers(3)])[sleeve]
    return np.dstack([out, cv2.GaussianBlur(body * 255, (0, 0), 0.9)])


def hide_with_hand(s, line, a, b):
    """A hand from outside of the line, so many fingers on it as it takes."""
    rng = s.rng
    n = int(np.clip(round((b - a) / 18.4), 1, 4))
    i, half = int((a + b) / 2 / feet.STEP), int((b - a) / 2 / feet.STEP)
    d = feet.direction(line[max(i - half, 0):i + half])
    out = np.array([-d[1], d[0]])
    out = out if out @ (line[i] - line.mean(0)) > 0 else -out
    s.over = (hand(rng, n), HAND, np.array([75.0, rng.uniform(14, 24)]), line[i], np.arctan2(out[0], -out[1]) + np.pi)


def hide_with_mud(s, line, a, b):
    rng = s.rng
    p = line[int(a / feet.STEP):int(b / feet.STEP)]
    pad = 22
    low = np.maximum(((p.min(0) - pad) * SCALE).astype(int), 0)
    high = np.minimum(((p.max(0) + pad) * SCALE).astype(int), [s.sheet.shape[1], s.sheet.shape[0]])
    mask = np.zeros((high[1] - low[1], high[0] - low[0]), np.float32)
    for q in p[::5]:
        at = tuple(int(v) for v in (q + rng.normal(0, 2.2, 2)) * SCALE - low)
        cv2.circle(mask, at, int(rng.uniform(2.6, 6) * SCALE), 1, -1)
    mask = cv2.GaussianBlur(mask, (0, 0), 1.1 * SCALE) + 0.16 * surface.lumps(rng, mask.shape, 40, 3)
    mask = np.clip((mask - 0.45) * 6, 0, 1)[:, :, None]
    tone = surface.coloured(1 + 0.15 * surface.lumps(rng, mask.shape[:2], 25, 3), [(38, 58, 82), (52, 72, 92)][rng.integers(2)])
    part = s.sheet[low[1]:high[1], low[0]:high[0]]
    part[:] = (part * (1 - mask) + tone * mask).astype(np.uint8)


def hidden(s, number):
    rng = s.rng
    choose_paper(s, number % 2 == 1)
    f = s.add_foot(frog=rng.random() < 0.3)
    blank(s)
    s.ink(pen_for(s))
    if s.level:
        s.words()
    total = feet.length(f.line)
    long = rng.uniform(0.14, 0.33) * total / 2
    a = rng.uniform(14, total / 2 - long)
    if rng.random() < 0.5:
        a = total - a - long
    by = ["hand", "mud", "glare"][(number // 3) % 3]
    if by == "hand":
        hide_with_hand(s, f.line, a, a + long)
    elif by == "mud":
        hide_with_mud(s, f.line, a, a + long)
    else:
        i = int((a + long / 2) / feet.STEP)
        d = feet.direction(f.line[i - 20:i + 21])
        s.glare = (f.line[i], rng.uniform(9, 16), long / 2, np.arctan2(d[1], d[0]))
        s.bright = max(s.bright, 180)
    s.hidden = [[a, a + long]]
    s.truth["hidden_by"] = by


def short_heeled(s, number):
    rng = s.rng
    choose_paper(s, (number // 2) % 2 == 1)
    s.options = [] if s.printed else ["--paper", s.name]
    sweep = rng.uniform(298, 314) if (number // 3) % 3 == 2 else rng.uniform(244, 256)
    s.add_foot(sweep=sweep, frog=rng.random() < 0.3)
    blank(s)
    s.ink(pen_for(s, ["felt", "chisel", "gel", "ball", "crayon"]))
    dress(s)
    s.truth.update(sweep_deg=sweep, expected={"whole": True})


def bowed(s, number):
    rng = s.rng
    choose_paper(s, number % 2 == 1)
    s.tilt = np.radians(rng.uniform(8, 30))
    s.add_foot()
    blank(s)
    s.ink(pen_for(s, ["felt", "chisel", "gel", "ball"]))
    dress(s)
    s.bow = (int(rng.integers(2)), 1.0 if rng.random() < 0.7 else -1.0)
    s.bow_wanted = float(np.exp(rng.uniform(np.log(0.5), np.log(4))))


def two_feet(s, number):
    rng = s.rng
    mode = (number + number // 3) % 3
    choose_paper(s, mode == 1, [("a3", "tabloid"), ("a3", "tabloid"), ("a4", "letter")][mode])
    low, high = s.field()
    mid = (low + high) / 2
    if mode == 2:  # across a small sheet, toes to a long side
        boxes = [(low, np.array([high[0], mid[1] - 3])), (np.array([low[0], mid[1] + 3]), high)]
        turn = rng.choice([90, 270])
    else:
        boxes = [(low, np.array([mid[0] - 3, high[1]])), (np.array([mid[0] + 3, low[1]]), high)]
        turn = 0
    for box in boxes:
        s.add_foot(width=rng.uniform(100, 126), turn=turn, box=box)
    blank(s)
    s.ink(pen_for(s, ["felt", "chisel", "gel", "ball", "crayon"]))
    s.truth["expected"] = {"feet": 2}


# those that are judged by the verdict have no hard photos
CALM = {"short-heeled"}

KINDS = {
    "print-true": printed_at(1, 1),
    "print-94": printed_at(0.94, 0.94),
    "print-97": printed_at(0.97, 0.97),
    "print-98": printed_at(0.98, 0.98),
    "print-99": printed_at(0.99, 0.99),
    "print-97x100": printed_at(0.97, 1.0),
    "paper-wrong": paper_wrong,
    "toe-sideways": toe_sideways,
    "dark-chalk": dark_chalk,
    "board-card": board_card,
    "hidden": hidden,
    "short-heeled": short_heeled,
    "bowed": bowed,
    "two-feet": two_feet,
}
