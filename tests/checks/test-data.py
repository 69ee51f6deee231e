# SPDX-License-Identifier: GPL-3.0-or-later
"""The data files against the program: every limit is used and every limit used is there; every style is listed, named as
its file and made of parameters there are; every offer is for a finding there is. Called with program and source root."""
import glob
import json
import os
import re
import subprocess
import sys
import unittest

PROGRAM, ROOT = sys.argv[1:3]


def read(*names):
    with open(os.path.join(ROOT, *names), encoding="utf-8") as file:
        return file.read()


def sources(*folders):
    files = [name for folder in folders for name in glob.glob(os.path.join(ROOT, folder, "**/*.c"), recursive=True)]
    assert len(files) > 10, files
    return "\n".join(read(name) for name in files)


def listed(resource):
    return re.findall(r"<file[^>]*>([^<]+)</file>", read(resource))


class Limits(unittest.TestCase):
    def setUp(self):
        self.limits = json.loads(read("data/limits.json"))
        code = sources("src")
        self.used = set(re.findall(r'pr_limit(?:_on|_share)? \("([^"]+)"', code))
        stems = re.findall(r'pr_limit_takes \("([^"]+)"', code)
        self.used |= {stem + end for stem in stems for end in (".least", ".most")}

    def test_each_is_used_and_each_used_is_there(self):
        self.assertGreater(len(self.used), 30)
        self.assertEqual(set(self.limits), self.used)

    def test_each_has_figures_and_a_source(self):
        for name, line in self.limits.items():
            self.assertLessEqual(set(line), {"name", "look", "mend", "slack", "per_thickness", "per_width",
                                              "degrees", "source"}, name)
            self.assertTrue(line.get("name", "-").strip(), name)
            self.assertIsInstance(line["mend"], float, name)
            self.assertTrue(line["source"].strip(), name)
            self.assertGreaterEqual(line.get("slack", 0), 0, name)

    def test_look_comes_before_mend(self):
        for name, line in self.limits.items():
            if name.endswith(".least") and name[:-6] + ".most" in self.limits:
                most = self.limits[name[:-6] + ".most"]
                self.assertGreaterEqual(line.get("look", line["mend"]), line["mend"], name)
                self.assertLessEqual(most.get("look", most["mend"]), most["mend"], name)
                if not most.get("per_thickness"):
                    self.assertLess(line.get("look", line["mend"]), most.get("look", most["mend"]), name)


class Styles(unittest.TestCase):
    def test_each_file_is_listed(self):
        files = sorted(os.path.basename(name) for name in glob.glob(os.path.join(ROOT, "data/styles/*.json")))
        self.assertEqual(sorted(listed("data/styles/styles.gresource.xml")), ["../sizes.json"] + files)
        told = subprocess.run([PROGRAM, "plan", "--styles"], capture_output=True, text=True, check=True).stdout
        ids = [json.loads(read("data/styles", name))["id"] for name in files]
        self.assertEqual(re.findall(r"^(\S+)", told, re.M), ids)
        self.assertEqual([name[4:-5] for name in files], ids)

    def test_each_sets_what_there_is_to_set(self):
        told = subprocess.run([PROGRAM, "plan", "--params"], capture_output=True, text=True, check=True).stdout
        params = set(re.findall(r"^(\S+)", told, re.M))
        self.assertGreater(len(params), 60)
        # one of both sides stands for each
        params |= {re.sub(r"\.(medial|lateral)$", "", name) for name in params}
        for name in listed("data/styles/styles.gresource.xml"):
            if name == "../sizes.json":
                continue
            style = json.loads(read("data/styles", name))
            self.assertLessEqual(set(style), {"id", "name", "for", "caution", "feet", "web", "share", "set"}, name)
            self.assertIn(style.get("feet", "fore"), ("fore", "hind"), name)
            self.assertEqual((set(style["set"]) | set(style["share"])) - params, set(), name)
            self.assertTrue(all(abs(share) < 1 for share in style["share"].values()), name)

    def test_sizes_rise(self):
        sizes = json.loads(read("data", "sizes.json"))["sizes"]
        self.assertEqual([size["to"] for size in sizes], sorted({size["to"] for size in sizes}))
        for size in sizes:
            self.assertIn(size["nails.count.medial"] + size["nails.count.lateral"], range(4, 9))


class Offers(unittest.TestCase):
    def test_each_is_for_a_finding(self):
        offered = set(re.findall(r'^  \{ "([a-z.]+)", N_', read("src/core/checks/pr-offers.c"), re.M))
        families = "\n".join(read(name) for name in glob.glob(os.path.join(ROOT, "src/core/checks/pr-checks-*.c")))
        self.assertGreater(len(offered), 20)
        for name in offered:
            self.assertIn('"%s"' % name, families)


unittest.main(argv=sys.argv[:1])
