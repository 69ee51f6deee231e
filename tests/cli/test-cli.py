#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The built command driven from outside: test-cli.py PRITCHEL SCENE-MAKER SOURCE-ROOT.

What is held: exit status, one plain sentence on stderr, nothing half written, and figures that agree with
the truth the scene maker knows.
"""
import json
import os
import re
import shutil
import sqlite3
import struct
import subprocess
import sys
import tempfile
import unittest
import zlib
from concurrent.futures import ThreadPoolExecutor

PRITCHEL, SCENE_MAKER, ROOT = sys.argv[1:4]
EIGHT = {"template.pdf", "template.svg", "template.png", "bar.pdf", "stages.svg", "card.pdf", "report.txt", "report.json"}
SMALL = ["width=1650", "height=2200", "blur_px=0.6", "noise=2"]

BAD_SCENES = [["two sheets", "sheets=2", "fill=0.42", "width=825", "height=1100"],
              ["no sheet", "sheets=0", "no_line=1"], ["no line", "no_line=1"]]

HERE = tempfile.mkdtemp(prefix="pritchel-cli-")
ENV = {k: v for k, v in os.environ.items()
       if k not in ("DISPLAY", "WAYLAND_DISPLAY", "XDG_RUNTIME_DIR", "DBUS_SESSION_BUS_ADDRESS")}
ENV.update(HOME=HERE, XDG_DATA_HOME=HERE + "/data", XDG_CONFIG_HOME=HERE + "/config")


def run(*args, env=None, cwd=None, program=None):
    return subprocess.run([program or PRITCHEL, *args], env=env or ENV, cwd=cwd, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=300)


def read(name):
    with open(name, "rb") as f:
        return f.read()


def path(*names):
    return os.path.join(HERE, *names)


def scene(name, *keys):
    photo, truth = path(name + ".jpg"), path(name + ".truth.json")
    if not os.path.exists(photo):
        subprocess.run([SCENE_MAKER, photo, truth, *SMALL, *keys], check=True)
    return photo, json.loads(read(truth))


def outline():
    """What `trace` makes of the good photo, for what begins behind the photo."""
    file = path("good.outline.json")
    if not os.path.exists(file):
        subprocess.run([PRITCHEL, "trace", scene("good", "foot=LF")[0], "--json", file], env=ENV, check=True,
                       stdout=subprocess.DEVNULL)
    return file


def each(work, rows):
    """WORK on every row, two at a time: most of it is waiting for the program. Returns what it returns, in order."""
    with ThreadPoolExecutor(max_workers=2) as pool:
        return list(pool.map(work, rows))


def write(name, data):
    with open(path(name), "wb") as f:
        f.write(data)
    return path(name)


def png(width, height, value=255, rows=None):
    """A grey PNG, made by hand so that no library of the program's is asked."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    rows = b"".join(b"\0" + row for row in rows) if rows else (b"\0" + bytes([value]) * width) * height
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


class Cli(unittest.TestCase):
    def fails(self, status, *args, says="", **more):
        return self.failed(status, args, run(*args, **more), says)

    def failed(self, status, args, done, says=""):
        """Exit status, one line that is a sentence, and nothing on stdout."""
        text = done.stderr.decode()
        self.assertEqual(done.returncode, status, (args, text))
        self.assertRegex(text, r"\Apritchel[^\n]{20,}\n\Z", args)
        self.assertEqual(done.stdout, b"", args)
        self.assertIn(says, text)
        return text

    def works(self, *args, **more):
        done = run(*args, **more)
        self.assertEqual((done.returncode, done.stderr.decode()), (0, ""), args)
        return done.stdout.decode()


class Surroundings(Cli):
    def test_no_gtk_is_linked(self):
        libs = subprocess.run(["ldd", PRITCHEL], stdout=subprocess.PIPE, check=True).stdout.decode()
        self.assertIn("libcairo", libs)
        for name in ("libgtk", "libgdk-3", "libgdk-4", "libwayland-client"):
            self.assertNotIn(name, libs)

    def test_help_and_version(self):
        self.assertIn("pritchel plan", self.works("--help"))
        self.assertRegex(self.works("--version"), r"\Apritchel \d+\.\d+\.\d+\n\Z")
        for command in ("sheet", "trace", "plan", "check"):
            self.assertIn("--help", self.works(command, "--help"))

    def test_window_is_a_program_beside(self):
        folder = path("beside")
        os.mkdir(folder)
        copy = shutil.copy(PRITCHEL, folder)
        self.fails(1, "--window", program=copy, env=dict(ENV, PATH="/nowhere"), says="pritchel-window")
        with open(folder + "/pritchel-window", "w") as f:
            f.write('#!/bin/sh\nfor a; do echo "<$a>"; done\n')
        os.chmod(folder + "/pritchel-window", 0o755)
        self.assertEqual(run(program=copy).stdout, b"")
        self.assertEqual(run("a photo.jpg", "-x", program=copy).stdout, b"<a photo.jpg>\n<-x>\n")
        self.assertEqual(run("--window", "a", "b", program=copy).stdout, b"<a>\n<b>\n")
        moved = shutil.move(copy, path("moved-pritchel"))
        self.assertEqual(run("--window", "p", program=moved, env=dict(ENV, PATH=folder + ":/bin:/usr/bin")).stdout,
                         b"<p>\n")

    def test_lists(self):
        styles = self.works("plan", "--styles")
        params = self.works("plan", "--params")
        for style in ("plain-front", "plain-hind", "quarter-clipped", "toe-extension"):
            self.assertRegex(styles, r"(?m)^%s " % style)
        self.assertRegex(params, r"(?m)^web\.toe .*\d+ to \d+ mm")
        self.assertGreater(params.count("\n"), 60)


