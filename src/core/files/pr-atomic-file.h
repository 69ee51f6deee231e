/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that are either whole or untouched: written aside, put on the disk, then renamed into their places (see
 * pr-file-set.h for what a killed program leaves). Permissions are kept. A symbolic link is neither followed
 * nor replaced: it is refused, as is what is no plain file or is write-protected.
 * FALSE with one sentence (PR_ERROR_FILE) and everything as it was. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  const char *file;
  const char *data; /* NULL: no new one; an old one of that name goes with the set it was of */
  gsize len;
} PrAtomicFile;

/* FILE's folder must be there. */
bool pr_atomic_file_write (const char *file, const char *data, gsize len, GError **error);
/* All N, which lie in one folder (made when it is missing), or none of them. The last is what tells a reader
 * that the set is whole. */
bool pr_atomic_files_write (const PrAtomicFile *files, size_t n, GError **error);
