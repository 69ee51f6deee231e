#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs `pritchel trace` over photos of maker.py and holds what it says against their truth.

    judge.py DIR... --pritchel PATH [--jobs 2] [--json OUT] [--quiet]

prints one row a kind and then every photo that fails, with why. DIRs may lie inside one another.

What is measured, mm on the true sheet:
  line   mean distance of the found line to the drawn one (round the bulbs too, where it was drawn closed), after the
         found one was laid on by turning and moving alone: a wrong scale or a wrong lens shows in it
  ink    the same with the found line carried through the program's camera into the photo and through the true camera
         back: only whether it lies on the ink
  heel   each end of the found line to the true heel, the same way; each photo's worse one stands in the table
  scale  by how much the found line is larger than the true one, per cent
  lost   length of true line more than 3 mm from the found one
  silent length of found line more than 1 mm off the ink that no doubt covers
A heel is undoubted when no doubt at that end of the line is as long as the error."""
import argparse
import concurrent.futures
import glob
import json
import os
import re
import subprocess
import sys
import time

sys.dont_write_bytecode = True
import numpy as np
import lens
from foot import even, length

LINE_MOST, BOWED_MOST, HEEL_MOST, SILENT_MOST, SCALE_MOST = 0.3, 0.6, 5.0, 3.0, 0.5


def unbend(p, bend):
    """Points of a sheet that the program takes as bent (pr-camera.h): where they lie in the plane through both ends of the
    bend, and what their height adds before the division."""
    along, (rise, skew) = np.array(bend["along"]), bend["rise_mm"]
    length = bend["length_mm"]
    u = (p @ along - bend["from_mm"]) / length
    a, b, c = rise + skew, -2 * rise - 6 * skew, 6 * skew
    near = (a * a * u + a * b * u**2 + (b * b + 2 * a * c) * u**3 / 3 + b * c * u**4 / 2 + c * c * u**5 / 5) / (2 * length)
    z = u * (1 - u) * (rise + skew * (1 - 2 * u))
    return p - near[:, None] * along, z[:, None] * np.array(bend["lift"])


def program_px(d, p):
    """Through the camera that the program gives."""
    cam = d["camera"]
    p, lift = unbend(p, cam["bend"]) if "bend" in cam else (p, 0)
    q = np.c_[p, np.ones(len(p))] @ np.array(cam["h"]).reshape(3, 3).T + lift
    q = q[:, :2] / q[:, 2:]
    c = np.array([cam["centre_x"], cam["centre_y"]])
    r2 = ((q - c) ** 2).sum(1, keepdims=True) / cam["radius"] ** 2
    return c + (q - c) * (1 + d["scale"]["lens_k1"] * r2)


def to_path(p, line):
    """Distances of P to the polyline LINE (points close together), and which point is nearest."""
    far, at = np.empty(len(p)), np.empty(len(p), int)
    for k in range(0, len(p), 256):
        d = ((p[k:k + 256, None] - line[None]) ** 2).sum(2)
        at[k:k + 256] = d.argmin(1)
        far[k:k + 256] = np.sqrt(d.min(1))
    a, b = line[np.maximum(at - 1, 0)], line[np.minimum(at + 1, len(line) - 1)]
    for s, e in ((a, line[at]), (line[at], b)):
        v = e - s
        t = np.clip(((p - s) * v).sum(1) / np.maximum((v ** 2).sum(1), 1e-12), 0, 1)
        far = np.minimum(far, np.hypot(*(p - s - v * t[:, None]).T))
    return far, at


def lay_on(p, q):
    """P turned and moved onto Q, and how much larger P is than Q."""
    a, b = p - p.mean(0), q - q.mean(0)
    u, s, v = np.linalg.svd(a.T @ b)
    return a @ (u @ v) + q.mean(0), (a ** 2).sum() / s.sum()


def covered(doubts, at, reach=1.5):
    out = np.zeros(len(at), bool)
    for d in doubts:
        out |= (at >= d["from_mm"] - reach) & (at <= d["to_mm"] + reach)
    return out


def doubt_at_end(doubts, total, first):
    """Length of the longest doubt that reaches this end of the line."""
    long = [d["to_mm"] - d["from_mm"] for d in doubts
            if (d["from_mm"] <= 2 if first else d["to_mm"] >= total - 2)]
    return max(long, default=0.0)


def other_outlines(d):
    """Any second line the answer holds."""
    found = []

    def look(v, name):
        if isinstance(v, dict):
            for k, w in v.items():
                look(w, k)
        elif isinstance(v, list):
            if len(v) > 60 and all(isinstance(w, list) and len(w) == 2 for w in v):
                found.append(np.array(v))
            else:
                for w in v:
                    look(w, name)
    for k, v in d.items():
        if k not in ("outline_mm", "hoof"):
            look(v, k)
    return found


def measure(d, t):
    out = {"verdict": d["scale"]["verdict"], "why": d["scale"]["why"], "closed_found": d["closed"],
           "reasons": [r["text"] for r in d["scale"].get("reasons", [])], "figure": d.get("figure", False)}
    p = np.array(d["outline_mm"])
    if len(p) < 3:
        return out
    cam = lens.Camera.from_told(t["camera"])
    q = cam.to_sheet(program_px(d, p))
    out["foot"], foot = min(enumerate(t["feet"]), key=lambda k: to_path(q[::8], np.array(k[1]["line_mm"]))[0].mean())
    line = even(np.array(foot["line_mm"]))
    ink = line if foot["bulbs_mm"] is None else np.vstack([line, even(np.array(foot["bulbs_mm"]))])
    laid, size = lay_on(p, q)
    true_size = lay_on(q, q)[1]
    far, off = to_path(laid, ink)[0], to_path(q, ink)[0]
    at = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
    doubts = covered(d["doubt"], at)
    step = np.r_[0, np.diff(at)]
    missed = to_path(line, q)[0] > 3
    out.update(line=float(far.mean()), line_max=float(far.max()), ink=float(off.mean()), scale=100 * (size / true_size - 1),
               lost=float(missed.sum() * length(line) / len(line)), silent=float(step[(off > 1) & ~doubts].sum()),
               doubt_mm=float(step[doubts].sum()), doubts=[x["why"] for x in d["doubt"]])
    heels = np.array(foot["heels_mm"])
    ends = q[[0, -1]]
    if np.hypot(*(ends - heels).T).sum() > np.hypot(*(ends - heels[::-1]).T).sum():
        heels = heels[::-1]
    out["heels"] = np.hypot(*(ends - heels).T).tolist()
    out["heel_doubt"] = [doubt_at_end(d["doubt"], at[-1], True), doubt_at_end(d["doubt"], at[-1], False)]
    toe = d.get("landmarks", {}).get("toe")
    if toe:
        out["toe"] = float(np.hypot(*(cam.to_sheet(program_px(d, np.array([toe])))[0] - foot["toe_mm"])))
    hidden(out, t, q, doubts, line)
    out["others"] = [float(min(to_path(cam.to_sheet(program_px(d, o)), np.array(f["line_mm"]))[0].mean()
                               for k, f in enumerate(t["feet"]) if k != out["foot"]))
                     for o in other_outlines(d)] if len(t["feet"]) > 1 else []
    return out


def hidden(out, t, q, doubts, line):
    """How much of each hidden stretch the found line bridges in doubt."""
    shares = []
    for a, b in t["hidden_mm"]:
        middle = line[int(a / 0.25) + 4:max(int(b / 0.25) - 4, int(a / 0.25) + 5)]
        near, at = to_path(middle, q)
        shares.append(float(((near < 4) & doubts[at]).mean()))
    out["hidden"] = shares


def bad_heel(m):
    """The worse heel's error and the doubt there, when that is not as long; else None."""
    return max(((e, w) for e, w in zip(m.get("heels", []), m.get("heel_doubt", [])) if e > HEEL_MOST and w < e),
               default=None)


