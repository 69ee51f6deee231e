/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each printer is off by, as measured once: a key file below the user's configuration, written
 * whole or not at all. The factors are those of PrPageOptions: what is drawn is multiplied by them. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* The correction kept for the printer NAME (may be NULL); X and Y are 1 where none is kept. FALSE with
 * an error when something is kept that cannot be used: then it counts as none. */
bool pr_printers_correction (const char *name, double *x, double *y, GError **error);
/* Keeps it; with X and Y both 1 the printer is forgotten. A file that was broken is written anew. */
bool pr_printers_keep (const char *name, double x, double y, GError **error);
/* Where they are kept. Transfer full. */
char *pr_printers_file (void);
