# SPDX-License-Identifier: GPL-3.0-or-later
"""A camera over a sheet that may be bowed, the light on it, and what a sensor and a phone's own mending make
of both. Plane: mm, x right, y down; pixel (0, 0) is the middle of the first one."""
import cv2
import numpy as np

CELL = 8  # px between the places where the way from pixel to sheet is worked out; between them it is straight


class Camera:
    """A pinhole with one radial term, r counted in half diagonals from the middle of the picture. The sheet is
    flat, or an arc along x (`bow_axis` 0) or y (1) about `bow_mid`, `bow_half` mm to both sides, `bow_rise`
    mm high in its middle; lengths along the arc stay what they are."""

    def __init__(self, width, height, focal, k1=0.0, off=(0.0, 0.0)):
        self.width, self.height, self.focal, self.k1 = width, height, focal, k1
        self.off = off  # of the optical axis from the middle, px
        self.turn, self.at = np.eye(3), np.zeros(3)
        self.bow_axis, self.bow_mid, self.bow_half, self.bow_rise = 0, 0.0, 1.0, 0.0

    @property
    def middle(self):
        return np.array([(self.width - 1) / 2, (self.height - 1) / 2])

    @property
    def radius(self):
        return np.hypot(self.width, self.height) / 2

    def aim(self, target, tilt, towards, roll, far):
        """Looks at TARGET from FAR mm, TILT off the normal leaning TOWARDS, the picture turned by ROLL; radians."""
        lean = np.array([np.cos(towards), np.sin(towards), 0])
        forward = np.array([0, 0, 1.0]) * np.cos(tilt) - lean * np.sin(tilt)
        right = np.array([np.cos(roll), np.sin(roll), 0])
        right -= forward * (right @ forward)
        right /= np.linalg.norm(right)
        self.turn = np.array([right, np.cross(forward, right), forward])
        self.at = np.array([target[0], target[1], 0]) - forward * far

    def surface(self, p):
        """Places on the sheet in space; z points away from the camera."""
        p = np.asarray(p, float)
        z = np.zeros(len(p))
        out = np.c_[p, z]
        if self.bow_rise:
            s = p[:, self.bow_axis] - self.bow_mid
            r = self.bow_radius()
            out[:, self.bow_axis] = self.bow_mid + r * np.sin(s / r)
            out[:, 2] = -(r * np.cos(s / r) - r * np.cos(self.bow_half / r))
        return out

    def bow_radius(self):
        """Of an arc `bow_half` long to both sides that is `bow_rise` high."""
        low, high = self.bow_half / 3, 1e7
        for _ in range(80):
            mid = np.sqrt(low * high)
            low, high = (mid, high) if mid * (1 - np.cos(self.bow_half / mid)) > abs(self.bow_rise) else (low, mid)
        return np.sqrt(low * high) * np.sign(self.bow_rise)

    def to_photo(self, p):
        cam = (self.surface(p) - self.at) @ self.turn.T
        q = self.focal * cam[:, :2] / cam[:, 2:]
        c = q + self.off
        return self.middle + c * (1 + self.k1 * (c ** 2).sum(1, keepdims=True) / self.radius ** 2)

    def to_sheet(self, px):
        d = (np.asarray(px, float) - self.middle) / self.radius
        far = np.hypot(d[:, 0], d[:, 1])
        u = far.copy()
        for _ in range(8):
            u -= (u * (1 + self.k1 * u * u) - far) / (1 + 3 * self.k1 * u * u)
        c = d * (u / np.maximum(far, 1e-12))[:, None] * self.radius - self.off
        ray = np.c_[c / self.focal, np.ones(len(c))] @ self.turn
        p = self.at[:2] + ray[:, :2] * (-self.at[2] / ray[:, 2])[:, None]
        if self.bow_rise:
            for _ in range(8):
                p = self.meet_arc(ray, p)
        return p

    def meet_arc(self, ray, p):
        r = self.bow_radius()
        z = np.where(np.abs(p[:, self.bow_axis] - self.bow_mid) < 1.5 * self.bow_half, self.surface(p)[:, 2], 0)
        hit = self.at[:2] + ray[:, :2] * ((z - self.at[2]) / ray[:, 2])[:, None]
        k = self.bow_axis
        hit[:, k] = self.bow_mid + r * np.arcsin(np.clip((hit[:, k] - self.bow_mid) / r, -1, 1))
        return hit

    def fill(self, points, target, tilt, towards, roll, share):
        """Aims so that POINTS take SHARE of the room between the picture's edges and lie in its middle."""
        target = np.array(target, float)
        far = 600.0
        size = np.array([self.width, self.height])
        for _ in range(12):
            self.aim(target, tilt, towards, roll, far)
            px = self.to_photo(points)
            low, high = px.min(0), px.max(0)
            far *= ((high - low) / size).max() / share
            here = self.to_sheet((self.middle + 0.7 * ((low + high) / 2 - self.middle))[None])[0]
            target += here - self.to_sheet(self.middle[None])[0]
        self.aim(target, tilt, towards, roll, far)

    def told(self):
        return {"width": self.width, "height": self.height, "focal": self.focal, "k1": self.k1,
                "off": list(self.off), "turn": self.turn.tolist(), "at": self.at.tolist(),
                "bow": [self.bow_axis, self.bow_mid, self.bow_half, self.bow_rise]}

    @staticmethod
    def from_told(told):
        cam = Camera(told["width"], told["height"], told["focal"], told["k1"], tuple(told["off"]))
        cam.turn, cam.at = np.array(told["turn"]), np.array(told["at"])
        cam.bow_axis, cam.bow_mid, cam.bow_half, cam.bow_rise = told["bow"]
        return cam


