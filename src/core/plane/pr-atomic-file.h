/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that are either whole or untouched: each is written beside its place, put on the disk, then renamed
 * into it. A symbolic link is followed, permissions are kept; what is no plain file or is write-protected is refused.
 * FALSE with one sentence (PR_ERROR_FILE) and everything as it was. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  const char *file;
  const char *data;
  gsize len;
} PrAtomicFile;

bool pr_atomic_file_write (const char *file, const char *data, gsize len, GError **error);
/* All N of one folder, or none of them: each is written before the first is put in its place. */
bool pr_atomic_files_write (const PrAtomicFile *files, size_t n, GError **error);