class WrongUse(Cli):
    def test_exit_status_2(self):
        photo, out = "photo.jpg", path("wrong-out")
        plan = ["plan", photo, "-o", out]
        table = (["frobnicate"], ["--frobnicate"], ["sheet"], ["sheet", "-o"], ["sheet", "-o", out, "more"],
                 ["sheet", "-o", out, "--paper", "a9"], ["sheet", "-o", out, "--paper", "legal"],
                 ["sheet", "-o", out, "--foot", "front"], ["trace"], ["trace", photo, "two.jpg"],
                 ["trace", photo, "--scale", "magic"], ["trace", photo, "--paper", "foolscap"],
                 ["trace", photo, "--trust", "neither"],
                 ["trace", photo, "--unit", "cubit"], ["trace", photo, "--scale", "ruler"],
                 ["trace", photo, "--scale", "ruler", "--points", "1,2", "3,4", "--side", "0"],
                 ["trace", photo, "--scale", "card", "--points", "1,2", "3,4"],
                 ["trace", photo, "--scale", "rect", "--points", "1,2 3,4 5,6 7,8"],
                 ["trace", photo, "--scale", "rect", "--points", "1,2 3,4 5,6 7,8", "--side", "wide"],
                 ["trace", photo, "--scale", "card", "--points", "1,2 3,4 5,6 7,8 9,9"],
                 ["trace", photo, "--points", "1;2"], ["trace", photo, "--nonsense"],
                 ["trace", photo, "--shoe"], ["trace", photo, "--shoe", "--thickness", "10mm"],
                 ["trace", photo, "--shoe", "--thickness", "10mm", "--face", "left"], ["trace", photo, "--drawn"],
                 ["plan"], ["plan", photo], ["plan", "-o", out], plan + ["second.jpg"],
                 plan + ["--foot", "XX"], plan + ["--style", "no-such"], plan + ["--bar", "thick"],
                 plan + ["--bar", "3/8"], plan + ["--bar", "150x60"], plan + ["--given", "long"], plan + ["--given", "0"],
                 plan + ["--given", "-5"], plan + ["--set", "web.toe"], plan + ["--set", "=3"],
                 plan + ["--set", "no.such=3"], plan + ["--set", "web.toe=banana"],
                 plan + ["--set", "web.toe=nan"], plan + ["--set", "web.toe=9000"],
                 plan + ["--set", "web.toe=-4"], plan + ["--unit", "ell"], plan + ["--page", "a0"],
                 plan + ["--pages", "template,back"], plan + ["--pages", ""], plan + ["--pages", "card,bar,card"],
                 plan + ["--pages", "card bar"], plan + ["--horse", ""], plan + ["--horse", " \t\u202e"],
                 plan + ["--date", "today"], plan + ["--date", "2026-02-29"], plan + ["--date", "28.11.2026"],
                 plan + ["--date", "2026-11-28T10:00"], plan + ["--date", "1066-10-14"],
                 ["check"], ["check", "a", "b"], ["check", "--book", "x", "seven"],
                 ["recover"], ["recover", "x"], ["recover", "x", "y", "-o", "z"], ["recover", "-o", "z"])
        for args, done in zip(table, each(lambda args: run(*args), table)):
            with self.subTest(args=args):
                self.failed(2, args, done)
        self.assertFalse(os.path.exists(out))


