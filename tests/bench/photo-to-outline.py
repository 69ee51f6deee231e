#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""From photo file to outline, the whole command against the plainest pipeline (plain-pipeline.py) in the same run, scene
by scene: printed and plain sheets of every level, 12 megapixels. Printed, never asserted by the clock: the ratio to the
pipeline's own time, and to its whole process with the interpreter's start.
    photo-to-outline.py PRITCHEL SCENE-MAKER [ROUNDS]"""
import os
import statistics
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
LEVELS = {
    "easy": "tilt_deg=8",
    "writing": "tilt_deg=20 writing=1 frog=1 ticks=1",
    "field": "tilt_deg=25 writing=1 frog=1 dirt=1 shadow=1 bench=concrete pen=ballpoint",
    "hard": "tilt_deg=32 pen=pencil dark=0.7 dirt=1 shadow=1 folds=1 bench=rubber gap_mm=10",
    "pale": "tilt_deg=15 bench=pale frog=1 shadow=1",
    "wide": "tilt_deg=30 k1=-0.08 writing=1 bench=concrete",
}


def clock(command):
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, text=True)
    return (time.perf_counter() - start) * 1000, done


def measure(pritchel, photo, tags, rounds):
    ours, own, whole = [], [], []
    for _ in range(rounds):
        ms, done = clock([pritchel, "trace", photo, "--json", photo + ".json"])
        if done.returncode:
            return None
        ours.append(ms)
        ms, done = clock(["/usr/bin/python3", os.path.join(HERE, "plain-pipeline.py"), photo,
                          "tags" if tags else "plain", "210", "297"])
        if done.returncode:
            return None
        whole.append(ms)
        own.append(float(done.stdout.split()[0]))
    return [statistics.median(v) for v in (ours, own, whole)]


def main():
    pritchel, maker, rounds = sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 5
    ratios, wholes = [], []
    with tempfile.TemporaryDirectory() as folder:
        for tags in (1, 0):
            for level, options in LEVELS.items():
                for seed in (1, 2):
                    photo = os.path.join(folder, "scene.jpg")
                    subprocess.run([maker, photo, photo + ".truth", f"seed={seed}", f"tags={tags}"]
                                   + options.split(), check=True, capture_output=True)
                    name = f"{'printed' if tags else 'plain'} {level} {seed}"
                    took = measure(pritchel, photo, tags, rounds)
                    if took is None:
                        print(f"{name:20} no outline")
                        continue
                    ratios.append(took[0] / took[1])
                    wholes.append(took[0] / took[2])
                    print(f"{name:20} {took[0]:5.0f} ms, pipeline {took[1]:5.0f} ms (process {took[2]:5.0f}): "
                          f"ratio {ratios[-1]:.2f} ({wholes[-1]:.2f})", flush=True)
    print(f"median of {len(ratios)}: {statistics.median(ratios):.2f}, worst {max(ratios):.2f}; "
          f"to the whole process {statistics.median(wholes):.2f}")


main()