def faults(m, t):
    """What a person would complain of."""
    want, out = t["expected"], []
    good = m.get("verdict") == "good"
    if "refused" in m:
        return [] if want.get("question") else ["refused: " + m["refused"]]
    if "line" not in m and not want.get("question"):
        return ["no line: " + m["why"]]
    if want.get("question"):
        return ["called good"] if good else []
    if want.get("print"):
        named = any(any(abs(float(n) - 100 * s) < 0.6 for n in re.findall(r"\d+(?:\.\d+)?", r)) for r in m["reasons"]
                    for s in want["print"] if s != 1)
        if good or not named:
            out.append(f"print at {want['print']} {'called good' if good else 'not named: ' + m['why']}")
    elif want.get("clean") and any(re.search("print", r) for r in m["reasons"]):
        out.append("false alarm: " + m["why"])
    all_there = not t["closed"] and not t["hidden_mm"] and m["lost"] < 6 and max(m["heels"]) < HEEL_MOST
    if all_there and any(re.search("heel to heel|missing", r) for r in m["reasons"] + [m["why"]]):
        out.append(f"told not whole, and is: {m['why']}")
    if want.get("whole") and m["doubt_mm"] > 12:
        out.append(f"{m['doubt_mm']:.0f} mm in doubt: {m['doubts']}")
    most = BOWED_MOST if t.get("bow_mm") else t.get("line_most", LINE_MOST)
    if m["ink" if want.get("print") else "line"] > most and not (t.get("bow_mm", 0) > 1 and not good):
        out.append(f"line {m['line']:.2f} (ink {m['ink']:.2f})")
    if t.get("bow_mm", 0) > 1.1 and good and t["sheet"] == "plain":
        out.append(f"edges bow by {t['bow_mm']:.1f}, called good")
    if bad_heel(m):
        out.append("heel {:.1f} off, doubt {:.1f}, {}".format(*bad_heel(m), m["verdict"]))
    if m["silent"] > SILENT_MOST:
        out.append(f"{m['silent']:.0f} mm off in silence")
    if m["lost"] - sum(m["heels"]) > 6:  # but for what a heel lies off, which is counted above
        out.append(f"{m['lost']:.0f} mm lost")
    if not want.get("print") and abs(m["scale"]) > SCALE_MOST and good:
        out.append(f"scale {m['scale']:+.2f} %")
    if m["figure"]:
        out.append("called a figure, not a hoof")
    if want.get("turned") and m.get("toe", 99) > 10:
        out.append(f"toe {m.get('toe', -1):.0f} off")
    if any(h < 0.8 for h in m.get("hidden", [])):
        out.append("hidden stretch in doubt for %.0f %%" % (100 * min(m["hidden"])))
    if want.get("feet", 1) > 1 and not any(o < 1 for o in m["others"]):
        out.append("second foot not offered")
    return out


