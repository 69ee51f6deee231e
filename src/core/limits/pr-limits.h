/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits as data: the figures a shoe, a hoof or a bar is held against, each with its source. They stand in
 * data/limits.json (resource /pritchel/limits.json) and nowhere else; a person's own
 * $XDG_CONFIG_HOME/pritchel/limits.json wins line by line, and the source of such a line reads "your limit".
 *
 * A line: "id": { "name": "what is held", "look": 3.0, "mend": 0.0, "slack": 0.3, "per_thickness": true,
 * "source": "who says so" }.
 * A line with one figure has "mend" alone: what lies beyond is not taken. Millimetres, but for shares and logarithms
 * of sections (iron.*), kilograms (mass.*), and what says "degrees". Those with a name are a person's to change. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  double look, mend;  /* a figure beyond LOOK wants a look, beyond MEND it wants mending */
  double slack;       /* LOOK may be passed by this before it is told: nobody measures finer */
  bool per_thickness; /* look and mend are multiples of the shoe's thickness */
  bool per_width;     /* look is a share of the hoof's width, and mend too where it is below 1 */
  bool degrees;
  bool single;        /* there is one figure, and look is mend */
  bool own;           /* a person's own, as far as it differs */
  const char *name;   /* translated; NULL: it is not for changing */
  const char *source; /* translated */
} PrLimit;

/* ID must be one of data/limits.json. Loaded once, thread-safe; transfer none: what it points at never changes, and a limit
 * that is changed (pr_limit_keep) is another. */
const PrLimit *pr_limit (const char *id);
/* The same on a shoe so thick: a limit per thickness in mm. */
PrLimit pr_limit_on (const char *id, double thickness);
/* The same on a hoof so wide, mm: a limit per width in mm. A mend of 1 or more is mm already: 2.5 mm of iron is the least
 * on a foot of any size. */
PrLimit pr_limit_share (const char *id, double width);
/* Is VALUE neither below the line STEM.least nor above STEM.most ("wall": between wall.least and wall.most)? LEAST and
 * MOST (may be NULL) receive what those say, for the sentence that refuses it. */
bool pr_limit_takes (const char *stem, double value, double *least, double *most);

/* The ids of those with a name, in the order of the file; NULL at the end. Transfer container. */
const char **pr_limits_named (void);
/* From now on a person's own figures for ID, which must have a name; both go into his file, and what else is in there stays.
 * PR_ERROR_INPUT when it would want mending before it wants a look. FALSE with an error: nothing has changed. For the main
 * thread. */
bool pr_limit_keep (const char *id, double look, double mend, GError **error);
/* Back to ours. */
bool pr_limit_give_back (const char *id, GError **error);