def grid_map(cam):
    """Where each cell of the picture lies on the sheet, one cell more on every side, as two float pictures."""
    nx, ny = cam.width // CELL + 2, cam.height // CELL + 2
    x = (np.arange(nx) - 0.5) * CELL - 0.5
    y = (np.arange(ny) - 0.5) * CELL - 0.5
    gx, gy = np.meshgrid(x, y)
    p = cam.to_sheet(np.c_[gx.ravel(), gy.ravel()])
    return p[:, 0].reshape(ny, nx).astype(np.float32), p[:, 1].reshape(ny, nx).astype(np.float32)


def spread(coarse):
    """A grid_map field for each pixel."""
    full = cv2.resize(coarse, (coarse.shape[1] * CELL, coarse.shape[0] * CELL), interpolation=cv2.INTER_LINEAR)
    return full[CELL:-CELL, CELL:-CELL]


def shoot(cam, ground, ground_scale, ground_turn, top, top_scale, top_at, light):
    """GROUND (BGR, px per mm) tiled under TOP (BGRA, already multiplied, its corner at TOP_AT mm), both times LIGHT
    (BGR, coarse, in the picture's own gamma)."""
    mx, my = grid_map(cam)
    flat = cam
    if cam.bow_rise:
        flat = Camera.from_told(cam.told())
        flat.bow_rise = 0
    bx, by = grid_map(flat) if cam.bow_rise else (mx, my)
    c, s = np.cos(ground_turn) * ground_scale, np.sin(ground_turn) * ground_scale
    gx = spread((c * bx + s * by + ground.shape[1] / 2).astype(np.float32))
    gy = spread((c * by - s * bx + ground.shape[0] / 2).astype(np.float32))
    under = cv2.remap(ground, gx, gy, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
    tx = spread((mx - top_at[0]) * top_scale - 0.5)
    ty = spread((my - top_at[1]) * top_scale - 0.5)
    over = cv2.remap(top, tx, ty, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=(0, 0, 0, 0))
    out = np.empty_like(under)
    step = 250
    for y in range(0, cam.height, step):
        rows = slice(y, min(y + step, cam.height))
        a = over[rows, :, 3:].astype(np.float32) * (-1 / 255) + 1
        mixed = under[rows].astype(np.float32) * a + over[rows, :, :3]
        out[rows] = np.clip(mixed * lit_rows(light, cam, rows) + 0.5, 0, 255)
    return out


def lit_rows(light, cam, rows):
    """ROWS of the coarse light, straight between its places."""
    h, w = light.shape[:2]
    y = ((np.arange(rows.start, rows.stop) + 0.5) * h / cam.height - 0.5).astype(np.float32)
    x = ((np.arange(cam.width) + 0.5) * w / cam.width - 0.5).astype(np.float32)
    gx, gy = np.meshgrid(x, y)
    return cv2.remap(light, gx, gy, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)


def blob(rng, w, h, at, size, sharp):
    """A soft-edged patch of no particular form, 0 to 1: lumps of waves round AT."""
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    ang = np.arctan2(y - at[1], x - at[0])
    far = np.hypot(x - at[0], y - at[1])
    r = np.ones_like(ang)
    for k in range(2, 6):
        r += rng.uniform(0, 0.30 / k) * np.cos(k * ang + rng.uniform(0, 6.3))
    return np.clip((size * r - far) / (sharp * size) + 0.5, 0, 1)


def bar_shadow(rng, w, h):
    """A straight-edged shadow (a door, a beam, an arm) whose edge softens along its way."""
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    ang, place = rng.uniform(0, 2 * np.pi), rng.uniform(-0.35, 0.35) * h
    across = (x - w / 2) * np.cos(ang) + (y - h / 2) * np.sin(ang) - place
    along = -(x - w / 2) * np.sin(ang) + (y - h / 2) * np.cos(ang)
    soft = np.interp(along, [-h, h], [rng.uniform(2, 6), rng.uniform(10, 40)])
    wide = rng.uniform(0.15, 0.6) * h if rng.random() < 0.5 else 9 * h
    return np.clip(across / soft + 0.5, 0, 1) * np.clip((wide - across) / soft + 0.5, 0, 1)


def make_light(rng, cam, level):
    """Light in the picture's gamma, one value every 16 px: fall-off to the corners, a window's side, shadows, a cast."""
    w, h = cam.width // 16, cam.height // 16
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    dx, dy = (x - w / 2) / np.hypot(w, h) * 2, (y - h / 2) / np.hypot(w, h) * 2
    rr = dx * dx + dy * dy
    light = 1 - rng.uniform(*[(0.03, 0.15), (0.05, 0.25), (0.1, 0.35)][level]) * (0.6 * rr + 0.4 * rr * rr)
    ang = rng.uniform(0, 2 * np.pi)
    light *= 1 + rng.uniform(*[(0, 0.08), (0.04, 0.2), (0.1, 0.3)][level]) * (dx * np.cos(ang) + dy * np.sin(ang))
    cast = rng.uniform(-1, 1) * [0.02, 0.05, 0.09][level]
    tint = np.array([1 - cast, 1 + rng.uniform(-0.02, 0.02), 1 + cast], np.float32)
    colour = light[:, :, None] * tint
    for _ in range(rng.integers(*[(0, 1), (0, 3), (1, 4)][level]) if level else 0):
        dark = bar_shadow(rng, w, h) if rng.random() < 0.55 else \
            blob(rng, w, h, (rng.uniform(0, w), rng.uniform(0, h)), rng.uniform(0.12, 0.5) * h, rng.uniform(0.05, 0.5))
        take = rng.uniform(*[(0, 0), (0.06, 0.28), (0.10, 0.38)][level])
        cool = np.array([0.85, 0.97, 1.05], np.float32)  # open sky lights what the sun does not: bluish
        colour *= 1 - take * dark[:, :, None] * cool
    return colour.astype(np.float32)


def noise_tile(rng, size=1024):
    """Noise as it is left after a phone's cleaning: fine grain that its neighbours share, and soft blots of colour."""
    grain = cv2.GaussianBlur(rng.standard_normal((size, size)).astype(np.float32), (0, 0), 0.55)
    grain /= grain.std()
    blots = rng.standard_normal((size // 4, size // 4, 3)).astype(np.float32)
    blots = cv2.resize(blots, (size, size), interpolation=cv2.INTER_CUBIC)
    return grain[:, :, None] + 0.45 * blots


def expose(rng, img, tile, sigma, blur, sharpen):
    """Lens blur, noise, and the sharpening a phone adds (with its halos)."""
    if blur > 0:
        img = cv2.GaussianBlur(img, (0, 0), blur)
    h, w = img.shape[:2]
    n = np.clip(tile * sigma, -127, 127)
    n = np.where(rng.random() < 0.5, n, n[::-1])
    n = np.roll(n, (rng.integers(1024), rng.integers(1024)), (0, 1)).round().astype(np.int16)
    for y in range(0, h, 1024):
        for x in range(0, w, 1024):
            part = img[y:y + 1024, x:x + 1024]
            turn = n[::-1] if (x // 1024) % 2 else n
            cv2.add(part, np.ascontiguousarray(turn[:part.shape[0], :part.shape[1]]), part, dtype=cv2.CV_8U)
    if sharpen > 0:
        img = cv2.addWeighted(img, 1 + sharpen, cv2.GaussianBlur(img, (0, 0), 1.6), -sharpen, 0)
    return img
