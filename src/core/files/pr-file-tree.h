/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder with folders in it that is there whole or not at all, and never takes the place of another.
 *
 * It is made in a hidden folder (".pritchel-tree-" and six letters) beside its place, brought to the disk, and renamed. A program
 * that is killed leaves the hidden one; whoever makes a tree in the same place next takes it away, once no program holds its
 * lock (flock). */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct _PrFileTree PrFileTree;

/* For a folder called NAME in the folder ABOVE, which is made when it is not there. Transfer full; NULL with one sentence
 * (PR_ERROR_FILE). */
PrFileTree *pr_file_tree_begin (const char *above, const char *name, GError **error);
/* Where PATH ("a/b.txt") is written until then: its folders are made. Transfer full, NULL with error. */
char *pr_file_tree_path (PrFileTree *tree, const char *path, GError **error);
/* The new file PATH. */
bool pr_file_tree_add (PrFileTree *tree, const char *path, const void *data, gsize len, GError **error);
/* Puts it in its place, once: ABOVE/NAME, or NAME-2, NAME-3 and so on where something lies there. The path, transfer full; NULL
 * with error, and nothing is there. */
char *pr_file_tree_place (PrFileTree *tree, GError **error);
/* Takes away what was not placed. */
void pr_file_tree_free (PrFileTree *tree);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrFileTree, pr_file_tree_free)
