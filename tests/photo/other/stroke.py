# SPDX-License-Identifier: GPL-3.0-or-later
"""Pens: what a stroke leaves on paper, board or rubber. A stroke is stamped as discs along its way at twice the
picture's resolution; its tone then goes by the pen: a felt tip floods the fibres, a pencil catches their tops, a ball
skips, chalk crumbles. Tones are shares: 0 nothing, 1 all of the ink."""
import collections
import cv2
import numpy as np

FINE = 2  # stamping is so many times finer than the picture
SUB = 6   # bits of a pixel that OpenCV takes

Pen = collections.namedtuple("Pen", "name wide tone grain bleed skip colours")
PENS = {p.name: p for p in [
    Pen("felt", (1.2, 2.6), (0.86, 0.99), 0.06, 0.10, 0.0, [(28, 26, 26), (40, 30, 34), (110, 40, 30)]),
    Pen("chisel", (2.2, 3.6), (0.80, 0.97), 0.10, 0.14, 0.0, [(25, 25, 25), (35, 30, 60), (120, 45, 35), (40, 35, 150)]),
    Pen("ball", (0.55, 0.85), (0.70, 0.95), 0.22, 0.03, 0.16, [(120, 50, 35), (60, 45, 45), (140, 70, 50)]),
    Pen("gel", (0.7, 1.0), (0.90, 0.99), 0.05, 0.04, 0.02, [(30, 28, 28), (120, 45, 40)]),
    Pen("pencil", (0.6, 1.1), (0.50, 0.78), 0.55, 0.02, 0.0, [(70, 68, 66), (80, 78, 78)]),
    Pen("carpenter", (1.6, 2.8), (0.50, 0.80), 0.60, 0.03, 0.0, [(66, 64, 62), (75, 72, 70)]),
    Pen("crayon", (2.4, 3.8), (0.72, 0.92), 0.50, 0.05, 0.0, [(35, 35, 40), (130, 60, 30), (40, 40, 170)]),
    Pen("chalk", (2.6, 5.0), (0.66, 0.9), 0.62, 0.04, 0.0, [(232, 236, 238), (225, 232, 236), (150, 225, 235)]),
    Pen("paint", (1.6, 3.0), (0.90, 0.99), 0.05, 0.08, 0.0, [(238, 240, 242), (228, 232, 234)]),
    Pen("white-gel", (0.9, 1.5), (0.82, 0.97), 0.12, 0.04, 0.04, [(238, 240, 240)]),
]}


def waves(rng, n, step, low, high, parts=4):
    """Something that goes up and down about 0 by about 1 along N places STEP mm apart."""
    s = np.arange(n) * step
    v = np.zeros(n)
    for _ in range(parts):
        v += np.sin(2 * np.pi * s / np.exp(rng.uniform(np.log(low), np.log(high))) + rng.uniform(0, 6.3))
    return v * np.sqrt(2 / parts)


def tooth(rng, shape, scale):
    """What stands out of a paper's surface, about 0 to 1, lumps of about SCALE px."""
    small = rng.random((int(shape[0] / scale) + 3, int(shape[1] / scale) + 3), np.float32)
    big = cv2.resize(small, None, fx=scale, fy=scale, interpolation=cv2.INTER_CUBIC)[:shape[0], :shape[1]]
    return 0.5 * big + 0.5 * rng.random(shape, np.float32)


def stamp(canvas, p, wide, tone, scale):
    """Discs along P (mm from the canvas' corner), WIDE mm and TONE each."""
    k = scale * FINE
    c = np.round((p * k - 0.5) * (1 << SUB)).astype(int)
    r = np.round(wide * k / 2 * (1 << SUB)).astype(int)
    t = np.round(tone * 255).astype(int)
    for i in range(len(p)):
        cv2.circle(canvas, (c[i, 0], c[i, 1]), r[i], int(t[i]), -1, cv2.LINE_AA, SUB)


def tones(rng, pen, n, step, weight):
    tone = rng.uniform(*pen.tone) * weight * (1 + 0.07 * waves(rng, n, step, 10, 80))
    if pen.skip:
        v = waves(rng, n, step, 1.5, 14, 6)
        tone = tone * np.where(v > 3.0 - 6 * pen.skip, 0.35, 1)
    return np.clip(tone, 0, 1)


