/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A name that somebody typed, as the name of a file that every usual file system takes.
 *
 * What separates paths or is forbidden by Windows becomes "-" (Microsoft, "Naming Files, Paths, and Namespaces"), as does what
 * steers what shows it; no dot begins it, no dot or blank ends it; the names of devices there get "_" before them; what is longer
 * than PR_SAFE_NAME_BYTES is cut between letters. Composed (NFC), as most systems keep it. */
#pragma once
#include <glib.h>

#define PR_SAFE_NAME_BYTES 100 /* of the 255 of a name, since more is put behind it */

/* NAME (UTF-8, may be NULL or broken); OTHERWISE where nothing of it can stay. Transfer full, UTF-8. */
char *pr_safe_name (const char *name, const char *otherwise);
/* NAME, or NAME-2, NAME-3 and so on: the first that is not among TAKEN (a set of keys, owned by it), which takes it in. Names that
 * differ only in case or in how letters are composed are one, as on Windows and macOS. Transfer full. */
char *pr_safe_name_new (GHashTable *taken, const char *name);
/* For pr_safe_name_new. Transfer full. */
GHashTable *pr_safe_names (void);
