/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that belong together, of which a folder shows those of one run only, whenever the program is killed.
 *
 * A new set is written into a hidden folder (".pritchel-set-" and six letters) in the place it is for: the
 * folder of the set, or the folder round it while that is not there yet. Then
 *   - a folder that was not there: the hidden one's content is renamed to it, all files at once;
 *   - one file: it is renamed into its place;
 *   - several, in a folder that may hold other people's files: all old ones of the set go out into the hidden
 *     folder, the last name first; then the new ones come in, the last name last. So what stands there is a
 *     part of one set at every moment, never of two, and the last name (a report) stands beside its whole set
 *     only. Meanwhile the signals that end a program are held back from this thread; what is left is the
 *     moment, some tens of microseconds, in which power fails or the program is killed outright.
 * Whoever writes to the same folder next first puts such a rest in order: the old set comes back, or the new
 * one goes on in if all old ones were out. Rests are known to be dead by a lock that ends with its process
 * (flock), and by their owner; where a file system has no such locks, they are left alone.
 *
 * Two programs that write the same set take turns. What is no plain file, or a link, is never written to. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct _PrFileSet PrFileSet;

/* For files in FOLDER, which is made when they are placed if it is not there (the folders above it now). A
 * failure is told of TOLD, a file; NULL: of FOLDER. Transfer full; NULL with one sentence (PR_ERROR_FILE). */
PrFileSet *pr_file_set_begin (const char *folder, const char *told, GError **error);
/* Where the new files are put by who makes them, under the names they are to have. */
const char *pr_file_set_folder (const PrFileSet *set);
/* Puts the new ones into their places, once. NAMES, NULL-terminated, are all names the set may have, the one
 * that tells it is whole last; what is there under one of them and has no successor goes. FALSE with error:
 * everything is as it was. */
bool pr_file_set_place (PrFileSet *set, const char *const *names, GError **error);
/* Takes away what was not placed. */
void pr_file_set_free (PrFileSet *set);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrFileSet, pr_file_set_free)
