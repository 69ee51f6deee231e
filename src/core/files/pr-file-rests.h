/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hidden folders in which sets are made, and what is left of those whose program was killed.
 *
 * One holds "new", the files as they come; from the moment they are placed "last", a link whose text is the
 * name to place last; "old", what has gone out; and "in" instead of "new" once all of the old has. */
#pragma once
#include <glib.h>
#include <stdbool.h>

#define PR_SET_PREFIX ".pritchel-set-"
#define PR_SET_NEW "new"
#define PR_SET_OLD "old"
#define PR_SET_IN "in"
#define PR_SET_LAST "last"

/* A lock on a folder, held until it is closed or the process ends. -1 with errno EWOULDBLOCK when others
 * have held it for too long; -1 with errno 0 where there are no such locks. */
int pr_folder_lock (const char *folder);
void pr_folder_unlock (int lock);

/* Puts in order what dead programs left in FOLDER, whose lock the caller holds. What cannot be is left. */
void pr_file_rests_sweep (const char *folder);

/* Moves all plain files of FROM to TO, the one named LAST (may be NULL) last and only when all others have come;
 * what stands in TO stays. FALSE when one has no place there and could not be moved. */
bool pr_files_move (const char *from, const char *to, const char *last);
/* Takes FOLDER away with the plain files and links in it, two floors deep; what is left of it stays. */
void pr_folder_remove (const char *folder);