def draw(rng, sheet, scale, p, pen, wide=None, weight=1.0, colour=None, keep=None, corner=(0, 0)):
    """Draws the polyline P (mm) with PEN on SHEET (BGR, SCALE px per mm, its corner at CORNER mm) and gives WIDE and colour
    back. KEEP, one flag a point: where the pen touches."""
    wide = wide if wide else rng.uniform(*pen.wide)
    colour = colour if colour is not None else pen.colours[rng.integers(len(pen.colours))]
    p = np.asarray(p, float)
    step = np.hypot(*(p[1] - p[0])) if len(p) > 1 else 1
    tone = tones(rng, pen, len(p), step, weight)
    width = wide * np.clip(1 + 0.06 * waves(rng, len(p), step, 6, 70), 0.7, 1.3)
    if len(p) > 20:  # the pen rolls in the hand: ink is not quite where its axis is
        d = np.gradient(p, axis=0) / step
        p = p + np.c_[-d[:, 1], d[:, 0]] * (0.03 * min(wide, 2) * waves(rng, len(p), step, 3, 40))[:, None]
    if keep is not None:
        p, tone, width = p[keep], tone[keep], width[keep]
    if not len(p):
        return wide, colour
    pad = wide + 1.5
    low = np.maximum(np.floor((p.min(0) - pad - corner) * scale).astype(int), 0)
    high = np.minimum(np.ceil((p.max(0) + pad - corner) * scale).astype(int), [sheet.shape[1], sheet.shape[0]])
    if (high <= low).any():
        return wide, colour
    canvas = np.zeros(((high[1] - low[1]) * FINE, (high[0] - low[0]) * FINE), np.uint8)
    stamp(canvas, p - corner - low / scale, width, tone, scale)
    cover = cv2.resize(canvas, None, fx=1 / FINE, fy=1 / FINE, interpolation=cv2.INTER_AREA).astype(np.float32) / 255
    lay(rng, sheet[low[1]:high[1], low[0]:high[0]], cover, pen, colour, scale, weight)
    return wide, colour


def lay(rng, part, cover, pen, colour, scale, weight):
    rough = tooth(rng, cover.shape, max(0.22 * scale, 1.2))
    if pen.bleed:
        soft = cv2.GaussianBlur(cover, (0, 0), max(pen.bleed * scale, 0.3))
        cover = np.clip(soft + (rough - 0.5) * 0.5 * soft * (1 - soft), 0, 1)
    if pen.grain > 0.3:  # only the tops of the surface take it; the harder it is pressed the more
        cover = np.clip((cover * (1.25 + 0.5 * weight) - rough * pen.grain * 1.9) / 0.55, 0, 1) * np.minimum(cover * 1.15, 1)
    else:
        cover = cover * (1 - pen.grain * rough)
    ink = np.array(colour, np.float32)
    part[:] = np.clip(part * (1 - cover[:, :, None]) + ink * cover[:, :, None] + 0.5, 0, 255).astype(np.uint8)


NAMES = ["Juniper", "Old Bramble", "Tansy", "Mistral", "Dapple", "Quill", "Sorrel 3", "Fennel", "Harrow", "Pip"]
FONTS = [cv2.FONT_HERSHEY_SCRIPT_SIMPLEX, cv2.FONT_HERSHEY_SCRIPT_COMPLEX, cv2.FONT_HERSHEY_SIMPLEX, cv2.FONT_ITALIC]


def write(rng, sheet, scale, at, text, high, colour, corner=(0, 0), turn=0.0):
    """TEXT as a hand writes it, HIGH mm, its lower left at AT; TURN degrees."""
    font = FONTS[rng.integers(3)]
    size = high * scale / 22
    (w, h), base = cv2.getTextSize(text, font, size, 1)
    pad = int(h)
    ink = np.zeros((h + base + 2 * pad, w + 2 * pad), np.uint8)
    cv2.putText(ink, text, (pad, pad + h), font, size, 255, max(int(0.7 * scale), 1), cv2.LINE_AA)
    m = cv2.getRotationMatrix2D((pad, pad + h), turn + rng.uniform(-4, 4), 1)
    m[:, 2] += (np.array(at) - corner) * scale - [pad, pad + h]
    cover = cv2.warpAffine(ink, m, (sheet.shape[1], sheet.shape[0])) if max(sheet.shape) < 1500 else None
    x, y = np.round((np.array(at) - corner) * scale).astype(int)
    if cover is None:
        x0, y0 = max(x - w - pad, 0), max(y - w - pad, 0)
        x1, y1 = min(x + w + 2 * pad, sheet.shape[1]), min(y + w + 2 * pad, sheet.shape[0])
        if x1 <= x0 or y1 <= y0:
            return
        m[:, 2] -= [x0, y0]
        cover = cv2.warpAffine(ink, m, (x1 - x0, y1 - y0))
        sheet = sheet[y0:y1, x0:x1]
    a = cover.astype(np.float32)[:, :, None] / 255 * 0.9
    sheet[:] = (sheet * (1 - a) + np.array(colour, np.float32) * a).astype(np.uint8)
