# SPDX-License-Identifier: GPL-3.0-or-later
"""What lies under the pen and round it: paper, the printed sheet, cardboard, sacking, rubber, slate; floors and benches;
a bank card, a ruler. All BGR in the picture's gamma."""
import functools
import os
import subprocess
import tempfile
import cv2
import numpy as np

SCALE = 300 / 25.4  # px per mm of all that is drawn on
GROUND = 4.0        # of floors and benches
PAPERS = {"a4": (210, 297), "letter": (215.9, 279.4), "a3": (297, 420), "tabloid": (279.4, 431.8),
          "legal": (215.9, 355.6), "a5": (148, 210)}
CARD = (85.60, 53.98)  # ISO/IEC 7810, ID-1; its corners have a radius of about 3.2 mm


def lumps(rng, shape, size, octaves=3):
    """Lumps of about SIZE px and finer ones, about 0, about 1."""
    out, weight = np.zeros(shape, np.float32), 1.0
    for _ in range(octaves):
        n = (max(int(shape[0] / size), 1) + 3, max(int(shape[1] / size), 1) + 3)
        small = rng.standard_normal(n).astype(np.float32)
        out += weight * cv2.resize(small, (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC)
        size, weight = max(size / 3, 1), weight * 0.5
    return out


def coloured(value, colour):
    """VALUE about 1 times a colour."""
    return np.clip(value[:, :, None] * np.array(colour, np.float32), 0, 255).astype(np.uint8)


# --- floors and benches ---------------------------------------------------------------------------------------------

def wood(rng):
    h, w = int(720 * GROUND), int(560 * GROUND)
    streaks = cv2.resize(rng.standard_normal((h // 160, w // 3)).astype(np.float32), (w, h), interpolation=cv2.INTER_CUBIC)
    fine = cv2.resize(rng.standard_normal((h // 30, w)).astype(np.float32), (w, h), interpolation=cv2.INTER_LINEAR)
    v = 1 + 0.10 * streaks + 0.05 * fine
    x = 0
    while x < w:  # boards side by side
        wide = int(rng.uniform(70, 160) * GROUND)
        v[:, x:x + wide] *= rng.uniform(0.85, 1.1)
        v[:, x:x + int(rng.uniform(0.4, 2) * GROUND) + 1] *= 0.45
        x += wide
    base = [(62, 98, 142), (92, 126, 158), (40, 58, 84), (120, 150, 175)][rng.integers(4)]
    return coloured(v, base)


def concrete(rng):
    shape = (int(600 * GROUND), int(560 * GROUND))
    v = 1 + 0.06 * lumps(rng, shape, 200, 4) + 0.06 * rng.standard_normal(shape).astype(np.float32)
    out = coloured(v, np.array([0.97, 1.0, 1.02]) * rng.uniform(95, 175))
    for _ in range(rng.integers(40, 160)):  # pores and grit
        at = (int(rng.integers(shape[1])), int(rng.integers(shape[0])))
        cv2.circle(out, at, int(rng.integers(1, 5)), (rng.uniform(30, 90),) * 3, -1, cv2.LINE_AA)
    if rng.random() < 0.5:  # a crack
        p = np.cumsum(rng.normal([3, 0], [4, 6], (400, 2)), 0) + [0, rng.uniform(0, shape[0])]
        cv2.polylines(out, [p.astype(np.int32)], False, (60, 60, 60), 2, cv2.LINE_AA)
    return out


def rubber(rng):
    """A stable mat: dark, with round studs, ribs or a hammered face."""
    h, w = int(560 * GROUND), int(560 * GROUND)
    v = 1 + 0.10 * lumps(rng, (h, w), 40, 3) + 0.10 * rng.standard_normal((h, w)).astype(np.float32)
    y, x = np.mgrid[0:h, 0:w].astype(np.float32) / GROUND
    face, pitch = rng.integers(3), rng.uniform(9, 28)
    if face == 0:
        far = np.hypot((x + (y // pitch % 2) * pitch / 2) % pitch - pitch / 2, y % pitch - pitch / 2)
        v += 0.35 * np.exp(-((far - 0.3 * pitch) / 0.9) ** 2)
    elif face == 1:
        v += 0.25 * np.sin(x * 2 * np.pi / (pitch / 2))
    out = coloured(v, np.array([1.02, 1.0, 0.98]) * rng.uniform(34, 72))
    for _ in range(rng.integers(0, 60)):  # straw and shavings
        a, ang, far = rng.uniform(0, w, 2), rng.uniform(0, 6.3), rng.uniform(10, 140)
        b = a + far * np.array([np.cos(ang), np.sin(ang)])
        cv2.line(out, tuple(a.astype(int)), tuple(b.astype(int)), (90, 160, 190), int(rng.integers(2, 9)), cv2.LINE_AA)
    return out


def mat(rng):
    """A woven or felt mat in one colour with a pattern."""
    h, w = int(480 * GROUND), int(480 * GROUND)
    y, x = np.mgrid[0:h, 0:w].astype(np.float32) / GROUND
    pitch = rng.uniform(2.2, 5)
    v = 1 + 0.12 * np.sin(2 * np.pi * x / pitch) * np.sin(2 * np.pi * y / pitch) + 0.07 * lumps(rng, (h, w), 60, 3)
    v += 0.08 * rng.standard_normal((h, w)).astype(np.float32)
    base = [(70, 60, 120), (60, 90, 60), (110, 80, 50), (60, 100, 140), (120, 120, 120)][rng.integers(5)]
    return coloured(v, np.array(base) * rng.uniform(0.7, 1.2))


def tiles(rng):
    """Pale stable tiles: the hardest edge for white paper."""
    h, w = int(640 * GROUND), int(640 * GROUND)
    v = 1 + 0.02 * lumps(rng, (h, w), 120, 3) + 0.012 * rng.standard_normal((h, w)).astype(np.float32)
    side, joint = int(rng.uniform(90, 200) * GROUND), int(rng.uniform(2, 5) * GROUND)
    off = rng.integers(0, side, 2)
    for k in range(off[0], w, side):
        v[:, k:k + joint] *= 0.75
    for k in range(off[1], h, side):
        v[k:k + joint] *= 0.75
    return coloured(v, np.array([0.93, 0.99, 1.0]) * rng.uniform(150, 190))


def real(rng):
    """A table out of a real photo, where those are at hand (PRITCHEL_PHOTOS): what lies beside a labelled sheet."""
    path = os.path.join(os.environ.get("PRITCHEL_PHOTOS", ""), "breta_page10.jpg")
    img = real_photo(path)
    if img is None:
        return wood(rng)
    part = img[:, :850] if rng.random() < 0.6 else img[:2000, 3120:]
    part = cv2.resize(part, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    return np.ascontiguousarray(part[::rng.choice([-1, 1]), ::rng.choice([-1, 1])])


@functools.lru_cache(2)
def real_photo(path):
    return cv2.imread(path) if os.path.exists(path) else None


FLOORS = {"wood": wood, "concrete": concrete, "rubber": rubber, "mat": mat, "tiles": tiles, "real": real}


# --- what is drawn on -----------------------------------------------------------------------------------------------

def paper(rng, size, level, rules=None):
    """A blank sheet of SIZE mm."""
    w, h = int(round(size[0] * SCALE)), int(round(size[1] * SCALE))
    small = lumps(rng, (h // 8 + 1, w // 8 + 1), 60, 2)
    v = cv2.resize(1 + [0.004, 0.010, 0.018][level] * small, (w, h), interpolation=cv2.INTER_LINEAR)
    grain = rng.standard_normal((512, 512)).astype(np.float32) * 0.010
    v += np.tile(grain, (h // 512 + 1, w // 512 + 1))[:h, :w]
    out = coloured(v, np.array([1.0, 1.0, 1.0]) * rng.uniform(236, 246) - [rng.uniform(0, 12), 0, 0])
    if rules:
        rule(rng, out, rules)
    for _ in range(rng.integers(*[(0, 1), (0, 2), (1, 4)][level]) if level else 0):
        fold(rng, out)
    return out


def rule(rng, out, kind):
    """Feint lines 7 to 8 mm apart, or squares of 5 mm."""
    step = (5.0 if kind == "grid" else rng.uniform(7, 8)) * SCALE
    tone = np.array([(200, 170, 150), (190, 190, 190), (215, 190, 175)][rng.integers(3)])
    for k in range(1, int(out.shape[0] / step)):
        out[int(k * step):int(k * step) + 3] = tone
    for k in range(1, int(out.shape[1] / step) if kind == "grid" else 0):
        out[:, int(k * step):int(k * step) + 3] = tone


def fold(rng, out):
    """A fold across the sheet: each side of it leans otherwise to the light."""
    h, w = out.shape[:2]
    across = rng.random() < 0.5
    at = rng.choice([0.25, 1 / 3, 0.5, 2 / 3]) + rng.uniform(-0.03, 0.03)
    n = h if across else w
    s = (np.arange(n) - at * n) / SCALE
    v = 1 + rng.uniform(0.02, 0.07) * np.sign(s) * np.exp(-np.abs(s) / rng.uniform(6, 20))
    v -= rng.uniform(0.02, 0.1) * np.exp(-(s / 0.35) ** 2)
    v = v.astype(np.float32)
    out[:] = np.clip(out * (v[:, None, None] if across else v[None, :, None]), 0, 255).astype(np.uint8)


def dirt(rng, out, much):
    """Hoof dust, thumb prints, a splash."""
    for _ in range(int(much * rng.integers(2, 8))):
        at, r = rng.uniform([0, 0], [out.shape[1], out.shape[0]]), rng.uniform(1, 9) * SCALE
        x0, y0 = np.maximum((at - 2 * r).astype(int), 0)
        part = out[y0:int(at[1] + 2 * r), x0:int(at[0] + 2 * r)]
        if min(part.shape[:2]) < 8:
            continue
        y, x = np.mgrid[0:part.shape[0], 0:part.shape[1]].astype(np.float32)
        m = np.exp(-(((x + x0 - at[0]) / r) ** 2 + ((y + y0 - at[1]) / r) ** 2))
        m *= np.clip(0.5 + 0.5 * lumps(rng, m.shape, max(r / 3, 4), 2), 0, 1) * rng.uniform(0.08, 0.45)
        part[:] = (part * (1 - m[:, :, None]) + np.array((70, 95, 120), np.float32) * m[:, :, None]).astype(np.uint8)
    for _ in range(int(much * rng.integers(5, 40))):
        at = rng.uniform([0, 0], [out.shape[1], out.shape[0]]).astype(int)
        cv2.circle(out, tuple(int(v) for v in at), int(rng.integers(1, 6)), (60, 80, 100), -1, cv2.LINE_AA)


@functools.lru_cache(24)
def printed(program, name, foot):
    """The program's own sheet as grey, SCALE px per mm."""
    with tempfile.TemporaryDirectory() as tmp:
        pdf, out = os.path.join(tmp, "s.pdf"), os.path.join(tmp, "s")
        subprocess.run([program, "sheet", "--paper", name, "--foot", foot, "-o", pdf], check=True, stdout=subprocess.DEVNULL)
        subprocess.run(["pdftoppm", "-r", "300", "-gray", "-singlefile", pdf, out], check=True)
        grey = cv2.imread(out + ".pgm", cv2.IMREAD_GRAYSCALE)
    w, h = (int(round(v * SCALE)) for v in PAPERS[name])
    return grey if grey.shape == (h, w) else grey_to(grey, w, h)


def grey_to(grey, w, h):
    """Cut or filled to W x H at the right and below: a page of pdftoppm may be a pixel more."""
    out = np.full((h, w), 255, np.uint8)
    hh, ww = min(h, grey.shape[0]), min(w, grey.shape[1])
    out[:hh, :ww] = grey[:hh, :ww]
    return out


def print_on(rng, sheet, grey, sx=1.0, sy=1.0, off=(0.0, 0.0), askew=0.0):
    """Prints GREY about the sheet's middle SX by SY as large, moved OFF mm and turned ASKEW degrees."""
    h, w = grey.shape
    c = np.array([(w - 1) / 2, (h - 1) / 2])
    a = np.radians(askew)
    m = np.array([[np.cos(a) * sx, -np.sin(a) * sy], [np.sin(a) * sx, np.cos(a) * sy]])
    m = np.c_[m, c - m @ c + np.array(off) * SCALE]
    grey = cv2.warpAffine(grey, m, (w, h), flags=cv2.INTER_AREA if sx < 0.9 else cv2.INTER_LINEAR, borderValue=255)
    black = rng.uniform(24, 58)
    lut = np.clip(black / 255 + (1 - black / 255) * np.arange(256) / 255, 0, 1).astype(np.float32)
    part = lut[cv2.GaussianBlur(grey, (0, 0), 0.5)]
    sheet[:] = (sheet * part[:, :, None]).astype(np.uint8)


def cardboard(rng, size):
    """Brown corrugated board or a sack's paper: ribs that show, a print of fibres, dents."""
    w, h = int(size[0] * SCALE), int(size[1] * SCALE)
    small = lumps(rng, (h // 6 + 1, w // 6 + 1), 50, 4)
    v = cv2.resize(1 + 0.025 * small, (w, h), interpolation=cv2.INTER_LINEAR)
    x = np.arange(w, dtype=np.float32) / SCALE
    v += (rng.uniform(0.005, 0.03) * np.sin(2 * np.pi * x / rng.uniform(5, 8)))[None, :].astype(np.float32)
    grain = rng.standard_normal((512, 512)).astype(np.float32) * 0.03
    v += np.tile(grain, (h // 512 + 1, w // 512 + 1))[:h, :w]
    return coloured(v, np.array([(92, 138, 176), (110, 152, 186), (78, 120, 158)][rng.integers(3)], np.float32))


def sacking(rng, size):
    """Woven sack: flat tapes over and under each other."""
    w, h = int(size[0] * SCALE), int(size[1] * SCALE)
    y, x = np.mgrid[0:h, 0:w].astype(np.float32) / SCALE
    pitch = rng.uniform(1.6, 2.6)
    over = np.sign(np.sin(np.pi * x / pitch) * np.sin(np.pi * y / pitch))
    v = 1 + 0.05 * over * np.cos(np.pi * (x % pitch) / pitch) + 0.04 * np.tile(
        rng.standard_normal((512, 512)).astype(np.float32), (h // 512 + 1, w // 512 + 1))[:h, :w]
    base = [(120, 150, 172), (190, 200, 205), (90, 130, 165)][rng.integers(3)]
    return coloured(v, np.array(base, np.float32))


def dark(rng, kind, size):
    """Slate, a black card or the face of a rubber mat, SIZE mm."""
    w, h = int(size[0] * SCALE), int(size[1] * SCALE)
    small = lumps(rng, (h // 4 + 1, w // 4 + 1), {"slate": 60, "card": 90, "mat": 14}[kind], 3)
    v = cv2.resize(1 + {"slate": 0.09, "card": 0.02, "mat": 0.10}[kind] * small, (w, h), interpolation=cv2.INTER_LINEAR)
    grain = rng.standard_normal((512, 512)).astype(np.float32) * {"slate": 0.08, "card": 0.04, "mat": 0.14}[kind]
    v += np.tile(grain, (h // 512 + 1, w // 512 + 1))[:h, :w]
    if kind == "slate":  # old chalk that was wiped away
        v += 0.20 * np.clip(cv2.resize(lumps(rng, (h // 16 + 1, w // 16 + 1), 30, 2), (w, h)), 0, 2)
    base = {"slate": (72, 66, 60), "card": (44, 42, 42), "mat": (50, 49, 48)}[kind]
    return coloured(v, np.array(base, np.float32) * rng.uniform(0.8, 1.25))


# --- things that lie beside -----------------------------------------------------------------------------------------

def bank_card(rng):
    """A card of no bank: BGRA."""
    w, h = int(round(CARD[0] * SCALE)), int(round(CARD[1] * SCALE))
    base = [(150, 90, 40), (60, 60, 170), (70, 120, 60), (200, 200, 205), (60, 50, 50), (60, 160, 200)][rng.integers(6)]
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    out = coloured(0.85 + 0.3 * (np.cos(rng.uniform(-1, 1)) * x / w + 0.3 * y / h), base)
    cv2.rectangle(out, (int(0.1 * w), int(0.32 * h)), (int(0.24 * w), int(0.56 * h)), (90, 175, 200), -1)
    tone = tuple(int(v) for v in np.clip(np.array(base) * 1.6 + 40, 0, 255)) if sum(base) < 420 else (70, 70, 70)
    cv2.putText(out, "0000 1111 2222 3333", (int(0.08 * w), int(0.72 * h)), cv2.FONT_HERSHEY_SIMPLEX, 1.9, tone, 3, cv2.LINE_AA)
    cv2.putText(out, "A FARRIER", (int(0.08 * w), int(0.9 * h)), cv2.FONT_HERSHEY_SIMPLEX, 1.1, tone, 2, cv2.LINE_AA)
    alpha = np.zeros((h, w), np.uint8)
    r = int(3.18 * SCALE)
    for x0, y0 in ((r, r), (w - 1 - r, r), (r, h - 1 - r), (w - 1 - r, h - 1 - r)):
        cv2.circle(alpha, (x0, y0), r, 255, -1, cv2.LINE_AA)
    alpha[r:h - r], alpha[:, r:w - r] = 255, 255
    return np.dstack([out, alpha])


def ruler(rng, long_mm=300, wide_mm=30):
    """A steel or plastic ruler whose marks run from 0 to LONG_MM, 5 mm in from its ends. BGRA."""
    w, h = int((long_mm + 10) * SCALE), int(wide_mm * SCALE)
    streak = np.repeat(1 + 0.03 * rng.standard_normal((h, 1)).astype(np.float32), w, 1)
    out = coloured(streak, [(190, 192, 195), (110, 200, 225), (215, 220, 222)][rng.integers(3)])
    for k in range(long_mm + 1):
        x = (5 + k) * SCALE
        far = 9 if k % 10 == 0 else 6 if k % 5 == 0 else 4
        cv2.rectangle(out, (int(x - 1.5), 0), (int(x + 1.5), int(far * SCALE)), (40, 40, 40), -1)
        if k % 10 == 0:
            cv2.putText(out, str(k // 10), (int(x - 20), int(15 * SCALE)), cv2.FONT_HERSHEY_SIMPLEX, 1.5, (40, 40, 40), 3, cv2.LINE_AA)
    return np.dstack([out, np.full((h, w), 255, np.uint8)])
