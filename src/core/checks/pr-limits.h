/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits as data: each has a bound from which a figure wants a look, one from which it wants mending,
 * and its source. A person's own file wins, and its source reads "your limit". */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  double look, mend;
  bool per_thickness; /* look and mend are multiples of the shoe's thickness */
  char *source;
} PrLimit;

/* Id must be one of limits.json. Loaded once, thread-safe; transfer none. */
const PrLimit *pr_limit (const char *id);
