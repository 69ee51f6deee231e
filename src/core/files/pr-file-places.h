/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a file is to go: whether it may, and in what words it is told when it does not. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include <sys/types.h>

/* That FILE could not be written, errno being NUMBER: one sentence (PR_ERROR_FILE) with what to do. FALSE. */
bool pr_file_fail (const char *file, int number, GError **error);
/* The same of a FOLDER that could not be made. */
bool pr_file_fail_folder (const char *folder, int number, GError **error);

/* What stands at FILE is nothing (*MODE 0), or a plain file that may be written (*MODE its permissions).
 * Links are not followed. */
bool pr_file_place_is_free (const char *file, mode_t *mode, GError **error);
