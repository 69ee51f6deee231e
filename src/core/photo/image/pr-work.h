/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work on pixels, shared out: between threads, and by the compiler between the lanes of a register. */
#pragma once
#include <glib.h>
#include "pr-wide.h"

/* One part of the work on DATA, 0 to N - 1. Parts run at the same time and in any order, so each writes only what
 * is its own. */
typedef void (*PrWorkPart) (gpointer data, int part);

/* Runs all N parts, on as many processors as there are and a few at the most, and returns when all are done. The
 * calling thread works too, so that nothing waits where there is but one. */
void pr_work_share (PrWorkPart run, gpointer data, int n);

/* Rows of HEIGHT that part PART of N takes: from FROM up to and without TO. */
static inline void
pr_work_rows (int height, int part, int n, int *from, int *to)
{
  *from = (int) ((gint64) height * part / n);
  *to = (int) ((gint64) height * (part + 1) / n);
}

/* Says of N bytes at P, just taken and not yet written, that they are a picture's: the system then gives them in large
 * pages, and a photo of 12 megapixels takes a few dozen faults and not ten thousand. A hint; nothing depends on it. */
void pr_work_large (gpointer p, size_t n);
/* N floats like that, at nought; g_free(). */
float *pr_work_floats (size_t n);
