# SPDX-License-Identifier: GPL-3.0-or-later
"""The kinds of photo, each a function of a fresh Scene and the photo's number. The number goes round easy, field and hard."""
import numpy as np
import surface
from stroke import PENS

DARK_PENS = ["felt", "chisel", "ball", "gel", "pencil", "carpenter", "crayon"]


def pen_for(s, names=None):
    names = names or [["felt", "chisel", "gel"], DARK_PENS, DARK_PENS][s.level]
    s.truth["pen"] = str(s.rng.choice(names))
    return PENS[s.truth["pen"]]


def choose_paper(s, printed, names=("a4", "letter")):
    """A printed or a plain sheet; of plain ones every other is told its true size."""
    s.printed = printed
    s.name = str(s.rng.choice(names))
    s.size = surface.PAPERS[s.name]
    if not printed and (s.rng.random() < 0.5 or s.name in ("a3", "tabloid", "a5", "legal")):
        s.options += ["--paper", s.name]


def dress(s, rules=True):
    """What a used sheet has besides the line."""
    rng = s.rng
    chance = [0.1, 0.5, 0.7][s.level]
    if rng.random() < chance:
        s.words()
    if s.level and rng.random() < chance:
        surface.dirt(rng, s.sheet, s.level)


def blank(s):
    rules = None
    if not s.printed and s.level == 2 and s.rng.random() < 0.35:
        rules = str(s.rng.choice(["grid", "lines"]))
    s.truth["rules"] = rules
    s.blank(rules)


def open_line(s, printed):
    rng = s.rng
    choose_paper(s, printed, ("a4", "a4", "letter", "letter", "a3", "tabloid") if s.level == 1 else ("a4", "letter"))
    more = s.level > 0
    s.add_foot(frog=more and rng.random() < 0.45, ticks=more and rng.random() < 0.25, toe_tick=more and rng.random() < 0.3)
    blank(s)
    s.ink(pen_for(s))
    dress(s)


def plain_open(s, number):
    open_line(s, False)


def printed_open(s, number):
    open_line(s, True)


def closed(manner):
    def kind(s, number):
        rng = s.rng
        choose_paper(s, number % 2 == 1)
        shape = manner if manner != "faint" else str(rng.choice(["smooth", "stepped", "cleft"]))
        frog, ticks = rng.random() < 0.4, rng.random() < 0.3
        s.add_foot(manner=shape, frog=frog, ticks=ticks)
        blank(s)
        faint = rng.uniform(0.22, 0.55) if manner == "faint" else 1.0
        s.ink(pen_for(s), bulb_weight=faint, dashed=manner == "faint" and rng.random() < 0.35)
        dress(s)
        s.truth.update(bulbs=shape, frog=frog, heel_ticks=ticks, bulb_weight=faint)
        s.truth["expected"] = {"heels": "range" if manner in ("smooth", "faint") and not ticks else "point"}
    return kind


KINDS = {
    "plain-open": plain_open,
    "printed-open": printed_open,
    "closed-smooth": closed("smooth"),
    "closed-stepped": closed("stepped"),
    "closed-cleft": closed("cleft"),
    "closed-faint": closed("faint"),
}