def run(photo, program):
    with open(photo[:-4] + ".json", encoding="utf-8") as f:
        t = json.load(f)
    began = time.monotonic()
    try:
        done = subprocess.run([program, "trace", photo, "--json", "-"] + t["options"], capture_output=True, text=True,
                              timeout=120, env=dict(os.environ, LC_ALL="C.UTF-8"))
    except subprocess.TimeoutExpired:
        done = subprocess.CompletedProcess([], 1, "", "more than two minutes")
    took = time.monotonic() - began
    if done.returncode == 0:
        m = measure(json.loads(done.stdout), t)
    else:
        m = {"refused": (done.stderr.strip().splitlines() or [f"exit {done.returncode}"])[-1]}
    m.update(photo=photo, kind=t["kind"], level=t["level"], time=took, closed=t["closed"])
    m["faults"] = faults(m, t)
    return m


def three(v, form="{:.2f}"):
    v = np.array([x for x in v if x is not None])
    return "/".join(form.format(x) for x in np.percentile(v, [50, 95, 100])) if len(v) else "-"


HEAD = ["kind", "n", "ok", "refused", "good/usable/retake", "line med/95/max", "ink med/95/max", "heel med/95/max",
        ">5 good", ">5 undoubted", "scale % med/max", "s med"]


def row(kind, ms):
    found = [m for m in ms if "line" in m]
    bad = [m for m in found if bad_heel(m)]
    scale = np.abs([m["scale"] for m in found]) if found else np.array([np.nan])
    return [kind, len(ms), sum(not m["faults"] for m in ms), sum("refused" in m for m in ms),
            "/".join(str(sum(m.get("verdict") == v for m in ms)) for v in ("good", "usable", "retake")),
            three([m["line"] for m in found]), three([m["ink"] for m in found]),
            three([max(m["heels"]) for m in found], "{:.1f}"), sum(m["verdict"] == "good" for m in bad), len(bad),
            f"{np.median(scale):.2f}/{scale.max():.2f}", f"{np.median([m['time'] for m in ms]):.2f}"]


def table(rows):
    wide = [max(len(str(r[k])) for r in rows) for k in range(len(rows[0]))]
    return "\n".join("  ".join(str(c).ljust(w) for c, w in zip(r, wide)).rstrip() for r in rows)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("dir", nargs="+")
    parser.add_argument("--pritchel", default="pritchel")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--json")
    parser.add_argument("--quiet", action="store_true", help="no failures by name")
    args = parser.parse_args()
    photos = sorted({p for d in args.dir for p in glob.glob(os.path.join(d, "**", "*.jpg"), recursive=True)
                     if os.path.exists(p[:-4] + ".json")})
    with concurrent.futures.ProcessPoolExecutor(args.jobs) as pool:
        all_of = list(pool.map(run, photos, [args.pritchel] * len(photos)))
    by_kind = {}
    for m in all_of:
        by_kind.setdefault(m["kind"], []).append(m)
    print(table([HEAD] + [row(k, v) for k, v in by_kind.items()]))
    if not args.quiet:
        for m in all_of:
            for f in m["faults"]:
                print(f"{m['photo']} ({m['level']}): {f}")
    if args.json:
        with open(args.json, "w", encoding="utf-8") as out:
            json.dump(all_of, out, indent=1)
    return 0


if __name__ == "__main__":
    sys.exit(main())