class BadInput(Cli):
    """Each row is a photo nobody can work with; trace, plan and check must all say so."""

    def rows(self):
        good = read(scene("good", "foot=LF")[0])
        os.makedirs(path("a folder"), exist_ok=True)
        yield "text", write("text.jpg", b"not a picture at all\n")
        yield "empty", write("empty.jpg", b"")
        yield "truncated", write("truncated.jpg", good[:len(good) // 3])
        yield "head only", write("head.jpg", good[:200])
        yield "one pixel", write("one.png", png(1, 1))
        yield "white", write("white.png", png(600, 800))
        yield "black", write("black.png", png(600, 800, 0))
        yield "missing", path("missing.jpg")
        yield "folder", path("a folder")
        for name, *keys in BAD_SCENES:
            yield name, scene(name, *keys)[0]
        yield "broken json", write("broken.json", b'{"outline_mm": [[1,2],')
        yield "wrong json", write("wrong.json", b'{"outline_mm": "round"}')
        yield "no outline", write("none.json", b"{}")
        yield "three points", write("three.json", b'{"outline_mm": [[1,2],[3,4],[5,6]]}')
        yield "nan", write("nan.json", b'{"outline_mm": [[1,2],[null,4],["a",6],[7],[8,9,10]]}')
        yield "one place", write("one.json", json.dumps({"outline_mm": [[5, 5]] * 50}).encode())
        yield "huge", write("huge.json", json.dumps({"outline_mm": [[i * 1e6, i * i * 1e5] for i in range(40)]}).encode())
        yield "deep", write("deep.json", b"[" * 2000000)

    def test_table(self):
        each(lambda keys: scene(*keys), BAD_SCENES)
        calls = []
        for number, (name, file) in enumerate(self.rows()):
            out, made, raster = (path("bad-%d%s" % (number, end)) for end in ("-out", ".json", ".png"))
            for args in (["trace", file, "--json", made, "--rectified", raster],
                         ["plan", file, "--foot", "LF", "--style", "quarter-clipped", "-o", out],
                         ["check", file, "--foot", "LF"]):
                calls.append((name, args, (out, made, raster)))
        for (name, args, files), done in zip(calls, each(lambda call: run(*call[1]), calls)):
            with self.subTest(row=name, command=args[0]):
                self.failed(1, args, done)
                for left in files:
                    self.assertFalse(os.path.exists(left), left)

    def test_places_that_cannot_be_written(self):
        photo = scene("good", "foot=LF")[0]
        file = write("in-the-way", b"x")
        for out in (file, file + "/below", "/proc/nowhere/out"):
            with self.subTest(out=out):
                self.fails(1, "plan", outline(), "--foot", "LF", "-o", out)
                self.fails(1, "sheet", "-o", out + "/sheet.pdf")
                self.fails(1, "trace", photo, "--json", out + "/t.json")
        self.assertEqual(read(file), b"x")
        before = set(os.listdir(HERE))
        self.fails(1, "trace", photo, "--rectified", path("half.png"), "--json", file + "/t.json")
        self.assertEqual(set(os.listdir(HERE)), before)
        full = subprocess.run(["sh", "-c", '"$1" trace "$2" --json - > /dev/full', "sh", PRITCHEL, photo],
                              env=ENV, stderr=subprocess.PIPE, timeout=300)
        self.assertEqual(full.returncode, 1)
        self.assertEqual(full.stderr.count(b"\n"), 1)

    def test_unreadable_photo(self):
        if os.getuid() == 0:
            self.skipTest("root reads everything")
        photo = write("secret.jpg", b"x")
        os.chmod(photo, 0)
        self.fails(1, "trace", photo)

    def test_bar_too_short(self):
        out = path("short-out")
        args = ["plan", outline(), "--foot", "LF", "--style", "quarter-clipped", "--bar", "3/8 x 1", "--given", "8in",
                "-o", out]
        text = self.fails(1, *args, says="--anyway")
        self.assertRegex(text, r"needs [\d.]+ mm of 1 × 3/8 in and 203\.2 mm is given: [\d.]+ mm is missing")
        self.assertFalse(os.path.exists(out))
        self.assertIn("missing", self.works(*args, "--anyway"))
        self.assertEqual(set(os.listdir(out)), EIGHT)

    def test_recover(self):
        """A page is wiped; the new book has the rest and opens, the old one is as it was."""
        book, new = shutil.copy(os.path.join(ROOT, "tests/book/v5.pritchel"), path("wiped.pritchel")), path("new.pritchel")
        with sqlite3.connect(book) as db:
            page = db.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'photo'").fetchone()[0]
        db.close()
        with open(book, "r+b") as f:
            f.seek((page - 1) * 4096)
            f.write(bytes(4096))
        before = read(book)
        self.assertIn("1 of 1 horses, 1 of 1 visits, 1 of 1 feet, 0 of 0 photos, 1 of 1 shoes", self.works("recover", book, "-o", new))
        self.assertEqual(read(book), before)
        with sqlite3.connect(new) as db:
            self.assertEqual(db.execute("SELECT name FROM horse").fetchall(), [("Juniper",)])
        db.close()
        self.fails(1, "recover", book, "-o", new, says="already")
        self.fails(1, "recover", path("none.pritchel"), "-o", path("other.pritchel"), says="not a Pritchel book")

    def test_book(self):
        self.fails(1, "check", "--book", path("no.pritchel"))
        self.fails(1, "check", "--book", write("not.pritchel", b"x" * 500), "1", says="not a Pritchel book")


class Doors(Cli):
    """A name, a path or a file's text steers neither the terminal nor what is written."""

    # escapes of a terminal, C1, marks of direction, line breaks, bytes that are no letters
    STEERING = [b"\x1b[31mred", "\x9b31m".encode(), "a\u202eb".encode(), "\u2066x".encode(), "\u2028".encode(),
                b"line\nbreak", b"\x07bell", b"\x7f", b"\xff\xfe", "\U0001f434".encode() * 60, "\u0646\u062c\u0645".encode()]

    def plain(self, *texts):
        for text in texts:
            self.assertNotRegex(text.decode(), "[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")

    def rows(self):
        for name in self.STEERING:
            missing = os.fsencode(HERE) + b"/" + name + b".jpg"
            yield 1, ["trace", missing]
            yield 1, ["check", missing, "--foot", "LF"]
            yield 1, ["plan", missing, "--foot", "LF", "-o", path("door")]
            yield 2, ["plan", "x.jpg", "--style", name, "-o", path("door")]
            yield 2, ["plan", "x.jpg", "--set", name, "-o", path("door")]
            yield 2, ["plan", "x.jpg", "--foot", name, "-o", path("door")]
            yield 2, ["plan", "x.jpg", "--pages", name, "-o", path("door")]
            yield 2, ["plan", "x.jpg", "--date", name, "-o", path("door")]
            yield 2, ["trace", "x.jpg", "--points", name]
            yield 2, ["cut", "--stock", "6m", name]
            yield 1, ["check", "--book", missing]
            yield 1, ["recover", missing, "-o", path("door")]
            yield 2, [name]
            yield 1, ["sheet", "-o", os.fsencode(path("no")) + b"/" + name + b"/sheet.pdf"]
            yield 1, ["plan", outline(), "--foot", "LF", "--order", missing, "-o", path("door")]
            broken = os.fsencode(HERE) + b"/" + name + b".json"
            with open(broken, "wb") as f:
                f.write(b'{"outline_mm": [[1,2],' + name + b"]}")
            yield 1, ["plan", broken, "--foot", "LF", "-o", path("door")]

    def test_names_that_steer(self):
        rows = list(self.rows())
        for (status, args), done in zip(rows, each(lambda row: run(*row[1]), rows)):
            with self.subTest(args=args):
                self.failed(status, args, done)
                self.plain(done.stderr)
        self.assertFalse(os.path.exists(path("door")))

    def test_what_is_told_of_work_done(self):
        for i, name in enumerate(self.STEERING):
            if b"\n" in name or len(name) > 200:
                continue
            out = os.fsencode(HERE) + b"/told-%d-" % i + name
            done = run("plan", outline(), "--foot", "LF", "-o", out)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.plain(done.stdout, done.stderr)
            self.assertEqual(done.stdout.count(b"\n"), 4)

    def test_own_files_that_steer(self):
        folder = path("data", "pritchel", "styles")
        os.makedirs(folder)
        style = {"id": "mine", "name": "My \u202eown\n\x9b31m", "for": "\x1b]0;title\x07", "set": {"web.toe": 24}}
        with open(folder + "/mine.json", "w") as f:
            json.dump(style, f)
        with open(folder + "/steers.json", "w") as f:
            json.dump({**style, "id": "mine\x1b[2J"}, f)
        with open(folder + "/bad\x1b[31m.json", "w") as f:
            f.write("{")
        try:
            done = run("plan", "--styles")
            self.assertEqual(done.returncode, 0)
            self.plain(done.stdout, done.stderr)
            self.assertIn(b"mine ", done.stdout)
            self.assertNotIn(b"2J", done.stdout)
            self.assertIn(b"steers.json", done.stderr)
        finally:
            shutil.rmtree(folder)

    def test_json_on_the_terminal(self):
        data = json.loads(read(outline()))
        data["scale"]["why"] = "\x1b[31m\u202e\x9bred"
        file = write("steering.json", json.dumps(data).encode())
        done = run("check", file, "--foot", "LF", "--json", "-")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.plain(done.stdout)
        json.loads(done.stdout)

    def test_links_and_what_is_no_file(self):
        secret, folder = write("secret.txt", b"mine"), path("linked")
        os.mkdir(folder)
        os.symlink(secret, folder + "/report.json")
        os.symlink(path("nowhere"), folder + "/sheet.pdf")
        os.mkfifo(folder + "/pipe")
        photo = scene("good", "foot=LF")[0]
        self.fails(1, "plan", outline(), "--foot", "LF", "-o", folder, says="report.json is a link")
        self.fails(1, "sheet", "-o", folder + "/sheet.pdf", says="is a link")
        self.fails(1, "trace", photo, "--json", folder + "/report.json", says="is a link")
        self.fails(1, "trace", photo, "--rectified", folder + "/pipe", says="is not a plain file")
        self.fails(1, "sheet", "-o", "/dev/null", says="is not a plain file")
        self.fails(1, "plan", outline(), "--foot", "LF", "--order", folder + "/pipe", "-o", folder, says="text file")
        self.fails(1, "plan", outline(), "--foot", "LF", "--order", "/dev/zero", "-o", folder, says="text file")
        self.assertEqual(read(secret), b"mine")
        self.assertFalse(os.path.exists(path("nowhere")))
        self.assertEqual(sorted(os.listdir(folder)), ["pipe", "report.json", "sheet.pdf"])

    def test_check_only_reads(self):
        def state():
            return {name: (os.stat(os.path.join(folder, name)).st_mtime_ns, read(os.path.join(folder, name)))
                    for name in sorted(os.listdir(folder))}
        folder = path("books")
        os.mkdir(folder)
        book = shutil.copy(os.path.join(ROOT, "tests/book/v1.pritchel"), folder + "/a book?#%.pritchel")
        write("books/short.pritchel", read(book)[:3000])
        log = shutil.copy(book, folder + "/log.pritchel")
        with sqlite3.connect(log) as db:
            db.execute("PRAGMA journal_mode = WAL")
        db.close()
        before, env = state(), dict(ENV, TMPDIR=path("temporary"))
        os.mkdir(env["TMPDIR"])
        self.fails(1, "check", "--book", book, "77", env=env)
        self.fails(1, "check", "--book", log, "77", env=env, says="no longer in the book")
        self.fails(1, "check", "--book", folder + "/short.pritchel", env=env, says="short.pritchel")
        with sqlite3.connect(book, isolation_level=None) as db:
            db.execute("BEGIN EXCLUSIVE")
            self.fails(1, "check", "--book", book, "77", env=env, says="is open in another window or program")
            db.execute("ROLLBACK")
            db.execute("BEGIN")                  # somebody else reads too
            db.execute("SELECT count(*) FROM horse").fetchall()
            self.fails(1, "check", "--book", book, "77", env=env, says="no longer in the book")
            db.execute("ROLLBACK")
        db.close()
        self.assertEqual(state(), before)
        os.chmod(book, 0o400)                # what may only be read can be read
        os.chmod(folder, 0o500)
        self.fails(1, "check", "--book", book, "77", env=env, says="no longer in the book")
        os.chmod(folder, 0o700)
        self.assertEqual(state(), before)
        self.assertEqual(os.listdir(env["TMPDIR"]), [])

    def test_names_too_long(self):
        horse = "\U0001f434"
        self.fails(1, "sheet", "-o", path(horse * 63 + ".pdf"), says="too long")
        self.works("sheet", "-o", path(horse * 62 + ".pdf"))
        self.fails(1, "plan", outline(), "--foot", "LF", "-o", path("x" * 256))
        self.fails(1, "sheet", "-o", path("gone", "sheet.pdf"), says="is not there")

    def test_a_set_without_the_dxf_takes_the_old_one_away(self):
        out = path("dxf-goes")
        self.works("plan", outline(), "--foot", "LF", "--dxf", "-o", out)
        write("dxf-goes/mine.dxf", b"mine")
        self.works("plan", outline(), "--foot", "LF", "-o", out)
        self.assertEqual(set(os.listdir(out)), EIGHT | {"mine.dxf"})
        os.unlink(out + "/report.json")      # no set stands there: then that one is somebody's own
        write("dxf-goes/template.dxf", b"mine")
        self.works("plan", outline(), "--foot", "LF", "-o", out)
        self.assertEqual(read(out + "/template.dxf"), b"mine")

    def test_steps_are_a_set(self):
        photo, out = scene("good", "foot=LF")[0], path("steps")
        self.works("trace", photo, "--steps", out)
        self.assertEqual(set(os.listdir(out)), {"1-photo.png", "3-flat.png", "4-dark.png", "5-ridge.png", "6-line.png"})
        write("steps/2-edges.png", b"of an older run")
        write("steps/mine.png", b"mine")
        self.works("trace", photo, "--steps", out)
        self.assertEqual(set(os.listdir(out)), {"1-photo.png", "3-flat.png", "4-dark.png", "5-ridge.png", "6-line.png",
                                                "mine.png"})
        self.fails(1, "trace", scene(*BAD_SCENES[2])[0], "--steps", path("steps-2"))
        self.assertIn("1-photo.png", os.listdir(path("steps-2")))

    def test_no_screen(self):
        window = os.path.join(os.path.dirname(PRITCHEL), "pritchel-window")
        for args, env in (([PRITCHEL], ENV), ([PRITCHEL, "--window"], ENV), ([PRITCHEL, "a.jpg"], ENV), ([window], ENV),
                          ([window], dict(ENV, DISPLAY=":4711"))):
            with self.subTest(args=args):
                done = run(*args[1:], program=args[0], env=env)
                self.failed(1, args, done, says="no screen")


class Works(Cli):
    def test_sheet(self):
        for paper, width, height in (("a4", 595.276, 841.890), ("letter", 612, 792), ("A3", 841.890, 1190.551),
                                     ("Tabloid", 792, 1224)):
            out = path("sheet-%s.pdf" % paper)
            self.works("sheet", "--paper", paper, "--foot", "lf", "-o", out)
            info = subprocess.run(["pdfinfo", out], stdout=subprocess.PIPE, check=True).stdout.decode()
            size = [float(x) for x in re.search(r"Page size: +([\d.]+) x ([\d.]+)", info).groups()]
            self.assertAlmostEqual(size[0], width, delta=0.05)
            self.assertAlmostEqual(size[1], height, delta=0.05)

    def test_a_small_print_is_told_and_answered(self):
        photo, truth = scene("small-print", "foot=LF", "print_x=0.97", "print_y=0.97")
        width = {}
        for trust in ("ask", "paper", "print"):
            told = json.loads(self.works("trace", photo, "--trust", trust, "--json", "-"))
            scale, line = told["scale"], told["outline_mm"]
            self.assertEqual((scale["trust"], scale["question"]), (trust, "trust"))
            self.assertAlmostEqual(scale["printed"]["across"], 0.97, delta=0.001)
            self.assertAlmostEqual(scale["printed"]["down"], 0.97, delta=0.001)
            self.assertEqual(scale["verdict"], "usable" if trust == "ask" else "good", scale["why"])
            width[trust] = max(x for x, y in line) - min(x for x, y in line)
        true = max(x for x, y in truth["line"]) - min(x for x, y in truth["line"])
        self.assertAlmostEqual(width["paper"], true, delta=0.5)
        self.assertAlmostEqual(width["print"], true / 0.97, delta=0.5)
        self.assertAlmostEqual(width["ask"], width["print"], delta=1e-6)
        self.assertIn("printed at 97 %", self.works("trace", photo))

    def test_trace(self):
        photo, truth = scene("good", "foot=LF")
        raster = path("rectified.png")
        told = self.works("trace", photo, "--json", path("trace.json"), "--rectified", raster)
        self.assertIn("near fore", told)
        data = json.loads(read(path("trace.json")))
        self.assertEqual(data["photo"]["width_px"], 1650)
        self.assertEqual(data["scale"]["method"], "sheet")
        self.assertEqual(data["scale"]["paper"], "A4")
        self.assertEqual(set(data["scale"]) >= {"px_per_mm", "residual_mm", "tilt_deg", "lens_k1", "verdict", "why"},
                         True)
        for key in ("outline_mm", "closed", "doubt", "landmarks", "hoof"):
            self.assertIn(key, data)
        self.assertEqual(len(data["scale"]["points"]), 16)
        self.assertLess(max(p["off_mm"] for p in data["scale"]["points"]), 0.1)
        self.assertFalse(any(p["outlier"] for p in data["scale"]["points"]))
        line = truth["line"]
        far = max(min((x - a) ** 2 + (y - b) ** 2 for a, b in line) for x, y in data["outline_mm"]) ** 0.5
        self.assertLess(far, 1.5, "outline stays near the true line")
        with open(raster, "rb") as f:
            head = f.read(200)
        width, height = struct.unpack(">II", head[16:24])
        per_metre = struct.unpack(">I", head[head.index(b"pHYs") + 4:][:4])[0]
        self.assertAlmostEqual(width / per_metre * 1000, 210, delta=2)
        self.assertAlmostEqual(height / per_metre * 1000, 297, delta=2)
        self.assertEqual(json.loads(self.works("trace", photo, "--json", "-")), data)

    def test_points(self):
        photo, truth = scene("pale", "foot=LF", "bench=pale")
        h = truth["camera"]["h"]

        def seen(x, y):
            w = h[6] * x + h[7] * y + h[8]
            return "%.1f,%.1f" % ((h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w)
        corners = [seen(0, 0), seen(210, 0), seen(210, 297), seen(0, 297)]
        args = ["--scale", "rect", "--side", "210x297mm", "--json", "-"]
        a = json.loads(self.works("trace", photo, "--points", " ".join(corners), *args))
        b = json.loads(self.works("trace", "--points", *corners, photo, *args))
        c = json.loads(self.works("trace", photo, *args, *sum((["--points", p] for p in corners), [])))
        self.assertEqual(a, b)
        self.assertEqual(a, c)
        self.assertEqual(a["scale"]["method"], "rect")

    def test_drawing_that_is_no_hoof(self):
        """A plate of 200 x 60 mm, 5 pixels a mm: taken where a length was marked, without a hoof."""
        blank, side = b"\xe6" * 1200, b"\xe6" * 98 + b"\x28" * 5 + b"\xe6" * 994 + b"\x28" * 5 + b"\xe6" * 98
        across = b"\xe6" * 98 + b"\x28" * 1004 + b"\xe6" * 98
        rows = [blank] * 298 + [across] * 5 + [side] * 294 + [across] * 5 + [blank] * 298
        photo = write("plate.png", png(1200, 900, rows=rows))
        ruler = ["--scale", "ruler", "--points", "100,150", "--points", "1100,150", "--side", "200"]
        told = self.works("trace", photo, *ruler, "--json", path("plate.json"))
        data = json.loads(read(path("plate.json")))
        self.assertNotIn("hoof", data)
        self.assertNotIn("landmarks", data)
        self.assertEqual(data["scale"]["verdict"], "usable")
        self.assertEqual(len(data["doubt"]), 1)
        x, y = zip(*data["outline_mm"])
        self.assertAlmostEqual(max(x) - min(x), 199.8, delta=0.5)
        self.assertAlmostEqual(max(y) - min(y), 59.8, delta=0.5)
        self.assertRegex(told, r"no foot: length (59|60)\.\d mm, width (199|200)\.\d mm")
        self.fails(1, "trace", photo, says="sheet")
        out = path("plate-out")
        self.fails(1, "plan", photo, *ruler, "--style", "plain-front", "--bar", "3/8 x 1", "-o", out,
                   says="No outline of a foot was found in plate.png")
        self.assertFalse(os.path.exists(out))

    def plan(self, source, out, *more):
        text = self.works("plan", source, "--style", "quarter-clipped", "--bar", "3/8 x 1", "-o", out, *more)
        self.assertEqual(set(os.listdir(out)), EIGHT)
        return text, json.loads(read(out + "/report.json"))

    def test_plan(self):
        photo = scene("good", "foot=LF")[0]
        text, report = self.plan(photo, path("plan-1"), "--foot", "LF", "--given", "20in", "--set", "web.toe=24",
                                 "--set", "heel.past=5 mm", "--set", "edge.toe.y=77.5")
        self.assertIn("left over", text)
        for key in ("hoof", "plan", "shoe", "iron", "checks"):
            self.assertIn(key, report)
        self.assertAlmostEqual(report["plan"]["web.toe"], 24)
        # the fit moves the knots; what was set by hand stands all the same
        self.assertAlmostEqual(report["plan"]["edge.toe.y"], 77.5)
        for branch in ("medial", "lateral"):
            self.assertAlmostEqual(report["plan"]["heel.past." + branch], 5)
        self.assertAlmostEqual(report["iron"]["given_mm"], 508)
        self.assertAlmostEqual(report["iron"]["spare_mm"], 508 - report["iron"]["needed_mm"], delta=1e-6)
        self.assertGreater(len(report["checks"]), 5)

    def test_json_that_is_a_trap(self):
        for name, text in (("deep", b"[" * 500000), ("comment", b'[/*"*/' + b"[" * 500000), ("half", b'["\\udc00"]'),
                           ("empty", b"["), ("statement", b"{} x = [1];")):
            self.fails(1, "plan", write(name + ".json", text), "--foot", "LF", "-o", path("trap"), says=name + ".json")
        self.assertFalse(os.path.exists(path("trap")))

    def test_plan_with_dxf(self):
        out = path("plan-dxf")
        text = self.works("plan", outline(), "--foot", "LF", "--dxf", "-o", out)
        self.assertIn("9 files", text)
        self.assertEqual(set(os.listdir(out)), EIGHT | {"template.dxf"})
        lines = read(out + "/template.dxf").decode("ascii").splitlines()
        for value in ("AC1009", "POLYLINE", "near fore, foot surface", "EOF"):
            self.assertIn(value, lines)
        # the ninth cannot be written: the eight others stay as they were
        before = {name: read(os.path.join(out, name)) for name in EIGHT}
        os.unlink(out + "/template.dxf")
        os.mkdir(out + "/template.dxf")
        self.fails(1, "plan", outline(), "--foot", "LF", "--dxf", "--set", "web.toe=26", "-o", out, says="template.dxf")
        self.assertEqual({name: read(os.path.join(out, name)) for name in EIGHT}, before)
        self.assertEqual(set(os.listdir(out)), EIGHT | {"template.dxf"})

    def words(self, file, page):
        done = subprocess.run(["pdftotext", "-f", str(page), "-l", str(page), file, "-"], stdout=subprocess.PIPE, check=True)
        return " ".join(done.stdout.decode().split())

    def n_pages(self, file):
        info = subprocess.run(["pdfinfo", file], stdout=subprocess.PIPE, check=True).stdout.decode()
        return int(re.search(r"Pages: +(\d+)", info).group(1))

    def test_chosen_pages(self):
        """One file beside the set, its documents in the order asked for and counted through; it goes with its set."""
        out, kinds = path("plan-pages"), {"card": "card", "ground": "ground surface", "bar": "bar strip",
                                          "template": "foot surface", "silhouette": "silhouette"}
        known = {}
        for chosen in (*kinds, "card,ground", " Bar , template ,card,ground"):
            text = self.works("plan", outline(), "--foot", "LF", "--pages", chosen, "-o", out)
            self.assertIn("9 files", text)
            self.assertEqual(set(os.listdir(out)), EIGHT | {"pages.pdf"})
            names = [name.strip().lower() for name in chosen.split(",")]
            n = self.n_pages(out + "/pages.pdf")
            known.setdefault(chosen, n)
            wanted = [name for name in names for _ in range(known[name])]
            self.assertEqual(n, len(wanted))
            for page, name in enumerate(wanted, 1):
                words = self.words(out + "/pages.pdf", page)
                self.assertIn(kinds[name], words)
                self.assertIn("Page %d of %d " % (page, n), words)
        self.assertEqual(self.n_pages(out + "/card.pdf"), known["card"])
        self.works("plan", outline(), "--foot", "LF", "-o", out)
        self.assertEqual(set(os.listdir(out)), EIGHT)

    def test_a_wrong_page_leaves_the_old_set(self):
        out = path("plan-pages-old")
        self.works("plan", outline(), "--foot", "LF", "--pages", "card", "-o", out)
        before = {name: read(os.path.join(out, name)) for name in EIGHT | {"pages.pdf"}}
        text = self.fails(2, "plan", outline(), "--foot", "LF", "--pages", "card,lid", "--set", "web.toe=26", "-o", out)
        for word in ("lid", "template", "ground", "silhouette", "bar", "card"):
            self.assertIn(word, text)
        os.unlink(out + "/pages.pdf")
        os.mkdir(out + "/pages.pdf")
        del before["pages.pdf"]
        self.fails(1, "plan", outline(), "--foot", "LF", "--pages", "bar", "--set", "web.toe=26", "-o", out, says="pages.pdf")
        self.assertEqual([name for name in sorted(EIGHT) if read(os.path.join(out, name)) != before[name]], [])

    def test_horse_and_day_in_the_title(self):
        out = path("plan-horse")
        options = ["plan", outline(), "--foot", "LF", "--pages", "template,card", "-o", out]
        self.works(*options)
        plain = {name: read(os.path.join(out, name)) for name in EIGHT}
        title = self.words(out + "/card.pdf", 1)
        self.works(*options, "--horse", " Young\n\u202eBramble ", "--date", "2026-11-28")
        for name in ("template.pdf", "bar.pdf", "card.pdf", "pages.pdf"):
            for page in range(1, self.n_pages(out + "/" + name) + 1):
                self.assertIn("near fore · 2026-11-28 · Young Bramble ·", self.words(out + "/" + name, page))
        self.assertNotIn("2026", title)
        for name in ("template.svg", "template.png"):       # letters there are drawn: they are others
            self.assertNotEqual(read(os.path.join(out, name)), plain[name])
        for name in ("report.txt", "report.json"):
            self.assertEqual(read(os.path.join(out, name)), plain[name])

    def test_card_is_large(self):
        """Ten figures of 22 pt or more on its first page, as another program measures them; the lettering's ascent and
        descent together are 1.164 of its size."""
        out = path("plan-card")
        for unit in ("mm", "inch"):
            self.works("plan", outline(), "--foot", "LF", "--unit", unit, "-o", out)
            boxes = subprocess.run(["pdftotext", "-bbox", out + "/card.pdf", "-"], stdout=subprocess.PIPE, check=True)
            pages = boxes.stdout.decode().split("<page ")[1:]
            self.assertGreater(len(pages), 1)
            rows = set()
            for i, page in enumerate(pages):
                for box in re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"', page):
                    x0, y0, _, y1 = map(float, box)
                    size = (y1 - y0) / 1.164
                    if x0 > 524 and 100 < y0 < 700:      # beside the upright check bars: turned
                        continue
                    self.assertGreater(size, 8.99)
                    if i == 0 and size >= 22:
                        rows.add(round(y1 + y0))
            self.assertEqual(len(rows), 10, unit)

    def test_outline_gives_the_same_plan(self):
        photo = scene("good", "foot=LF")[0]
        a = self.plan(photo, path("plan-2"), "--foot", "LF")[1]
        b = self.plan(outline(), path("plan-3"), "--foot", "LF")[1]
        for key in ("volume_mm3", "needed_mm", "middle_line_mm"):
            self.assertAlmostEqual(a["iron"][key] / b["iron"][key], 1, delta=2e-3)
        points = json.loads(read(outline()))["outline_mm"]
        bare = write("bare.json", json.dumps(points).encode())
        c = self.plan(bare, path("plan-4"), "--foot", "LF")[1]
        self.assertAlmostEqual(a["iron"]["volume_mm3"] / c["iron"]["volume_mm3"], 1, delta=2e-2)

    def test_units_and_locale(self):
        mm = self.plan(outline(), path("plan-mm"), "--foot", "LF")[1]
        locales = os.environ.get("PR_LOCALES")    # where the build has made them
        if not locales:
            locales = path("locale")
            os.mkdir(locales)
            subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", locales + "/de_DE.UTF-8"],
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
        env = dict(ENV, LOCPATH=locales, LC_ALL="de_DE.UTF-8")
        comma = subprocess.run(["locale", "-k", "decimal_point"], env=env, stdout=subprocess.PIPE).stdout
        self.assertIn(b'","', comma)
        done = run("plan", outline(), "--foot", "LF", "--style", "quarter-clipped", "--bar", "3/8 x 1", "-u", "inch",
                   "-o", path("plan-in"), env=env)
        self.assertEqual(done.returncode, 0)
        self.assertEqual(json.loads(read(path("plan-in", "report.json")))["iron"], mm["iron"])

    def test_what_is_set_on_the_foot(self):
        def hoof(*sets):
            done = run("plan", outline(), "--foot", "LF", *sum((["--set", one] for one in sets), []), "-o", path("foot"))
            self.assertEqual(done.returncode, 0, done.stderr)
            return json.loads(read(path("foot", "report.json")))["hoof"], read(path("foot", "report.txt")).decode()

        usual, text = hoof()
        self.assertTrue(usual["wall_is_guess"])
        self.assertEqual(usual["centre_line"], "assumed")
        self.assertIn("asymmetry cannot be judged", " ".join(text.split()))
        one, text = hoof("wall.toe=9.5")
        self.assertEqual((one["wall_toe_mm"], one["wall_quarter_mm"]), (9.5, usual["wall_quarter_mm"]))
        self.assertTrue(one["wall_is_guess"])
        self.assertEqual(hoof("wall.toe=0")[0]["wall_toe_mm"], usual["wall_toe_mm"])
        self.assertFalse(hoof("wall.toe=9.5", "wall.quarter=7", "wall.heel=6")[0]["wall_is_guess"])
        x = [p[0] for p in json.loads(read(outline()))["outline_mm"]]
        y = [p[1] for p in json.loads(read(outline()))["outline_mm"]]
        middle, far = (min(x) + max(x)) / 2, max(y) - min(y)
        frog, text = hoof(f"mark.frog_apex={middle},{min(y) + 0.45 * far}",
                          f"mark.frog_medial={middle + 20},{max(y) - 8}", f"mark.frog_lateral={middle - 20},{max(y) - 8}")
        self.assertEqual(frog["centre_line"], "frog")
        self.assertAlmostEqual(frog["frog_width_mm"], 40, 6)
        self.assertIn("by the frog", text)
        self.assertIn("wider by up to", " ".join(text.split()))
        for bad in ("wall.toe=70", "wall.heel=1", "wall.sole=8", "mark.toe=7", "mark.toe=a,b"):
            with self.subTest(bad=bad):
                self.fails(2, "plan", outline(), "--foot", "LF", "--set", bad, "-o", path("foot-bad"))

    def test_other_foot_is_said(self):
        photo = scene("good", "foot=LF")[0]
        done = run("plan", photo, "--foot", "RF", "-o", path("plan-rf"))
        self.assertEqual(done.returncode, 0)
        self.assertIn(b"near fore", done.stderr)
        self.assertEqual(done.stderr.count(b"\n"), 1)

    def test_same_again_over_old_files(self):
        out = path("plan-again")
        self.plan(outline(), out, "--foot", "LF")
        first = read(out + "/report.json")
        self.plan(outline(), out, "--foot", "LF")
        self.assertEqual(read(out + "/report.json"), first)

    def test_check(self):
        photo = scene("good", "foot=LF")[0]
        text = self.works("check", photo, "--foot", "LF", "--style", "quarter-clipped")
        self.assertRegex(text, r"(?m)^(fits|look |mend )\s+[a-z.]+ .* \[.+\]$")
        report = json.loads(self.works("check", outline(), "--foot", "LF", "--json", "-"))
        self.assertIn("checks", report)

    def test_check_a_foot_of_the_book(self):
        trace = read(outline()).decode()
        args = ["--foot", "LF", "--style", "quarter-clipped", "--set", "heel.past.medial=9"]
        report = json.loads(self.works("check", outline(), *args, "--json", "-"))
        book = shutil.copy(os.path.join(ROOT, "tests/book/v1.pritchel"), path("kept.pritchel"))
        self.fails(1, "check", "--book", book, "77")
        with sqlite3.connect(book) as db:
            db.execute("UPDATE trace SET json = ?", (trace,))
            db.execute("UPDATE plan SET json = ?", (json.dumps(report["plan"]),))
        db.close()
        kept = json.loads(self.works("check", "--book", book, "1", "--json", "-"))
        last = json.loads(self.works("check", "--book", book, "--json", "-"))
        self.assertEqual(kept, last)
        self.assertEqual([c["id"] for c in kept["checks"]], [c["id"] for c in report["checks"]])
        for a, b in zip(kept["checks"], report["checks"]):
            self.assertAlmostEqual(a["value"], b["value"], delta=0.02, msg=a["id"])


def measured(*args):
    """What the program says, and what it took: seconds of a processor, and MB."""
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        child = subprocess.Popen([PRITCHEL, *args], env=ENV, stdin=subprocess.DEVNULL, stdout=out, stderr=err)
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        done = subprocess.CompletedProcess(args, child.returncode, out.read(), err.read())
    return done, used.ru_utime + used.ru_stime, used.ru_maxrss / 1000


class Strangers(Cli):
    """What comes from somebody else and is beyond what can be, a line each: refused in a sentence that says what, at
    little cost. Sanitizers take ten times the time and four times the memory."""

    SECONDS, MB = (20, 1200) if os.environ.get("PR_SANITIZED") else (2, 300)
    BACK = "use a file that “pritchel trace --json” wrote"

    def refused(self, status, args, says):
        done, seconds, mb = measured(*args)
        self.failed(status, args, done, says)
        self.assertLess(seconds, self.SECONDS)
        self.assertLess(mb, self.MB)

    def tracings(self):
        """Name, where it is in the JSON, what stands there instead, and what is said of it."""
        yield "scale of 1e12", "scale px_per_mm", "1e12", "pixels per mm: 1e+12, where 0.5 to 200 can be"
        yield "scale beyond doubles", "scale px_per_mm", "1e999", "pixels per mm: inf"
        yield "scale below nothing", "scale px_per_mm", "-14", "pixels per mm: -14"
        yield "scale of nothing", "scale px_per_mm", "0", "pixels per mm: 0"
        yield "scale beyond integers", "scale px_per_mm", "9" * 40, "pixels per mm"
        yield "lens", "camera k1", "1e300", "lens term"
        yield "residual", "scale residual_mm", "1e9", "residual in mm"
        yield "tilt", "scale tilt_deg", "1e9", "tilt in degrees"
        yield "wide photo", "photo width_px", "3e9", "side of the photo"
        yield "long sheet", "scale width_mm", "1e7", "side of the sheet"
        yield "fine raster", "camera raster_px_per_mm", "1e6", "flat picture"
        yield "camera", "camera h", "[1e300,0,0,0,1,0,0,0,1]", "entry of the camera"
        yield "radius", "camera radius", "1e-300", "radius of the photo"
        yield "pen", "camera pen_mm", "-1e5", "width of the pen"
        yield "doubts", "doubt", "[%s]" % ",".join(['{"from_mm":1,"to_mm":2}'] * 1001), "doubted stretches: 1001"
        yield "far doubt", "doubt", '[{"from_mm":-1e30,"to_mm":2}]', "place of a doubt"
        yield "points", "outline_mm", "[%s]" % ",".join("[%d,%d]" % (i % 99, i // 99) for i in range(20001)), "20001"
        yield "far point", "outline_mm", "[[1e300,1],[2,3],[4,5]]", "place on the sheet in mm: 1e+300"
        yield "mark", "by_hand_mm", '{"toe":[1e300,5]}', "place on the sheet"

    def with_value(self, where, value):
        data = json.loads(read(outline()))
        *parents, last = where.split()
        place = data
        for name in parents:
            place = place[name]
        place[last] = "HERE"
        if last == "by_hand_mm":
            data["landmarks_by_hand"] = ["toe"]
        return json.dumps(data).replace('"HERE"', value).encode()

    def test_tracings(self):
        for i, (name, where, value, says) in enumerate(self.tracings()):
            file = write("stranger-%d.json" % i, self.with_value(where, value))
            with self.subTest(row=name):
                self.refused(1, ["check", file, "--foot", "LF"], says)
                self.refused(1, ["plan", file, "--foot", "LF", "-o", path("stranger")], self.BACK)
        self.assertFalse(os.path.exists(path("stranger")))

    def test_json(self):
        rows = (("many values", b"[" + b"0," * 300000 + b"0]"), ("many lists", b"[" + b"[]," * 300000 + b"0]"),
                ("long text", b'{"outline_mm":"' + b"x" * (9 << 20) + b'"}'), ("long", b"[" + b" " * (9 << 20) + b"]"),
                ("levels", b'{"a":' * 65 + b"1" + b"}" * 65), ("many names", b"{" + b'"a":1,' * 300000 + b'"b":1}'))
        for name, text in rows:
            with self.subTest(row=name):
                self.refused(1, ["check", write("much.json", text), "--foot", "LF"], "much.json")

    def test_parameters(self):
        for value in ("1e308", "1e999", "-1e999", "nan", "0x1p1023", "9" * 5000, "1/0", "1e-400", "\u0661\u0662", " "):
            with self.subTest(value=value[:20]):
                self.refused(2, ["plan", outline(), "--set", "web.toe=" + value, "-o", path("stranger")], "web.toe")
                self.refused(2, ["plan", outline(), "--given=" + value, "-o", path("stranger")], "")

    def test_scales_that_cannot_be(self):
        photo = scene("good", "foot=LF")[0]
        marks = ["--points", "100,100", "--points", "1500,2000"]
        for name, *args in (("fine", "ruler", *marks, "--side", "1mm"), ("coarse", "ruler", *marks, "--side", "19000mm"),
                            ("far", "ruler", "--points", "1e300,2", "--points", "3,4", "--side", "100"),
                            ("one place", "ruler", "--points", "7,7", "--points", "7,7", "--side", "100"),
                            ("wide", "rect", "--points", "1,1 1500,3 1600,2000 1,2100", "--side", "15000x15000")):
            with self.subTest(row=name):
                self.refused(1, ["trace", photo, "--scale", *args], "")

    def books(self):
        """SQL on a good book with one foot, and what is said when that is checked."""
        trace = lambda where, value: "UPDATE trace SET json = json_set (json, '$.%s', %s)" % (where, value)
        yield "scale", trace("scale.px_per_mm", "1e12"), "pixels per mm: 1e+12"
        yield "points", trace("outline_mm", "json_array (json_array (1e300, 1), json_array (1, 2))"), "place on the sheet"
        yield "no text", "UPDATE trace SET json = ''", "no tracing yet"
        yield "deep", "UPDATE trace SET json = replace (hex (zeroblob (100000)), '00', '[[')", "damaged"
        yield "long", "UPDATE trace SET json = hex (zeroblob (5000000))", "damaged"
        yield "other kind", """PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace (sql, 'STRICT', '      ');
            PRAGMA writable_schema = RESET; UPDATE trace SET json = CAST (json AS BLOB); DELETE FROM photo""", "no tracing yet"

    def test_books(self):
        for name, sql, says in self.books():
            book = shutil.copy(os.path.join(ROOT, "tests/book/v1.pritchel"), path("stranger.pritchel"))
            db = sqlite3.connect(book)
            db.execute("UPDATE trace SET json = ?", (read(outline()).decode(),))
            db.execute("DELETE FROM photo")
            db.commit()
            db.executescript(sql)
            db.close()
            with self.subTest(row=name):
                self.refused(1, ["check", "--book", book, "1"], says)

    def test_big_numbers_come_back(self):
        """What is written is JSON to anybody, also where it was read as 1e22."""
        data = json.loads(read(outline()))
        data["outline_mm"] = [[x + 9000, y] for x, y in data["outline_mm"]]
        done = run("check", write("far.json", json.dumps(data).encode()), "--foot", "LF", "--json", "-")
        self.assertEqual(done.returncode, 0, done.stderr)
        json.loads(done.stdout, parse_constant=lambda word: self.fail(word))


class Sources(unittest.TestCase):
    """What the repository promises about itself."""

    def test_core_and_cli_do_not_name_gtk(self):
        for folder in ("src/core", "src/cli"):
            for base, _, names in os.walk(os.path.join(ROOT, folder)):
                for name in names:
                    if name.endswith((".c", ".h")):
                        with open(os.path.join(base, name), encoding="utf-8") as f:
                            self.assertNotRegex(f.read(), r"#\s*include\s*<(gtk|gdk/)", name)


if __name__ == "__main__":
    try:
        outcome = unittest.main(argv=[sys.argv[0], *sys.argv[4:]], exit=False, verbosity=1)
    finally:
        shutil.rmtree(HERE, ignore_errors=True)
    sys.exit(not outcome.result.wasSuccessful())
