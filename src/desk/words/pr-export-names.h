/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names for files about one foot: "bramble-lf-2026-11-28-template.pdf". They tell horse, foot and day, and
 * stand for themselves on every file system: no separators, no blanks, no leading dot, nothing hidden. */
#pragma once
#include <glib.h>
#include "pr-foot.h"

/* "bramble-lf-2026-11-28". Of HORSE (UTF-8; NULL or empty: "no-name") letters and digits of any script
 * are kept, in lower case, where the names of files can hold them; everything else becomes one dash. What
 * is longer than PR_EXPORT_NAME_MAX characters is cut. DATE is the visit's, ISO 8601; what does not begin
 * with a day (and NULL) is left out. Transfer full, UTF-8. */
#define PR_EXPORT_NAME_MAX 40
char *pr_export_stem (const char *horse, PrFoot foot, const char *date);

/* The same of all feet of a visit, or of anything else that WHAT is a plain word for: "bramble-all-feet-2026-11-28". */
char *pr_export_named (const char *horse, const char *what, const char *date);
/* That FILE was written, and where it can be found: a sentence. Transfer full. */
char *pr_export_said (const char *file);

/* STEM, or else STEM-2, STEM-3 and so on: the first for which FOLDER (in the encoding of file names) holds
 * none of the files STEM-PART, PART being each of PARTS ("template.pdf", NULL-terminated). Transfer full. */
char *pr_export_free_stem (const char *folder, const char *stem, const char *const *parts);
/* Does FOLDER hold one of those files? */
bool pr_export_is_taken (const char *folder, const char *stem, const char *const *parts);
/* PATH, with ENDING (".pdf") where it was not typed. The desktop has asked about a file called PATH only: one that stands at the
 * longer name is not written over, which is an error then. Transfer full. */
char *pr_export_with_ending (const char *path, const char *ending, GError **error);
